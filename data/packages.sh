# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
#
# What Halfshaft needs to build and to be tested, and how to get it. Sourced by data/try.sh and tests/run.sh.
#
# hs_need SET...   installs what is missing where apt-get can, names it where it cannot, and goes on when every
#                  tool and library is there by whatever means. Ends the script when something is still missing.

HS_BUILD_PACKAGES="gcc libc6-dev pkg-config meson ninja-build gettext python3 libxml2-utils
  libglib2.0-bin libglib2.0-dev libsqlite3-dev libjson-glib-dev libgdk-pixbuf-2.0-dev
  libcairo2-dev libpango1.0-dev libqrencode-dev libgtk-4-dev libgtk-4-bin libadwaita-1-dev
  desktop-file-utils shared-mime-info"
HS_SHOW_PACKAGES="librsvg2-common webp-pixbuf-loader adwaita-icon-theme fonts-cantarell fonts-dejavu-core dbus-daemon
  xvfb xauth"
HS_TEST_PACKAGES="binutils appstream librsvg2-bin at-spi2-core python3-gi gir1.2-atspi-2.0 gir1.2-glib-2.0
  imagemagick xdotool zbar-tools python3-jsonschema glpk-utils libroutino-dev routino poppler-utils
  libsoup-3.0-dev libsecret-1-dev ca-certificates nginx-light openssl strace gnome-keyring dbus-bin locales"
HS_LONG_PACKAGES="valgrind debootstrap postgresql python3-psycopg2"

HS_BUILD_TOOLS="cc pkg-config meson ninja msgfmt python3 xmllint glib-compile-schemas glib-compile-resources
  update-desktop-database update-mime-database"
HS_SHOW_TOOLS="dbus-run-session Xvfb xauth xvfb-run"
HS_TEST_TOOLS="nm readelf appstreamcli desktop-file-validate rsvg-convert convert identify import xdotool zbarimg
  glpsol pdftotext pdfinfo nginx openssl strace gnome-keyring-daemon dbus-monitor localedef"
HS_LONG_TOOLS="valgrind psql"
HS_TEST_LIBRARIES="libsoup-3.0 libsecret-1"
HS_BUILD_LIBRARIES="glib-2.0 gio-2.0 sqlite3 json-glib-1.0 gdk-pixbuf-2.0 cairo-pdf pangocairo libqrencode gtk4
  libadwaita-1"

# Debian's administration tools may be outside the path of an ordinary user.
PATH="$PATH:/usr/sbin:/sbin"

hs_say ()
{
  printf '%s\n' "$*" >&2
}

# The packages of a list that dpkg does not know as installed.
hs_absent_packages ()
{
  for hs_package in "$@"; do
    hs_state=$(dpkg-query -W -f '${db:Status-Status}' "$hs_package" 2>/dev/null) || hs_state=absent
    [ "$hs_state" = installed ] || printf '%s ' "$hs_package"
  done
}

# The tools and libraries of a list that cannot be found, whoever installed them.
hs_absent_tools ()
{
  for hs_tool in "$@"; do
    command -v "$hs_tool" >/dev/null 2>&1 || printf '%s ' "$hs_tool"
  done
}

hs_absent_libraries ()
{
  for hs_library in "$@"; do
    pkg-config --exists "$hs_library" 2>/dev/null || printf '%s ' "$hs_library"
  done
}

hs_apt ()
{
  if [ "$(id -u)" -eq 0 ]; then
    env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=900 "$@" </dev/null >&2
  else
    sudo env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=900 "$@" >&2
  fi
}

hs_may_install ()
{
  command -v apt-get >/dev/null 2>&1 || return 1
  [ "$(id -u)" -eq 0 ] || command -v sudo >/dev/null 2>&1
}

hs_need ()
{
  hs_packages=
  hs_tools=
  hs_libraries=
  for hs_set in "$@"; do
    eval "hs_packages=\"\$hs_packages \$HS_${hs_set}_PACKAGES\""
    eval "hs_tools=\"\$hs_tools \$HS_${hs_set}_TOOLS\""
    eval "hs_libraries=\"\$hs_libraries \${HS_${hs_set}_LIBRARIES-}\""
  done

  if command -v dpkg-query >/dev/null 2>&1; then
    # shellcheck disable=SC2086
    hs_absent=$(hs_absent_packages $hs_packages)
    if [ -n "$hs_absent" ] && hs_may_install; then
      hs_say "Installing: $hs_absent"
      hs_apt update || hs_say "The package lists could not be renewed; going on with those that are here."
      # shellcheck disable=SC2086
      hs_apt install -y --no-install-recommends $hs_absent || hs_say "Not everything could be installed."
    elif [ -n "$hs_absent" ]; then
      hs_say "Neither root nor sudo, so nothing is installed. Not installed here: $hs_absent"
    fi
  fi

  # shellcheck disable=SC2086
  hs_absent="$(hs_absent_tools $hs_tools)$(hs_absent_libraries $hs_libraries)"
  if [ -n "$hs_absent" ]; then
    hs_say "Missing: $hs_absent"
    hs_say "On Debian these packages hold them: $(printf '%s ' $hs_packages)"
    exit 1
  fi
}

# A folder of this run alone for settings, caches and sockets, so that nothing of the user's own is touched.
# Sets XDG_* and prints nothing; the caller removes "$hs_private" at the end.
hs_make_private ()
{
  hs_private=$(mktemp -d)
  mkdir -p "$hs_private/config/gtk-4.0" "$hs_private/data" "$hs_private/cache" "$hs_private/state" \
    "$hs_private/runtime"
  chmod 700 "$hs_private/runtime"
  printf '[Settings]\ngtk-font-name=Cantarell 11\n' > "$hs_private/config/gtk-4.0/settings.ini"
  export HOME="$hs_private" XDG_CONFIG_HOME="$hs_private/config" XDG_DATA_HOME="$hs_private/data" \
    XDG_CACHE_HOME="$hs_private/cache" XDG_STATE_HOME="$hs_private/state" XDG_RUNTIME_DIR="$hs_private/runtime"
}

# hs_on_screen COMMAND...: runs a command on a screen of its own, drawn without a graphics card.
hs_on_screen ()
{
  env -u WAYLAND_DISPLAY GSK_RENDERER=cairo GSETTINGS_BACKEND=memory \
    xvfb-run -a -s "-screen 0 1280x800x24 -noreset" dbus-run-session -- "$@"
}
