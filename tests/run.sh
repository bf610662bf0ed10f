#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
#
# Builds Halfshaft and runs its whole suite: first what needs no display, then the window on a screen of its own.
# Ends with `N passed, N failed` alone on a line and says by its exit code whether all is well.
#
#   sh tests/run.sh          the suite
#   sh tests/run.sh --long   also: sanitizers, valgrind, fresh Debian roots
#
# HS_BUILD_DIR names the build folder (build-tests if unset). Debian gets what is missing installed; elsewhere it is
# named.

set -eu
unset ARGS
cd "$(dirname "$0")/.."
. data/packages.sh

long=no
case "${1-}" in
  "") ;;
  --long) long=yes ;;
  *) hs_say "usage: sh tests/run.sh [--long]"; exit 2 ;;
esac

hs_need BUILD SHOW TEST
[ "$long" = no ] || hs_need LONG

build=${HS_BUILD_DIR:-build-tests}
mkdir -p "$build"
build=$(cd "$build" && pwd)
hs_make_private
trap 'rm -rf "$hs_private"' EXIT
trap 'exit 130' INT
trap 'exit 143' TERM
logs=
own_screen="sh '$PWD/tests/app/own-screen.sh'"

# make FOLDER OPTION...: configures and builds; an old folder that no longer fits is made anew.
make_build ()
{
  where=$1
  shift
  if [ -f "$where/build.ninja" ]; then
    meson setup --reconfigure "$where" --werror -Dapp=enabled "$@" || meson setup --wipe "$where" --werror \
      -Dapp=enabled "$@"
  else
    meson setup "$where" --werror -Dapp=enabled "$@"
  fi && meson compile -C "$where"
}

no_build ()
{
  hs_say "The build in $1 failed; the lines above say why."
  echo "0 passed, 1 failed"
  exit 1
}

# part NAME FOLDER COMMAND-PREFIX... -- MESON-TEST-OPTION...: runs a part of the suite and keeps its log.
part ()
{
  name=$1
  where=$2
  shift 2
  runner=
  while [ "$1" != -- ]; do
    runner="$runner $1"
    shift
  done
  shift
  printf '\n== %s\n' "$name"
  rm -f "$where"/meson-logs/testlog*.json
  # shellcheck disable=SC2086
  $runner meson test -C "$where" --no-rebuild --print-errorlogs -t 3 "$@" || true
  # Meson calls the log testlog-WRAPPER.json where a wrapper runs the tests.
  for log in "$where"/meson-logs/testlog*.json; do
    [ -f "$log" ] || continue
    cp "$log" "$hs_private/$name.json"
    logs="$logs $hs_private/$name.json"
  done
}

extra_parts ()
{
  make_build "$build-sanitized" -Db_sanitize=address,undefined -Db_lundef=false || no_build "$build-sanitized"
  export ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=halt_on_error=1:print_stacktrace=1 \
    LSAN_OPTIONS="suppressions=$PWD/tests/lsan.supp:print_suppressions=0"
  part sanitized-headless "$build-sanitized" -- --no-suite app --no-suite lint --no-suite long -t 10
  # Mesa unloads a library that still owns memory; without OpenGL the window is the same, drawn by cairo anyway.
  part sanitized-window "$build-sanitized" hs_on_screen env GDK_DEBUG=gl-disable GDK_DISABLE=gl -- --suite app -t 10 \
    --wrapper "$own_screen"
  unset ASAN_OPTIONS UBSAN_OPTIONS LSAN_OPTIONS

  export G_SLICE=always-malloc
  part valgrind "$build" -- --suite core --suite plan --suite store --suite ops -t 30 --wrapper \
    "valgrind -q --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite --suppressions=$valgrind_glib"
  unset G_SLICE
  part long "$build" -- --suite long -t 20

  printf '\n== fresh roots\n'
  if sh tests/roots.sh > "$hs_private/roots.txt" 2>&1; then result=OK; else result=FAIL; fi
  cat "$hs_private/roots.txt"
  printf '{"name": "fresh roots", "result": "%s"}\n' "$result" > "$hs_private/roots.json"
  logs="$logs $hs_private/roots.json"
}

make_build "$build" || no_build "$build"
meson introspect --tests "$build" > "$hs_private/tests.json"
export GSETTINGS_SCHEMA_DIR="$build/data"
part headless "$build" -- --no-suite app --no-suite long
part window "$build" hs_on_screen -- --suite app --wrapper "$own_screen"
valgrind_glib=/usr/share/glib-2.0/valgrind/glib.supp
[ "$long" = no ] || extra_parts

echo
# shellcheck disable=SC2086
python3 tests/count.py --tests "$hs_private/tests.json" $logs
