"""A scale at the other end of a pseudo-terminal, for tests of the window.

It sends lines all the time, flickers before it comes to rest, breaks lines anywhere on the way and
throws garbage in between. The forms of its lines are invented here.

    with Simulator(folder / 'scale', form='tagged') as scale:
        scale.lay(171_600)
        scale.clear()
        scale.unplug()
        scale.replug()

SPDX-License-Identifier: GPL-3.0-or-later
"""

import fcntl
import os
import pathlib
import random
import threading
import time
import tty

FLICKER = 6  # lines that are not at rest after each change of the load


def tagged(shown, still, _n):
    """A letter says whether the load rests: “S +  171.6 g”."""
    return f'{"S" if still else "D"} {"-" if shown < 0 else "+"}{abs(shown) / 1000:8.1f} g\r\n'


def bare(shown, _still, _n):
    """Only a number, of grams; nothing tells whether the load rests."""
    return f'{shown / 1000:.1f}\r\n'


def counted(shown, still, n):
    """A running number, the sign behind a decimal comma, a word at the end: “0042; 171,60-;g;ok”."""
    sign = '-' if shown < 0 else ''
    figure = f'{abs(shown) / 1000:.2f}'.replace('.', ',')
    return f'{n % 10000:04d};{figure}{sign};g;{"ok" if still else "wait"}\n'


FORMS = {'tagged': tagged, 'bare': bare, 'counted': counted}


class Simulator:
    """One scale; the load is set from the test, the lines come from a thread."""

    def __init__(self, link, form='tagged', rate=20, garbage=0.0, seed=1):
        self.link = pathlib.Path(link)
        self.form = FORMS[form]
        self.pause = 1 / rate
        self.garbage = garbage  # share of lines that are thrown in
        self.random = random.Random(seed)
        self.lock = threading.Lock()
        self.master = self.slave = None
        self.load = 0  # mg
        self.settling = 0  # lines until it rests
        self.rested = 0  # lines since it rests
        self.held = False  # the load is kept moving
        self.n = 0
        self.line = ''  # the last one that was sent
        self.running = True
        self.replug()
        self.thread = threading.Thread(target=self._run, daemon=True)
        self.thread.start()

    def __enter__(self):
        return self

    def __exit__(self, *_exc):
        self.running = False
        self.thread.join()
        self.unplug()

    # -- what a person does to it

    def lay(self, mass_mg):
        with self.lock:
            self.load = mass_mg
            self.settling = FLICKER
            self.rested = 0

    def clear(self):
        self.lay(0)

    def move(self, moving=True):
        """Somebody touches the load, or lets it go."""
        with self.lock:
            self.held = moving
            self.settling = FLICKER
            self.rested = 0

    def unplug(self):
        with self.lock:
            if self.master is None:
                return
            self.link.unlink(missing_ok=True)
            os.close(self.master)
            os.close(self.slave)
            self.master = self.slave = None

    def replug(self):
        with self.lock:
            self.master, self.slave = os.openpty()
            tty.setraw(self.slave)
            fcntl.fcntl(self.master, fcntl.F_SETFL, os.O_NONBLOCK)
            self.link.unlink(missing_ok=True)
            self.link.symlink_to(os.ttyname(self.slave))

    # -- what it does by itself

    def _next_line(self):
        still = self.settling == 0 and not self.held
        shown = self.load if still else self.load + 100 * self.random.randint(-40, 40)
        self.settling = max(0, self.settling - 1)
        self.rested = self.rested + 1 if still else 0
        self.n += 1
        self.line = self.form(shown, still, self.n)
        return self.line.encode('ascii')

    def _send(self, data):
        """In pieces, as they come over a wire; what nobody reads is lost."""
        while data and self.master is not None:
            n = self.random.randint(1, len(data))
            try:
                os.write(self.master, data[:n])
            except BlockingIOError:
                return
            data = data[n:]

    def _run(self):
        while self.running:
            with self.lock:
                if self.master is not None:
                    self._send(self._next_line())
                    if self.random.random() < self.garbage:
                        self._send(self.random.randbytes(self.random.randint(1, 12)) + b'\n')
            time.sleep(self.pause)
