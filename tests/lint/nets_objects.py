# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Nets over what the compiler made: symbols of each layer, what they ask of the system, what the programs link."""

import json
import re
import subprocess
from pathlib import Path

from tree import LAYERS

# What core and plan never ask for: a clock, the environment, chance, the disk, the terminal, the locale.
CLOCK = r"time|clock|clock_gettime|gettimeofday|localtime(?:_r)?|mktime|strftime" \
        r"|g_get_(?:real|monotonic|current)_time|g_date_time_new_now\w*" \
        r"|g_time_zone_new_local|g_timer_\w+|g_usleep|nanosleep|sleep"
ENVIRONMENT = r"(?:secure_)?getenv|setenv|putenv|g_getenv|g_setenv|g_unsetenv|g_get_environ" \
              r"|g_get_(?:home|tmp|user_\w+|system_\w+|current|host|prgname|user|real)_?\w*" \
              r"|g_listenv|setlocale|gethostname|getpid"
CHANCE = r"s?rand(?:_r)?|s?random|[dlm]rand48|arc4random\w*|getrandom|getentropy|g_random_\w+|g_rand_new|g_uuid_\w+"
DISK = r"f?open(?:64|at)?|creat|f?read|f?write|close|fclose|f?stat(?:64)?|unlink|rename|mkdir|opendir|mmap|g_file_\w+" \
       r"|g_f?open|g_creat|g_stat|g_unlink|g_rename|g_mkdir\w*|g_dir_\w+|g_io_channel_\w+|g_mapped_file_\w+" \
       r"|g_key_file_load_from_(?:file|dirs|data_dirs)|g_key_file_save_\w+|sqlite3_\w+|socket|connect"
LOCALE = r"strtod|strtof|strtold|atof|(?:__isoc99_)?sscanf|g_strtod|toupper|tolower|strcasecmp|strncasecmp" \
         r"|__ctype_\w+"
ASKS = re.compile(f"^(?:{CLOCK}|{ENVIRONMENT}|{CHANCE}|{DISK}|{LOCALE})(?:@.*)?$")

# No library layer talks to the terminal or ends the program.
TALK = re.compile(r"^(?:v?printf|v?fprintf|puts|fputs|putchar|perror|stdout|stderr|__(?:v?f?)printf_chk"
                  r"|exit|_exit|abort|g_print|g_printerr|g_log|g_logv|g_log_structured\w*|syslog)(?:@.*)?$")
WIDGETS = re.compile(r"^(?:gtk|gdk|gsk|adw)_\w+$")
# What single layers may call of what only looks like GTK: decoding photos draws no widget.
NOT_WIDGETS = {"ops": re.compile(r"^gdk_pixbuf_\w+$")}
LIBRARIES = ("core", "plan", "roads", "store", "ops", "paper", "post", "model")
NO_WIDGET_LIBRARY = re.compile(r"^lib(?:gtk|adwaita|gdk-3|shumate|wayland-client|X11)\b.*")
# What cairo brings along where it can draw on a screen, too; a program that only prints must not ask for it itself.
BROUGHT_BY_CAIRO = re.compile(r"^libX11\b.*")


def read(words):
    done = subprocess.run(words, text=True, capture_output=True, check=False)
    if done.returncode != 0:
        raise RuntimeError(f"{' '.join(map(str, words))}: {done.stderr.strip()}")
    return done.stdout


def names(path, kind):
    """The names that `nm` lists: kind is --defined-only or --undefined-only."""
    return sorted({line.split()[-1] for line in read(["nm", "-g", kind, str(path)]).splitlines()
                   if len(line.split()) > 1})


def library(tree, layer):
    return tree.build / "src" / layer / f"libhs-{layer}.a"


def archives(tree, layers):
    return [(layer, library(tree, layer)) for layer in layers if library(tree, layer).is_file()]


def left_out(tree):
    """The layers that this build was told to do without."""
    options = json.loads((tree.build / "meson-info/intro-buildoptions.json").read_text(encoding="utf-8"))
    return {option["name"] for option in options if option["value"] == "disabled"}


def built(tree):
    """Each layer with sources has been built, so that the nets below look at something, but what was left out."""
    without = left_out(tree)
    wanted = [layer for layer in LIBRARIES if tree.sources(layer, (".c",)) and layer not in without]
    return [f"src/{layer}: {library(tree, layer).name} is not built" for layer in wanted
            if not library(tree, layer).is_file()]


def foreign_names(path):
    return [name for name in names(path, "--defined-only")
            if not re.match(r"^_?hs_|^__(?:asan|ubsan|odr_asan)|^_GLOBAL__|^__(?:start|stop)_", name)]


def symbol_prefix(tree):
    """Whatever a library shows to others starts with hs_."""
    return [f"{path.name}: {name} does not start with hs_" for _, path in archives(tree, LAYERS)
            for name in foreign_names(path)]


def asked_for(path):
    return [name for name in names(path, "--undefined-only") if ASKS.match(name)]


def no_world(tree):
    """core and plan ask the system for no clock, environment, chance, disk or locale."""
    return [f"{path.name}: asks for {name}" for _, path in archives(tree, ("core", "plan"))
            for name in asked_for(path)]


def spoken(path):
    return [name for name in names(path, "--undefined-only") if TALK.match(name)]


def no_talk(tree):
    """No library layer prints, logs or ends the program; g_return_if_fail and g_assert stay allowed."""
    return [f"{path.name}: calls {name}" for _, path in archives(tree, LIBRARIES) for name in spoken(path)]


def widget_names(path):
    return [name for name in names(path, "--undefined-only") if WIDGETS.match(name)]


def no_widgets(tree):
    """No library layer below the app calls GTK."""
    return [f"{path.name}: calls {name}" for layer, path in archives(tree, LIBRARIES) for name in widget_names(path)
            if layer not in NOT_WIDGETS or not NOT_WIDGETS[layer].match(name)]


def needed(path):
    """Names of all shared libraries that a program pulls in, its own and theirs."""
    loaded = [line.split()[0] for line in read(["ldd", str(path)]).splitlines() if line.split()]
    return sorted(set(asked_directly(path) + [Path(name).name for name in loaded]))


def asked_directly(path):
    return re.findall(r"\(NEEDED\).*\[(.+)\]", read(["readelf", "-d", str(path)]))


def widget_libraries(path):
    direct = asked_directly(path)
    return [name for name in needed(path) if NO_WIDGET_LIBRARY.match(name)
            and (name in direct or not BROUGHT_BY_CAIRO.match(name))]


def cli_links(tree):
    """The command line links nothing of a desktop."""
    program = tree.build / "src/cli/halfshaft-cli"
    if not program.is_file():
        return ["src/cli: halfshaft-cli is not built"] if tree.sources("cli", (".c",)) else []
    return [f"halfshaft-cli: links {name}" for name in widget_libraries(program)]


def include_paths(tree):
    """Each room has its own include path; neither src/ nor the top of the tree is one."""
    banned = {str(tree.root), str(tree.root / "src"), str(tree.build), str(tree.build / "src")}
    complaints = set()
    for source, words in tree.commands().items():
        for word in words:
            if word.startswith("-I") and str((tree.build / word[2:]).resolve()) in banned:
                complaints.add(f"{source}: includes from {word[2:]}")
    return sorted(complaints)


NETS = (built, symbol_prefix, no_world, no_talk, no_widgets, cli_links, include_paths)
