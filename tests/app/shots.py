# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Every view as a picture, light, dark, small and at 360 px, on one contact sheet to look at. Prints TAP: each picture
is there, has its size and shows something. HS_SHEET names where the sheet goes."""

import os
import shutil
import subprocess
import sys
import tempfile

APP, SHEET = os.environ["HS_APP"], os.environ["HS_SHEET"]
VIEWS = ["jobs", "today", "parts", "vehicles", "money", "call", "findings", "why", "photos", "choices", "bill", "after"]
MODES = {"light": (1280, 800), "dark": (1280, 800), "1024x600": (1024, 600), "360": (360, 800)}


def look(path):
    """Width, height and how many colors."""
    done = subprocess.run(["identify", "-format", "%w %h %k", path], capture_output=True, text=True, timeout=60)
    return tuple(map(int, done.stdout.split())) if done.returncode == 0 else None


def main():
    home = tempfile.mkdtemp(prefix="hs-shots-")
    number = failed = 0
    try:
        folder = os.path.join(home, "shots")
        env = dict(os.environ, XDG_DATA_HOME=home, GSK_RENDERER="cairo")
        subprocess.run([APP, "--demo", "--shots", folder], env=env, timeout=170, check=True)
        rows = []
        for mode, size in MODES.items():
            pictures = []
            for view in VIEWS:
                path = os.path.join(folder, f"{view}-{mode}.png")
                found = look(path)
                good = found is not None and found[:2] == size and found[2] > 16
                number += 1
                failed += not good
                print(f"{'ok' if good else 'not ok'} {number} - {view} {mode}: {found}", flush=True)
                if found is not None:
                    pictures.append(path)
            rows += ["(", *pictures, "-resize", "640x400", "-bordercolor", "white", "-border", "6", "+append", ")"]
        subprocess.run(["convert", *rows, "-append", SHEET], check=True, timeout=120)
        print("# contact sheet:", SHEET)
    finally:
        shutil.rmtree(home)
    print(f"1..{number}")
    return 1 if failed else 0


sys.exit(main())
