"""Jobs written by a script: events with dates and ids that are the same in every run.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import re
import uuid

DATA = pathlib.Path(__file__).resolve().parents[2] / 'data'
DEMO = (DATA / 'demo.tenthgram').read_text()


class Journal:
    """Weighings, passes and what else is added, in the order of the bench."""

    def __init__(self, name='fire-pump', who='Ilse'):
        self.text = ''
        self.n = 0
        self.ids = []
        self.name, self.who = name, who

    def add(self, day, minute, kind, **fields):
        self.n += 1
        self.ids.append(str(uuid.uuid5(uuid.NAMESPACE_URL, f'{self.name}-{self.n}')))
        rest = ' '.join(f'{k.replace("_", "-")}="{v}"' for k, v in fields.items())
        self.text += (f'    <{kind} id="{self.ids[-1]}" at="2026-04-{day:02}T'
                      f'{18 + minute // 60:02}:{minute % 60:02}:00+02:00" who="{self.who}" {rest}/>\n')


# Practice figures, invented: small end, big end, piston; as found, and as they were left.
FIVE = [((246.9, 561.8, 684.9), (246.3, 561.2, 684.2)), ((247.6, 562.9, 685.3), (246.4, 561.3, 684.3)),
        ((246.3, 561.2, 684.6), (246.3, 561.2, 684.3)), ((248.0, 562.4, 684.2), (246.4, 561.3, 684.2)),
        ((247.1, 563.4, 685.8), (246.4, 561.3, 684.2))]


def weigh_five(j, day, minute, which):
    """Every end both ways up, every piston; the minute of the last reading."""
    for part in range(5):
        for figure, place in (('small-end', 0), ('big-end', 1), ('whole', 2)):
            kind = 'piston' if place == 2 else 'rod'
            for way in ({},) if place == 2 else ({'way': 'mark-up'}, {'way': 'mark-down'}):
                minute += 1
                j.add(day, minute, 'weighing', part=f'{kind}-{part + 1}', figure=figure,
                      mass=f'{FIVE[part][which][place]:g}', **way)
    return minute


def five(engine=True):
    """Five in line, ground even, and weighed three times more on a day of its own."""
    setup = DEMO.partition('<journal>')[0]
    setup = setup.replace('Orchard tractor, three in line', 'Quarry locomotive, five in line')
    setup = setup.replace('cylinders="3"', 'cylinders="5"').replace('"1-3-2"', '"1-2-4-5-3"')
    if not engine:
        setup = re.sub(r' *<crank-drive>.*?</crank-drive>\n', '', setup, flags=re.S)
    setup = re.sub(r'(id="big-shoulders" [^/]*standing="with-care")', r'\1 use="yes"', setup)
    for kind in ('rod', 'piston'):
        setup = re.sub(rf'( *<part id="{kind}-)3(" name="\w+ )3(" design="{kind}" bore=")3("/>\n)',
                       r'\g<0>\g<1>4\g<2>4\g<3>4\g<4>\g<1>5\g<2>5\g<3>5\g<4>', setup)
    j = Journal('quarry-locomotive', 'Ruth')
    j.add(14, 0, 'zero', mass='0')
    weigh_five(j, 14, 0, 0)
    minute = 0
    for part in range(5):
        for zone, place, kind in (('small-pad', 0, 'rod'), ('cap-pad', 1, 'rod'),
                                  ('boss-feet', 2, 'piston')):
            grams = FIVE[part][0][place] - FIVE[part][1][place]
            if grams > 0.05:
                minute += 5
                j.add(17, minute, 'pass', part=f'{kind}-{part + 1}', zone=zone, tool='belt',
                      mass=f'{grams:.1f}')
    j.add(18, 0, 'zero', mass='0')
    minute = 0
    for _ in range(3):
        minute = weigh_five(j, 18, minute, 1)
    j.add(18, minute + 1, 'zero', mass='0')
    return setup + '<journal>\n' + j.text + '  </journal>\n</job>\n'


def kept(name):
    """A job that was once done and is kept beside the tests."""
    return (DATA.parent / 'tests' / 'data' / 'jobs' / f'{name}.tenthgram').read_text()
