#!/usr/bin/python3
"""Every label of a template stands in DEVELOPERS.md with its ground, and nothing there is stale.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import re
import sys
import xml.etree.ElementTree as ET

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / 'tests' / 'tools'))
import tap  # noqa: E402

GLOSSARY = ROOT / 'data' / 'glossary.xml'
NS = '{urn:tenthgram:glossary}'
STANDARD = re.compile(r'(?:ISO|OIML [A-Z]|JCGM|IEC|RFC) \d[\d-]*|SI Brochure')
TEXTS = ('label', 'title', 'placeholder-text', 'tooltip-text', 'text')


def template_labels():
    """By label: the templates it stands in."""
    found = {}
    for path in sorted((ROOT / 'ui').glob('*.ui')):
        for prop in ET.parse(path).getroot().iter('property'):
            if prop.get('name') in TEXTS and prop.text and not prop.get('bind-source'):
                label = ' '.join(prop.text.replace('_', '').split())
                found.setdefault(label, set()).add(path.stem)
    return found


def listed():
    """The rows of the list: label, where, ground."""
    text = (ROOT / 'DEVELOPERS.md').read_text(encoding='utf-8')
    rows = text.split('## Labels and their grounds', 1)[1].splitlines()
    return [[cell.strip() for cell in row.strip('|').split(' | ')]
            for row in rows if row.startswith('| ') and not row.startswith('| ---')][1:]


def test_every_label_of_a_template_is_listed():
    rows = {row[0]: row[1] for row in listed()}
    for label, where in template_labels().items():
        assert label in rows, f'not in DEVELOPERS.md: “{label}” of {sorted(where)}'
        for template in where:
            assert template in rows[label], f'“{label}” also stands in {template}'


def test_every_row_has_a_ground():
    rows = listed()
    assert len(rows) > 50
    for row in rows:
        assert len(row) == 3 and all(row), row


def test_no_row_is_stale():
    templates = {path.stem for path in (ROOT / 'ui').glob('*.ui')}
    now = template_labels()
    for label, where, _ground in listed():
        for place in where.split(', '):
            if place in templates:
                assert place in now.get(label, ()), f'“{label}” no longer stands in {place}'


def terms():
    """The glossary: the forms of each term, its ground, its source."""
    found = []
    for term in ET.parse(GLOSSARY).getroot():
        forms = [term.get('name')] + [form.text for form in term.iter(NS + 'form')]
        found.append((forms, term.get('ground'), term.get('source', '')))
    return found


def pattern(form):
    """Whole words, hyphens as good as blanks; short forms are symbols with a case of their own."""
    words = r'[-\s]'.join(map(re.escape, re.split(r'[-\s]', form)))
    return re.compile(rf'(?<![^\W_])(?<![’\']){words}(?![^\W_])', re.I if len(form) > 2 else 0)


def terms_in(label):
    """The terms of a label, those inside longer ones too."""
    return [term for term in terms() if any(pattern(form).search(label) for form in term[0])]


def test_a_term_of_the_trade_is_in_the_glossary():
    seen = 0
    for label, _where, ground in listed():
        if ground.startswith('trade') or STANDARD.search(ground):
            seen += 1
            assert terms_in(label), f'no term of the glossary stands in “{label}” ({ground})'
    assert seen > 80


def test_standards_agree():
    """A label that names a standard holds a term that leans on it, and the other way round."""
    seen = 0
    for label, _where, ground in listed():
        named = STANDARD.findall(ground)
        if named:
            seen += 1
            sources = ' '.join(term[2] for term in terms_in(label))
            assert any(name in sources for name in named), f'“{label}”: {ground}, not {sources}'
        for forms, by, source in terms():
            if by == 'standard' and label.lower() in [form.lower() for form in forms]:
                assert STANDARD.search(source)[0] in ground, f'“{label}”: {source}, not {ground}'
    assert seen > 10


tap.run(globals())
