"""Somebody who goes through a lesson in the window, with keys alone: does what is asked for, and answers from
what the job file and the lesson's own text say.  The answers are reckoned here anew.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import subprocess
import time
import xml.etree.ElementTree as ET

from apprentice import Apprentice
from bench import NS, events, rows_of
from driver import Gone, name_of, walk

LESSONS = pathlib.Path(__file__).resolve().parents[2] / 'data' / 'lessons'
LNS = {'l': 'urn:tenthgram:lesson'}
KEYS = {'setup': 'alt+1', 'weigh': 'alt+3', 'match': 'alt+4', 'grind': 'alt+5', 'prove': 'alt+6', 'build': 'alt+7'}


def kind(element):
    return element.tag.rpartition('}')[2]


class Lesson:
    def __init__(self, path):
        root = ET.parse(path).getroot()
        self.id, self.title = root.get('id'), root.get('title')
        self.steps = [s for s in root if kind(s) in ('show', 'do', 'ask')]


def all_lessons():
    return [Lesson(path) for path in sorted(LESSONS.glob('*.xml'))]


class Pupil(Apprentice):
    """At a window that shows the list of lessons."""

    def __init__(self, program, window, folder, lesson):
        super().__init__(window, None)
        self.program, self.lesson, self.folder = program, lesson, folder
        self.rock = True

    def begin(self, number):
        self.window.tab_to('Lessons')
        self.window.key('Return')
        self.window.wait(lambda: self.window.shown('Each is a small practice job'), 'the list')
        for _ in range(number):
            self.window.tab_to('Start')
            self.window.key('Tab')
        self.window.tab_to('Start')
        self.window.key('Return')
        self.path = self.window.wait(lambda: next(iter(self.folder.glob('**/*.tenthgram')), None), 'the job')
        self.head = self.window.wait(self.find_head, 'the first step')

    def find_head(self):
        """The line of the panel that says which step it is; looking for it takes its time."""
        return next((i for i in walk(self.window.frame) if name_of(i).startswith('Step 1 ')), None)

    # -- what the file says --------------------------------------------------------------------------

    def done(self):
        """Steps that are done: shown, done, or answered, as the journal has them."""
        return [e.get('path') for e in events(self.path) if kind(e) == 'step']

    def step(self):
        """The step that the panel is at."""
        return self.lesson.steps[int(name_of(self.head).split()[1]) - 1]

    def is_finished(self):
        return name_of(self.head).startswith('All steps done')

    def part_rows(self):
        out = subprocess.run([self.program, 'plan', str(self.path), '--csv'], capture_output=True, text=True,
                             check=True).stdout
        return rows_of(out)

    def readings(self, part, figure, way=None):
        struck = {e.get('refers') for e in events(self.path) if kind(e) == 'strike'}
        return [float(e.get('mass')) for e in events(self.path)
                if kind(e) == 'weighing' and e.get('id') not in struck and e.get('part') == part
                and e.get('figure') == figure and (way is None or e.get('way') == way)]

    def mean(self, part, figure):
        if figure == 'whole':  # as the Weigh page has it, the creep of the zero taken out
            return next(float(r['weight_g']) for r in self.part_rows()
                        if r['row'] == 'part' and r['name'] == self.names()[part])
        both = [self.readings(part, figure, way) for way in ('mark-up', 'mark-down')]
        return sum(sum(b) / len(b) for b in both) / 2

    def parts(self, of):
        setup = ET.parse(self.path).getroot().find('t:setup', NS)
        return [p.get('id') for p in setup.findall('t:part', NS) if p.get('id').startswith(of)]

    def names(self):
        setup = ET.parse(self.path).getroot().find('t:setup', NS)
        return {p.get('id'): p.get('name') for p in setup.findall('t:part', NS)}

    def zone_position(self, zone):
        """From the big end, in shares of the centre distance, from the drawing's figures."""
        rod = ET.parse(self.path).getroot().find('t:setup/t:rod-design', NS)
        n = {k: float(v) for k, v in rod.attrib.items() if v.replace('.', '').isdigit()}
        place = {z.get('id'): z.get('place') for z in rod}[zone]
        return {'small-end-pad': n['centres'] + (n['small-outer'] + n['small-pad']) / 2,
                'big-end-shoulders': n['shoulder'] / 2}[place] / n['centres']

    # -- answers -------------------------------------------------------------------------------------

    def answer(self, ask):
        """What is to be typed, or the words of a choice."""
        right = [c for c in ask if kind(c) == 'choice' and c.get('right') == 'yes']
        if right:
            return ' '.join(right[0].text.split())
        question = next(c for c in ask if kind(c) not in ('text', 'choice'))
        return getattr(self, 'answer_' + kind(question).replace('-', '_'))(question)

    def answer_turn(self, q):
        up, down = (self.readings(q.get('part'), q.get('figure'), w) for w in ('mark-up', 'mark-down'))
        return f'{sum(up) / len(up) - sum(down) / len(down):.2f}'

    def answer_mean(self, q):
        return f'{self.mean(q.get("part"), q.get("figure")):.2f}'

    def answer_effect(self, q):
        lever = self.zone_position(q.get('zone'))
        share = lever if q.get('figure') == 'small-end' else 1 - lever
        return f'{-float(q.get("grams")) * share:.3f}'

    def pistons(self):
        return {p: self.mean(p, 'whole') for p in self.parts('piston')}

    def answer_spread(self, _q):
        found = self.pistons().values()
        return f'{max(found) - min(found):.2f}'

    def answer_lightest(self, _q):
        found = self.pistons()
        return self.names()[min(found, key=found.get)]

    def answer_heaviest(self, _q):
        found = self.pistons()
        return self.names()[max(found, key=found.get)]

    def answer_target(self, _q):
        return f'{min(self.pistons().values()):.2f}'

    def answer_depth(self, q):
        design = ET.parse(self.path).getroot().find('t:setup/t:rod-design', NS)
        zone = next(z for z in design if z.get('id') == q.get('zone'))
        sides = 1
        mm = 1000 * float(q.get('grams')) / (sides * float(zone.get('area')) * float(design.get('density')))
        return f'{mm:.2f}'

    def answer_sum(self, q):
        bore = q.get('bore')
        return f'{sum(self.mean(f"{k}-{bore}", "whole") for k in ("piston", "pin")):.2f}'

    def answer_partner(self, q):
        out = subprocess.run([self.program, 'match', str(self.path), '--csv'], capture_output=True, text=True,
                             check=True).stdout
        rows = [r for r in rows_of(out) if r['row'] == 'part']
        bore = next(r['bore'] for r in rows if r['part'] == self.names()[q.get('part')])
        return next(r['part'] for r in rows if r['bore'] == bore and r['kind'] == q.get('kind'))

    def answer_proof(self, _q):
        """Hard to reckon by hand: one more than was tried before, as a pupil would guess."""
        return str(1 + self.done().count('readings'))

    # -- steps ---------------------------------------------------------------------------------------

    def panel(self):
        if 'Step' not in (name_of(self.window.focused() or self.window.frame)):
            self.window.key('F6')
            time.sleep(0.3)

    def do_show(self, _step):
        self.window.key('F6')
        time.sleep(0.3)
        self.window.tab_to('Go on', 12)
        self.window.key('Return')

    def do_ask(self, step):
        answer = self.answer(step)
        self.window.key('F6')
        time.sleep(0.3)
        if any(kind(c) == 'choice' for c in step) or not answer.lstrip('-').replace('.', '').isdigit():
            self.window.tab_to(answer[:40], 16)
            self.window.key('Return')
        else:
            self.window.tab_to('Your answer', 8)
            self.window.key('ctrl+a')
            self.window.type(answer)
            self.window.key('Return')
        self.window.wait(lambda: len(self.done()) > 0, 'an answer')
        time.sleep(0.5)
        if self.window.shown('Go on'):
            self.window.tab_to('Go on', 12)
            self.window.key('Return')

    def visit(self, page):
        if page and self.stage.lower() != page:
            self.go(page.capitalize(), KEYS[page])

    def grind_or_read(self):
        if self.shown('How long'):
            self.grind()
        elif self.shown('Lower the target'):
            self.press('Lower the target')
        elif self.shown('Nothing more comes off this part') or any(
                'The set is even' in text for text in self.texts()):
            self.press('Another part')
        else:
            self.read()

    def do_do(self, step):
        self.visit(step.get('page'))
        wanted = [kind(c) for c in step if kind(c) != 'text']
        if 'ticks' in wanted:
            self.tick()
        elif 'paired' in wanted:
            self.window.wait(lambda: self.window.shown('Proven'), 'the pairing')
            self.press('Accept this pairing')
        elif 'check-weight' in wanted:
            self.check_weight()
        elif wanted == ['zero']:
            self.zero()
        elif self.stage == 'Weigh':
            if 'no-doubt' in wanted and self.rock is False:
                self.window.key('ctrl+z')
                time.sleep(0.4)
                self.window.key('ctrl+z')
                time.sleep(0.4)
            self.rock = 'readings' not in wanted
            if 'zero' in wanted and self.readings('piston-1', 'whole'):
                self.zero()
            self.read()
        else:
            self.grind_or_read()

    def tick(self):
        """One line of the card after the other."""
        if any(text.startswith('Done: every part') for text in self.texts()):
            self.window.key('alt+Next')
            time.sleep(0.5)
        before = len(events(self.path))
        self.window.key('space')
        try:
            self.recorded(before)
        except Gone:  # the keyboard was elsewhere
            self.window.key('alt+7')
            time.sleep(0.5)

    def go_through(self, most=80):
        """Step by step to the end; how many deeds it took."""
        for n in range(most):
            if self.is_finished():
                return n
            step = self.step()
            print(f'# {name_of(self.head)}', flush=True)
            getattr(self, 'do_' + kind(step))(step)
            time.sleep(0.3)
        said = [(e.get('path'), e.get('value')) for e in events(self.path) if kind(e) == 'step'][-4:]
        raise Gone(f'the end of “{self.lesson.title}”; it stands at {name_of(self.head)} after {said}')
