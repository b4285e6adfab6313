#!/usr/bin/python3
"""Lessons in the window, from the first step to the last, by the keyboard alone.

Called with the program, inside a display; with numbers of lessons, or "all", after it.  Without them it does one:
all of them take a quarter of an hour.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import os
import pathlib
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from driver import Window  # noqa: E402
from pupil import Pupil, all_lessons  # noqa: E402

PROGRAM, WANTED = sys.argv[1], sys.argv[2:] or ['2']


def go_through(number, lesson):
    with tempfile.TemporaryDirectory() as folder:
        os.environ['XDG_DATA_HOME'] = folder
        window = Window(PROGRAM, title='Tenthgram')
        try:
            pupil = Pupil(PROGRAM, window, pathlib.Path(folder), lesson)
            pupil.begin(number)
            deeds = pupil.go_through()
            print(f'# {lesson.title}: {deeds} deeds', flush=True)
        finally:
            window.kill()


def cases():
    for number, lesson in enumerate(all_lessons()):
        if WANTED == ['all'] or str(number + 1) in WANTED:
            name = f'test_{number + 1}_{lesson.id.replace("-", "_")}'
            yield name, lambda number=number, lesson=lesson: go_through(number, lesson)


tap.run(dict(cases()))
