# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Nets over length: files, functions, columns, and how much test stands behind a line of code."""

import re
import statistics

from tree import LAYERS, without_comments

FILE_CAP, FILE_MEDIAN = 800, 250
FUNCTION_CAP, FUNCTION_MEDIAN, FUNCTION_P90 = 100, 15, 40
COLUMNS = 120
TESTED = ("core", "plan", "store", "ops")
# A layer with fewer lines than this holds no behavior yet, only its error domain.
TOO_SMALL = 20


def functions(text):
    """(name, lines between the braces) of each function in GNU layout: both braces stand in the first column."""
    lines = without_comments(text).split("\n")
    found = []
    start = None
    for number, line in enumerate(lines):
        if line.startswith("{") and start is None and signature_above(lines, number):
            start = number
        elif line.startswith("}") and start is not None:
            found.append((signature_above(lines, start), number - start - 1))
            start = None
    return found


def signature_above(lines, number):
    """The name of the function whose body opens at this line, or None for an enum, a struct or a table."""
    head = []
    for line in reversed(lines[max(0, number - 20):number]):
        if not line.strip() or line.startswith(("}", "#")) or line.rstrip().endswith(";"):
            break
        head.insert(0, line)
    match = re.search(r"(\w+)\s*\((?:.|\n)*\)\s*$", "\n".join(head))
    return match.group(1) if match and "=" not in "\n".join(head) else None


def p90(values):
    ordered = sorted(values)
    return ordered[max(0, -(-len(ordered) * 9 // 10) - 1)]


def c_files(tree, folder):
    return tree.files(folder, (".c", ".h"))


def file_lengths(tree):
    """No file passes the cap; half of the sources stay under the median."""
    complaints = []
    for path in c_files(tree, "src") + c_files(tree, "tests") + tree.files("tests", (".py",)):
        count = tree.text(path).count("\n")
        if count > FILE_CAP:
            complaints.append(f"{tree.short(path)}: {count} lines, at most {FILE_CAP}")
    middle = statistics.median([tree.text(path).count("\n") for path in c_files(tree, "src")])
    if middle > FILE_MEDIAN:
        complaints.append(f"src: the median file has {middle} lines, at most {FILE_MEDIAN}")
    return complaints


def function_lengths(tree):
    """No function passes the cap; median and nine tenths of the sources stay short."""
    complaints = []
    sizes = []
    for folder in ("src", "tests"):
        for path in tree.files(folder, (".c",)):
            for name, size in functions(tree.text(path)):
                if folder == "src":
                    sizes.append(size)
                if size > FUNCTION_CAP:
                    complaints.append(f"{tree.short(path)}: {name} has {size} lines, at most {FUNCTION_CAP}")
    if sizes and statistics.median(sizes) > FUNCTION_MEDIAN:
        complaints.append(f"src: the median function has {statistics.median(sizes)} lines, at most {FUNCTION_MEDIAN}")
    if sizes and p90(sizes) > FUNCTION_P90:
        complaints.append(f"src: nine of ten functions have up to {p90(sizes)} lines, at most {FUNCTION_P90}")
    return complaints


def columns(tree):
    """No line is wider than a page."""
    complaints = []
    for path in c_files(tree, "src") + c_files(tree, "tests") + tree.files("tests", (".py", ".sh")):
        for number, line in enumerate(tree.text(path).split("\n"), 1):
            if len(line) > COLUMNS:
                complaints.append(f"{tree.short(path)}:{number}: {len(line)} columns, at most {COLUMNS}")
    return complaints


def indents(tree):
    """Spaces, not tabs, and none left at the end of a line."""
    complaints = []
    for path in c_files(tree, "src") + c_files(tree, "tests") + tree.files("tests", (".py", ".sh", ".build")):
        for number, line in enumerate(tree.text(path).split("\n"), 1):
            if "\t" in line or line != line.rstrip():
                complaints.append(f"{tree.short(path)}:{number}: a tab, or a space at the end of the line")
    return complaints


def code_lines(tree, folder):
    total = 0
    for path in tree.files(folder, (".c",)) if (tree.root / folder).is_dir() else []:
        total += sum(1 for line in without_comments(tree.text(path)).split("\n") if line.strip())
    return total


def test_lines(tree):
    """At least one line of test for each line of code, counted alike: no comments, no blank lines."""
    complaints = []
    for layer in TESTED:
        code, test = code_lines(tree, f"src/{layer}"), code_lines(tree, f"tests/{layer}")
        if code >= TOO_SMALL and test < code:
            complaints.append(f"{layer}: {code} lines of code, {test} lines of test")
    return complaints


def module_comments(tree):
    """A source file says at its top what it is for."""
    complaints = []
    for layer in LAYERS:
        for path in tree.sources(layer, (".c",)):
            body = tree.text(path).split("\n", 2)[-1].lstrip()
            if not body.startswith("/*"):
                complaints.append(f"{tree.short(path)}: no module comment before the first line of code")
    return complaints


NETS = (file_lengths, function_lengths, columns, indents, test_lines, module_comments)
