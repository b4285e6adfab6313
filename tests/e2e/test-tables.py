#!/usr/bin/python3
"""Readings out as a table and in again, by command and in the window by the keyboard alone.

Called with the program, inside a display. What was pasted comes from another program's clipboard.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from bench import events  # noqa: E402
from clipboard import Copied  # noqa: E402
from driver import Window, name_of  # noqa: E402

PROGRAM = sys.argv[1]
DEMO = HERE.parents[1] / 'data' / 'demo.tenthgram'
TITLE = 'Orchard tractor'


def run(*words):
    result = subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True, timeout=60)
    assert result.returncode == 0 and not result.stderr, result
    return result.stdout


def without_readings():
    """The demo job before anybody weighed, ground or decided anything."""
    return re.sub(r'(<journal>\n).*(  </journal>)', r'\1\2', DEMO.read_text(), flags=re.S)


def readings(path):
    """What is known of each reading but when and by whom it was taken over."""
    struck = {e.get('refers') for e in events(path) if e.tag.endswith('strike')}
    return [tuple(e.get(k) for k in ('id', 'part', 'figure', 'way', 'mass', 'kept', 'sent'))
            for e in events(path) if e.tag.endswith('weighing') and e.get('id') not in struck]


def test_out_and_in_by_command():
    with tempfile.TemporaryDirectory() as folder:
        job, table = pathlib.Path(folder) / 'copy.tenthgram', pathlib.Path(folder) / 'readings.csv'
        job.write_text(without_readings())
        assert not events(job)
        run('export', DEMO, 'readings', '--output', table)
        text = run('import', job, table)
        assert 'says that the reading was struck out' in text, text
        wanted = readings(DEMO)
        assert readings(job) == wanted and len(wanted) > 20
        assert text.endswith(f'{len(wanted)} new readings, 1 row cannot be read\n'
                             f'taken over: {len(wanted)} readings\n'), text
        once = job.read_bytes()
        for _ in range(2):
            assert run('import', job, table).endswith('taken over: nothing\n')
            assert job.read_bytes() == once
        run('check', job)


def spreadsheet():
    """The readings of the first day as somebody keeps them by hand, in cells parted by tabs."""
    first = {}
    for _, part, figure, way, mass, *_ in readings(DEMO):
        first.setdefault((part, figure, way), mass.replace('.', ','))
    places = [('small-end', 'mark-up'), ('small-end', 'mark-down'), ('big-end', 'mark-up'),
              ('big-end', 'mark-down'), ('whole', None)]
    rows = [[part.replace('-', ' ').capitalize()] + [first[part, *place] for place in places]
            for part in ('rod-1', 'rod-2', 'rod-3')]
    rows += [[part.replace('-', ' ').capitalize(), '', '', '', '', first[part, 'whole', None]]
             for part in ('piston-1', 'piston-2', 'piston-3')]
    head = ['part', 'small end up', 'small end down', 'big end up', 'big end down', 'whole']
    return '\n'.join('\t'.join(row) for row in [head, *rows, ['Rod 4', '1', '', '', '', '']]) + '\n', 18


def test_pasted_in_the_window():
    with tempfile.TemporaryDirectory() as folder:
        job = pathlib.Path(folder) / 'copy.tenthgram'
        job.write_text(without_readings())
        window = Window(PROGRAM, job, title=TITLE)
        table, n = spreadsheet()

        window.key('ctrl+i')
        window.wait(lambda: name_of(window.focused()) == 'Paste', 'the import page')
        with Copied(table):
            window.key('ctrl+v')
            take = f'Take over {n} readings'
            window.wait(lambda: name_of(window.focused()) == take, take)
        assert window.shown(f'{n} new readings, 1 row cannot be read')
        assert window.shown('Line 8, column 1 (part): “Rod 4” is no part of this job')
        assert not events(job)
        window.key('Return')
        window.wait(lambda: len(events(job)) == n, 'the readings on disk')
        window.wait(lambda: name_of(window.focused()) == 'Done', 'the page after taking over')
        assert window.shown(f'{n} readings taken over')
        assert window.shown('Nothing new to take over')

        # struck out together, put back together
        window.key('ctrl+z')
        window.wait(lambda: len(events(job)) == 2 * n, 'the strikes on disk')
        assert all(e.tag.endswith('strike') for e in events(job)[n:])
        window.wait(lambda: window.shown('known already, struck out'), 'the struck rows')
        window.tab_to('Put it back')
        window.key('Return')
        window.wait(lambda: len(events(job)) == 3 * n, 'the readings put back')

        # the same again gives nothing; Escape leads back
        window.key('ctrl+i')
        with Copied(table):
            window.key('ctrl+v')
            window.wait(lambda: window.shown(f'Nothing new, {n} known already'), 'the table again')
        window.key('Escape')
        window.wait(lambda: (f := window.focused_text()) and name_of(f).startswith('Reading of '),
                    'the page before')
        assert len(events(job)) == 3 * n
        assert window.close() == 0
        run('check', job)


def test_pasted_where_a_reading_is_typed():
    with tempfile.TemporaryDirectory() as folder:
        job = pathlib.Path(folder) / 'copy.tenthgram'
        job.write_text(without_readings())
        window = Window(PROGRAM, job, title=TITLE)
        window.wait(lambda: window.focused_text() and
                    name_of(window.focused_text()).startswith('Reading of '), 'the reading field')
        with Copied('Rod 1;small up;247,6\nRod 2;small up;246,3\n'):
            window.key('ctrl+v')
            window.wait(lambda: name_of(window.focused()) == 'Take over 2 readings', 'the table')
        window.key('Escape')
        field = window.wait(lambda: window.focused_text(), 'the reading field again')
        assert name_of(field).startswith('Reading of '), name_of(field)
        assert not events(job)
        assert window.close() == 0


tap.run(globals())
