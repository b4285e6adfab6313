#!/usr/bin/python3
"""Does with-display give each program a display of its own, and leave nothing behind?

SPDX-License-Identifier: GPL-3.0-or-later
"""

import os
import pathlib
import signal
import subprocess
import tempfile
import time

import tap

TOOL = pathlib.Path(__file__).with_name('with-display')


def start(*args, **env):
    return subprocess.Popen(
        [TOOL, *args],
        env={**os.environ, **env},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )


def test_exit_status():
    process = start('sh', '-c', 'exit 7')
    process.communicate(timeout=60)
    assert process.returncode == 7, process.returncode


def test_display_answers_and_stdout_is_the_programs():
    process = start('sh', '-c', 'xprop -root >/dev/null && echo answered')
    out, err = process.communicate(timeout=60)
    assert (out, process.returncode) == ('answered\n', 0), out + err


def test_several_at_once_are_apart():
    # each waits until all have looked, so that all are there at the same time
    with tempfile.TemporaryDirectory() as folder:
        look = (
            f'echo "$DISPLAY $XDG_DATA_HOME $DBUS_SESSION_BUS_ADDRESS"; touch {folder}/$$;'
            f'for i in $(seq 300); do [ $(ls {folder} | wc -l) -ge 4 ] && exit 0; sleep 0.1; done;'
            'exit 1'
        )
        processes = [start('sh', '-c', look) for _ in range(4)]
        outputs = [process.communicate(timeout=120)[0].split() for process in processes]
        assert [process.returncode for process in processes] == [0] * 4
    for column in zip(*outputs, strict=True):
        assert len(set(column)) == 4, column


def test_window_manager_is_up_before_the_program():
    process = start('--wm', 'openbox', 'xprop', '-root', '_NET_SUPPORTING_WM_CHECK')
    out, err = process.communicate(timeout=60)
    assert '0x' in out, out + err


def test_the_persons_own_things_are_out_of_reach():
    process = start(
        'sh', '-c', 'echo "[$GTK_THEME][$WAYLAND_DISPLAY]$XDG_DATA_HOME"', GTK_THEME='x',
        WAYLAND_DISPLAY='y', XDG_DATA_HOME='/mine',
    )
    out, _ = process.communicate(timeout=60)
    assert out.startswith('[][]/') and '/mine' not in out, out


def test_nothing_is_left():
    with tempfile.TemporaryDirectory() as folder:
        show = 'echo $DISPLAY; sleep 60'
        process = start('sh', '-c', show, TMPDIR=folder)
        display = process.stdout.readline().strip()
        assert display, process.stderr.read()
        assert os.listdir(folder), 'the folders of the session should be there while it runs'
        # as meson ends a test that takes too long: the whole group, which is its own here
        os.killpg(process.pid, signal.SIGTERM)
        process.wait(timeout=30)
        deadline = time.monotonic() + 20
        while os.listdir(folder) and time.monotonic() < deadline:
            time.sleep(0.1)
        assert not os.listdir(folder), os.listdir(folder)
        alive = subprocess.run(
            ['xprop', '-display', display, '-root'], capture_output=True, check=False
        )
        assert alive.returncode != 0, f'{display} still answers'


def test_wrong_use():
    process = start()
    _, err = process.communicate(timeout=60)
    assert process.returncode == 97 and 'usage' in err, err


tap.run(globals())
