#!/usr/bin/python3
"""A whole job that is not the demo, from Ctrl+N to an even set, by the keyboard alone.

Called with the program, inside a display. Four rods and four pistons of an invented engine; sixteen
readings for the rods and four for the pistons are twenty times a number and Enter, and not one key
more. On the way one pass takes too much on purpose, a decision is asked for and made, and the window
is closed and opened again.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from bench import Bench, Worker, events, slot_of, table  # noqa: E402
from driver import Window, name_of, text_of  # noqa: E402

PROGRAM = sys.argv[1]
NAME = 'Saturday engine'
TRUTH = {
    ('Rod 1', 'small-end'): 182.34, ('Rod 1', 'big-end'): 430.32,
    ('Rod 2', 'small-end'): 181.21, ('Rod 2', 'big-end'): 430.05,
    ('Rod 3', 'small-end'): 181.43, ('Rod 3', 'big-end'): 430.11,
    ('Rod 4', 'small-end'): 181.30, ('Rod 4', 'big-end'): 431.40,
    ('Piston 1', 'whole'): 401.73, ('Piston 2', 'whole'): 401.32,
    ('Piston 3', 'whole'): 402.61, ('Piston 4', 'whole'): 401.43,
}


def fill_in(window, field, text):
    window.tab_to(field)
    window.key('ctrl+a')
    window.type(text)


def set_up(path):
    """The new-job page, field by field as Tab meets them."""
    window = Window(PROGRAM, title='Tenthgram')
    window.key('ctrl+n')
    fill_in(window, 'Name of the job', NAME)
    fill_in(window, 'Job file', str(path))
    fill_in(window, 'Cylinders', '4')
    window.tab_to('I-beam rod with pads')
    for _ in range(6):  # the arrows go round the cards
        if 'H-beam rod with pads' in name_of(window.focused()):
            break
        window.key('Down')
        time.sleep(0.1)
    assert 'H-beam rod with pads' in name_of(window.focused()), name_of(window.focused())
    window.key('space')
    fill_in(window, 'Tolerance in g', '0,5')
    window.key('ctrl+Return')
    window.wait(path.exists, 'the job file')
    return window


def weigh_all(window, path, bench):
    """Twenty numbers, twenty Enters; nothing else is pressed."""
    page = window.page('Weigh')
    for n in range(20):
        field = window.wait(
            lambda: (f := window.focused_text()) and name_of(f).startswith('Reading of ')
            and not text_of(f) and f, 'the empty field for the next reading')
        part, figure = slot_of(name_of(field))
        window.type(bench.read(part, figure))
        window.key('Return')
        window.wait(lambda: len(events(path)) == n + 1, f'reading {n + 1} on disk')
    readings = events(path)
    assert all(e.tag.endswith('weighing') and e.get('kept') is None for e in readings)
    ways = {(e.get('part'), e.get('figure'), e.get('way')) for e in readings}
    assert len(ways) == 20, sorted(ways, key=str)
    return page


def test_from_nothing_to_an_even_set():
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / 'saturday.tenthgram'
        window = set_up(path)
        bench = Bench(path, TRUTH)
        weigh_all(window, path, bench)
        assert window.close() == 0
        assert {r['feasible'] for r in table(PROGRAM, path, 'set')} == {'yes'}
        planned = sum(float(r['grams_g']) for r in table(PROGRAM, path, 'zone'))
        assert 1.5 < planned < 6, planned

        worker = Worker(PROGRAM, path, NAME, bench)
        done = []
        while (what := worker.step()) and len(done) < 100:
            done.append(what)
            if done.count('ground') == 2 and 'decided' not in done and not worker.overshoot_g:
                worker.overshoot_g = 1.5
            if len(done) == 12:  # another day
                assert worker.window.close() == 0
                worker.open()
        assert what is None, (done, worker.window.labels(worker.grind)[:40])
        assert 'decided' in done, done
        assert worker.window.close() == 0
        bands = table(PROGRAM, path, 'band')
        assert len(bands) == 3 and all(band['state'] == 'even' for band in bands), bands
        assert all(float(r['grams_g']) == 0 for r in table(PROGRAM, path, 'zone'))
        for band in bands:
            kind = 'Piston' if band['name'] == 'piston' else 'Rod'
            # a tenth on the display hides half a step at either end
            limit = float(band['tolerance_g']) + 0.11
            assert bench.spread(kind, band['figure']) <= limit, (band, bench.truth)
        print(f'# {len(done)} steps: {done.count("weighed")} readings, '
              f'{done.count("ground")} passes')


tap.run(globals())
