#!/usr/bin/python3
"""Is the last line of tests/run true?

Builds a small project whose tests pass, fail, crash, hang and lose their plan, lets meson run it,
and compares the summary with what these programs are known to do. No compiler is needed.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import os
import pathlib
import subprocess
import sys
import tempfile

import tap

SUMMARY = pathlib.Path(__file__).with_name('summary.py')

PROGRAMS = {  # name: (protocol, shell text)
    'pass': ('tap', 'echo 1..2; echo ok 1 one; echo "ok 2 two"'),
    'exit0': ('exitcode', 'exit 0'),
    'fail': ('tap', 'echo 1..2; echo ok 1; echo not ok 2; exit 1'),
    'exit3': ('exitcode', 'exit 3'),
    'crash': ('tap', 'echo 1..5; echo ok 1; kill -SEGV $$'),
    'hang': ('tap', 'echo 1..2; echo ok 1; sleep 30'),
    'lost': ('tap', 'echo 1..3; echo ok 1; echo ok 2'),
    'noplan': ('tap', 'echo ok 1'),
    'silent': ('tap', 'exit 0'),
    'status': ('tap', 'echo 1..1; echo ok 1; exit 1'),
    'skip': ('tap', 'echo 1..2; echo "ok 1 # SKIP no scale"; echo ok 2 a # in the name'),
    'skip77': ('exitcode', 'exit 77'),
    'todo': ('tap', 'echo 1..1; echo "not ok 1 later # TODO not yet"'),
}


def summarise(names, forget=()):
    """Runs the named programs by meson; gives the summary's lines and exit status."""
    with tempfile.TemporaryDirectory() as folder:
        source, build = pathlib.Path(folder, 's'), pathlib.Path(folder, 'b')
        source.mkdir()
        lines = ["project('probe')"]
        for name in names:
            protocol, text = PROGRAMS[name]
            script = source / name
            script.write_text(f'#!/bin/sh\n{text}\n')
            script.chmod(0o755)
            lines.append(f"test('{name}', files('{name}'), protocol: '{protocol}', timeout: 1)")
        (source / 'meson.build').write_text('\n'.join(lines) + '\n')
        env = {k: v for k, v in os.environ.items() if not k.startswith('MESON')}
        quiet = {'stdout': subprocess.DEVNULL, 'stderr': subprocess.DEVNULL, 'env': env}
        subprocess.run(['meson', 'setup', build, source], check=True, **quiet)
        ran = [name for name in names if name not in forget]
        if ran:
            subprocess.run(['meson', 'test', '-C', build, *ran], **quiet)
        done = subprocess.run([sys.executable, SUMMARY, build], capture_output=True, text=True)
        return done.stdout.splitlines(), done.returncode


def expect(names, line, status, forget=()):
    lines, code = summarise(names, forget)
    assert (lines[-1], code) == (line, status), f'{names}: expected {(line, status)}, got {lines}'
    return lines


def test_passes_alone():
    expect(['pass', 'exit0'], '3 passed, 0 failed', 0)


def test_skips_are_named():
    lines = expect(['pass', 'skip', 'skip77', 'todo'], '3 passed, 0 failed, 3 skipped', 0)
    assert any('no scale' in line for line in lines), lines


def test_failure():
    expect(['pass', 'fail', 'exit3'], '3 passed, 2 failed', 1)


def test_crash_counts_what_never_ran():
    expect(['pass', 'crash'], '3 passed, 4 failed', 1)


def test_time_out():
    expect(['pass', 'hang'], '3 passed, 1 failed', 1)


def test_lost_plan():
    expect(['lost', 'noplan', 'silent'], '3 passed, 3 failed', 1)


def test_exit_status_of_a_program_whose_cases_pass():
    expect(['status'], '1 passed, 1 failed', 1)


def test_listed_but_never_ran():
    expect(['pass', 'exit0', 'fail'], '2 passed, 2 failed', 1, forget=['exit0', 'fail'])


def test_no_log_at_all():
    expect(['pass', 'exit0'], '0 passed, 2 failed', 1, forget=['pass', 'exit0'])


def test_nothing_passed_is_no_success():
    expect(['skip77'], '0 passed, 0 failed, 1 skipped', 1)


def test_never_set_up():
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run([sys.executable, SUMMARY, folder], capture_output=True, text=True)
        assert done.stdout.splitlines()[-1] == '0 passed, 1 failed', done.stdout
        assert done.returncode == 1


tap.run(globals())
