# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Runs the validators of other projects over what Halfshaft ships: `validators.py --root DIR --build DIR [--app]`.

A tool that is not there fails its check and names the Debian package that holds it: a check that did not run has
not passed.
"""

import argparse
import json
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from tree import Tap, Tree

APP_ID = "org.halfshaft.Halfshaft"
PACKAGES = {
    "appstreamcli": "appstream",
    "desktop-file-validate": "desktop-file-utils",
    "glib-compile-schemas": "libglib2.0-bin",
    "glib-compile-resources": "libglib2.0-dev-bin",
    "msgfmt": "gettext",
    "rsvg-convert": "librsvg2-bin",
    "xmllint": "libxml2-utils",
}
# appstream before 0.16.2 does not know <developer>, and newer ones want it.
ALLOWED_INFO = re.compile(r"unknown-tag\s+developer\b")
# The least a window needs. Anything more is argued for in DEVELOPERS.md first.
SANDBOX = {"--share=ipc", "--socket=wayland", "--socket=fallback-x11", "--device=dri"}


def run(words):
    """(exit code, everything it said); a missing tool is exit code 127 and the package's name."""
    if not shutil.which(words[0]):
        return 127, f"{words[0]} is missing: install the package {PACKAGES[words[0]]}"
    done = subprocess.run([str(word) for word in words], text=True, capture_output=True, check=False)
    return done.returncode, (done.stdout + done.stderr).strip()


def complaints_of(words):
    code, said = run(words)
    return [f"{words[0]}: {said or code}"] if code != 0 else []


def desktop_entry(path):
    code, said = run(["desktop-file-validate", path])
    return [said or f"exit code {code}"] if code != 0 or said else []


def metainfo(path):
    """Valid, and silent but for the one tag that an older appstream does not know."""
    code, said = run(["appstreamcli", "validate", "--no-net", path])
    notes = [line for line in said.splitlines() if re.match(r"^[EWI]: ", line) and not ALLOWED_INFO.search(line)]
    return [said] if code != 0 else notes


def xml(paths):
    return [complaint for path in paths for complaint in complaints_of(["xmllint", "--noout", path])]


def drawings(paths):
    """Every drawing renders."""
    with tempfile.TemporaryDirectory() as folder:
        return [f"{path.name}: {complaint}" for path in paths
                for complaint in complaints_of(["rsvg-convert", "-w", "32", "-o", Path(folder, "x.png"), path])]


def languages(paths):
    """Each language compiles with its headers and formats checked."""
    return [f"{path.name}: {complaint}" for path in paths
            for complaint in complaints_of(["msgfmt", "-c", "-o", "/dev/null", path])]


def sandbox(path):
    """The manifest asks for a window and nothing else; flatpak-builder reads it too where it is installed."""
    manifest = json.loads(path.read_text(encoding="utf-8"))
    asked = set(manifest["finish-args"])
    complaints = [f"{path.name}: {word} is more than a window needs" for word in sorted(asked - SANDBOX)]
    complaints += [f"{path.name}: {word} is missing" for word in sorted(SANDBOX - asked)]
    if manifest["id"] != APP_ID or manifest["command"] != "halfshaft":
        complaints.append(f"{path.name}: id or command is not ours")
    if shutil.which("flatpak-builder"):
        with tempfile.TemporaryDirectory() as folder:
            done = subprocess.run(["flatpak-builder", "--show-manifest", str(path)], text=True, capture_output=True,
                                  check=False, cwd=folder)
        if done.returncode != 0 or "nknown" in done.stderr:
            complaints.append(f"{path.name}: {done.stderr.strip()}")
    return complaints


def scripts(paths):
    return [f"{path.name}: {complaint}" for path in paths for complaint in shell_syntax(path)]


def shell_syntax(path):
    done = subprocess.run(["sh", "-n", str(path)], text=True, capture_output=True, check=False)
    return [done.stderr.strip()] if done.returncode != 0 else []


def schemas(folder):
    return complaints_of(["glib-compile-schemas", "--strict", "--dry-run", folder])


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--root", required=True)
    parser.add_argument("--build", required=True)
    parser.add_argument("--app", action="store_true", help="the desktop app is part of this build")
    options = parser.parse_args()
    tree = Tree(options.root, options.build)
    data = tree.build / "data"

    tap = Tap()
    if options.app:
        tap.check("the desktop entry is valid", desktop_entry(data / f"{APP_ID}.desktop"))
        tap.check("the metainfo is valid", metainfo(data / f"{APP_ID}.metainfo.xml"))
    tap.check("the schema compiles strictly", schemas(tree.root / "data"))
    tap.check("all XML is well formed", xml(tree.files(".", (".ui", ".xml", ".xml.in", ".svg"))))
    tap.check("all drawings render", drawings(tree.files("data", (".svg",))))
    tap.check("all languages compile", languages(tree.files("po", (".po",))))
    tap.check("the sandbox is as small as it can be", sandbox(tree.root / f"flatpak/{APP_ID}.json"))
    tap.check("all scripts parse", scripts(tree.files(".", (".sh",)) + [tree.root / ".ci/run"]))
    return tap.done()


if __name__ == "__main__":
    sys.exit(main())
