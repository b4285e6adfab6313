#!/usr/bin/python3
"""The command line without a display: what it prints, what it writes, how it leaves.

Called with the program. DISPLAY and WAYLAND_DISPLAY are taken away first.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import csv
import io
import os
import pathlib
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / 'tools'))
import tap  # noqa: E402

ROOT = pathlib.Path(__file__).resolve().parents[2]
DEMO = ROOT / 'data' / 'demo.tenthgram'
PROGRAM = sys.argv[1]
PLAIN = {k: v for k, v in os.environ.items() if k not in ('DISPLAY', 'WAYLAND_DISPLAY')}


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


def refused(status, *words):
    """Leaves with this status; nothing on stdout. Gives stderr's lines."""
    result = run(*words)
    assert result.returncode == status, (result.returncode, result.stderr)
    assert not result.stdout
    return result.stderr.splitlines()


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
    assert done('plan', DEMO, '--csv') == done('plan', DEMO, '--csv', LC_ALL='de_DE.UTF-8')


def test_the_job_is_left_alone():
    before = DEMO.read_bytes(), DEMO.stat().st_mtime_ns
    for words in (('check', DEMO), ('plan', DEMO)):
        done(*words)
    assert before == (DEMO.read_bytes(), DEMO.stat().st_mtime_ns)


def test_sheets():
    magic = {'pdf': b'%PDF-', 'svg': b'<?xml', 'png': b'\x89PNG'}
    with tempfile.TemporaryDirectory() as folder:
        for ending, start in magic.items():
            out = pathlib.Path(folder) / f'sheet.{ending}'
            done('sheet', DEMO, '--output', out)
            first = out.read_bytes()
            assert first.startswith(start), ending
            done('sheet', DEMO, '--output', out)
            assert out.read_bytes() == first, f'{ending} differs between two runs'
        sizes = []
        for paper in ('a4', 'letter'):
            out = pathlib.Path(folder) / f'{paper}.pdf'
            done('sheet', DEMO, '--output', out, '--paper', paper)
            info = subprocess.run(['pdfinfo', out], capture_output=True, text=True, check=True)
            sizes.append(next(l for l in info.stdout.splitlines() if l.startswith('Page size')))
        # ISO 216 A4 is 210 × 297 mm, Letter 8.5 × 11 in
        assert '595' in sizes[0] and '841' in sizes[0] and '612' in sizes[1] and '792' in sizes[1]


def test_sheet_text_is_the_plan():
    rows = list(csv.DictReader(io.StringIO(done('plan', DEMO, '--csv'), newline='')))
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder) / 'sheet.pdf'
        done('sheet', DEMO, '--output', out)
        text = subprocess.run(
            ['pdftotext', '-layout', out, '-'], capture_output=True, text=True, check=True
        ).stdout
    for row in rows:
        if row['row'] == 'part':
            assert row['name'] in text, row['name']
        if row['row'] == 'zone' and float(row['grams_g']) > 0:
            grams = float(row['grams_g'])
            assert any(f'{grams:.{d}f}' in text or f'{grams / 2:.{d}f}' in text for d in (1, 2)), row


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
    files = sorted((ROOT / 'tests' / 'data' / 'invalid').glob('*.tenthgram'))
    assert len(files) > 100
    for job in files:
        before = job.read_bytes(), job.stat().st_mtime_ns
        lines = refused(1, 'check', job)
        assert len(lines) == 1 and lines[0].startswith(f'tenthgram: {job.name}:'), (job.name, lines)
        assert 20 < len(lines[0]) < 400, lines
        assert before == (job.read_bytes(), job.stat().st_mtime_ns), job.name


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


def test_nowhere_to_print():
    with open('/dev/full', 'w') as full:
        for words in (('check', DEMO), ('plan', DEMO, '--csv')):
            result = subprocess.run([PROGRAM, *map(str, words)], env=PLAIN, stdout=full,
                                    stderr=subprocess.PIPE, text=True, timeout=60)
            assert result.returncode == 1, result
            assert result.stderr.count('\n') == 1, result.stderr


def test_a_sheet_that_cannot_be_written():
    with tempfile.TemporaryDirectory() as folder:
        lines = refused(1, 'sheet', DEMO, '--output', pathlib.Path(folder) / 'no' / 'sheet.pdf')
        assert len(lines) == 1, lines
        lines = refused(1, 'sheet', DEMO, '--output', pathlib.Path(folder) / 'sheet.doc')
        assert len(lines) == 1 and '.pdf' in lines[0], lines
        assert not list(pathlib.Path(folder).iterdir())


def test_wrong_usage():
    for words in (
        ('check',), ('check', DEMO, DEMO), ('plan', DEMO, '--xml'), ('sheet', DEMO),
        ('sheet', DEMO, '--output'), ('sheet', DEMO, '--output', 'x.pdf', '--paper', 'a5'),
        ('--nonsense',), ('check', DEMO, '--csv'),
    ):
        lines = refused(2, *words)
        assert lines[0].startswith('tenthgram: '), lines


def test_help_and_version():
    text = done('--help')
    for word in ('check', 'plan', 'sheet', '--csv', '--output'):
        assert word in text
    assert done('--version').split()[0] == 'tenthgram'


tap.run(globals())
