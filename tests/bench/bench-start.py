#!/usr/bin/python3
"""How long until the first frame, until the page stands with its field focused, and how much memory
until then: Tenthgram with the demo job against a bare GTK window with one label, turn by turn in one
run. Called with the two programs, in a display. Prints medians and ratios; nothing here fails for
being slow.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

DEMO = pathlib.Path(__file__).resolve().parents[2] / 'data' / 'demo.tenthgram'
ROUNDS = 15

with tempfile.TemporaryDirectory() as folder:
    job = shutil.copy(DEMO, folder)
    seen = {'bare': [], 'tenthgram': []}
    for turn in range(ROUNDS + 1):
        for name, program in zip(seen, sys.argv[1:]):
            out = subprocess.run(
                [program, str(time.monotonic_ns() // 1000), job],
                capture_output=True, text=True, check=True, timeout=60,
            ).stdout.split()
            if turn:  # the first turn only warms the caches
                seen[name].append((int(out[0]) / 1000, int(out[1]) / 1000, int(out[2]) / 1024))
    for what, column, unit in (
        ('first frame', 0, 'ms'), ('whole page', 1, 'ms'), ('peak memory', 2, 'MB'),
    ):
        middle = {k: statistics.median(v[column] for v in seen[k]) for k in seen}
        print(f'{what}: bare {middle["bare"]:.1f} {unit}, tenthgram {middle["tenthgram"]:.1f} '
              f'{unit}, ratio {middle["tenthgram"] / middle["bare"]:.2f} (medians of {ROUNDS})')
