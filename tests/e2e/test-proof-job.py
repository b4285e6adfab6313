#!/usr/bin/python3
"""From an even set to a built engine, by the keyboard alone: the crank drive is described, the forces
are read, the cards are saved as PDF, the parts go together check by check, and all of it is there
when the window is opened again.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import csv
import io
import pathlib
import re
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from bench import events  # noqa: E402
from driver import Gone, Window, children, name_of  # noqa: E402
from gi.repository import Atspi  # noqa: E402
from jobs import five  # noqa: E402

PROGRAM = sys.argv[1]
TITLE = 'Quarry locomotive'
DRIVE = (('Bore spacing', '104', 'spacing'), ('Stroke', '100', 'stroke'), ('Highest speed', '2400', 'speed'),
         ('Firing order', '1-2-4-5-3', 'order'))


def prove(path):
    out = subprocess.run([PROGRAM, 'prove', str(path), '--csv'], capture_output=True, text=True,
                         check=True).stdout
    return list(csv.DictReader(io.StringIO(out, newline='')))


def sets(path):
    return {e.get('path'): e.get('value') for e in events(path) if e.tag.endswith('set')}


def describe(window, path):
    """Each field as Tab meets it; what stands in the file is what was typed."""
    window.key('alt+6')
    window.wait(lambda: window.shown('Layout of the engine'), 'the engine')
    for field, value, fact in DRIVE:
        window.tab_to(field)
        window.key('ctrl+a')
        window.type(value)
        window.key('Return')
        window.wait(lambda: sets(path).get(f'engine.{fact}') == value, f'{field} on disk')


def press(window, name):
    window.tab_to(name)
    window.key('space')


def showing(window, start):
    return window.wait(lambda: window.shown(start), f'“{start}”').replace('\u00a0', ' ')


def look_at_forces(window, path):
    """The words of the window are the figures of the report."""
    rows = [r for r in prove(path) if r['row'] == 'pair']
    press(window, 'Forces')
    words = showing(window, 'At 2400 1/min the worst pair of pistons')
    now = [r for r in rows if r['stage'] == 'now' and r['what'] == 'reciprocating']
    assert len(now) == 1, rows
    said = re.search(r'now ([0-9.]+) N ± ([0-9.]+) N', words)
    assert said, words
    assert abs(float(said[1]) - float(now[0]['value'])) <= 0.05, (words, now)
    assert abs(float(said[2]) - float(now[0]['expanded'])) <= 0.1, (words, now)
    assert showing(window, 'The layout itself rocks the engine')


def dialog_of(window):
    """The window of this program that is not the main one."""
    for app in children(Atspi.get_desktop(0)):
        if app.get_process_id() == window.process.pid:
            for frame in children(app):
                if TITLE not in name_of(frame):
                    return frame
    return None


def save_card(window, kind, pdf):
    """Ctrl+S on the card that is shown, and a name for the file."""
    press(window, 'Paper')
    window.tab_to('Sheet or card')
    for _ in range(6):
        if window.shown(kind):
            break
        window.key('Down')
        time.sleep(0.2)
    window.key('ctrl+s')
    window.wait(lambda: dialog_of(window), 'the dialogue for the file')
    time.sleep(0.5)
    window.key('ctrl+a')
    window.type(str(pdf))
    window.key('Return')
    window.wait(pdf.exists, str(pdf))
    window.wait(lambda: not dialog_of(window), 'the dialogue to close')


def build(window, path):
    """Bore after bore, check after check; a tick taken back is struck out, not wiped."""
    window.key('alt+7')
    showing(window, 'Bore 1')
    for n in range(5 * 12):
        if n and n % 12 == 0:
            showing(window, f'Bore {n // 12}: ✓ done')
            window.key('alt+Next')  # page down
        window.key('space')
        window.wait(lambda: len([e for e in events(path) if e.tag.endswith('tick')]) == n + 1,
                    f'tick {n + 1} on disk')
        if n == 0:
            assert any(e.get('check') == 'rod' and e.get('part') == 'rod-1' for e in events(path))
    assert len({(e.get('bore'), e.get('check')) for e in events(path) if e.tag.endswith('tick')}) == 60


def test_from_even_to_built():
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / 'five.tenthgram'
        card = pathlib.Path(folder) / 'proof.pdf'
        path.write_text(five(engine=False))
        window = Window(PROGRAM, path, title=TITLE)
        describe(window, path)
        look_at_forces(window, path)
        save_card(window, 'Proof card', card)
        build(window, path)
        assert window.close() == 0
        text = subprocess.run(['pdftotext', '-layout', str(card), '-'], capture_output=True, text=True,
                              check=True).stdout
        assert 'even, proven' in text and 'Entries by: Ruth' in text, text
        window = Window(PROGRAM, path, title=TITLE)
        window.key('alt+7')
        for bore in range(1, 6):
            showing(window, f'Bore {bore}: ✓ done')
        assert window.close() == 0


tap.run(globals())
