#!/usr/bin/python3
"""Two promises of the sources that no compiler keeps: which layer includes what, and that what a
person reads does not hang on the locale.

A machine need not have a locale with decimal commas, so the second is held to the text: printf's
floating-point conversions follow the locale, core/number.h and g_ascii_formatd do not.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import re

import tap

ROOT = pathlib.Path(__file__).resolve().parents[2]
CONVERSION = re.compile(r'%[-+ #0]*(?:\d+|\*)?(?:\.(?:\d+|\*))?[efgEFG](?![a-z])')
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


tap.run(globals())
