"""Hands at a window and at a scale on a cable: connect, learn, weigh. Called with the program.

The rods and their weights are invented.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import contextlib
import os
import pathlib
import sys
import tempfile

from bench import events
from driver import Window, name_of, text_of
from scale_simulator import Simulator

PROGRAM = sys.argv[1]
TITLE = 'Orchard tractor'
HERE = pathlib.Path(__file__).resolve().parent
DEMO = (HERE.parents[1] / 'data' / 'demo.tenthgram').read_text(encoding='utf-8')


@contextlib.contextmanager
def shop(form, config=None, link=None, **more):
    """The demo's three cylinders with nothing weighed yet, and a scale that is plugged in."""
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        os.environ['XDG_CONFIG_HOME'] = str(config or folder / 'config')
        path = folder / 'job.tenthgram'
        path.write_text(DEMO.partition('<journal>')[0] + '<journal/>\n</job>\n', encoding='utf-8')
        with Simulator(link or folder / 'scale', form, **more) as scale:
            window = Window(PROGRAM, path, title=TITLE)
            try:
                yield window, scale, path
            finally:
                window.kill()


def connect(window, scale):
    window.key('alt+2')
    window.page('Scale')
    window.tab_to('Port')
    window.key('space', 'End', 'Return')  # Another port…
    window.tab_to('Path of the port')
    window.key('ctrl+a')
    window.type(str(scale.link))
    window.key('Return')
    window.wait(lambda: window.shown('The scale is connected, but its lines are not'), 'connected')


def at_rest(window, scale, mass_mg):
    """Lays something on and waits until the display has stood for a while."""
    scale.lay(mass_mg)
    window.wait(lambda: scale.rested > 10, 'a line at rest')


def learn(window, scale):
    """Two loads at rest and one that moves, while the line is quiet."""
    garbage, scale.garbage = scale.garbage, 0
    for n, mass_mg in ((1, 123_400), (2, 1_034_200)):
        at_rest(window, scale, mass_mg)
        window.tab_to('Line at rest')
        window.key('Return')
        window.wait(lambda: (f := window.focused_text()) and f'sample {n}' in name_of(f),
                    f'the field of sample {n}')
        window.type(f'{mass_mg / 1000:.1f}')
    scale.move()
    window.wait(lambda: scale.settling == 0, 'a moving load')
    window.tab_to('Line while moving')
    window.key('Return')
    window.wait(lambda: window.shown('Sample 3, moving'), 'the third sample')
    scale.move(False)
    scale.clear()
    window.tab_to('Learn from the samples')
    window.key('Return')
    window.wait(lambda: window.shown('Learned.'), 'what was learned')
    scale.garbage = garbage


def ready(window):
    window.wait(lambda: window.shown('Scale: 0.0'), 'the empty scale')


def weigh(window, scale, path, mass_mg):
    """On, read, off: nothing is pressed."""
    before = len(events(path))
    scale.lay(mass_mg)
    window.wait(lambda: len(events(path)) == before + 1, f'{mass_mg} mg on disk')
    scale.clear()
    ready(window)
    event = events(path)[-1]
    assert event.get('mass') == f'{mass_mg / 1000:g}', event.attrib
    assert event.get('sent') == 'yes' and event.get('kept') is None, event.attrib


def weigh_by_hand(window, path, mass_mg):
    before = len(events(path))
    window.type(f'{mass_mg / 1000:.1f}'.replace('.', ','))
    window.key('Return')
    window.wait(lambda: len(events(path)) == before + 1, f'{mass_mg} mg on disk')
    event = events(path)[-1]
    assert event.get('mass') == f'{mass_mg / 1000:g}', event.attrib
    assert event.get('sent') is None and event.get('kept') is None, event.attrib


def look_at_zero(window, path):
    """What the empty scale sends stands in the field; Enter takes it."""
    before = len(events(path))
    window.key('ctrl+0')
    window.wait(lambda: (f := window.focused_text()) and text_of(f) == '0.0', 'the zero in the field')
    window.key('Return')
    window.wait(lambda: len(events(path)) == before + 1, 'the zero on disk')
    event = events(path)[-1]
    assert event.tag.endswith('}zero') and event.get('sent') == 'yes', event.attrib


def look_at_check_weight(window, scale, path, mass_mg):
    before = len(events(path))
    window.key('ctrl+9')
    scale.lay(mass_mg)
    window.wait(lambda: len(events(path)) == before + 1, 'the check weight on disk')
    event = events(path)[-1]
    assert event.tag.endswith('}check-weight') and event.get('sent') == 'yes', event.attrib
    scale.clear()
    ready(window)
