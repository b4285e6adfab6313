"""A small TAP writer for test programs in Python: every function named test_* is one case.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import sys
import traceback


class Skip(Exception):
    """Raised by a case that this machine cannot decide; the text says why."""


def run(names):
    """Runs the test_* functions of a module (pass globals()); leaves with 1 if one failed."""
    cases = [(n, f) for n, f in names.items() if n.startswith('test_') and callable(f)]
    failed = 0
    print(f'1..{len(cases)}', flush=True)
    for number, (name, case) in enumerate(cases, 1):
        try:
            case()
            print(f'ok {number} {name}', flush=True)
        except Skip as why:
            print(f'ok {number} {name} # SKIP {why}', flush=True)
        except Exception:  # any fault fails this case alone
            failed += 1
            print(f'not ok {number} {name}')
            print('# ' + traceback.format_exc().strip().replace('\n', '\n# '), flush=True)
    sys.exit(1 if failed or not cases else 0)
