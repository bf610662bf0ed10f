# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""What every net shares: the tree it looks at, source without comments, and TAP lines.

A net is a function that takes a Tree and returns a list of complaints, each one line that names the file. An empty
list is a pass. Nets never print and never change the tree, so that `nets-hold.py` can run them on a spoiled copy.
"""

import json
import os
import re
import shlex
import subprocess
import sys
from functools import lru_cache
from pathlib import Path

LAYERS = ("core", "plan", "roads", "store", "ops", "paper", "post", "model", "app", "cli")
SKIPPED_FOLDERS = re.compile(r"^(build.*|\.git|\.cache|__pycache__|node_modules)$")


class Tree:
    """A checkout and, for nets that need one, the build made from it."""

    def __init__(self, root, build=None):
        self.root = Path(root).resolve()
        self.build = Path(build).resolve() if build else None

    def files(self, folder=".", suffixes=None):
        """All files under a folder, sorted, without build folders; suffixes such as (".c", ".h")."""
        found = []
        for where, folders, names in os.walk(self.root / folder):
            folders[:] = sorted(name for name in folders
                                if not SKIPPED_FOLDERS.match(name)
                                and Path(where, name).resolve() != self.build)
            found += [Path(where, name) for name in sorted(names)
                      if (suffixes is None or name.endswith(tuple(suffixes))) and not name.endswith(".pyc")]
        return found

    def short(self, path):
        return str(Path(path).relative_to(self.root))

    def text(self, path):
        return Path(self.root, path).read_text(encoding="utf-8")

    def layer_of(self, path):
        parts = Path(path).relative_to(self.root).parts
        return parts[1] if len(parts) > 2 and parts[0] == "src" else None

    def sources(self, layer, suffixes=(".c", ".h")):
        return self.files(f"src/{layer}", suffixes) if (self.root / "src" / layer).is_dir() else []

    @lru_cache(maxsize=None)
    def commands(self):
        """compile_commands.json as {absolute source path: list of words}; of a source that is compiled more than once
        (the fuzz suite has a copy of core of its own, without walls) the layer's own command."""
        entries = json.loads((self.build / "compile_commands.json").read_text(encoding="utf-8"))
        found = {}
        for entry in entries:
            source = Path(entry["directory"], entry["file"]).resolve()
            own = f"libhs-{source.parent.name}.a.p" in entry["command"]
            if own or str(source) not in found:
                found[str(source)] = shlex.split(entry["command"])
        return found

    @lru_cache(maxsize=None)
    def flags(self, layer):
        """The compiler and the flags that the build itself uses for a layer, without file names; None if not built."""
        for source, words in self.commands().items():
            path = Path(source)
            if path.suffix == ".c" and path.parent.is_relative_to(self.root / "src" / layer) \
               and f"libhs-{layer}.a.p" in " ".join(words):
                return bare_flags(words)
        for source, words in self.commands().items():
            if Path(source).suffix == ".c" and Path(source).parent.is_relative_to(self.root / "src" / layer):
                return bare_flags(words)
        return None


def bare_flags(words):
    """A compile command without what names one file: output, dependency file, source."""
    kept = []
    skip = False
    for word in words:
        if skip:
            skip = False
        elif word in ("-o", "-MF", "-MQ", "-MT", "-c"):
            skip = True
        elif word not in ("-MD", "-MMD"):
            kept.append(word)
    return [word for word in kept if word != "ccache"]


def compiles(tree, flags, text):
    """(True, "") when the text compiles with the flags, else (False, what the compiler said)."""
    done = subprocess.run(flags + ["-fdiagnostics-color=never", "-fsyntax-only", "-x", "c", "-"], input=text,
                          text=True, cwd=tree.build, capture_output=True, check=False)
    return done.returncode == 0, done.stderr


def without_comments(text):
    """C text with comments blanked; strings and line numbers stay as they are."""
    pattern = re.compile(r'"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'|/\*.*?\*/|//[^\n]*', re.S)

    def blank(match):
        found = match.group(0)
        return found if found[0] in "\"'" else re.sub(r"[^\n]", " ", found)

    return pattern.sub(blank, text)


def without_strings(text):
    """C text without comments whose string and character literals are empty."""
    return re.sub(r'"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', '""', without_comments(text))


def line_of(text, offset):
    return text.count("\n", 0, offset) + 1


class Tap:
    """Writes TAP; `check` takes complaints, `done` writes the plan and gives the exit code."""

    def __init__(self):
        self.count = 0
        self.failed = 0

    def check(self, name, complaints):
        self.count += 1
        if complaints:
            self.failed += 1
        print(f"{'not ok' if complaints else 'ok'} {self.count} - {name}")
        for complaint in complaints[:60]:
            print("# " + complaint.replace("\n", "\n# "))
        if len(complaints) > 60:
            print(f"# and {len(complaints) - 60} more")
        sys.stdout.flush()

    def done(self):
        print(f"1..{self.count}")
        return 1 if self.failed else 0
