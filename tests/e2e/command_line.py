"""The command line of the program under test (sys.argv[1]), without a display.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import concurrent.futures
import csv
import io
import os
import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
DEMO = ROOT / 'data' / 'demo.tenthgram'
PAIRING = ROOT / 'data' / 'demo-pairing.tenthgram'
PROGRAM = sys.argv[1]
PLAIN = {k: v for k, v in os.environ.items() if k not in ('DISPLAY', 'WAYLAND_DISPLAY')}
# of sheets, and what each is called
KINDS = {'grind': 'Grind sheet', 'weigh': 'Weigh sheet', 'proof': 'Proof card',
         'bobweight': 'Bobweight card', 'build': 'Build cards'}


def run(*words, text=True, **env):
    return subprocess.run(
        [PROGRAM, *map(str, words)], env={**PLAIN, **env}, capture_output=True, text=text,
        timeout=60,
    )


def done(*words, **more):
    result = run(*words, **more)
    assert result.returncode == 0, result.stderr
    assert not result.stderr, result.stderr
    return result.stdout


def side_by_side(look, items):
    """What @look says of each item; the processes that it starts run beside one another."""
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        return list(pool.map(look, items))


def refused(status, *words):
    """Leaves with this status; nothing on stdout. Gives stderr's lines."""
    result = run(*words)
    assert result.returncode == status, (result.returncode, result.stderr)
    assert not result.stdout
    return result.stderr.splitlines()


def table(*words):
    return list(csv.DictReader(io.StringIO(done(*words), newline='')))
