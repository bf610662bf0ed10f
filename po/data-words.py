#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Writes data/words.h: the words of the shipped data files that are translated where they are shown. Run it after a
change of one of them, then `meson compile halfshaft-pot halfshaft-update-po`; lint says when it was forgotten."""

import json
import pathlib
import re
import sys
import textwrap

HEAD = """// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Words of the data files beside this one, for translators. Made by po/data-words.py; nothing takes it in. */
"""
# The file, what its words are, and the keys of them.
LISTS = (
    ("safety/lists.ini", "safety list", ("words", "short", "caution")),
    ("checks/checks.ini", "checks and complaint groups", ("name", "hint", "caution")),
    ("checks/checks.ini", "how it is measured, and what may be answered", ("how", "answer")),
    ("checks/checks.ini", "verdicts: the word in the box, the limit in words, why, and what to do next",
     ("word", "limit", "why", "next", "over_range_why", "over_range_next")),
    ("interview/questions.ini", "questions on the phone and beside the vehicle, and what may be answered",
     ("words", "answer")),
    ("reference/disturbed.ini", "what is looked after again after a repair", ("name", "look", "caution")),
)


def ini_words(path, keys):
    for line in path.read_text(encoding="utf-8").splitlines():
        found = re.match(r"([a-z_]+?)\d?=(.+)$", line)
        if found and found[1] in keys:
            yield found[2]


def model_words(folder):
    for path in sorted(folder.glob("*.json")):
        model = json.loads(path.read_text(encoding="utf-8"))
        if path.name == "model.schema.json":
            continue
        yield model["name"]
        yield model["note"]
        for cause in model["causes"]:
            yield cause["name"]
            yield cause["repair"]
            yield cause["source"]
        for check in model["checks"]:
            yield from check["results"]


def decisions(path):
    """What answers decide, sentence by sentence, for one answer shows only those that are about it."""
    for words in ini_words(path, ("decides",)):
        yield from re.split(r"(?<=\.) ", words)


def quoted(words):
    """As C has it, on lines of a page's width."""
    lines = textwrap.wrap(words, 108, drop_whitespace=False, break_on_hyphens=False)
    return "\n    ".join(json.dumps(line, ensure_ascii=False) for line in lines)


def written(root):
    data = pathlib.Path(root) / "data"
    kinds = [(about, ini_words(data / name, keys)) for name, about, keys in LISTS]
    kinds.append(("what an answer decides", decisions(data / "interview/questions.ini")))
    kinds.append(("causes of a complaint, their repairs, and what comes out of checks", model_words(data / "causes")))
    seen, text = set(), HEAD
    for about, words in kinds:
        text += f"\n/* {about} */\n"
        for one in words:
            if one not in seen:
                seen.add(one)
                text += ("/* xgettext:no-c-format */\n" if "%" in one else "") + f"N_ ({quoted(one)})\n"
    return text


if __name__ == "__main__":
    ROOT = pathlib.Path(__file__).resolve().parent.parent
    (ROOT / "data" / "words.h").write_text(written(ROOT), encoding="utf-8")
    sys.exit(0)
