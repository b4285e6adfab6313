#!/usr/bin/python3
"""The command line without a display: what it prints, what it writes, how it leaves.

Called with the program. DISPLAY and WAYLAND_DISPLAY are taken away first.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import csv
import io
import math
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from command_line import (DEMO, KINDS, PAIRING, PLAIN, PROGRAM, ROOT, done, refused,  # noqa: E402
                          run, side_by_side, table)


def test_check():
    text = done('check', DEMO)
    assert 'Orchard tractor' in text and 'too light' in text and 'choice:' in text


def test_plan():
    text = done('plan', DEMO)
    assert 'Rod 3' in text and 'target' in text


def test_plan_csv_has_every_part():
    rows = list(csv.DictReader(io.StringIO(done('plan', DEMO, '--csv'), newline='')))
    names = {row['name'] for row in rows if row['row'] == 'part'}
    assert names == {f'{kind} {n}' for kind in ('Rod', 'Piston') for n in (1, 2, 3)}, names
    assert all(None not in row and None not in row.values() for row in rows)


def test_locale_plays_no_part():
    for words in (('plan', DEMO, '--csv'), ('export', DEMO, 'readings')):
        assert done(*words) == done(*words, LC_ALL='de_DE.UTF-8')


def test_match():
    text = done('match', PAIRING)
    assert 'Pairing of pistons, pins, ring packs and clip pairs, 8 bores' in text, text
    assert 'Today: 13.2 g off 7 of 8 sets.' in text, text
    assert 'Found: 1.1 g off 2 of 8 sets.' in text and 'Proven: no pairing takes less' in text, text
    assert all(f'Bore {bore}: ' in text for bore in range(1, 9)), text
    assert 'Crankpins of two rods differ by' in text and 'Bores 7 and 8: ' in text, text


def test_match_adds_up():
    rows = table('match', PAIRING, '--csv')
    whole = [row for row in rows if row['row'] == 'pairing']
    sets = [row for row in rows if row['row'] == 'set']
    parts = [row for row in rows if row['row'] == 'part']
    assert len(whole) == 1 and whole[0]['status'] == 'optimal', whole
    assert [row['bore'] for row in sets] == [str(bore) for bore in range(1, 9)]
    assert len({row['part'] for row in parts}) == len(parts) == 32
    off = 0
    for row in sets:
        own = [float(part['weight_g']) for part in parts if part['bore'] == row['bore']]
        assert abs(sum(own) - float(row['weight_g'])) < 1e-6, row
        off += float(row['off_g'])
    assert abs(off - float(whole[0]['off_g'])) < 1e-6
    # what the lightest set and the tolerance of 0.2 g leave, reckoned anew
    weights = [float(row['weight_g']) for row in sets]
    floor = min(weights)
    assert abs(sum(max(0, weight - floor - 0.2) for weight in weights) - off) < 1e-6
    assert float(whole[0]['today_off_g']) > off
    assert abs(float(whole[0]['bound_g']) - off) < 1e-6


def test_match_nothing():
    text = done('match', DEMO)
    assert 'There is nothing to pair' in text, text
    assert table('match', DEMO, '--csv') == []


def test_the_job_is_left_alone():
    before = DEMO.read_bytes(), DEMO.stat().st_mtime_ns
    for words in (('check', DEMO), ('plan', DEMO), ('export', DEMO, 'journal')):
        done(*words)
    assert before == (DEMO.read_bytes(), DEMO.stat().st_mtime_ns)


def test_bad_jobs_get_one_line():
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        bad = folder / 'bad.tenthgram'
        bad.write_text('<job xmlns="urn:tenthgram:job" version="1"><nonsense/></job>')
        for job in (bad, folder / 'missing.tenthgram', folder):
            lines = refused(1, 'check', job)
            assert len(lines) == 1 and lines[0].startswith('tenthgram: '), lines
        assert 'bad.tenthgram:1' in refused(1, 'plan', bad)[0]


def test_every_invalid_file_gets_one_line():
    def check(job):
        before = job.read_bytes(), job.stat().st_mtime_ns
        lines = refused(1, 'check', job)
        assert len(lines) == 1 and lines[0].startswith(f'tenthgram: {job.name}:'), (job.name, lines)
        assert 20 < len(lines[0]) < 400, lines
        assert before == (job.read_bytes(), job.stat().st_mtime_ns), job.name

    files = sorted((ROOT / 'tests' / 'data' / 'invalid').glob('*.tenthgram'))
    assert len(files) > 100
    side_by_side(check, files)


def test_what_is_no_file():
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        os.mkfifo(folder / 'pipe')
        large = folder / 'large.tenthgram'
        with large.open('wb') as out:
            out.truncate(100 << 20)
        (folder / 'dangling').symlink_to(folder / 'nowhere')
        (folder / 'circle').symlink_to(folder / 'circle')
        letters = folder / 'letters.tenthgram'
        letters.write_bytes(b'a' * (60 << 20))
        for job in ('/dev/zero', '/dev/null', '/dev/full', '/proc/self/mem', folder / 'pipe', large,
                    letters, folder / 'dangling', folder / 'circle', folder / ('x' * 5000), '', '/',
                    b'\xff\xfe\n.tenthgram'):
            start = time.monotonic()
            result = subprocess.run([PROGRAM, 'check', job], env=PLAIN, capture_output=True,
                                    timeout=60)
            assert result.returncode == 1 and not result.stdout, (job, result)
            assert result.stderr.count(b'\n') == 1, (job, result.stderr)
            result.stderr.decode()  # whatever the name was, the line can be read
            assert time.monotonic() - start < 20, job


def test_a_file_that_may_not_be_read():
    with tempfile.TemporaryDirectory() as folder:
        job = pathlib.Path(folder) / 'mine.tenthgram'
        job.write_bytes(DEMO.read_bytes())
        pathlib.Path(folder).chmod(0o755)
        job.chmod(0)
        nobody = {'user': 65534, 'group': 65534, 'extra_groups': []} if os.getuid() == 0 else {}
        result = subprocess.run([PROGRAM, 'check', job], env=PLAIN, capture_output=True, text=True,
                                timeout=60, **nobody)
        assert result.returncode == 1 and not result.stdout, result
        assert result.stderr == 'tenthgram: mine.tenthgram: Permission denied\n', result.stderr


def rows_of(text):
    return list(csv.DictReader(io.StringIO(text, newline='')))


def copy_of_demo(folder):
    job = pathlib.Path(folder) / 'job.tenthgram'
    job.write_bytes(DEMO.read_bytes())
    return job


def test_export():
    readings, journal = (rows_of(done('export', DEMO, what)) for what in ('readings', 'journal'))
    kinds = [row['kind'] for row in journal]
    assert kinds.count('weighing') == len(readings) > 20
    assert 'Rod 3, small end, mark up: 264.9 g' in [row['entry'] for row in journal]
    assert [row['reading g'] for row in readings if row['struck'] == 'yes'] == ['264.9']
    assert done('export', DEMO, 'plan') == done('plan', DEMO, '--csv')
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder) / 'out.csv'
        for what in ('readings', 'plan', 'journal'):
            assert done('export', DEMO, what, '--output', out) == ''
            raw = subprocess.run([PROGRAM, 'export', DEMO, what], env=PLAIN, capture_output=True)
            assert out.read_bytes() == raw.stdout
        refused(1, 'export', DEMO, 'plan', '--output', pathlib.Path(folder) / 'no' / 'out.csv')
        assert refused(1, 'export', folder, 'plan')[0].startswith('tenthgram: ')
        assert list(pathlib.Path(folder).iterdir()) == [out]


TABLE = 'rod;small up;small down\r\n1;247,6;247,5\r\n2;246,3;\r\nRod 9;1;2\r\n'
LEFT_OUT = 'Line 4, column 1 (rod): “Rod 9” is no part of this job'


def test_import():
    with tempfile.TemporaryDirectory() as folder:
        job = copy_of_demo(folder)
        table = pathlib.Path(folder) / 'spring.csv'
        table.write_bytes(b'\xef\xbb\xbf' + TABLE.encode())
        before = job.read_bytes()
        n = len(rows_of(done('export', job, 'readings')))

        text = done('import', job, table, '--dry-run')
        assert 'semicolons, decimal comma, with headings' in text
        assert 'line 2, 2 new: Rod 1, small end, mark up: 247.6 g; small end, mark down: 247.5 g' in text
        assert 'line 3, new: Rod 2, small end, mark up: 246.3 g' in text
        assert LEFT_OUT in text
        assert text.endswith('3 new readings, 1 row cannot be read\ntaken over: nothing\n')
        assert job.read_bytes() == before

        text = done('import', job, table)
        assert LEFT_OUT in text and 'line 2' not in text
        assert text.endswith('\ntaken over: 3 readings\n')
        rows = rows_of(done('export', job, 'readings'))
        assert [row['reading g'] for row in rows[n:]] == ['247.6', '247.5', '246.3']
        assert all(row['time'] > '2026-03-07' and row['who'] for row in rows[n:])

        after = job.read_bytes()  # the same again, from another folder and written otherwise
        other = pathlib.Path(folder) / 'other'
        other.mkdir()
        (other / 'spring.csv').write_text(TABLE.replace(',', '.').replace(';', '\t'))
        for again in (table, other / 'spring.csv'):
            text = done('import', job, again)
            assert text.endswith('nothing new, 3 known already, 1 row cannot be read\n'
                                 'taken over: nothing\n'), text
            assert job.read_bytes() == after


def test_import_refused():
    with tempfile.TemporaryDirectory() as folder:
        job = copy_of_demo(folder)
        before = job.read_bytes(), job.stat().st_mtime_ns
        table = pathlib.Path(folder) / 'table.csv'
        for text, words in ((b'', 'nothing in the table'), (b'hello\n', 'no column'),
                            (b'piston,g\n1,heavy\n', 'Line 2, column 2 (g): “heavy”'),
                            (b'piston,g\n"1,5\n', 'line 2'), (b'\xff\xfe', 'UTF-8')):
            table.write_bytes(text)
            lines = refused(1, 'import', job, table)
            assert len(lines) == 1 and words in lines[0], lines
        os.mkfifo(pathlib.Path(folder) / 'pipe')
        large = pathlib.Path(folder) / 'large.csv'
        with large.open('wb') as out:
            out.truncate(9 << 20)
        for other in (folder, '/dev/zero', pathlib.Path(folder) / 'pipe', large, 'nowhere.csv'):
            lines = refused(1, 'import', job, other)
            assert len(lines) == 1 and lines[0].startswith('tenthgram: '), lines
        table.write_text('piston,g\n1,heavy\n')
        result = run('import', job, table, '--dry-run')
        assert result.returncode == 1 and 'cannot be read: Line 2' in result.stdout, result
        table.write_text('piston,g\n1,684.6\n')
        assert 'nowhere' in refused(1, 'import', 'nowhere.tenthgram', table)[0]
        assert (job.read_bytes(), job.stat().st_mtime_ns) == before


def test_nowhere_to_print():
    with open('/dev/full', 'w') as full:
        for words in (('check', DEMO), ('plan', DEMO, '--csv')):
            result = subprocess.run([PROGRAM, *map(str, words)], env=PLAIN, stdout=full,
                                    stderr=subprocess.PIPE, text=True, timeout=60)
            assert result.returncode == 1, result
            assert result.stderr.count('\n') == 1, result.stderr


def test_wrong_usage():
    for words in (
        ('check',), ('check', DEMO, DEMO), ('plan', DEMO, '--xml'), ('sheet', DEMO),
        ('sheet', DEMO, '--output'), ('sheet', DEMO, '--output', 'x.pdf', '--paper', 'a5'),
        ('--nonsense',), ('check', DEMO, '--csv'), ('export', DEMO), ('export', DEMO, 'weights'),
        ('export', DEMO, 'plan', '--output'), ('export', DEMO, 'plan', '--dry-run'), ('import',),
        ('import', DEMO), ('import', DEMO, DEMO, DEMO), ('import', DEMO, DEMO, '--output', 'x'),
    ):
        lines = refused(2, *words)
        assert lines[0].startswith('tenthgram: '), lines


def test_prove():
    text = done('prove', PAIRING)
    for part in ('V8, cross-plane', 'the differences', 'Crankpin 4, bores 7 and 8',
                 'ISO 21940-11', 'The maker’s manual comes first'):
        assert part in text, part


def test_prove_csv():
    """A pair by hand: Δm r ω² (1 + λ); everything four times as large at twice the speed; and the
    permissible unbalance of ISO 21940-11, 9549.3 G m / n."""
    stroke, rpm, kg = (float(re.search(f'<{word} value="([0-9.]+)"', PAIRING.read_text()).group(1))
                       for word in ('stroke', 'speed', 'crank-mass'))
    rod = float(re.search(r'centres="([0-9.]+)"', PAIRING.read_text()).group(1))
    rows = table('prove', PAIRING, '--csv')
    fast = table('prove', PAIRING, '--csv', '--speed', str(2 * rpm))
    masses = [float(r['value']) for r in rows if (r['row'], r['stage'], r['what']) ==
              ('mass', 'now', 'reciprocating')]
    assert len(masses) == 8

    def value(table, **which):
        found = [r for r in table if all(r[k] == v for k, v in which.items())]
        assert len(found) == 1, which
        return float(found[0]['value'])

    pair = dict(row='pair', stage='now', what='reciprocating')
    omega = rpm * math.pi / 30
    by_hand = (max(masses) - min(masses)) / 1e6 * stroke / 2 * omega ** 2 * (1 + stroke / 2 / rod)
    assert abs(value(rows, **pair) - by_hand) < 1e-3
    for which in (pair, dict(row='load', stage='now', what='couple', share='whole', order='1'),
                  dict(row='load', stage='then', what='force', share='differences', order='all')):
        assert abs(value(fast, **which) - 4 * value(rows, **which)) < 1e-4
    room = value(rows, row='unbalance', stage='now', what='permissible')
    assert abs(room - 9549.2966 * 16 * kg / rpm) < 0.01
    assert [r for r in rows if r['row'] == 'enough'] and [r for r in rows if r['row'] == 'bobweight']


def test_prove_without_engine():
    """Without the crank drive what is missing is named, and the bobweights stand all the same."""
    bare = re.sub(r'<crank-drive>.*?</crank-drive>', '', PAIRING.read_text(), flags=re.S)
    with tempfile.TemporaryDirectory() as directory:
        path = pathlib.Path(directory) / 'bare.tenthgram'
        path.write_text(bare)
        text = done('prove', path)
        rows = table('prove', path, '--csv')
    assert 'The stroke has not been said.' in text and 'bobweight' in text
    assert not [r for r in rows if r['row'] == 'load'] and [r for r in rows if r['row'] == 'mass']


def test_speed():
    for words in (['--speed'], ['--speed', '0'], ['--speed', 'fast'], ['--speed', '60000']):
        refused(2, 'prove', DEMO, *words)
    refused(2, 'plan', DEMO, '--speed', '6000')


def test_seconds():
    for words in (['--seconds'], ['--seconds', '0'], ['--seconds', 'two'], ['--seconds', '9999']):
        refused(2, 'match', DEMO, *words)
    refused(2, 'plan', DEMO, '--seconds', '1')
    assert 'Found: ' in done('match', PAIRING, '--seconds', '0.5')


def practice_job(folder, name):
    """The parts of the demo on a bench of seed "tests", with one reading of rod 1."""
    text = DEMO.read_text()
    text = re.sub('<setup name="[^"]*"', f'<setup name="Practice of {name}"', text)
    text = text.replace('<scale ', '<practice seed="tests"><spread value="1"/></practice>\n    <scale ', 1)
    reading = ('<weighing id="a" at="2026-03-03T19:13:40+01:00" who="Nora" part="rod-1" '
               'figure="small-end" way="mark-up" mass="247.6" practice="yes"/>')
    text = re.sub('<journal>.*</journal>', f'<journal>{reading}</journal>', text, flags=re.S)
    path = pathlib.Path(folder) / f'{name}.tenthgram'
    path.write_text(text)
    return path


def test_debrief():
    """A job with real parts has none; a practice job that has just begun is not done yet."""
    lines = refused(1, 'debrief', DEMO)
    assert len(lines) == 1 and 'real parts' in lines[0], lines
    with tempfile.TemporaryDirectory() as folder:
        job = practice_job(folder, 'one')
        text = done('debrief', job)
        assert 'not done yet' in text and 'Spread of the' in text, text
        rows = table('debrief', job, '--csv')
        assert {'set', 'metal'} <= {row['topic'] for row in rows}
        assert all(row['verdict'] in ('good', 'fair', 'poor') for row in rows)


def test_class():
    with tempfile.TemporaryDirectory() as folder:
        for name in ('one', 'two'):
            practice_job(folder, name)
        shutil.copy(DEMO, folder)
        text = done('class', folder)
        assert 'comparable: one.tenthgram and two.tenthgram' in text, text
        assert 'demo.tenthgram: a job with real parts' in text
        rows = table('class', folder, '--csv')
        assert [row['file'] for row in rows] == ['demo.tenthgram', 'one.tenthgram', 'two.tenthgram']
        assert [row['comparable'] for row in rows] == ['', 'yes', 'yes']
        assert refused(1, 'class', pathlib.Path(folder) / 'nowhere')
    assert refused(2, 'class') and refused(2, 'debrief')


def test_help_and_version():
    text = done('--help')
    for word in ('check', 'plan', 'match', 'prove', 'sheet', 'export', 'import', '--csv', '--output',
                 '--dry-run', '--speed N', '--seconds N', '--paper a4|letter',
                 '[grind|weigh|proof|bobweight|build]'):
        assert word in text, word


def test_the_man_page_tells_all_that_help_tells():
    page = re.sub(r'\\([-(]?)', r'\1', (ROOT / 'data' / 'tenthgram.1').read_text())
    synopsis = page.partition('.SH SYNOPSIS')[2].partition('.SH DESCRIPTION')[0]
    commands = page.partition('.SH COMMANDS')[2].partition('.SH OPTIONS')[0]
    options = page.partition('.SH OPTIONS')[2].partition('.SH EXIT')[0]
    for line in done('--help').splitlines()[2:-1]:
        word = line.split()[1]
        assert f'.B tenthgram {word}\n' in synopsis, word
        assert re.search(rf'^\.BI "?{word} ', commands, re.M), word
        for option in re.findall(r'--[a-z-]+', line):
            assert option in synopsis.partition(f'tenthgram {word}\n')[2].partition('.B tenthgram')[0], line
            assert re.search(rf'^\.BI? {option}\b', options, re.M), option
    for kind in KINDS:
        assert re.search(rf'^\.B {kind}$', commands, re.M), kind
    assert done('--version').split()[0] == 'tenthgram'


tap.run(globals())
