#!/usr/bin/python3
"""The program is killed while readings are typed, again and again: what it had shown is in the file.

Called with the program, inside a display. Someone types pistons' weights without a pause; at a moment
that nobody chose the program is killed outright. As soon as the field asks for the next piston, the
one before has been taken over in the eyes of whoever sits there. After each kill the file must load,
hold each of those readings, and nothing but what was typed, in that order.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import random
import re
import subprocess
import sys
import tempfile
import threading
import time

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from bench import events  # noqa: E402
from driver import Window, gi, name_of  # noqa: E402

PROGRAM = sys.argv[1]
TITLE = 'Many pistons'
N = 24
KILLS = 22
SEED = 2903

JOB = f'''<?xml version="1.0" encoding="UTF-8"?>
<job xmlns="urn:tenthgram:job" version="1">
  <setup name="{TITLE}">
    <engine layout="other" cylinders="{N}"/>
    <scale resolution="0.1"/>
    <tolerance band="rod-small" mass="0.5"/>
    <tolerance band="rod-big" mass="0.5"/>
    <tolerance band="piston" mass="0.5"/>
    <piston-design id="piston" name="Piston" material="Aluminium" metal="aluminium" density="2.7" \
skirt="full" bore="86" height="62" compression-height="32" pin="22" crown="7" ring-belt="24" \
boss-outer="36" boss-gap="30" skirt-wall="4">
      <zone id="feet" name="feet" place="pin-boss-feet" standing="free" area="150" depth="2"/>
    </piston-design>
''' + ''.join(f'    <part id="piston-{n}" name="Piston {n}" design="piston" bore="{n}"/>\n'
              for n in range(1, N + 1)) + '''  </setup>
  <journal>
  </journal>
</job>
'''


def readings(path):
    return [(e.get('part'), e.get('mass')) for e in events(path)]


def asked_for(field):
    """The number of the piston that the field asks for, as it is on the screen now."""
    try:
        field.clear_cache()
        return int(re.match(r'Reading of Piston (\d+),', name_of(field))[1])
    except (gi.repository.GLib.Error, TypeError):  # between two names, or already gone
        return 0


class Typist(threading.Thread):
    """Types one reading after the other; every key that goes down comes up again."""

    def __init__(self, masses, delay_ms):
        super().__init__()
        self.masses = masses
        self.delay_ms = str(delay_ms)
        self.stop = threading.Event()

    def run(self):
        for mass in self.masses:
            if self.stop.is_set():
                return
            keys = ['period' if c == '.' else c for c in mass]
            subprocess.run(['xdotool', 'key', '--delay', self.delay_ms, *keys, 'Return'], check=True)


def type_until_killed(path, chance, first):
    """One run: types from piston `first` on; gives the typed and how many were seen to be taken."""
    window = Window(PROGRAM, path, title=TITLE)
    try:
        field = window.wait(
            lambda: (f := window.focused_text()) and asked_for(f) == first and f,
            f'the field for piston {first}')
        masses = [f'{520 + chance.randrange(20) / 10:g}' for _ in range(first, N + 1)]
        typist = Typist(masses, chance.randrange(1, 12))
        typist.start()
        # Counted in readings and not in seconds, so that a fast machine is not done before the kill.
        seen, far_enough = first, first + chance.randrange(len(masses) - 4)
        give_up = time.monotonic() + 20
        while seen < far_enough and time.monotonic() < give_up:
            seen = max(seen, asked_for(field))
        end = time.monotonic() + chance.uniform(0, 0.03)
        while time.monotonic() < end:
            seen = max(seen, asked_for(field))
    finally:
        window.kill()
    typist.stop.set()
    typist.join()
    return masses, seen - first


def check_file(path, before, typed, seen):
    result = subprocess.run([PROGRAM, 'check', path], capture_output=True, text=True, timeout=60)
    assert result.returncode == 0 and not result.stderr, result.stderr
    new = readings(path)[len(before):]
    assert readings(path)[:len(before)] == before, 'an earlier reading is gone'
    wanted = [(f'piston-{len(before) + 1 + i}', mass) for i, mass in enumerate(typed)]
    assert new == wanted[:len(new)], (new, wanted)
    assert len(new) >= seen, f'{seen} readings were shown as taken over, {len(new)} are in the file'
    # what was being written when the cable was pulled may lie beside the file, never in its place
    for other in path.parent.iterdir():
        assert other == path or other.name.startswith(path.name + '.'), other
    return len(new)


def test_killed_again_and_again():
    chance = random.Random(SEED)
    start = time.monotonic()
    taken, shown, in_the_middle = 0, 0, 0
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / 'pistons.tenthgram'
        path.write_text(JOB)
        for _ in range(KILLS):
            before = readings(path)
            if len(before) > N - 6:  # little is left to type: a new job
                path.write_text(JOB)
                before = []
            typed, seen = type_until_killed(path, chance, len(before) + 1)
            new = check_file(path, before, typed, seen)
            in_the_middle += 0 < new < len(typed)
            taken += new
            shown += seen
    print(f'# {KILLS} kills in {time.monotonic() - start:.0f} s: {taken} readings in the files, '
          f'{shown} of them seen on the screen, {in_the_middle} kills while readings went in')
    # otherwise nothing was put to the test
    assert shown > KILLS and in_the_middle > KILLS // 2


tap.run(globals())
