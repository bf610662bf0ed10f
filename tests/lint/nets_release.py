# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Nets over what a reader gets: links that lead somewhere, languages without gaps, one version everywhere."""

import re
import subprocess
import tempfile

LINK = re.compile(r"\]\(([^)#:]+)\)")
VERSION = re.compile(r"version: '([^']+)'")


def links(tree):
    """Every link and picture of the two pages leads to something in the tree."""
    return [f"{page}: {target} is not there" for page in ("README.md", "DEVELOPERS.md")
            for target in LINK.findall(tree.text(page)) if not (tree.root / target).exists()]


def gaps(path):
    """What `msgattrib` still finds untranslated or doubtful in a language."""
    found = []
    for kind in ("--untranslated", "--only-fuzzy"):
        done = subprocess.run(["msgattrib", kind, "--no-obsolete", "--no-wrap", str(path)], text=True,
                              capture_output=True, check=True)
        found += [line for line in re.findall(r'^msgid (".+")$', done.stdout, re.M) if line != '""']
    return found


def whole_languages(tree):
    """Each language says everything that the sources say, and nothing of it is doubtful."""
    complaints = []
    files = [line for line in tree.text("po/POTFILES").splitlines() if line and not line.startswith("#")]
    with tempfile.TemporaryDirectory() as folder:
        template = f"{folder}/now.pot"
        subprocess.run(["xgettext", "--from-code=UTF-8", "--add-comments", "--keyword=_", "--keyword=N_",
                        "--keyword=C_:1c,2", "--keyword=NC_:1c,2", "--keyword=ngettext:1,2",
                        "--keyword=g_dngettext:2,3", "--keyword=g_dpgettext2:2c,3", "-o", template] + files,
                       cwd=tree.root, check=True, capture_output=True)
        for path in tree.files("po", (".po",)):
            merged = f"{folder}/{path.name}"
            subprocess.run(["msgmerge", "-q", "--no-fuzzy-matching", "-o", merged, str(path), template], check=True,
                           capture_output=True)
            complaints += [f"{tree.short(path)}: not translated: {words}" for words in gaps(merged)]
    return complaints


def one_version(tree):
    """The newest release in the metainfo is the version that is built."""
    built = VERSION.search(tree.text("meson.build")).group(1)
    told = re.search(r'<release version="([^"]+)"', tree.text("data/org.halfshaft.Halfshaft.metainfo.xml.in")).group(1)
    return [] if built == told else [f"meson.build builds {built}, the metainfo tells of {told}"]


NETS = (links, whole_languages, one_version)
