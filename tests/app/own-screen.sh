#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
#
# own-screen.sh COMMAND...: runs it on a screen that no other test draws on. Nobody manages windows there, so two tests
# on one screen take the focus from each other, which closes lists and loses keys.

set -eu

pipe=$(mktemp -u)
mkfifo -m 600 "$pipe"
# The server picks the number itself and writes it once it listens.
Xvfb -displayfd 3 -screen 0 1280x800x24 -noreset -nolisten tcp 3>"$pipe" >/dev/null 2>&1 &
server=$!
trap 'kill $server; rm -f "$pipe"' EXIT
trap 'exit 143' INT TERM
read -r number < "$pipe"
unset XAUTHORITY
status=0
DISPLAY=":$number" "$@" || status=$?
exit $status
