#!/usr/bin/python3
"""A practice job from the first page to an even set, by the keyboard alone.

Called with the program, inside a display.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import os
import pathlib
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from apprentice import Apprentice  # noqa: E402
from bench import events, table  # noqa: E402
from driver import Window  # noqa: E402

PROGRAM = sys.argv[1]


def new_job(window, path):
    """Two rods and nothing else, on an honest bench."""
    window.tab_to('Practise')
    window.key('Return')
    window.wait(lambda: window.shown('New practice job'), 'the page')
    window.tab_to('usual')
    window.key('Left')
    window.tab_to('Class word')
    window.type('evening class')
    window.tab_to('The parts scatter by')
    window.type('2')
    window.tab_to('Job file')
    window.key('ctrl+a')
    window.type(str(path))
    window.tab_to('Cylinders')
    window.key('ctrl+a')
    window.type('2')
    window.tab_to('Rods and pistons')
    window.key('Down')
    window.key('ctrl+Return')
    window.wait(path.exists, 'the job')


def is_even(apprentice):
    return any('The set is even' in text for text in apprentice.texts())


def work(apprentice):
    """What the Grind page says, until the set is even."""
    done = []
    while not is_even(apprentice) and len(done) < 40:
        if apprentice.shown('How long'):
            apprentice.grind()
            done.append('ground')
        elif apprentice.shown('Nothing more comes off this part'):
            apprentice.press('Another part')
            done.append('went on')
        else:
            apprentice.read()
            done.append('weighed')
    return done


def test_from_the_first_page_to_an_even_set():
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / 'evening.tenthgram'
        os.environ['HOME'] = folder
        window = Window(PROGRAM, title='Tenthgram')
        new_job(window, path)
        apprentice = Apprentice(window, path)
        apprentice.zero()
        for _ in range(8):
            apprentice.read()
        found = events(path)
        assert len(found) == 9 and all(e.get('practice') == 'yes' for e in found), found
        apprentice.go('Grind', 'alt+5')
        done = work(apprentice)
        assert 'ground' in done, done
        assert is_even(apprentice), done
        assert window.close() == 0
        for band in table(PROGRAM, path, 'band'):
            assert band['state'] == 'even', band
        print(f'# {done.count("weighed")} readings, {done.count("ground")} passes')


tap.run(globals())
