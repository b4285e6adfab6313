#!/usr/bin/python3
"""Does app/run do what it says, on machines that have everything, something or nothing?

A copy of app/run works in a folder of its own with stand-ins for apt-get, sudo, meson and ninja
that write down how they were called; what ninja "builds" is a program that writes down its
arguments. Installing for real is tried by tests/run itself on a bare machine.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import os
import pathlib
import shutil
import subprocess
import tempfile

import tap

APP = pathlib.Path(__file__).resolve().parents[2] / 'app'
TOOLS = (
    'bash sh env id dirname basename readlink mkdir mktemp mv cp rm touch install date cat'.split()
)

LOG = 'echo "$(basename "$0") $*" >>"$LOG"\n'
PROGRAM = LOG + 'case $1 in plan) echo the plan;; fail) exit 1;; esac'
MESON = LOG + """
[ -z "${MESON_FAILS:-}" ] || { echo no cairo; exit 1; }
echo noise
mkdir -p "$2"; touch "$2/build.ninja"
"""
NINJA = LOG + """
[ -z "${NINJA_FAILS:-}" ] || { echo no cairo; exit 1; }
echo noise >&2
mkdir -p "$3/app"; cp "$STANDINS/.program" "$3/app/tenthgram"
"""
APT = LOG + """
[ -z "${APT_FAILS:-}" ] || exit 100
case $* in
    *install*) for t in gcc meson ninja; do cp "$STANDINS/.$t" "$STANDINS/$t"; done;;
esac
"""


class Machine:
    """A folder with the project in it, and a PATH with the programs that this machine has."""

    def __init__(self, folder, lacks=()):
        self.folder = pathlib.Path(folder)
        self.project = self.folder / 'a clone'
        self.home = self.folder / 'home'
        self.bin = self.folder / 'bin'
        self.log = self.folder / 'log'
        for path in (self.project / 'app', self.project / 'data', self.home, self.bin):
            path.mkdir(parents=True)
        for name in ('run', 'packages.sh'):
            shutil.copy(APP / name, self.project / 'app' / name)
        (self.project / 'data' / 'demo.tenthgram').write_text('as delivered')
        for name in TOOLS:
            (self.bin / name).symlink_to(shutil.which(name))
        self.add('.program', PROGRAM)
        for name, text in {
            'apt-get': APT, 'sudo': LOG + 'exec "$@"', 'meson': MESON, 'ninja': NINJA,
            'gcc': '', 'gio': '', 'pkg-config': '', 'dpkg-query': 'exit 1',
        }.items():
            self.add('.' + name, text)
            if name not in lacks:
                self.add(name, text)

    def add(self, name, text):
        (self.bin / name).write_text('#!/bin/sh\n' + text)
        (self.bin / name).chmod(0o755)

    def run(self, *args, cwd=None, **env):
        self.log.write_text('')
        return subprocess.run(
            [self.project / 'app' / 'run', *args],
            env={
                'PATH': str(self.bin), 'HOME': str(self.home), 'LOG': str(self.log),
                'STANDINS': str(self.bin), **env,
            },
            cwd=cwd or self.folder, capture_output=True, text=True, stdin=subprocess.DEVNULL,
        )

    def calls(self, name):
        """The arguments of each call of a program since the last run."""
        lines = (line.partition(' ') for line in self.log.read_text().splitlines())
        return [args for called, _, args in lines if called == name]

    @property
    def demo(self):
        return self.home / '.local' / 'share' / 'tenthgram' / 'demo.tenthgram'


def machine(**kwargs):
    """Decorates a case: it is given a machine of its own."""

    def decorate(case):
        def wrapped():
            with tempfile.TemporaryDirectory() as folder:
                case(Machine(folder, **kwargs))

        return wrapped

    return decorate


@machine()
def test_nothing_missing_means_no_apt_and_no_sudo(m):
    done = m.run('check', 'x')
    assert done.returncode == 0, done.stderr
    assert not m.calls('apt-get') and not m.calls('sudo')
    assert m.calls('tenthgram') == ['check x']


@machine()
def test_set_up_once_and_built_each_time(m):
    m.run('check', 'x')
    assert len(m.calls('meson')) == len(m.calls('ninja')) == 1
    m.run('check', 'x')
    assert (len(m.calls('meson')), len(m.calls('ninja'))) == (0, 1)


@machine()
def test_stdout_and_exit_status_are_the_programs(m):
    done = m.run('plan', 'x')
    assert (done.stdout, done.returncode) == ('the plan\n', 0), done
    assert 'noise' not in done.stderr, done.stderr
    assert m.run('fail').returncode == 1


@machine()
def test_the_demo_is_the_persons_own_and_survives(m):
    m.run(DISPLAY=':7')
    assert m.calls('tenthgram') == [str(m.demo)] and m.demo.read_text() == 'as delivered'
    m.demo.write_text('with work on it')
    m.run(WAYLAND_DISPLAY='wayland-0')
    assert m.calls('tenthgram') == [str(m.demo)] and m.demo.read_text() == 'with work on it'


@machine()
def test_a_fresh_demo_keeps_the_old_one(m):
    m.run(DISPLAY=':7')
    m.demo.write_text('with work on it')
    done = m.run('--fresh', DISPLAY=':7')
    assert done.returncode == 0 and m.demo.read_text() == 'as delivered'
    aside = [path for path in m.demo.parent.iterdir() if path != m.demo]
    assert [path.read_text() for path in aside] == ['with work on it']
    assert str(aside[0]) in done.stderr


@machine()
def test_fresh_stands_alone(m):
    done = m.run('--fresh', 'x')
    assert done.returncode == 2 and not m.calls('tenthgram')


@machine()
def test_data_home_is_heeded_if_absolute(m):
    m.run(DISPLAY=':7', XDG_DATA_HOME=str(m.folder / 'd'))
    assert m.calls('tenthgram') == [f'{m.folder}/d/tenthgram/demo.tenthgram']
    m.run(DISPLAY=':7', XDG_DATA_HOME='relative')
    assert m.calls('tenthgram') == [str(m.demo)]


@machine()
def test_no_place_for_the_demo(m):
    done = m.run(DISPLAY=':7', XDG_DATA_HOME=str(m.log))
    assert done.returncode == 1 and str(m.log) in done.stderr and not m.calls('tenthgram')


@machine()
def test_without_a_display(m):
    done = m.run()
    sheet = m.project / 'build' / 'demo-sheet.pdf'
    demo = m.project / 'data' / 'demo.tenthgram'
    assert m.calls('tenthgram') == [f'plan {demo}', f'sheet {demo} --output {sheet}']
    assert done.stdout == 'the plan\n' and str(sheet) in done.stderr


@machine(lacks=['gcc', 'meson', 'ninja'])
def test_only_the_missing_is_installed(m):
    done = m.run('check', 'x')
    assert done.returncode == 0, done.stderr
    install = [call for call in m.calls('apt-get') if ' install ' in call]
    assert len(install) == 1, install
    assert install[0].endswith('--no-install-recommends gcc meson ninja-build'), install
    assert m.calls('tenthgram') == ['check x']


@machine(lacks=['gcc', 'apt-get'])
def test_not_debian(m):
    done = m.run('check', 'x')
    assert done.returncode == 1 and 'gcc' in done.stderr and 'not Debian' in done.stderr
    assert not m.calls('ninja') and not m.calls('tenthgram')


@machine(lacks=['gcc', 'sudo'])
def test_ordinary_user_without_sudo(m):
    (m.bin / 'id').unlink()
    m.add('id', 'echo 1000')
    done = m.run('check', 'x')
    assert done.returncode == 1 and not m.calls('apt-get') and not m.calls('tenthgram')
    assert 'apt-get install --no-install-recommends gcc' in done.stderr, done.stderr


@machine(lacks=['gcc'])
def test_ordinary_user_with_sudo(m):
    (m.bin / 'id').unlink()
    m.add('id', 'echo 1000')
    done = m.run('check', 'x')
    assert done.returncode == 0, done.stderr
    assert len(m.calls('sudo')) == len(m.calls('apt-get')) == 2, m.log.read_text()


@machine(lacks=['gcc'])
def test_no_network(m):
    done = m.run('check', 'x', APT_FAILS='1')
    assert done.returncode == 1 and 'no network' in done.stderr and not m.calls('ninja')


@machine()
def test_old_gtk(m):
    m.add('pkg-config', 'case $* in "--exists gtk4"*) exit 1;; --modversion*) echo 4.6.9;; esac')
    m.add('dpkg-query', 'echo installed')
    done = m.run('check', 'x')
    assert done.returncode == 1 and '4.6.9' in done.stderr and not m.calls('ninja'), done.stderr


@machine()
def test_a_build_that_fails_starts_nothing(m):
    for fault in ('MESON_FAILS', 'NINJA_FAILS'):
        done = m.run('check', 'x', **{fault: '1'})
        assert done.returncode == 1 and 'reason stands above' in done.stderr
        assert 'no cairo' in done.stderr, done.stderr
        assert not m.calls('tenthgram')


tap.run(globals())
