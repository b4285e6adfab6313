#!/usr/bin/python3
"""Eight bores, four families: paired with two locks, changed by hand, accepted, ground, reopened.

Called with the program, inside a display; by the keyboard alone. What the window says of a pairing is
held against weights that are added up here.

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
from bench import Bench, Worker, events, table, weights_so_far  # noqa: E402
from driver import Window, name_of, walk  # noqa: E402

PROGRAM = sys.argv[1]
LAUNCH = (HERE.parents[1] / 'data' / 'demo-pairing.tenthgram').read_text(encoding='utf-8')
TITLE = 'Harbour launch'
TOLERANCE = 0.2
FAMILIES = ('Piston', 'Pin', 'Rings', 'Clips')


def without_rods(job):
    """The rods have nothing to do with the sums, and grinding eight of them takes its time."""
    job = re.sub(r'    <rod-design.*?</rod-design>\n', '', job, flags=re.S)
    job = job.replace(' crankpins="neighbours"', '')
    return ''.join(line for line in job.splitlines(True) if 'id="rod-' not in line
                   and 'part="rod-' not in line)


def places(path):
    """Part by bore and family, as the file says: the setup, then the last pairing."""
    text = path.read_text(encoding='utf-8')
    at = dict(re.findall(r'<part id="([^"]+)"[^>]* bore="(\d+)"', text))
    for event in events(path):
        if event.tag.endswith('pair'):
            at = dict(place.split(':') for place in event.get('places').split())
    return {(part.split('-')[0], int(bore)): part for part, bore in at.items() if bore != '0'}


def metal(path, at, weights):
    """What has to come off, added up anew: heavier than the lightest set and the tolerance."""
    sums = [sum(weights[at[kind, bore]] for kind in ('piston', 'pin', 'rings', 'clips'))
            for bore in range(1, 9)]
    return sum(max(0, total - min(sums) - TOLERANCE) for total in sums)


def match(path):
    """The pairing as the command line finds it."""
    out = subprocess.run([PROGRAM, 'match', str(path), '--csv', '--seconds', '20'],
                         capture_output=True, text=True, check=True).stdout
    return next(row for row in csv.DictReader(io.StringIO(out, newline=''))
                if row['row'] == 'pairing')


class Pairer:
    """Works on the Match page."""

    def __init__(self, path):
        self.path = path
        self.open()

    def open(self):
        self.window = Window(PROGRAM, self.path, title=TITLE)
        self.window.key('alt+4')
        self.page = self.window.page('Match')

    def texts(self):
        return [name_of(i).replace('\u00a0', ' ') for i in walk(self.page)]

    def grams(self, start):
        """Of “1.1 g off 2 of 8 sets”, or of “Today: …”."""
        def look():
            for text in self.texts():
                if text.startswith(start) and (found := re.search(r'([\d.]+) g off', text)):
                    return found[1]
                if text.startswith(start) and 'othing has to come off' in text:
                    return '0'
            return None
        return float(self.window.wait(look, f'what “{start}…” takes'))

    def found(self):
        """The search has ended: it says how sure it is."""
        return self.window.wait(
            lambda: next((text for text in self.texts()
                          if text.startswith(('Proven', 'Best found'))), None), 'how sure it is')

    def pick(self, bore):
        self.window.tab_to('Bore ')
        self.window.key('Home')
        for _ in range(bore - 1):
            self.window.key('Down')
        self.window.wait(lambda: f'Bore {bore}' in self.texts(),
                         f'the parts of bore {bore}')

    def press(self, name):
        """Presses what has the focus after so many Tabs; waits for nothing."""
        self.window.tab_to(name)
        self.window.key('space')

    def recorded(self, before):
        return self.window.wait(lambda: events(self.path)[before:] or None, 'a new event on disk')

    def lock(self, bore, kind):
        """Keeps the part of this kind with its piston."""
        self.pick(bore)
        before = len(events(self.path))
        name = next(text for text in self.texts() if text.startswith(f'Keep {kind} '))
        self.press(name)
        rule = self.recorded(before)[0]
        assert rule.tag.endswith('rule') and rule.get('rule') == 'together', rule.attrib
        assert rule.get('on') == 'yes', rule.attrib
        return rule.get('part'), rule.get('other')

    def change_by_hand(self):
        """Puts another part in: the first that is offered for the clips of bore 2."""
        self.pick(2)
        clips = next(text for text in self.texts() if text.startswith('Keep Clips'))
        self.window.tab_to(clips.split()[1] + ' ' + clips.split()[2] + ' stays at bore 2')
        self.window.key('Tab')  # why not another?
        time.sleep(0.2)
        self.window.key('space')
        self.press('into bore 2')
        self.window.wait(lambda: self.window.shown('Best pairing again'), 'changed by hand')

    def accept(self):
        before = len(events(self.path))
        self.press('Accept this pairing')
        new = self.recorded(before)
        assert new[0].tag.endswith('pair'), [event.tag for event in new]


def test_paired_ground_and_reopened():
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / 'launch.tenthgram'
        path.write_text(without_rods(LAUNCH), encoding='utf-8')
        known = weights_so_far(PROGRAM, path)
        weights = {f'{name.split()[0].lower()}-{name.split()[1]}': grams
                   for (name, figure), grams in known.items() if figure == 'whole'}
        assert len(weights) == 34, weights

        pairer = Pairer(path)
        pairer.found()
        today, best = pairer.grams('Today'), pairer.grams('1')
        assert abs(today - metal(path, places(path), weights)) < 0.051, today
        assert best < today / 4, (best, today)
        assert abs(best - float(match(path)['off_g'])) < 0.051

        # two locks; what has to come off cannot become less
        locks = {pairer.lock(1, 'Pin')}
        pairer.found()
        locks.add(pairer.lock(2, 'Rings'))
        pairer.found()
        time.sleep(0.5)
        row = match(path)
        assert row['status'] == 'optimal', row
        assert float(row['off_g']) >= best - 1e-6, row

        pairer.change_by_hand()
        pairer.accept()
        at = places(path)
        for part, other in locks:
            bores = [bore for (kind, bore), name in at.items() if name in (part, other)]
            assert len(bores) == 2 and bores[0] == bores[1], (part, other, bores)
        planned = sum(float(r['grams_g']) for r in table(PROGRAM, path, 'zone'))
        assert abs(planned - metal(path, at, weights)) < 0.051, (planned, metal(path, at, weights))
        assert 0 < planned < today, planned
        assert pairer.window.close() == 0

        # ground by what the Grind page says
        worker = Worker(PROGRAM, path, TITLE, Bench(path, known))
        worker.window.key('alt+5')
        done = []
        while (what := worker.step()) and len(done) < 60:
            done.append(what)
        assert what is None, (done, worker.window.labels(worker.grind)[:40])
        assert 'ground' in done, done
        assert worker.window.close() == 0
        band = next(b for b in table(PROGRAM, path, 'band') if b['name'] == 'piston')
        assert band['state'] == 'even', band
        after = {f'{name.split()[0].lower()}-{name.split()[1]}': grams
                 for (name, figure), grams in worker.bench.truth.items() if figure == 'whole'}
        # each of the four readings of a set hides half a step, as the pass that is weighed does
        assert metal(path, places(path), after) < 0.05 * 8, metal(path, places(path), after)

        # three days later
        pairer.open()
        pairer.window.wait(lambda: pairer.window.shown('Paired like this already')
                           or pairer.window.shown('Today'), 'the pairing')
        assert places(path) == at
        assert sum(event.tag.endswith('rule') for event in events(path)) == 2
        assert pairer.window.close() == 0
        print(f'# today {today} g, best {best} g, planned {planned:.1f} g, {len(done)} steps')


tap.run(globals())
