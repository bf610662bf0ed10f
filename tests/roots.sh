#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
#
# Tries both commands of the README in a fresh, bare Debian 12 and Debian 13. Needs root and debootstrap.
#
#   sh tests/roots.sh [SUITE...]     bookworm and trixie if none is named
#
# HS_ROOTS names the folder of the bare roots (made there when missing and kept, so that a second run starts sooner;
# /var/tmp/halfshaft-roots if unset). Each try works on a throw-away copy. The archive is the one that this machine's
# apt uses.

set -eu
cd "$(dirname "$0")/.."
PATH="$PATH:/usr/sbin:/sbin"
roots=${HS_ROOTS:-/var/tmp/halfshaft-roots}
[ $# -gt 0 ] || set -- bookworm trixie

if [ "$(id -u)" -ne 0 ]; then
  echo "Fresh roots need root: sudo sh tests/roots.sh" >&2
  exit 1
fi
if ! command -v debootstrap >/dev/null; then
  echo "debootstrap is missing: install the package debootstrap" >&2
  exit 1
fi

# The archive that apt on this machine fetches Debian's own packages from.
mirror=$(apt-get indextargets --format '$(SITE) $(ORIGIN) $(COMPONENT) $(CREATED_BY)' 2>/dev/null \
  | awk '$2 == "Debian" && $3 == "main" && $4 == "Packages" && $1 !~ /security/ { print $1; exit }')
if [ -z "$mirror" ]; then
  echo "apt on this machine knows no Debian archive; run apt-get update first" >&2
  exit 1
fi

# A throw-away root goes away only once nothing of the machine is mounted in it.
try=
discard ()
{
  [ -n "$try" ] || return 0
  umount "$try/proc" 2>/dev/null || true
  rm -rf --one-file-system "$try"
  try=
}
trap discard EXIT
trap 'exit 130' INT
trap 'exit 143' TERM

# bare SUITE: a root with nothing but Debian's least, made once.
bare ()
{
  [ -e "$roots/$1/etc/debian_version" ] && [ ! -e "$roots/$1/debootstrap" ] && return 0
  mkdir -p "$roots"
  debootstrap --variant=minbase "$1" "$roots/$1" "$mirror"
}

# inside NAME COMMAND...: runs a command in the copy as a fresh machine would, without a terminal or a display.
inside ()
{
  name=$1
  shift
  echo "== $suite: $name"
  if chroot "$try" env -i PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin HOME=/root-of-try \
       CI=true sh -c "cd /halfshaft && $*" </dev/null >"$try/said.txt" 2>&1; then
    tail -n 3 "$try/said.txt"
    echo "ok - $suite: $name"
  else
    tail -n 60 "$try/said.txt"
    echo "not ok - $suite: $name"
    failed=1
  fi
}

failed=0
for suite in "$@"; do
  bare "$suite"
  try=$(mktemp -d -p "$roots")
  cp -a "$roots/$suite/." "$try/"
  chmod 755 "$try"
  mkdir "$try/root-of-try"
  mkdir -p "$try/dev/shm" "$try/halfshaft"
  chmod 1777 "$try/dev/shm"
  mount -t proc proc "$try/proc" 2>/dev/null || echo "note: no /proc in the root of $suite"
  cp -L /etc/resolv.conf "$try/etc/resolv.conf" 2>/dev/null || true
  tar -c --exclude './build*' --exclude ./.git . | tar -x -C "$try/halfshaft"
  inside "sh data/try.sh" "sh data/try.sh"
  inside "sh tests/run.sh" "sh tests/run.sh"
  discard
done
exit "$failed"
