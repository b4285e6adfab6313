"""A bench with true weights and a worker who does what the window says and knows nothing else.

The window is read by its accessible names; what was recorded is read from the file. The statics of
the bench are written here anew from the dimensions in the file: a gram off at d lowers the small end
by d/L and the big end by 1 - d/L (moments about either support).

SPDX-License-Identifier: GPL-3.0-or-later
"""

import csv
import io
import re
import subprocess
import xml.etree.ElementTree as ET

from driver import Gone, Window, name_of, walk

NS = {'t': 'urn:tenthgram:job'}


def events(path):
    return list(ET.parse(path).getroot().find('t:journal', NS))


def table(program, path, row):
    out = subprocess.run(
        [program, 'plan', str(path), '--csv'], capture_output=True, text=True, check=True
    ).stdout
    return [r for r in rows_of(out) if r['row'] == row]


def rows_of(text):
    """Rows by title; the mark of a practice job, before the first title, is left out."""
    return list(csv.DictReader(io.StringIO(text.removeprefix('practice '), newline='')))


def weights_so_far(program, path):
    """What the parts of a job weigh, for a bench that goes on from there."""
    return {(r['name'], r['figure']): float(r['weight_g']) for r in table(program, path, 'part')}


class Bench:
    """True weights by part name and end, a tenth of a gram on the display."""

    def __init__(self, path, truth):
        self.truth = dict(truth)
        setup = ET.parse(path).getroot().find('t:setup', NS)
        self.zones = {z.get('id'): z.get('place') for z in setup.iter() if z.get('place')}
        if setup.find('t:rod-design', NS) is None:
            return
        rod = setup.find('t:rod-design', NS).attrib
        n = {k: float(v) for k, v in rod.items() if re.fullmatch(r'-?[\d.]+', v)}
        self.length = n['centres']
        self.place = {
            'small-end-pad': n['centres'] + (n['small-outer'] + n['small-pad']) / 2,
            'small-end-sides': n['centres'],
            'beam-edges': n['centres'] / 2,
            'big-end-shoulders': n['shoulder'] / 2,
            'cap-shoulders': -n['cap-shoulder'] / 2,
            'cap-pad': -(n['big-outer'] + n['cap-pad']) / 2,
        }

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

    def __init__(self, program, path, title, bench):
        self.program = program
        self.path = path
        self.title = title
        self.bench = bench
        self.overshoot_g = 0  # what the next pass takes beyond what was wanted
        self.open()

    def open(self):
        self.window = Window(self.program, self.path, title=self.title)
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
        return slot_of(label)

    def weigh(self):
        before = len(events(self.path))
        self.window.tab_to('Reading of')
        self.window.type(self.bench.read(*self.reading_wanted()))
        self.window.key('Return')
        try:
            self.recorded(before)
        except Gone:  # asked about, as after a pass that took far too much: Enter again keeps it
            self.window.key('Return')
            self.recorded(before)
        return 'weighed'

    def press(self, button):
        self.window.tab_to(button)
        self.window.key('Return')

    def decide(self, choice):
        before = len(events(self.path))
        self.press(choice)
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
        self.bench.grind(f'{name[kind]} {number}', done.get('zone'),
                         float(done.get('mass')) + self.overshoot_g)
        self.overshoot_g = 0
        return 'ground'

    def step(self):
        buttons = self.buttons()
        for choice in ('Lower the target', 'Accept '):
            if any(b.startswith(choice) for b in buttons):
                return self.decide(choice)
        if any(b.startswith('Pass done') for b in buttons):
            return self.pass_done()
        labels = self.window.labels(self.grind)
        if any('The set is even' in label for label in labels):
            return None
        if any(label.startswith('Nothing more comes off this part') for label in labels):
            self.press('Another part')
            return 'went on'
        return self.weigh()


def slot_of(label):
    """Part and figure of “Reading of Rod 3, small end, mark up”."""
    part, _, rest = label.removeprefix('Reading of ').partition(', ')
    figure = rest.partition(',')[0].replace(' ', '-')
    return part, figure if figure in ('small-end', 'big-end') else 'whole'
