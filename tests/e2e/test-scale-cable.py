#!/usr/bin/python3
"""A scale on a cable, from the first line to a whole set, by the keyboard alone.

Called with the program, inside a display. The scale is simulated at the other end of a
pseudo-terminal; the rods and their weights are invented.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / 'tools')]
import tap  # noqa: E402
from bench import events, table  # noqa: E402
from cable import (PROGRAM, TITLE, connect, learn, look_at_check_weight, look_at_zero,  # noqa: E402
                   ready, shop, weigh, weigh_by_hand)
from driver import Window, name_of, text_of  # noqa: E402

# small ends, mark up and mark down
SMALL_ENDS = [247_600, 247_700, 246_300, 246_300, 248_000, 247_900]
BIG_ENDS = [562_000, 561_900, 561_900, 561_900, 563_400, 563_300]
PISTONS = [684_600, 686_200, 685_200]
WHOLES = [809_600, 808_200, 811_300]


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
