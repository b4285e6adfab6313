#!/usr/bin/python3
"""A scale on a cable, from the first line to the small ends of a set, by the keyboard alone.

Called with the program, inside a display. The scale is simulated at the other end of a
pseudo-terminal; the rods and their weights are invented.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import contextlib
import os
import pathlib
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from bench import events, table  # noqa: E402
from driver import Window, name_of, text_of  # noqa: E402
from scale_simulator import Simulator  # noqa: E402

PROGRAM = sys.argv[1]
TITLE = 'Orchard tractor'
DEMO = (HERE.parents[1] / 'data' / 'demo.tenthgram').read_text(encoding='utf-8')
# small ends, mark up and mark down
SMALL_ENDS = [247_600, 247_700, 246_300, 246_300, 248_000, 247_900]


@contextlib.contextmanager
def shop(form, **more):
    """The demo's three cylinders with nothing weighed yet, and a scale that is plugged in."""
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        os.environ['XDG_CONFIG_HOME'] = str(folder / 'config')
        path = folder / 'job.tenthgram'
        path.write_text(DEMO.partition('<journal>')[0] + '<journal/>\n</job>\n', encoding='utf-8')
        with Simulator(folder / 'scale', form, **more) as scale:
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


def test_small_ends_with_one_typed_between():
    with shop('counted', garbage=0.1) as (window, scale, path):
        connect(window, scale)
        learn(window, scale)
        assert not events(path)  # nothing that lay on the scale so far was a reading
        window.key('alt+3')
        ready(window)
        for n, mass_mg in enumerate(SMALL_ENDS):
            if n != 3:
                weigh(window, scale, path, mass_mg)
                continue
            window.type(f'{mass_mg / 1000:.1f}')
            window.key('Return')
            window.wait(lambda: len(events(path)) == 4, 'the typed one on disk')
            assert events(path)[-1].get('sent') is None
        slots = [(e.get('part'), e.get('figure'), e.get('way')) for e in events(path)]
        assert slots == [(f'rod-{rod}', 'small-end', way)
                         for rod in (1, 2, 3) for way in ('mark-up', 'mark-down')], slots
        assert window.close() == 0


def test_unplugged_and_started_again():
    with shop('bare', garbage=0.05) as (window, scale, path):
        connect(window, scale)
        learn(window, scale)
        window.key('alt+3')
        ready(window)
        weigh(window, scale, path, SMALL_ENDS[0])
        scale.lay(SMALL_ENDS[1])
        window.wait(lambda: len(events(path)) == 2, 'the second reading')
        scale.unplug()
        window.wait(lambda: window.shown('The scale has gone'), 'that the scale has gone')
        scale.replug()
        window.wait(lambda: window.shown('Scale: 247.7'), 'the scale again')
        # the rod still lies there: not once more
        window.wait(lambda: window.shown('Scale: 247.7\u00a0g, lay there before'), 'the same rod')
        assert len(events(path)) == 2
        scale.clear()
        ready(window)
        weigh(window, scale, path, SMALL_ENDS[2])
        assert window.close() == 0
        # the next day it is there by itself
        window = Window(PROGRAM, path, title=TITLE)
        try:
            window.wait(lambda: window.shown('Scale: 0.0'), 'the scale by itself')
            weigh(window, scale, path, SMALL_ENDS[3])
            assert window.close() == 0
        finally:
            window.kill()


def test_a_doubtful_one_waits_for_the_person():
    with shop('tagged') as (window, scale, path):
        connect(window, scale)
        learn(window, scale)
        window.key('alt+3')
        ready(window)
        weigh(window, scale, path, SMALL_ENDS[0])
        scale.lay(24_700)  # something held it up
        field = window.wait(lambda: (f := window.focused_text()) and text_of(f) == '24.7' and f,
                            'the doubtful reading in the field')
        assert name_of(field).startswith('Reading of Rod 1, small end, mark down')
        scale.clear()
        ready(window)
        assert len(events(path)) == 1
        weigh(window, scale, path, SMALL_ENDS[1])
        assert window.close() == 0


BIG_ENDS = [562_000, 561_900, 561_900, 561_900, 563_400, 563_300]
PISTONS = [684_600, 686_200, 685_200]
WHOLES = [809_600, 808_200, 811_300]


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


def test_whole_set_by_cable_and_by_hand():
    with shop('tagged', garbage=0.05) as (window, scale, path):
        connect(window, scale)
        learn(window, scale)
        window.key('alt+3')
        ready(window)
        look_at_zero(window, path)
        look_at_check_weight(window, scale, path, 500_000)
        for n, mass_mg in enumerate(SMALL_ENDS + BIG_ENDS + PISTONS + WHOLES):
            if n % 3 == 1:
                weigh_by_hand(window, path, mass_mg)
            else:
                weigh(window, scale, path, mass_mg)
        window.wait(lambda: window.shown('Every reading is there'), 'the end of the set')
        window.key('ctrl+0')
        window.type('0,1')
        window.key('Return')
        window.wait(lambda: len(events(path)) == 21, 'the last zero on disk')
        assert window.close() == 0
        journal = events(path)
        assert (journal[-1].get('mass'), journal[-1].get('set-back')) == ('0.1', 'yes')
        # the zero went 0.1 g while they were weighed: each is freed of its share, and known so well
        for row in table(PROGRAM, path, 'part'):
            assert row['basis'] == 'read', row
            assert 0 < float(row['expanded_g']) < 0.5, row

    weighings = [e for e in journal if e.tag.endswith('}weighing')]
    ends = [(f'rod-{rod}', figure, way) for figure in ('small-end', 'big-end')
            for rod in (1, 2, 3) for way in ('mark-up', 'mark-down')]
    rest = [(f'piston-{n}', 'whole', None) for n in (1, 2, 3)]
    rest += [(f'rod-{n}', 'whole', None) for n in (1, 2, 3)]
    slots = [(e.get('part'), e.get('figure'), e.get('way')) for e in weighings]
    assert slots == ends + rest, slots
    assert sum(e.get('sent') == 'yes' for e in weighings) == 12


tap.run(globals())
