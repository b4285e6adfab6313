# shellcheck shell=bash
# packages.sh: finds out what a Debian machine still lacks, and installs just that
#
# Sourced by app/run and tests/run.  A package counts as there when dpkg says so or when the thing
# that it is wanted for answers (a program, a pkg-config module, a file); with nothing to install
# there is no call to apt, no need of root and no need of a network.  It never removes or upgrades
# a package of its own accord, and it does not know any system but Debian and its kin: elsewhere it
# says which packages are meant and stops.
#
# SPDX-License-Identifier: GPL-3.0-or-later

# One line per package: its name in Debian 12, and what shows that it is there.
# shellcheck disable=SC2034
build_packages='
gcc                 cmd:gcc
libc6-dev           file:/usr/include/stdio.h
pkg-config          cmd:pkg-config
meson               cmd:meson
ninja-build         cmd:ninja
libglib2.0-bin      cmd:gio
libgtk-4-dev        pc:gtk4 >= 4.8
libxml2-dev         pc:libxml-2.0 >= 2.9
adwaita-icon-theme  file:/usr/share/icons/Adwaita/index.theme
fonts-dejavu-core   file:/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf
librsvg2-common     file:/usr/lib/*/gdk-pixbuf-2.0/*/loaders/libpixbufloader-svg.so'

# shellcheck disable=SC2034
test_packages='
python3             file:/usr/bin/python3
xvfb                cmd:Xvfb
xauth               cmd:xauth
x11-utils           cmd:xprop
xdotool             cmd:xdotool
openbox             cmd:openbox
dbus                cmd:dbus-run-session
at-spi2-core        file:/usr/share/dbus-1/services/org.a11y.Bus.service
python3-gi          file:/usr/lib/python3/dist-packages/gi/__init__.py
gir1.2-atspi-2.0    file:/usr/lib/*/girepository-1.0/Atspi-2.0.typelib
gir1.2-gtk-4.0      file:/usr/lib/*/girepository-1.0/Gtk-4.0.typelib
libglpk-dev         file:/usr/include/glpk.h
libgsl-dev          pc:gsl
poppler-utils       cmd:pdftotext
desktop-file-utils  cmd:desktop-file-validate
appstream           cmd:appstreamcli
libxml2-utils       cmd:xmllint
shared-mime-info    cmd:update-mime-database
groff-base          cmd:groff'

say () { printf '%s\n' "$*" >&2; }

# probe WHAT: is the thing there that the package is wanted for?
probe () {
    case $1 in
        cmd:*) command -v "${1#cmd:}" >/dev/null ;;
        pc:*) pkg-config --exists "${1#pc:}" 2>/dev/null ;;
        # the name may hold a * for the machine's architecture
        file:*) compgen -G "${1#file:}" >/dev/null ;;
    esac
}

# missing_packages TABLE: the names of those that are not there, one per line
missing_packages () {
    local name what
    while read -r name what; do
        [ -n "$name" ] || continue
        probe "$what" && continue
        [ "$(dpkg-query -W -f '${db:Status-Status}' "$name" 2>/dev/null)" = installed ] && continue
        printf '%s\n' "$name"
    done <<<"$1"
}

# apt_get ARGS...: apt-get as root, asking nothing, its talk on stderr
apt_get () {
    local as_root=()
    [ "$(id -u)" = 0 ] || as_root=(sudo)
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -o Acquire::Retries=3 \
        -o DPkg::Lock::Timeout=120 "$@" >&2
}

# install_missing TABLE: 0 when everything is there in the end; else says what to do, and 1
install_missing () {
    local -a names
    mapfile -t names < <(missing_packages "$1")
    [ ${#names[@]} -gt 0 ] || return 0

    local line="apt-get install --no-install-recommends ${names[*]}"
    if ! command -v apt-get >/dev/null; then
        say 'This machine has no apt-get: it is not Debian or one of its kin.' \
            'Please install what these Debian 12 packages hold, then run this again:'
        say "  ${names[*]}"
        return 1
    fi
    if [ "$(id -u)" != 0 ] && ! command -v sudo >/dev/null; then
        say 'Some packages are missing, and there is no sudo to install them with.' \
            'Please run this as root, then start again:'
        say "  $line"
        return 1
    fi

    say "Installing ${#names[@]} missing Debian packages: ${names[*]}"
    apt_get update || say 'The package lists could not be renewed; trying with those that are here.'
    if ! apt_get install -y --no-install-recommends "${names[@]}"; then
        say ''
        say 'The packages could not be installed; the reason stands above. The usual ones:' \
            'no network, no right to use sudo, or another installation at work.'
        say 'To do it by hand, as root:'
        say "  apt-get update && $line"
        return 1
    fi

    mapfile -t names < <(missing_packages "$1")
    [ ${#names[@]} -eq 0 ] && return 0
    say "Still missing after the installation: ${names[*]}"
    return 1
}

# check_release: GTK 4.8 is the floor, and an older Debian cannot give it
check_release () {
    probe 'pc:gtk4 >= 4.8' && return 0
    say 'Tenthgram needs GTK 4.8 or newer (Debian 12 has it); what pkg-config finds here is:' \
        "$(pkg-config --modversion gtk4 2>/dev/null || echo none)"
    return 1
}
