"""Another program that something was copied in: owns the clipboard until it is killed.

Called with the text; says “ready” when the text can be pasted.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import pathlib
import subprocess
import sys


class Copied:
    """The text on the clipboard, as long as the block lasts."""

    def __init__(self, text):
        self.text = text

    def __enter__(self):
        self.process = subprocess.Popen([sys.executable, pathlib.Path(__file__), self.text],
                                        stdout=subprocess.PIPE, text=True)
        assert self.process.stdout.readline() == 'ready\n'
        return self

    def __exit__(self, *_failure):
        self.process.kill()
        self.process.wait()
        self.process.stdout.close()


def main():
    import gi
    gi.require_version('Gdk', '4.0')
    gi.require_version('Gtk', '4.0')
    from gi.repository import Gdk, GLib, GObject, Gtk

    Gtk.init()
    value = GObject.Value(str, sys.argv[1])
    Gdk.Display.get_default().get_clipboard().set_content(
        Gdk.ContentProvider.new_for_value(value))
    print('ready', flush=True)
    GLib.MainLoop().run()


if __name__ == '__main__':
    main()
