#!/usr/bin/python3
"""Takes the pictures of data/screenshots: the window alone, the same from run to run.

    tests/tools/with-display --wm openbox /usr/bin/python3 tests/e2e/screenshots.py \\
        build/app/tenthgram data/screenshots [NAME…]

Everything that is shown is in a job file before the window opens, with its own dates; nothing is
recorded here. Frames and shadows of the window are left out: they need a compositor.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import os
import pathlib
import re
import subprocess
import sys
import tempfile
import time
import uuid

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))
import cable  # noqa: E402
from bench import events  # noqa: E402
from clipboard import Copied  # noqa: E402
from driver import Window, name_of  # noqa: E402
from jobs import DEMO, Journal, five, kept  # noqa: E402

PROGRAM, OUT, WANTED = sys.argv[1], pathlib.Path(sys.argv[2]), sys.argv[3:]
LAUNCH = (HERE.parents[1] / 'data' / 'demo-pairing.tenthgram').read_text()
TRACTOR, PUMP = 'Orchard tractor', 'Village fire pump'
PLAIN = '''
window.csd, window.solid-csd { margin: 0; padding: 0; border: none; box-shadow: none; border-radius: 0; }
scrollbar.overlay-indicator { opacity: 0; }
popover { background-color: #ffffff; border: 1px solid #d9dad5; }
popover > contents { margin: 0; border: none; border-radius: 0; box-shadow: none; }
popover > arrow { min-width: 0; min-height: 0; border: none; background: none; }
'''
WIDE, NARROW = (1280, 800), (360, 720)


# -- jobs ------------------------------------------------------------------------------------------

def tractor(*more, upto=None):
    """The demo job, cut after an event or with events added on its third evening."""
    head, _, tail = DEMO.partition('</journal>')
    if upto:
        head = re.match(rf'.*?id="{upto}[^>]*>\n', head, re.S).group(0)
    return head + ''.join(more) + '  </journal>' + tail


# Practice figures, invented: small end, big end, piston.
FIGURES = [(247.1, 562.6, 684.9), (248.3, 564.4, 685.4), (246.9, 562.4, 684.8), (247.6, 563.1, 686.1)]


def pump(even=False, proven=False):
    """Four rods and pistons; the cap pads were ground before, so the shoulders have to give too."""
    setup = DEMO.partition('<journal>')[0]
    setup = setup.replace('Orchard tractor, three in line', 'Village fire pump, four in line')
    setup = setup.replace('cylinders="3"', 'cylinders="4"').replace('"1-3-2"', '"1-3-4-2"')
    setup = re.sub(r'(id="cap-pad" [^/]*depth=")2.2"', r'\g<1>0.5"', setup)
    setup = re.sub(r'(id="big-shoulders" [^/]*standing="with-care")', r'\1 use="yes"', setup)
    for kind in ('rod', 'piston'):
        setup = re.sub(rf'( *<part id="{kind}-)3(" name="\w+ )3(" design="{kind}" bore=")3("/>\n)',
                       r'\g<0>\g<1>4\g<2>4\g<3>4\g<4>', setup)
    j = Journal()
    minute = 20
    for figure, place in (('small-end', 0), ('big-end', 1)):
        for rod in range(4):
            for way in ('mark-up', 'mark-down'):
                minute += 1
                j.add(14, minute, 'weighing', part=f'rod-{rod + 1}', figure=figure, way=way,
                      mass=f'{FIGURES[rod][place]:g}')
    for piston in range(4):
        minute += 1
        j.add(14, minute, 'weighing', part=f'piston-{piston + 1}', figure='whole',
              mass=f'{FIGURES[piston][2]:g}')
    j.add(16, 2, 'note', text='Belt 120, new. Rod 4 first.')
    j.add(16, 5, 'pass', part='rod-4', zone='small-pad', tool='belt', mass='0.2')
    j.add(16, 9, 'weighing', part='rod-4', figure='small-end', way='mark-up', mass='247.3')
    if even:
        finish(j)
    if proven:
        repeat(j)
    return setup + '<journal>\n' + j.text + '  </journal>\n</job>\n'


def finish(j):
    """What is left, one pass and one reading after the other; a slip of the keys is struck out."""
    minute = 15
    for part, zone, grams, figure, mass in (
        ('rod-4', 'cap-pad', '0.3', 'big-end', '562.8'),
        ('rod-2', 'small-pad', '1.1', 'small-end', '247.2'),
        ('rod-2', 'cap-pad', '1.2', 'big-end', '563.3'),
        ('rod-2', 'big-shoulders', '0.6', 'big-end', '562.8'),
        ('piston-2', 'boss-feet', '0.2', 'whole', '685.2'),
        ('piston-4', 'boss-feet', '0.9', 'whole', '685.1'),
    ):
        minute += 7
        j.add(17, minute, 'pass', part=part, zone=zone, tool='belt', mass=grams)
        way = {} if figure == 'whole' else {'way': 'mark-up'}
        if part == 'piston-4':
            j.add(17, minute + 2, 'weighing', part=part, figure=figure, mass='658.1')
            j.add(17, minute + 2, 'strike', refers=j.ids[-1])
        j.add(17, minute + 3, 'weighing', part=part, figure=figure, mass=mass, **way)
    for part, small, big in (('rod-2', '247.3', '562.8'), ('rod-4', '247.3', '562.8')):
        for figure, mass in (('small-end', small), ('big-end', big)):
            for way in ('mark-up', 'mark-down'):
                minute += 1
                j.add(17, minute + 5, 'weighing', part=part, figure=figure, way=way, mass=mass)
    j.add(17, minute + 8, 'note', text='All caps and bolts back with their own rods.')


# What the finished parts show once more: both ways up of both ends, pistons.
FINISHED = [(247.1, 562.6, 684.9), (247.3, 562.8, 685.2), (246.9, 562.4, 684.8), (247.3, 562.8, 685.1)]


def repeat(j):
    """Everything is read twice more, on a day of its own."""
    minute = 0
    j.add(18, minute, 'zero', mass='0')
    for _ in range(2):
        for figure, place in (('small-end', 0), ('big-end', 1), ('whole', 2)):
            for part in range(4):
                kind = 'piston' if place == 2 else 'rod'
                for way in ({},) if place == 2 else ({'way': 'mark-up'}, {'way': 'mark-down'}):
                    minute += 1
                    j.add(18, minute, 'weighing', part=f'{kind}-{part + 1}', figure=figure,
                          mass=f'{FINISHED[part][place]:g}', **way)
    j.add(18, minute + 1, 'zero', mass='0')


LOWERED = ('    <target id="6f4f2d0a-3c58-4f70-9d3c-0d4d5a1b7c11" at="2026-03-07T19:02:10+01:00" '
           'who="Nora" band="rod-small" mass="245.8" text="lowered after an overshoot"/>\n')


ENGINE = (('spacing', '92'), ('stroke', '86'), ('speed', '6500'), ('order', '1-3-4-2'),
          ('crank-mass', '14'))


def described(**state):
    """The even set, in an engine that has been described."""
    sets = ''.join(f'    <set id="{uuid.uuid5(uuid.NAMESPACE_URL, path)}" at="2026-04-19T10:00:00+02:00" '
                   f'who="Ilse" path="engine.{path}" value="{value}"/>\n' for path, value in ENGINE)
    head, _, tail = pump(even=True, **state).partition('  </journal>')
    return head + sets + '  </journal>' + tail


def forces(camera):
    camera.window.key('alt+6')
    camera.press('Forces')


def bobweight(camera):
    camera.window.key('alt+6')
    camera.press('Bobweight')


def paper(camera):
    camera.window.key('alt+6')
    camera.press('Paper')


# -- pictures --------------------------------------------------------------------------------------

class Camera:
    """A window round one job, of one size."""

    def __init__(self, folder, job, title, size):
        path = pathlib.Path(folder) / 'job.tenthgram'
        if job:
            path.write_text(job)
        self.look_at(Window(PROGRAM, *([path] if job else []), title=title), size)

    @classmethod
    def of(cls, window, size):
        """A camera before a window that is there already."""
        camera = cls.__new__(cls)
        camera.look_at(window, size)
        return camera

    def look_at(self, window, size):
        self.window = window
        self.size = size
        subprocess.run(['xdotool', 'mousemove', '1279', '799'], check=True)
        subprocess.run(['xdotool', 'windowsize', '--sync', self.window.xid, *map(str, size)],
                       check=True)
        subprocess.run(['xdotool', 'windowmove', '--sync', self.window.xid, '0', '0'], check=True)
        time.sleep(0.5)
        self.window.key('Escape')  # the greeting of a later day

    def take(self, name):
        time.sleep(0.8)
        width, height = self.size
        subprocess.run(['import', '-window', 'root', '-crop', f'{width}x{height}+0+0', '+repage',
                        '-depth', '8', '-strip', '-define', 'png:compression-level=9',
                        '-define', 'png:compression-filter=1', '-define',
                        'png:compression-strategy=0',
                        f'PNG24:{OUT / name}.png'], check=True)

    def press(self, name):
        self.window.tab_to(name)
        self.window.key('Return')
        time.sleep(0.4)


def picture(name, job, title, work, size=WIDE):
    if WANTED and name not in WANTED:
        return
    with tempfile.TemporaryDirectory() as folder:
        camera = Camera(folder, job, title, size)
        try:
            work(camera)
            camera.take(name)
        finally:
            camera.window.kill()


def keys(*names):
    return lambda camera: camera.window.key(*names)


def refine(camera):
    camera.window.key('alt+1')
    camera.press('Tolerances and targets')
    camera.press('I-beam rod with pads: zones')


def build(camera):
    camera.window.key('alt+7')
    time.sleep(0.6)
    camera.window.key('space', 'space', 'space')
    time.sleep(0.4)


def weigh(camera):
    camera.window.key('alt+3')
    time.sleep(0.4)
    camera.window.type('247.9')


TABLE = '''rod;small up;small down;big up;big down;whole
1;247,6;247,6;562,0;561,9;809,6
2;246,3;246,3;561,9;561,9;808,2
3;248,0;247,9;563,4;563.3;811,3
4;247,9;247,8;562,6;562,5;810,4
'''


def import_table(camera):
    """A table with two slips: a point among the commas, and a rod too many."""
    camera.window.key('ctrl+i')
    camera.window.wait(lambda: name_of(camera.window.focused()) == 'Paste', 'the page')
    with Copied(TABLE):
        camera.window.key('ctrl+v')
        camera.window.wait(lambda: camera.window.shown('10 new readings'), 'the table')


def zero(camera):
    """The empty scale shows less than nothing."""
    weigh(camera)
    camera.window.key('ctrl+0')
    time.sleep(0.4)
    camera.window.key('minus', '0', 'period', '2')


def heavy_rod(camera):
    """Rod 2 has the most to lose; Rod 4 is the one in work."""
    camera.window.key('alt+5')
    time.sleep(0.4)
    camera.window.key('ctrl+Prior', 'ctrl+Prior')
    time.sleep(0.4)


def why(camera):
    heavy_rod(camera)
    camera.window.key('alt+w')


def match(camera):
    """The best pairing against today's, with the bore that has the most to lose."""
    camera.window.key('alt+4')
    camera.window.wait(lambda: camera.window.shown('Proven'), 'the pairing')
    time.sleep(3)


def locked(camera):
    """Two parts are kept with their pistons, and the rest was solved again."""
    match(camera)
    for bore, part in ((1, 'Keep Pin'), (1, 'Keep Rings')):
        camera.window.tab_to('Bore ')
        camera.window.key('Home', *['Down'] * bore)
        camera.press(part)
        time.sleep(3)
    camera.window.tab_to('Bore ')


def by_cable():
    """The Scale page while it listens, and the Weigh page in the middle of a set, typed and sent."""
    small = [247_600, 247_700, 246_300, 246_300, 248_000]
    if WANTED and not {'cable', 'scale'} & set(WANTED):
        return
    config = os.environ['XDG_CONFIG_HOME']
    with cable.shop('tagged', config, '/tmp/scale') as (window, scale, path):
        camera = Camera.of(window, WIDE)
        cable.connect(window, scale)
        cable.learn(window, scale)
        window.key('alt+3')
        cable.ready(window)
        cable.look_at_zero(window, path)
        cable.look_at_check_weight(window, scale, path, 500_000)
        for n, mass_mg in enumerate(small):
            if n == 2:
                cable.weigh_by_hand(window, path, mass_mg)
            else:
                cable.weigh(window, scale, path, mass_mg)
        scale.lay(247_900)
        scale.move()  # the last rod is still being laid on
        camera.take('cable')
        scale.move(False)
        window.wait(lambda: len(events(path)) == 8, 'the last reading')
        scale.clear()
        cable.ready(window)
        window.key('alt+2')
        camera.take('scale')
    (pathlib.Path(config) / 'tenthgram' / 'scale.ini').unlink()


# -- learning --------------------------------------------------------------------------------------

def practise(camera):
    camera.press('Practise')


def lessons(camera):
    camera.press('Lessons')


def lay(camera):
    """The next rod lies on the practice bench and was looked at."""
    camera.window.key('alt+3')
    time.sleep(0.5)
    camera.window.key('ctrl+l', 'ctrl+k')
    time.sleep(3)


def ask(camera):
    """A wrong answer, and what the drawing and the sum have to say."""
    camera.window.key('F6')
    time.sleep(0.4)
    camera.window.tab_to('Your answer')
    camera.window.type('0.14')
    camera.window.key('Return')
    time.sleep(0.8)


def debrief(camera):
    camera.window.key('ctrl+d')
    time.sleep(1.5)


def replay(camera):
    """At the pass that went too far."""
    camera.window.key('F5')
    time.sleep(1)
    camera.window.key('Home', 'Right', 'Right', 'Right', 'Right')
    time.sleep(0.5)


def glossary(camera):
    camera.window.key('alt+3')
    time.sleep(0.5)
    camera.window.key('F3')
    camera.window.tab_to('Find a term')
    camera.window.type('turn-over')
    time.sleep(0.5)
    camera.window.key('Down', 'Return')
    time.sleep(0.8)


def finding(camera):
    """Why a part is too light."""
    camera.window.key('alt+5')
    time.sleep(0.5)
    camera.window.tab_to('Why: ')
    camera.window.key('Return')
    time.sleep(0.8)


# What is printed, and of which job.
SHEETS = (('sheet', pump, 'grind'), ('sheet-v8-weigh', lambda: LAUNCH, 'weigh'),
          ('sheet-v8-grind', lambda: LAUNCH, 'grind'), ('sheet-v8-proof', lambda: LAUNCH, 'proof'),
          ('sheet-v8-bobweight', lambda: LAUNCH, 'bobweight'), ('sheet-v8-build', lambda: LAUNCH, 'build'),
          ('sheet-five-weigh', five, 'weigh'), ('sheet-five-grind', five, 'grind'),
          ('sheet-five-proof', five, 'proof'), ('sheet-five-bobweight', five, 'bobweight'),
          ('sheet-five-build', five, 'build'))


def sheet(name, job, kind):
    """The first page, as it comes out of the printer."""
    with tempfile.TemporaryDirectory() as folder:
        path, pdf = pathlib.Path(folder) / 'job.tenthgram', pathlib.Path(folder) / 'sheet.pdf'
        path.write_text(job())
        subprocess.run([PROGRAM, 'sheet', str(path), kind, '--output', str(pdf)], check=True)
        subprocess.run(['pdftoppm', '-r', '100', '-png', '-f', '1', '-l', '1', '-singlefile', str(pdf),
                        str(OUT / name)], check=True)
        subprocess.run(['mogrify', '+dither', '-colors', '32', '-strip', str(OUT / f'{name}.png')],
                       check=True)


def main():
    config = pathlib.Path(os.environ['XDG_CONFIG_HOME']) / 'gtk-4.0'
    config.mkdir(parents=True, exist_ok=True)
    (config / 'gtk.css').write_text(PLAIN)
    OUT.mkdir(parents=True, exist_ok=True)
    half = tractor(upto='f416c2a0')
    picture('setup', None, 'Tenthgram', keys('ctrl+n'))
    picture('refine', tractor(LOWERED), TRACTOR, refine)
    picture('weigh', half, TRACTOR, weigh)
    picture('zero', half, TRACTOR, zero)
    picture('import', half, TRACTOR, import_table)
    picture('match', LAUNCH, 'Harbour launch', match)
    picture('match-locked', LAUNCH, 'Harbour launch', locked)
    picture('grind', pump(), PUMP, heavy_rod)
    picture('overshoot', tractor(), TRACTOR, keys('alt+5'))
    picture('cautions', tractor(LOWERED), TRACTOR, keys('alt+5', 'F2'))
    picture('why', pump(), PUMP, why)
    picture('proof', pump(even=True), PUMP, keys('alt+5'))
    picture('even', pump(even=True, proven=True), PUMP, keys('alt+5'))
    picture('engine', described(), PUMP, keys('alt+6'))
    picture('forces', described(), PUMP, forces)
    picture('bobweight', described(), PUMP, bobweight)
    picture('paper', described(proven=True), PUMP, paper)
    picture('narrow-engine', described(), PUMP, keys('alt+6'), NARROW)
    picture('build', pump(even=True, proven=True), PUMP, build)
    picture('journal', pump(even=True), PUMP, keys('alt+8'))
    picture('practise', None, 'Tenthgram', practise)
    picture('bench', kept('practice-begun'), 'Practice', lay)
    picture('lessons', None, 'Tenthgram', lessons)
    picture('lesson', kept('lesson-ends'), 'Practice', ask)
    picture('debrief', kept('lesson-overshoot'), 'Practice', debrief)
    picture('replay', kept('lesson-overshoot'), 'Practice', replay)
    picture('glossary', half, TRACTOR, glossary)
    picture('why-finding', tractor(), TRACTOR, finding)
    picture('narrow-bench', kept('practice-begun'), 'Practice', lay, NARROW)
    picture('narrow-lesson', kept('lesson-ends'), 'Practice', ask, NARROW)
    picture('narrow-debrief', kept('lesson-overshoot'), 'Practice', debrief, NARROW)
    picture('narrow-weigh', half, TRACTOR, weigh, NARROW)
    picture('narrow-match', LAUNCH, 'Harbour launch', match, NARROW)
    picture('narrow-build', pump(even=True, proven=True), PUMP, build, NARROW)
    picture('narrow-grind', pump(), PUMP, heavy_rod, NARROW)
    picture('narrow-paper', described(proven=True), PUMP, paper, NARROW)
    by_cable()
    os.environ['GTK_THEME'] = 'Adwaita:dark'
    picture('dark', pump(), PUMP, heavy_rod)
    picture('dark-build', pump(even=True, proven=True), PUMP, build)
    picture('dark-engine', described(), PUMP, keys('alt+6'))
    picture('dark-forces', described(), PUMP, forces)
    picture('dark-bench', kept('practice-begun'), 'Practice', lay)
    picture('dark-debrief', kept('lesson-overshoot'), 'Practice', debrief)
    picture('dark-lesson', kept('lesson-ends'), 'Practice', ask)
    picture('dark-match', LAUNCH, 'Harbour launch', locked)
    picture('dark-paper', described(proven=True), PUMP, paper)
    for name, job, kind in SHEETS:
        if not WANTED or name in WANTED:
            sheet(name, job, kind)


main()
