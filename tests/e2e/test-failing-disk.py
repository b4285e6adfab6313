#!/usr/bin/python3
"""The disk is full, read-only, gone; somebody else writes to the file: nothing that was typed is lost.

Called with the program, inside a display. A small file system of its own is full in earnest where
the test may mount one; elsewhere a limit on the size of files stands in for it. Each time the window
says in one line what happened and keeps what was typed, the file on the disk is the last good one,
and the next Enter works as soon as the disk does.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import contextlib
import os
import pathlib
import resource
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from bench import events  # noqa: E402
from driver import Window, name_of, text_of  # noqa: E402

PROGRAM = sys.argv[1]
DEMO = HERE.parents[1] / 'data' / 'demo.tenthgram'
TITLE = 'Orchard tractor'
UNDER_LIMIT = [sys.executable, '-c', (
    'import os, signal, sys; signal.signal(signal.SIGXFSZ, signal.SIG_IGN);'
    'os.execv(sys.argv[1], sys.argv[1:])')]


class Disk:
    """A folder whose disk can be filled and locked."""

    def __init__(self, folder, inside):
        self.folder = pathlib.Path(folder)
        mount = ['mount', '-t', 'tmpfs', '-o', 'size=256k,mode=755', 'none', str(folder)]
        self.own = os.getuid() == 0 and subprocess.run(
            mount, stderr=subprocess.DEVNULL).returncode == 0
        self.path = self.folder / inside / 'job.tenthgram'
        self.path.parent.mkdir(exist_ok=True)
        shutil.copy(DEMO, self.path)
        self.filler = self.folder / 'filler'

    def fill(self, window):
        if not self.own:
            resource.prlimit(window.process.pid, resource.RLIMIT_FSIZE,
                             (1000, resource.RLIM_INFINITY))
            return
        with self.filler.open('wb', buffering=0) as out:
            with contextlib.suppress(OSError):
                while True:
                    out.write(bytes(4096))

    def empty(self, window):
        if not self.own:
            resource.prlimit(window.process.pid, resource.RLIMIT_FSIZE,
                             (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
            return
        self.filler.unlink()

    def lock(self, how):
        if self.own:
            subprocess.run(['mount', '-o', f'remount,{how}', str(self.folder)], check=True)
        else:
            self.folder.chmod(0o555 if how == 'ro' else 0o755)

    def leave(self):
        if self.own:
            subprocess.run(['umount', '-l', str(self.folder)], check=True)


@contextlib.contextmanager
def at_work(inside=''):
    """The demo job on the Weigh page, ready for a reading of the first small end."""
    with tempfile.TemporaryDirectory() as folder:
        disk = Disk(folder, inside)
        window = Window(*UNDER_LIMIT, PROGRAM, disk.path, title=TITLE)
        try:
            window.key('alt+3')
            window.wait(lambda: field(window), 'the field for a reading')
            yield disk, window
        finally:
            window.kill()
            disk.leave()


def field(window):
    item = window.focused_text()
    return item if item is not None and name_of(item).startswith('Reading of ') else None


def type_reading(window, text):
    window.key('ctrl+a')
    window.type(text)
    window.key('Return')


def refused(window, path, before, text):
    """The window says so on one line, the text is kept, the file is as it was."""
    line = window.wait(lambda: window.shown('Not saved: '), 'the word that nothing was saved')
    assert '\n' not in line and len(line) < 250, line
    assert text_of(window.wait(lambda: field(window), 'the field')) == text
    if before is not None:
        assert path.read_bytes() == before
    return line


def taken(window, path, n):
    window.wait(lambda: path.exists() and len(events(path)) == n, f'{n} events on disk')
    window.wait(lambda: (f := field(window)) and not text_of(f), 'the empty field')
    window.wait(lambda: not window.shown('Not saved: '), 'the failure to go')


def reading_for(window):
    """A weight that the window has no reason to ask about: the last one of that place."""
    name = name_of(window.wait(lambda: field(window), 'the field'))
    part = name.removeprefix('Reading of ').partition(',')[0].lower().replace(' ', '-')
    figure = 'small-end' if 'small end' in name else 'big-end' if 'big end' in name else 'whole'
    return part, figure


def last_mass(path, slot):
    return [e.get('mass') for e in events(path)
            if e.tag.endswith('weighing') and (e.get('part'), e.get('figure')) == slot][-1]


def test_a_full_disk():
    with at_work() as (disk, window):
        path, before = disk.path, disk.path.read_bytes()
        n, mass = len(events(path)), last_mass(path, reading_for(window))
        disk.fill(window)
        for _ in range(2):
            type_reading(window, mass)
            line = refused(window, path, before, mass)
            assert ('No space left' if disk.own else 'too large') in line, line
        left = {p.name for p in disk.folder.iterdir()}
        assert left <= {'job.tenthgram', 'filler'}, left
        disk.empty(window)
        window.key('Return')
        taken(window, path, n + 1)
        assert events(path)[-1].get('mass') == mass


def test_a_locked_disk():
    with at_work() as (disk, window):
        path, before = disk.path, disk.path.read_bytes()
        n, mass = len(events(path)), last_mass(path, reading_for(window))
        disk.lock('ro')
        type_reading(window, mass)
        refused(window, path, before, mass)
        disk.lock('rw')
        window.key('Return')
        taken(window, path, n + 1)


def test_changed_by_somebody_else():
    with at_work() as (disk, window):
        path = disk.path
        n, mass = len(events(path)), last_mass(path, reading_for(window))
        note = ('    <note id="0d8c8a2e-other" at="2026-03-21T10:00:00+01:00" who="Somebody else" '
                'text="from the other bench"/>\n')
        theirs = path.read_text().replace('  </journal>', note + '  </journal>')
        path.write_text(theirs)
        type_reading(window, mass)
        line = refused(window, path, theirs.encode(), mass)
        assert 'changed' in line, line
        window.tab_to('Read the file again')
        window.key('Return')
        window.wait(lambda: not window.shown('Not saved: '), 'the failure to go')
        window.tab_to('Reading of ')
        assert text_of(field(window)) == mass, 'what was typed is gone'
        window.key('Return')
        taken(window, path, n + 2)
        assert 'from the other bench' in path.read_text()


def test_overwritten_with_rubbish():
    with at_work() as (disk, window):
        path = disk.path
        good, n = path.read_bytes(), len(events(path))
        mass = last_mass(path, reading_for(window))
        path.write_text('<job>half of')
        type_reading(window, mass)
        refused(window, path, b'<job>half of', mass)
        path.write_bytes(good)
        window.key('Return')
        taken(window, path, n + 1)
        assert events(path)[-1].get('mass') == mass


def test_file_deleted():
    with at_work() as (disk, window):
        path = disk.path
        n, mass = len(events(path)), last_mass(path, reading_for(window))
        path.unlink()
        type_reading(window, mass)
        taken(window, path, n + 1)


def test_folder_deleted():
    with at_work('in') as (disk, window):
        path = disk.path
        n, mass = len(events(path)), last_mass(path, reading_for(window))
        shutil.rmtree(path.parent)
        type_reading(window, mass)
        refused(window, path, None, mass)
        assert not path.parent.exists()
        path.parent.mkdir()
        window.key('Return')
        taken(window, path, n + 1)


tap.run(globals())
