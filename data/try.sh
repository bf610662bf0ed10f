#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
#
# Shows Halfshaft at work: builds it, makes the demo book, prints the demo morning's plan and parts run, and opens
# the window on it. Without a display it draws each main view into a PNG instead and says where.
#
#   sh data/try.sh
#
# HS_BUILD_DIR names the build folder (build-try if unset). Debian gets what is missing installed; elsewhere it is
# named.

set -eu
unset ARGS
cd "$(dirname "$0")/.."
. data/packages.sh

if [ $# -gt 0 ]; then
  hs_say "usage: sh data/try.sh"
  exit 2
fi
hs_need BUILD SHOW

build=${HS_BUILD_DIR:-build-try}
mkdir -p "$build"
build=$(cd "$build" && pwd)
if [ -f "$build/build.ninja" ]; then
  meson setup --reconfigure "$build" -Dapp=enabled >"$build/setup.txt" 2>&1 \
    || meson setup --wipe "$build" -Dapp=enabled
else
  meson setup "$build" -Dapp=enabled
fi
meson compile -C "$build"
cli=$build/src/cli/halfshaft-cli
app=$build/src/app/halfshaft
export GSETTINGS_SCHEMA_DIR="$build/data" GSETTINGS_BACKEND=memory

# The demo book lies in the build folder and is this script's own, so each try starts from the same morning.
book=$build/demo/demo.hsbook
mkdir -p "$build/demo"
rm -f "$book" "$book-wal" "$book-shm"
"$cli" demo "$book"
printf '\nThe morning of 2026-03-10, seen at 06:45\n\n'
"$cli" --book "$book" --now 2026-03-10T06:45 plan --day 2026-03-10
printf '\nThe parts run\n\n'
"$cli" --book "$book" --now 2026-03-10T06:45 parts --day 2026-03-10

if [ -n "${WAYLAND_DISPLAY-}${DISPLAY-}" ]; then
  printf '\nOpening the window on the demo book.\n'
  if [ -n "${DBUS_SESSION_BUS_ADDRESS-}" ]; then
    exec "$app" --demo
  fi
  exec dbus-run-session -- "$app" --demo
fi

shots=$build/shots
rm -rf "$shots"
mkdir -p "$shots"
hs_make_private
trap 'rm -rf "$hs_private"' EXIT
hs_on_screen timeout 180 "$app" --demo --shots "$shots"
printf '\nNo display here, so each view is a picture:\n'
found=no
for shot in "$shots"/*.png; do
  [ -f "$shot" ] || continue
  found=yes
  printf '  %s\n' "$shot"
done
if [ "$found" = no ]; then
  hs_say "The window drew no picture into $shots."
  exit 1
fi
