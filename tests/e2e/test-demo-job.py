#!/usr/bin/python3
"""The demo job, from where it stands to an even set, in the window and by the keyboard alone.

Called with the program, inside a display. A bench with true weights stands behind the keyboard: it
does what the window says and knows nothing else. The window is read by its accessible names; what
was recorded is read from the file. The statics of the bench are written here anew from the
dimensions in the file: a gram off at d lowers the small end by d/L and the big end by 1 - d/L.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import csv
import io
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from driver import Gone, Window, children, name_of, text_of, walk  # noqa: E402,F401

PROGRAM = sys.argv[1]
DEMO = HERE.parents[1] / 'data' / 'demo.tenthgram'
TITLE = 'Orchard tractor'
NS = {'t': 'urn:tenthgram:job'}


def events(path):
    return list(ET.parse(path).getroot().find('t:journal', NS))


def table(path, row):
    out = subprocess.run(
        [PROGRAM, 'plan', str(path), '--csv'], capture_output=True, text=True, check=True
    ).stdout
    return [r for r in csv.DictReader(io.StringIO(out, newline='')) if r['row'] == row]


class Bench:
    """True weights by part name and end, a tenth of a gram on the display."""

    def __init__(self, path):
        self.truth = {(r['name'], r['figure']): float(r['weight_g']) for r in table(path, 'part')}
        setup = ET.parse(path).getroot().find('t:setup', NS)
        rod = setup.find('t:rod-design', NS).attrib
        n = {k: float(v) for k, v in rod.items() if re.fullmatch(r'-?[\d.]+', v)}
        self.length = n['centres']
        self.place = {
            'small-end-pad': n['centres'] + (n['small-outer'] + n['small-pad']) / 2,
            'cap-pad': -(n['big-outer'] + n['cap-pad']) / 2,
        }
        self.zones = {z.get('id'): z.get('place') for z in setup.iter() if z.get('place')}

    def read(self, part, figure):
        return f'{self.truth[part, figure]:.1f}'

    def grind(self, part, zone, grams):
        if (part, 'small-end') in self.truth:
            d = self.place[self.zones[zone]] / self.length
            self.truth[part, 'small-end'] -= grams * d
            self.truth[part, 'big-end'] -= grams * (1 - d)
        else:
            self.truth[part, 'whole'] -= grams

    def spread(self, kind, figure):
        found = [g for (part, f), g in self.truth.items() if part.startswith(kind) and f == figure]
        return max(found) - min(found)


class Worker:
    """Does what the Grind page says."""

    def __init__(self, path):
        self.path = path
        self.bench = Bench(path)
        self.open()

    def open(self):
        self.window = Window(PROGRAM, self.path, title=TITLE)
        self.grind = self.window.page('Grind')

    def buttons(self):
        return [name_of(i) for i in walk(self.grind) if i.get_role_name() == 'push button']

    def recorded(self, before):
        """Waits until the file holds more events than before; gives the new ones."""
        return self.window.wait(lambda: events(self.path)[before:] or None, 'a new event on disk')

    def reading_wanted(self):
        label = self.window.wait(
            lambda: next((t for t in self.window.labels(self.grind)
                          if t.startswith('Reading of ')), None),
            'a field for a reading',
        )
        part, _, rest = label.removeprefix('Reading of ').partition(', ')
        figure = rest.partition(',')[0].replace(' ', '-')
        return part, figure if figure in ('small-end', 'big-end') else 'whole'

    def weigh(self):
        before = len(events(self.path))
        part, figure = self.reading_wanted()
        self.window.tab_to('Reading of')
        self.window.type(self.bench.read(part, figure))
        self.window.key('Return')
        self.recorded(before)
        return 'weighed'

    def press(self, button):
        self.window.tab_to(button)
        self.window.key('Return')

    def decide(self):
        before = len(events(self.path))
        self.press('Lower the target')
        new = self.recorded(before)
        assert any(e.tag.endswith('target') for e in new), [e.tag for e in new]
        return 'decided'

    def pass_done(self):
        before = len(events(self.path))
        self.press('Pass done')
        try:
            new = self.recorded(before)
        except Gone:  # the first of a day: the cautions opened instead
            self.press('Pass done')
            new = self.recorded(before)
        done = new[-1]
        assert done.tag.endswith('pass'), done.tag
        name = {'rod': 'Rod', 'piston': 'Piston'}
        kind, number = done.get('part').split('-')
        self.bench.grind(f'{name[kind]} {number}', done.get('zone'), float(done.get('mass')))
        return 'ground'

    def step(self):
        buttons = self.buttons()
        if any(b.startswith('Lower the target') for b in buttons):
            return self.decide()
        if any(b.startswith('Pass done') for b in buttons):
            return self.pass_done()
        labels = self.window.labels(self.grind)
        if any('The set is even' in label for label in labels):
            return None
        if any(label.startswith('Nothing more comes off this part') for label in labels):
            self.press('Another part')
            return 'went on'
        return self.weigh()


def test_from_the_overshoot_to_an_even_set():
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / 'demo.tenthgram'
        shutil.copy(DEMO, path)
        worker = Worker(path)
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
        for band in table(path, 'band'):
            assert band['state'] == 'even', band
        # a tenth on the display hides half a step at either end
        for kind, figure in (('Rod', 'small-end'), ('Rod', 'big-end'), ('Piston', 'whole')):
            spread = worker.bench.spread(kind, figure)
            assert spread <= 0.5 + 0.11, (kind, figure, spread)
        print(f'# {len(done)} steps: {done.count("weighed")} readings, '
              f'{done.count("ground")} passes')


tap.run(globals())
