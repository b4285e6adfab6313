#!/usr/bin/python3
"""Every label of a template stands in DEVELOPERS.md with its ground, and nothing there is stale.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import sys
import xml.etree.ElementTree as ET

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / 'tests' / 'tools'))
import tap  # noqa: E402

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


tap.run(globals())
