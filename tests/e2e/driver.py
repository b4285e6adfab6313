"""Drives the window as a person at the keyboard: keys go in by xdotool, the screen is read by its
accessible names, and nothing is asserted before it was waited for.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import subprocess
import time

import gi

gi.require_version('Atspi', '2.0')
from gi.repository import Atspi  # noqa: E402

PATIENCE = 20  # seconds before a wait gives up


class Gone(Exception):
    """What was waited for did not come."""


def name_of(item):
    return (item.get_name() or '').replace('_', '')


def text_of(item):
    return Atspi.Text.get_text(item, 0, Atspi.Text.get_character_count(item))


def children(item):
    for i in range(item.get_child_count()):
        child = item.get_child_at_index(i)
        if child is not None:
            yield child


def walk(item):
    yield item
    for child in children(item):
        yield from walk(child)


class Window:
    """One run of the program."""

    def __init__(self, program, *args, title):
        self.process = subprocess.Popen([program, *map(str, args)])
        self.frame = self.wait(lambda: self._find_frame(title), f'the window “{title}”')
        self.xid = subprocess.run(
            ['xdotool', 'search', '--sync', '--onlyvisible', '--pid', str(self.process.pid)],
            capture_output=True, text=True, timeout=PATIENCE, check=True,
        ).stdout.split()[-1]
        subprocess.run(['xdotool', 'windowfocus', '--sync', self.xid], timeout=PATIENCE, check=True)

    def _find_frame(self, title):
        if self.process.poll() is not None:
            raise Gone(f'the program left with {self.process.returncode}')
        for app in children(Atspi.get_desktop(0)):
            if app.get_process_id() != self.process.pid:
                continue
            for frame in children(app):
                if title in name_of(frame):
                    return frame
        return None

    def wait(self, look, what):
        """Asks again and again until the answer is true; gives the answer."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            try:
                answer = look()
            except gi.repository.GLib.Error:  # the tree changed under our hands
                answer = None
            if answer:
                return answer
            time.sleep(0.03)
        raise Gone(what)

    def key(self, *keys):
        subprocess.run(['xdotool', 'key', '--delay', '15', *keys], check=True)

    def type(self, text):
        subprocess.run(['xdotool', 'type', '--delay', '15', '--', text], check=True)

    def page(self, name):
        """The panel of a stage."""
        return self.wait(
            lambda: next((i for i in walk(self.frame)
                          if i.get_role_name() == 'panel' and name_of(i) == name), None),
            f'the page {name}',
        )

    def focused(self):
        for item in walk(self.frame):
            if item.get_state_set().contains(Atspi.StateType.FOCUSED):
                return item
        return None

    def focused_text(self):
        """The focused field for text, or nothing."""
        item = self.focused()
        return item if item is not None and item.get_role_name() == 'text' else None

    def labels(self, page):
        return [name_of(i) for i in walk(page) if i.get_role_name() == 'label' and name_of(i)]

    def shown(self, start, below=None):
        """The first visible text that begins like this, or nothing; below the window's frame or an item."""
        def look(item):
            if not item.get_state_set().contains(Atspi.StateType.VISIBLE):
                return None
            if name_of(item).startswith(start):
                return name_of(item)
            return next(filter(None, map(look, children(item))), None)

        return next(filter(None, map(look, children(below or self.frame))), None)

    def tab_to(self, wanted, limit=120):
        """Presses Tab until the focus is on something whose name contains this, and not on its reason."""
        seen = []
        for _ in range(limit):
            item = self.focused()
            seen.append(name_of(item) if item is not None else None)
            reason = seen[-1] and seen[-1].startswith('Why: ') and not wanted.startswith('Why')
            if item is not None and wanted in name_of(item) and not reason:
                return item
            self.key('Tab')
            time.sleep(0.05)
        raise Gone(f'no focus on “{wanted}”; it went over {seen}')

    def kill(self):
        self.process.kill()
        self.process.wait()

    def close(self):
        self.key('ctrl+q')
        try:
            return self.process.wait(PATIENCE)
        except subprocess.TimeoutExpired:
            self.kill()
            raise Gone('the program did not leave') from None
