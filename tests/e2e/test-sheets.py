#!/usr/bin/python3
"""The sheets from the command line: every kind on every paper, and that they say what the job says.

Called with the program. DISPLAY and WAYLAND_DISPLAY are taken away first.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import csv
import io
import pathlib
import re
import struct
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from command_line import DEMO, KINDS, PAIRING, done, refused, side_by_side, table  # noqa: E402


def test_sheets():
    magic = {'pdf': b'%PDF-', 'svg': b'<?xml', 'png': b'\x89PNG'}
    with tempfile.TemporaryDirectory() as folder:
        for ending, start in magic.items():
            out = pathlib.Path(folder) / f'sheet.{ending}'
            done('sheet', DEMO, '--output', out)
            first = out.read_bytes()
            assert first.startswith(start), ending
            done('sheet', DEMO, '--output', out)
            assert out.read_bytes() == first, f'{ending} differs between two runs'
        sizes = []
        for paper in ('a4', 'letter'):
            out = pathlib.Path(folder) / f'{paper}.pdf'
            done('sheet', DEMO, '--output', out, '--paper', paper)
            info = subprocess.run(['pdfinfo', out], capture_output=True, text=True, check=True)
            sizes.append(next(l for l in info.stdout.splitlines() if l.startswith('Page size')))
        # ISO 216 A4 is 210 × 297 mm, Letter 8.5 × 11 in
        assert '595' in sizes[0] and '841' in sizes[0] and '612' in sizes[1] and '792' in sizes[1]


def test_sheet_text_is_the_plan():
    rows = list(csv.DictReader(io.StringIO(done('plan', DEMO, '--csv'), newline='')))
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder) / 'sheet.pdf'
        done('sheet', DEMO, '--output', out)
        text = subprocess.run(
            ['pdftotext', '-layout', out, '-'], capture_output=True, text=True, check=True
        ).stdout
    for row in rows:
        if row['row'] == 'part':
            assert row['name'] in text, row['name']
        if row['row'] == 'zone' and float(row['grams_g']) > 0:
            grams = float(row['grams_g'])
            assert any(f'{grams:.{d}f}' in text or f'{grams / 2:.{d}f}' in text for d in (1, 2)), row


# ISO 216: A4 is 210 × 297 mm; ANSI/ASME Y14.1 size A (Letter) is 8.5 × 11 in; in points of 1/72 in
POINTS = {'a4': (210 / 25.4 * 72, 297 / 25.4 * 72), 'letter': (8.5 * 72, 11 * 72)}


def tool(*words):
    return subprocess.run([*map(str, words)], capture_output=True, text=True, check=True).stdout


def sheet_text(job, *words):
    """What poppler reads on a sheet, with one blank between the words."""
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder) / 'sheet.pdf'
        done('sheet', job, *words, '--output', out)
        return ' '.join(tool('pdftotext', '-layout', out, '-').split())


def pdf_size(path):
    info = tool('pdfinfo', path)
    size = re.search(r'Page size: +([0-9.]+) x ([0-9.]+) pts', info)
    return int(re.search(r'Pages: +(\d+)', info).group(1)), tuple(map(float, size.groups()))


def svg_size(path):
    return tuple(float(re.search(rf' {side}="([0-9.]+)', path.read_text()).group(1))
                 for side in ('width', 'height'))


def png_size(path):
    """The header of a PNG (ISO/IEC 15948, 11.2.2): width and height follow the name of the chunk."""
    return struct.unpack('>II', path.read_bytes()[16:24])


def check_files(folder, kind, paper):
    files = {ending: folder / f'{kind}-{paper}.{ending}' for ending in ('pdf', 'svg', 'png')}
    for out in files.values():
        done('sheet', PAIRING, kind, '--output', out, '--paper', paper)
        first = out.read_bytes()
        done('sheet', PAIRING, kind, '--output', out, '--paper', paper)
        assert out.read_bytes() == first, f'{out.name} differs between two runs'
    width, height = POINTS[paper]
    pages, size = pdf_size(files['pdf'])
    assert abs(size[0] - width) < 0.1 and abs(size[1] - height) < 0.1, (kind, paper, size)
    strip = svg_size(files['svg'])
    assert abs(strip[0] - width) < 0.1 and abs(strip[1] - pages * height) < 0.1, (kind, strip)
    pixels = png_size(files['png'])
    assert abs(pixels[1] / pixels[0] - pages * height / width) < 0.01, (kind, pixels)
    text = tool('pdftotext', '-layout', files['pdf'], '-')
    assert text.count(KINDS[kind]) >= pages and f'page {pages} of {pages}' in text, (kind, text)
    return files['pdf'].read_bytes()


def test_every_kind_on_every_paper():
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        which = [(kind, paper) for kind in KINDS for paper in POINTS]
        pdfs = dict(zip(which, side_by_side(lambda w: check_files(folder, *w), which)))
        assert len(set(pdfs.values())) == len(pdfs)
        # without a word: the grind sheet, on A4
        out = folder / 'plain.pdf'
        done('sheet', PAIRING, '--output', out)
        assert out.read_bytes() == pdfs['grind', 'a4']
        # neither language nor desktop changes the paper
        done('sheet', PAIRING, '--output', out, LC_ALL='en_US.UTF-8', LC_PAPER='en_US.UTF-8')
        assert out.read_bytes() == pdfs['grind', 'a4']


def test_kinds_that_are_refused():
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        for word in ('Proof', 'prove', 'card', ''):
            lines = refused(2, 'sheet', PAIRING, word, '--output', folder / 'x.pdf')
            assert 'grind, weigh, proof, bobweight or build' in lines[0], lines
        refused(2, 'sheet', PAIRING, 'proof', 'build', '--output', folder / 'x.pdf')
        refused(2, 'sheet', PAIRING, 'proof', '--output', folder / 'x.pdf', '--csv')
        refused(2, 'plan', PAIRING, 'proof')
        for kind in KINDS:
            for name in ('x.doc', 'x', 'x.pdf.txt', 'pdf'):
                lines = refused(1, 'sheet', PAIRING, kind, '--output', folder / name)
                assert len(lines) == 1 and '.pdf, .svg or .png' in lines[0], lines
            lines = refused(1, 'sheet', PAIRING, kind, '--output', folder / 'no' / 'x.pdf')
            assert len(lines) == 1, lines
        assert not list(folder.iterdir())


def test_bobweight_card_is_prove():
    text = sheet_text(PAIRING, 'bobweight')
    rows = [r for r in table('prove', PAIRING, '--csv') if r['row'] == 'bobweight' and r['what']]
    assert len({r['number'] for r in rows}) == 4 and len(rows) >= 4 * 8, rows
    for row in rows:
        line = text.split(f' {row["what"]} ')
        # four figures follow the name of the term, one for each crankpin
        found = [part.split()[:4] for part in line[1:]]
        assert any(f'{float(row["value"]):.2f}' in figures for figures in found), (row, found)
    # the sum by hand: what turns, and half of what goes up and down in a V8 of 90°
    turning = ('big ends', 'oil', 'bearings')
    for pin in ('1', '2', '3', '4'):
        own = {r['what']: float(r['value']) for r in rows if r['number'] == pin}
        whole = own.pop('bobweight')
        by_hand = sum(value * (1 if what in turning else 0.5) for what, value in own.items())
        assert abs(by_hand - whole) < 1e-6, (pin, by_hand, whole)


def bores(text, n):
    """The text of each bore of a card."""
    found = re.split(r' Bore (\d+) ', text)
    parts = dict(zip(map(int, found[1::2]), found[2::2]))
    assert sorted(parts) == list(range(1, n + 1)), sorted(parts)
    return parts


def test_proof_card_is_the_plan():
    text = sheet_text(PAIRING, 'proof')
    cards = bores(text, 8)
    rows = table('plan', PAIRING, '--csv')
    parts = [r for r in rows if r['row'] == 'part' and r['bore']]
    assert len(parts) >= 8 * 3
    for row in parts:
        card = cards[int(row['bore'])]
        figure = {'whole': 'weight'}.get(row['figure'], row['figure'].replace('-', ' '))
        weight = f'{figure} {float(row["weight_g"]):.1f} g ± {float(row["expanded_g"]):.2f}'
        assert row['name'] in card and weight in card, (row, card)
        assert row['verdict'] in card, (row, card)
    for row in rows:
        if row['row'] == 'band' and row['spread_g']:
            low, tolerance, spread = (float(row[k]) for k in ('target_g', 'tolerance_g', 'spread_g'))
            words = f'{low:.1f} to {low + tolerance:.1f} g {tolerance:.1f} g {spread:.1f} g'
            assert words in text, words


def test_proof_card_is_prove():
    """The forces of the card are those of the table, rounded to the figures that it shows."""
    text = sheet_text(PAIRING, 'proof')
    rows = table('prove', PAIRING, '--csv')
    for what, stage, pattern in (
        ('reciprocating', 'now', r'pair of pistons differs by ([0-9.]+) N'),
        ('rotating', 'now', r'pair of big ends differs by ([0-9.]+) N'),
        ('reciprocating', 'then', r'pair of pistons differs by .*?; ([0-9.]+) N when the plan'),
    ):
        shown = re.search(pattern, text).group(1)
        value = [float(r['value']) for r in rows
                 if (r['row'], r['stage'], r['what']) == ('pair', stage, what)]
        decimals = len(shown.partition('.')[2])
        assert len(value) == 1 and abs(float(shown) - value[0]) <= 0.51 * 10 ** -decimals, (what, shown)


def test_build_cards_are_the_plan():
    cards = bores(sheet_text(PAIRING, 'build'), 8)
    rows = table('plan', PAIRING, '--csv')
    checked = 0
    for row in rows:
        if row['row'] == 'part' and row['bore'] and row['figure'] == 'whole':
            words = f'{row["name"]} {float(row["weight_g"]):.1f} g'
            assert words in cards[int(row['bore'])], (words, cards[int(row['bore'])])
            checked += 1
    assert checked >= 8
    ends = {}
    for row in rows:
        if row['row'] == 'part' and row['figure'] in ('small-end', 'big-end'):
            ends.setdefault((row['name'], int(row['bore'])), []).append(float(row['weight_g']))
    for (name, bore), grams in ends.items():
        assert f'{name} {sum(grams):.1f} g' in cards[bore], (name, grams)


def test_weigh_sheet_has_every_part():
    text = sheet_text(PAIRING, 'weigh')
    names = {r['name'] for r in table('plan', PAIRING, '--csv') if r['row'] == 'part'}
    assert len(names) > 16 and all(name in text for name in names)
    # nothing is filled in: no weight of the job stands on it
    weights = [r['reading g'] for r in table('export', PAIRING, 'readings')
               if float(r['reading g']) > 10]
    assert len(weights) > 40 and not [grams for grams in weights if f' {grams} ' in f' {text} ']


def test_a_sheet_that_cannot_be_written():
    with tempfile.TemporaryDirectory() as folder:
        lines = refused(1, 'sheet', DEMO, '--output', pathlib.Path(folder) / 'no' / 'sheet.pdf')
        assert len(lines) == 1, lines
        lines = refused(1, 'sheet', DEMO, '--output', pathlib.Path(folder) / 'sheet.doc')
        assert len(lines) == 1 and '.pdf' in lines[0], lines
        assert not list(pathlib.Path(folder).iterdir())


tap.run(globals())
