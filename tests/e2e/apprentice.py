"""Somebody at a practice bench who does what the window says, with keys alone, and sees only what it shows.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import re
import time

from bench import events, slot_of
from driver import Gone, name_of, walk

SETTLED = 2.7  # seconds until only the flicker moves the display
DISPLAY = 'Display of the practice scale'


class Apprentice:
    """At a window round a practice job."""

    def __init__(self, window, path):
        self.window = window
        self.path = path
        self.seconds = 25  # of a pass of which nothing is known yet
        self.stage = 'Weigh'  # the page that is worked on
        self.rock = True
        self.pages = {}  # by stage, once they were looked for

    def page(self):
        if self.stage not in self.pages:
            self.pages[self.stage] = self.window.page(self.stage)
        return self.pages[self.stage]

    def go(self, stage, key):
        self.stage = stage
        self.window.key(key)
        time.sleep(0.5)

    def shown(self, start):
        """The first visible text of the page that begins like this, or nothing."""
        return self.window.shown(start, self.page())

    def texts(self):
        return self.window.labels(self.page())

    # -- the bench ---------------------------------------------------------------------------------

    def display(self):
        """What the display shows, without its unit."""
        def look():
            return next((i for i in walk(self.page()) if i.get_description() == DISPLAY),
                        None)

        item = self.window.wait(look, 'a display')
        return name_of(item).removesuffix(' g').replace('−', '-')

    def wait_until_settled(self):
        time.sleep(SETTLED)

    def lay(self, way):
        """Lays on what is asked for, this way up, so that it touches nothing, and rocks it free."""
        for _ in range(20):
            self.window.key('ctrl+l')
            time.sleep(0.2)
            if way and not self.shown('On the scale: ').count(way):
                self.window.key('ctrl+t')
                time.sleep(0.2)
            self.window.key('ctrl+k')
            self.window.wait(lambda: 'touches' in self.shown('On the scale: '), 'a close look')
            if 'touches nothing' in self.shown('On the scale: '):
                break
        if way and self.rock:
            self.window.key('ctrl+r')
        self.wait_until_settled()

    # -- deeds -------------------------------------------------------------------------------------

    def recorded(self, before):
        return self.window.wait(lambda: events(self.path)[before:] or None, 'a new event on disk')

    def question(self):
        return self.window.wait(lambda: self.shown('Reading of '), 'a field for a reading')

    def read(self):
        """One reading, as careful as it gets."""
        before = len(events(self.path))
        question = self.question()
        part, figure = slot_of(question)
        way = next((w for w in ('mark up', 'mark down') if question.endswith(w)), None)
        self.lay(way)
        self.window.tab_to('Reading of')
        self.window.type(self.display())
        self.window.key('Return')
        try:
            self.recorded(before)
        except Gone:  # asked about: once more from the beginning, and then it is kept
            self.lay(way)
            self.window.tab_to('Reading of')
            self.window.key('ctrl+a')
            self.window.type(self.display())
            self.window.key('Return', 'Return')
            self.recorded(before)
        return part, figure

    def zero(self):
        """Looks at the empty scale, and sets it to zero."""
        before = len(events(self.path))
        self.window.key('ctrl+e')
        self.wait_until_settled()
        self.window.key('ctrl+0')
        self.window.wait(lambda: self.shown('What does the empty scale show?'), 'the question')
        self.window.type(self.display())
        self.window.key('Return')
        self.recorded(before)

    def check_weight(self):
        before = len(events(self.path))
        self.window.key('ctrl+9')
        self.window.wait(lambda: self.shown('What does the check weight'), 'the question')
        self.window.key('ctrl+l')
        self.wait_until_settled()
        self.window.type(self.display())
        self.window.key('Return')
        self.recorded(before)

    def press(self, name):
        self.window.tab_to(name)
        self.window.key('Return')
        time.sleep(0.3)

    def grind(self):
        """A pass as the instruction has it; its first ones are short."""
        before = len(events(self.path))
        self.window.tab_to('How long')
        self.window.key('ctrl+a')
        self.window.type(self.pass_length())
        self.press('Grind')
        try:
            new = self.recorded(before)
        except Gone:  # the cautions opened first
            self.press('Grind')
            new = self.recorded(before)
        assert any(e.tag.endswith('pass') for e in new), [e.tag for e in new]

    def pass_length(self):
        """As the field wants it: so many strokes, or minutes and seconds."""
        seconds = self.pass_seconds()
        return f'{seconds // 60}:{seconds % 60:02}' if 'minutes' in self.texts() else str(seconds)

    def pass_seconds(self):
        """As the instruction says: in strokes once passes have taught it, before that in grams, which take
        as long as the tool usually does."""
        words = ' '.join(self.texts())
        strokes = re.search(r'(\d+) strokes?\b', words)
        clock = re.search(r'about (?:(\d+) min ?)?(?:(\d+) s)?\b', words)
        grams = re.search(r'Take about ([\d.]+) g in this pass', words)
        usual = re.search(r'takes about ([\d.]+) g a minute', words)
        if strokes:
            return int(strokes.group(1))
        if clock and (clock.group(1) or clock.group(2)):
            return 60 * int(clock.group(1) or 0) + int(clock.group(2) or 0)
        if grams and usual:
            return max(1, round(0.8 * 60 * float(grams.group(1)) / float(usual.group(1))))
        return self.seconds
