#!/usr/bin/python3
"""Promises of the sources that no compiler keeps: which layer includes what, that what a person
reads does not hang on the locale, and that a file cannot keep the validator busy for hours.

A machine need not have a locale with decimal commas, so the second is held to the text: printf's
floating-point conversions follow the locale, core/number.h and g_ascii_formatd do not.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import re
import xml.etree.ElementTree as ElementTree

import tap

ROOT = pathlib.Path(__file__).resolve().parents[2]
CONVERSION = re.compile(r'%[-+ #0]*(?:\d+|\*)?(?:\.(?:\d+|\*))?[efgEFG](?![a-z])')
NG = '{http://relaxng.org/ns/structure/1.0}'
STRING = re.compile(r'"(?:[^"\\\n]|\\.)*"')


def sources(*folders):
    for folder in folders:
        for path in sorted((ROOT / folder).glob('*.[ch]')):
            yield path


def test_no_number_follows_the_locale():
    seen = 0
    for path in sources('core', 'ui/draw', 'ui', 'app'):
        statements = path.read_text(encoding='utf-8').split(';')
        for statement in statements:
            for text in STRING.findall(statement):
                seen += 1
                if not CONVERSION.search(text.replace('%%', '')):
                    continue
                assert 'g_ascii_formatd' in statement, f'{path.relative_to(ROOT)}: {text}'
    assert seen > 1000


def test_layers_include_downwards():
    for folder, banned in (('core', 'gtk|gdk|gsk|cairo|pango'), ('ui/draw', 'gtk|gdk|gsk')):
        for path in sources(folder):
            found = re.search(rf'#\s*include\s*<({banned})', path.read_text(encoding='utf-8'))
            assert not found, f'{path.relative_to(ROOT)} includes {found[1]}'


def optional_attributes(node, defines, optional=False):
    """How many attributes of one element may be missing, those of its named patterns included."""
    count = 0
    for child in node:
        if child.tag == NG + 'element':
            continue
        if child.tag == NG + 'attribute':
            count += optional
        elif child.tag == NG + 'ref':
            count += optional_attributes(defines.get(child.get('name'), ()), defines, optional)
        else:
            count += optional_attributes(child, defines, optional or child.tag == NG + 'optional')
    return count


def test_few_attributes_may_be_missing():
    """libxml2 tries each of them both ways: the time doubles with every one, hours at twenty."""
    most = 0
    for path in sorted((ROOT / 'data').glob('*.rng')):
        root = ElementTree.parse(path).getroot()
        defines = {define.get('name'): define for define in root.iter(NG + 'define')}
        for element in root.iter(NG + 'element'):
            count = optional_attributes(element, defines)
            most = max(most, count)
            assert count <= 10, f'{path.name}: {element.get("name")} has {count}'
    assert most > 4


tap.run(globals())
