#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
#
# Runs bench-start.py on a screen and a bus of its own.
unset ARGS
exec xvfb-run -a -s "-screen 0 1280x800x24 -noreset" dbus-run-session -- python3 "$(dirname "$0")/bench-start.py" "$@"
