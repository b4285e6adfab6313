#!/usr/bin/python3
"""Counts what the tests of one or more build folders said.

Usage: summary.py BUILD...

Reads what meson wrote: the list of tests (meson-info/intro-tests.json) and the log of the last run
(meson-logs/testlog.json). Each TAP line counts, a program without TAP counts as one. A program that
crashed, hung, ended with an error or lost its plan counts at least one failure, and so does every
planned case that never ran; a test that is listed and not in the log is a failure as well. Tests
are told apart by their names, which are unique in a build.

The last line is 'N passed, N failed', with ', N skipped' when some were. The exit status is 0 only
if something passed and nothing failed. (The JUnit file that meson writes is not used: a crash or a
time-out shows there as the passing cases alone.)

SPDX-License-Identifier: GPL-3.0-or-later
"""

import json
import pathlib
import re
import sys

# Test Anything Protocol, version 13: 'ok 1 /a/b', 'not ok 2 - text # TODO why', '1..7'
RESULT = re.compile(r'^(not )?ok\b[^#\n]*(?:#\s*(skip|todo)\b)?', re.IGNORECASE)
PLAN = re.compile(r'^1\.\.(\d+)\b')
GOOD = ('OK', 'EXPECTEDFAIL', 'SKIP')


def count_test(entry, is_tap):
    """Gives (passed, failed, skipped, what failed or was skipped) of one line of the log."""
    passed = 0
    planned = None
    failures = []
    skips = []
    for line in (entry.get('stdout') or '').splitlines() if is_tap else []:
        if plan := PLAN.match(line):
            planned = int(plan[1])
        elif result := RESULT.match(line):
            if result[2]:
                skips.append(line)
            elif result[1]:
                failures.append(line)
            else:
                passed += 1
    skipped = len(skips)
    seen = passed + skipped + len(failures)
    failed = len(failures)
    if entry['result'] not in GOOD:
        failed = max(failed + max((planned or 0) - seen, 0), 1)
        failures.append(f'{entry["result"].lower()}, exit status {entry.get("returncode")}')
    elif is_tap and planned is None:  # meson lets these pass
        failed += 1
        failures.append('no plan: it did not say how many cases it has')
    elif entry['result'] == 'SKIP' and not seen:
        skipped = 1
    elif not is_tap:
        passed = 1
    return passed, failed, skipped, failures + skips


def read_lines(path):
    try:
        with open(path, encoding='utf-8') as file:
            return [json.loads(line) for line in file]
    except FileNotFoundError:
        return []


def read_listed(build):
    """The protocol of every test that the build has, by name; None if it was never set up."""
    try:
        with open(build / 'meson-info' / 'intro-tests.json', encoding='utf-8') as file:
            return {test['name']: test['protocol'] for test in json.load(file)}
    except FileNotFoundError:
        return None


def count_build(build):
    passed = failed = skipped = 0
    listed = read_listed(build)
    if not listed:
        print(f'{build.name}: no tests were built')
        return 0, 1, 0
    lost = set(listed)
    for entry in read_lines(build / 'meson-logs' / 'testlog.json'):
        name = entry['name'].split(' / ')[-1]  # 'suite / name'
        lost.discard(name)
        p, f, s, remarks = count_test(entry, listed.get(name) == 'tap')
        passed, failed, skipped = passed + p, failed + f, skipped + s
        for text in remarks:
            print(f'{build.name}: {entry["name"]}: {text}')
    if lost:
        print(f'{build.name}: {len(lost)} tests never ran: {", ".join(sorted(lost))}')
    return passed, failed + len(lost), skipped


def main(builds):
    counts = [count_build(pathlib.Path(build)) for build in builds]
    passed, failed, skipped = (sum(column) for column in zip(*counts, strict=True))
    print(f'{passed} passed, {failed} failed' + (f', {skipped} skipped' if skipped else ''))
    return 0 if passed and not failed else 1


if __name__ == '__main__':
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1:]))
