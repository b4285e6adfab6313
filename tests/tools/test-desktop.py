#!/usr/bin/python3
"""Do the files that tell the desktop about Tenthgram hold, and do they agree?

Called with the project's version; the build folder is the one above G_TEST_BUILDDIR. The judges are
the desktop's own: desktop-file-validate (Desktop Entry Specification), appstreamcli (AppStream),
update-mime-database with GIO's look-up (Shared MIME Info), groff with all warnings (man pages).

SPDX-License-Identifier: GPL-3.0-or-later
"""

import configparser
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

import tap

ROOT = pathlib.Path(__file__).resolve().parents[2]
DATA = ROOT / 'data'
BUILD = pathlib.Path(os.environ['G_TEST_BUILDDIR']).parent
APP_ID = 'io.github.tenthgram.Tenthgram'
DESKTOP = DATA / f'{APP_ID}.desktop'
METAINFO = DATA / f'{APP_ID}.metainfo.xml'
MIME = DATA / f'{APP_ID}-mime.xml'
MAN = DATA / 'tenthgram.1'


def judge(*command, **env):
    """Runs a judge; it must leave with 0. Gives all that it said."""
    done = subprocess.run(
        command, env={**os.environ, **env}, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        text=True,
    )
    assert done.returncode == 0, f'{command[0]}: {done.stdout}'
    return done.stdout


def desktop_entry():
    parser = configparser.ConfigParser(interpolation=None)
    parser.optionxform = str
    parser.read(DESKTOP, encoding='utf-8')
    return parser['Desktop Entry']


def mime_type():
    return ET.parse(MIME).find('{*}mime-type')


def test_desktop_file_is_valid():
    said = judge('desktop-file-validate', DESKTOP)
    assert not said, said


def test_metainfo_is_valid():
    judge('appstreamcli', 'validate', '--no-net', METAINFO)


def test_man_page_has_no_warnings():
    said = judge('groff', '-man', '-ww', '-Tutf8', '-z', MAN)
    assert not said, said


def test_job_files_are_known_by_name_and_by_content():
    wanted = desktop_entry()['MimeType'].rstrip(';')
    job = '<?xml version="1.0" encoding="UTF-8"?>\n<job xmlns="urn:tenthgram:job" version="1"/>\n'
    other = '<?xml version="1.0" encoding="UTF-8"?>\n<job xmlns="urn:example:job"/>\n'
    with tempfile.TemporaryDirectory() as folder:
        home = pathlib.Path(folder, 'data')
        (home / 'mime' / 'packages').mkdir(parents=True)
        shutil.copy(MIME, home / 'mime' / 'packages' / f'{APP_ID}.xml')
        judge('update-mime-database', home / 'mime', XDG_DATA_HOME=str(home))
        for name, text, ours in [
            ('a.tenthgram', 'x', True),
            ('without-ending', job, True),
            ('foreign', other, False),
        ]:
            file = pathlib.Path(folder, name)
            file.write_text(text)
            said = judge(
                'gio', 'info', '-a', 'standard::content-type', file, XDG_DATA_HOME=str(home)
            )
            found = re.search(r'standard::content-type: (\S+)', said)[1]
            assert (found == wanted) == ours, f'{name} is taken for {found}'


def test_job_namespace_is_the_programs():
    header = (ROOT / 'core' / 'job-xml.h').read_text(encoding='utf-8')
    namespace = re.search(r'TG_JOB_XML_NAMESPACE "(.*)"', header)[1]
    assert mime_type().find('{*}root-XML').get('namespaceURI') == namespace
    assert namespace in MAN.read_text(encoding='utf-8')


def test_names_agree():
    entry, component = desktop_entry(), ET.parse(METAINFO).getroot()
    assert component.findtext('id') == entry['Icon'] == APP_ID
    assert component.findtext('launchable') == DESKTOP.name
    assert component.findtext('name') == entry['Name']
    assert component.findtext('provides/binary') == entry['Exec'].split()[0] == 'tenthgram'
    assert component.findtext('provides/mediatype') == mime_type().get('type')
    assert entry['MimeType'].rstrip(';') == mime_type().get('type')


def test_versions_agree():
    version = sys.argv[1]
    newest = ET.parse(METAINFO).find('releases/release')
    head = re.search(r'^\.TH TENTHGRAM 1 "(.*?)" "Tenthgram (.*?)"', MAN.read_text(), re.MULTILINE)
    assert newest.get('version') == version == head[2]
    assert newest.get('date') == head[1]


def test_installed_where_the_desktop_looks():
    icons = 'share/icons/hicolor'
    wanted = [
        f'share/applications/{DESKTOP.name}',
        f'share/metainfo/{METAINFO.name}',
        f'share/mime/packages/{APP_ID}.xml',
        'share/man/man1/tenthgram.1',
    ]
    if (ROOT / 'app' / 'main.c').exists():
        wanted += ['bin/tenthgram']
    if (ROOT / 'icons' / 'hicolor').exists():
        wanted += [f'{icons}/scalable/apps/{APP_ID}.svg']
        wanted += [f'{icons}/symbolic/apps/{APP_ID}-symbolic.svg']
    with tempfile.TemporaryDirectory() as folder:
        judge('meson', 'install', '-C', BUILD, '--no-rebuild', '--destdir', folder)
        found = {str(p.relative_to(folder)) for p in pathlib.Path(folder).rglob('*') if p.is_file()}
    for name in wanted:
        assert any(path.endswith('/' + name) for path in found), f'{name} is not in {found}'


tap.run(globals())
