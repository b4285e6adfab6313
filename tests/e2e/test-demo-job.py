#!/usr/bin/python3
"""The demo job, from where it stands to an even set, in the window and by the keyboard alone.

Called with the program, inside a display. A bench with true weights stands behind the keyboard.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import shutil
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from bench import Bench, Worker, events, table, weights_so_far  # noqa: E402

PROGRAM = sys.argv[1]
DEMO = HERE.parents[1] / 'data' / 'demo.tenthgram'
TITLE = 'Orchard tractor'


def test_from_the_overshoot_to_an_even_set():
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / 'demo.tenthgram'
        shutil.copy(DEMO, path)
        worker = Worker(PROGRAM, path, TITLE, Bench(path, weights_so_far(PROGRAM, path)))
        done = []
        while (what := worker.step()) and len(done) < 80:
            done.append(what)
            if len(done) == 6:  # the cable is pulled; nothing that was shown may be lost
                shown = len(events(path))
                worker.window.kill()
                assert len(events(path)) == shown
                worker.open()
        assert what is None, (done, worker.window.labels(worker.grind)[:40])
        assert done[0] == 'decided' and 'ground' in done and 'weighed' in done, done
        assert worker.window.close() == 0
        for band in table(PROGRAM, path, 'band'):
            assert band['state'] == 'even', band
        # a tenth on the display hides half a step at either end
        for kind, figure in (('Rod', 'small-end'), ('Rod', 'big-end'), ('Piston', 'whole')):
            spread = worker.bench.spread(kind, figure)
            assert spread <= 0.5 + 0.11, (kind, figure, spread)
        print(f'# {len(done)} steps: {done.count("weighed")} readings, '
              f'{done.count("ground")} passes')


tap.run(globals())
