# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Nets over the text of the sources: who may include whom, words that depend on the locale, and order in the house."""

import configparser
import importlib.util
import re

from tree import LAYERS, line_of, without_comments, without_strings

PLAIN = {"errno.h", "float.h", "inttypes.h", "limits.h", "math.h", "stdbool.h", "stddef.h", "stdint.h", "string.h"}
# For qsort and bsearch; the symbol nets see to it that nothing else of it is used.
SORT = {"stdlib.h"}
DISK = {"fcntl.h", "glib/gstdio.h", "sys/file.h", "sys/stat.h", "sys/types.h", "unistd.h"}
TALK = {"glib/gi18n.h", "locale.h", "signal.h", "stdio.h", "stdlib.h"}

# Per layer: the layers whose headers it may include, and the system headers.
MAY_USE = {
    "core": ((), {"glib.h"} | PLAIN | SORT),
    "plan": (("core",), {"glib.h"} | PLAIN | SORT),
    "roads": (("core",), {"glib.h", "glib/gstdio.h", "routino.h"} | PLAIN),
    "store": (("core",), {"glib.h", "sqlite3.h"} | PLAIN | DISK),
    "ops": (("core", "plan", "store"), {"glib.h", "gio/gio.h", "json-glib/json-glib.h",
                                        "gdk-pixbuf/gdk-pixbuf.h"} | PLAIN | DISK),
    "paper": (("core",), {"glib.h", "cairo.h", "cairo-pdf.h", "pango/pangocairo.h"} | PLAIN),
    "post": (("core",), {"glib.h", "gio/gio.h", "libsoup/soup.h", "libsecret/secret.h"} | PLAIN | DISK),
    "model": (("core", "plan", "store", "ops"), {"glib.h", "glib-object.h", "gio/gio.h"} | PLAIN | DISK),
    "app": (("core", "plan", "model", "ops", "paper"),
            {"glib.h", "glib-object.h", "gio/gio.h", "gtk/gtk.h", "adwaita.h", "shumate/shumate.h", "qrencode.h",
             "cairo.h", "pango/pangocairo.h"} | PLAIN | DISK | TALK),
    "cli": (("core", "plan", "store", "ops", "paper", "post", "roads"),
            {"glib.h", "gio/gio.h", "json-glib/json-glib.h"} | PLAIN | DISK | TALK),
}
# The places that wire the optional rooms into the app; what they wire in is linked with the program alone.
WIRING = {"src/app/hs-post-wiring.c": ("post",), "src/app/hs-road-wiring.c": ("roads",)}
# What single files take in besides: the walls, the headers whose names they then poison; the meter, processor time; the
# command that a secret is typed into, the terminal that is not to show it.
MAY_USE_BESIDES = {"src/core/hs-core-walls.h": {"stdio.h"}, "src/app/hs-paint-meter.c": {"sys/resource.h"},
                   "src/cli/hs-command-post.c": {"termios.h"}}

INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*([<"])([^>"]+)[>"]', re.M)


def headers_by_layer(tree):
    return {layer: {path.name for path in tree.sources(layer, (".h",))} for layer in LAYERS}


def include_complaint(tree, path, layer, quote, name, homes):
    short = tree.short(path)
    layers, system = MAY_USE[layer]
    if quote == "<":
        return None if name in system | MAY_USE_BESIDES.get(short, set()) else f"{short}: <{name}> is not for {layer}"
    if "/" in name:
        return f'{short}: "{name}" is not a flat include name'
    allowed = (layer,) + layers + WIRING.get(short, ())
    owners = [home for home in LAYERS if name in homes[home]]
    if not owners:
        return None if name.endswith("-resources.h") and layer in ("app", "ops") else f'{short}: "{name}" is in no room'
    if not any(owner in allowed for owner in owners):
        return f'{short}: "{name}" belongs to {owners[0]}, which {layer} may not use'
    return None


def includes(tree):
    """Each layer includes only itself, the layers it stands on and the system headers listed for it."""
    homes = headers_by_layer(tree)
    complaints = []
    for layer in LAYERS:
        for path in tree.sources(layer):
            for match in INCLUDE.finditer(without_comments(tree.text(path))):
                complaints.append(include_complaint(tree, path, layer, match.group(1), match.group(2), homes))
    return [complaint for complaint in complaints if complaint]


def rooms(tree):
    """src/ holds the known layers and nothing else; a header name is in one room only."""
    complaints = [f"src/{path.name}: not a room of the house" for path in sorted((tree.root / "src").iterdir())
                  if path.name not in LAYERS]
    homes = headers_by_layer(tree)
    for layer in LAYERS:
        for other in LAYERS[LAYERS.index(layer) + 1:]:
            complaints += [f"{name}: in {layer} and in {other}" for name in sorted(homes[layer] & homes[other])]
    for layer in LAYERS:
        for path in tree.sources(layer):
            if not path.name.startswith("hs-") and path.name != "main.c":
                complaints.append(f"{tree.short(path)}: file names start with hs-")
    return complaints


TOP_LEVEL = {"README.md", "DEVELOPERS.md", "meson.build", "meson_options.txt", "COPYING", "src", "ui", "data", "po",
             "tests", "flatpak"}


def top_level(tree):
    """Nothing new at the top."""
    return [f"{path.name}: does not belong at the top level" for path in sorted(tree.root.iterdir())
            if path.name not in TOP_LEVEL and not path.name.startswith((".", "build")) and path.name != "__pycache__"
            and path != tree.build]


LOCALE_CALLS = re.compile(
    r"\b(strtod|strtof|strtold|atof|sscanf|fscanf|scanf|setlocale|localeconv|g_strtod|strftime|strcoll"
    r"|g_utf8_collate\w*"
    r"|isalpha|isdigit|isalnum|isspace|isupper|islower|ispunct|toupper|tolower|strcasecmp|strncasecmp)\s*\(")
LOCALE_FORMAT = re.compile(r'%[-+ #0\']*(?:\d+|\*)?(?:\.(?:\d+|\*)?)?[lLh]*[fFgGeEaA]')
LOCALE_LAYERS = ("core", "plan", "store", "ops", "paper", "post", "roads")


def locale_words(tree):
    """Library layers read and write numbers the same way in every locale."""
    complaints = []
    for layer in LOCALE_LAYERS:
        for path in tree.sources(layer):
            code = without_comments(tree.text(path))
            bare = without_strings(tree.text(path))
            for match in LOCALE_CALLS.finditer(bare):
                complaints.append(f"{tree.short(path)}:{line_of(bare, match.start())}: {match.group(1)} "
                                  "depends on the locale; use the g_ascii_ twin")
            for match in re.finditer(r'"(?:\\.|[^"\\\n])*"', code):
                statement = re.split(r"[;{}]", code[:match.start()])[-1]
                if LOCALE_FORMAT.search(match.group(0).replace("%%", "")) and "g_ascii_formatd" not in statement:
                    complaints.append(f"{tree.short(path)}:{line_of(code, match.start())}: {match.group(0)} "
                                      "prints a locale's decimal point; use g_ascii_formatd")
    return complaints


CLOCK_WORDS = re.compile(
    r"\b(time|clock_gettime|gettimeofday|localtime|localtime_r|g_get_(?:real|monotonic)_time|g_date_time_new_now\w*"
    r"|g_time_zone_new_local|g_timer_new|datetime)\s*\(")
NO_CLOCK = ("core", "plan", "store", "ops", "paper", "roads")


def clock_words(tree):
    """Below the two programs `now` is an argument; the schema asks SQLite for no clock either."""
    complaints = []
    for layer in NO_CLOCK:
        for path in tree.sources(layer):
            bare = without_strings(tree.text(path))
            for match in CLOCK_WORDS.finditer(bare):
                complaints.append(f"{tree.short(path)}:{line_of(bare, match.start())}: {match.group(1)} reads a clock")
            code = without_comments(tree.text(path))
            for match in re.finditer(r"CURRENT_(?:TIME|DATE|TIMESTAMP)|'now'", code):
                where = f"{tree.short(path)}:{line_of(code, match.start())}"
                complaints.append(f"{where}: {match.group(0)} reads a clock")
    return complaints


def spdx(tree):
    """The two license lines stand at the top of every source file."""
    wanted = ("SPDX-License-Identifier: GPL-3.0-or-later", "SPDX-FileCopyrightText: The Halfshaft authors")
    suffixes = (".c", ".h", ".py", ".sh", ".ui", ".xml", ".xml.in", ".svg", ".css", ".sql", ".po",
                ".desktop.in", ".service.in", ".blp", ".supp")
    found = [path for folder in ("src", "ui", "data", "po", "tests", "flatpak") if (tree.root / folder).is_dir()
             for path in tree.files(folder, suffixes)] + [tree.root / "meson.build"]
    complaints = []
    for path in found:
        head = "\n".join(tree.text(path).splitlines()[:5])
        complaints += [f"{tree.short(path)}: no line “{line}”" for line in wanted if line not in head]
    return complaints


def assembled(*pieces):
    """Words that this file itself must not hold in one piece."""
    return "".join(pieces)


LEFT_BEHIND = re.compile("|".join((
    r"\b" + assembled("TO", "DO") + r"\b", r"\b" + assembled("FIX", "ME") + r"\b",
    r"\b" + assembled("X", "XX") + r"\b", r"\b" + assembled("HA", "CK") + r"\b",
    assembled(r"#\s*if", r" 0\b"), assembled("not imple", "mented"),
    assembled("(?<![\\w.])/ho", "me/\\w"), assembled("(?<![\\w.])/ro", "ot/\\w"), assembled("/Us", "ers/\\w"))))
TEXT = (".c", ".h", ".py", ".sh", ".build", ".ui", ".xml", ".xml.in", ".svg", ".css", ".sql", ".po", ".pot", ".md",
        ".csv", ".json", ".txt", ".in", ".supp", "run")


def left_behind(tree):
    """No note to self, no switched-off code, no path of somebody's own folder."""
    complaints = []
    for path in tree.files(".", TEXT):
        text = tree.text(path)
        for match in LEFT_BEHIND.finditer(text):
            complaints.append(f"{tree.short(path)}:{line_of(text, match.start())}: “{match.group(0)}”")
    return complaints


TEMPLATE_CALL = re.compile(r"gtk_widget_class_set_template_from_resource\s*\(")
NO_WIDGET = {"help-overlay.ui"}


def templates(tree):
    """Every ui/x/y.ui has its src/app/x/y.c, and every widget with a template has its .ui."""
    complaints = []
    for path in tree.files("ui", (".ui",)):
        twin = tree.root / "src/app" / path.relative_to(tree.root / "ui").with_suffix(".c")
        if path.name not in NO_WIDGET and not twin.is_file():
            complaints.append(f"{tree.short(path)}: has no {tree.short(twin)}")
    for path in tree.sources("app", (".c",)):
        twin = tree.root / "ui" / path.relative_to(tree.root / "src/app").with_suffix(".ui")
        if TEMPLATE_CALL.search(without_strings(tree.text(path))) and not twin.is_file():
            complaints.append(f"{tree.short(path)}: has no {tree.short(twin)}")
    return complaints


GETTEXT_CALL = re.compile(r"(?<![\w])(?:_|N_|C_|NC_|gettext|ngettext|g_dngettext|g_dpgettext2)\s*\(")
IN_DATA = (".desktop.in", ".metainfo.xml.in", ".mime.xml.in", ".gschema.xml")


def speaks(tree, path):
    """Whether a file holds words for the person who reads the screen."""
    if path.suffix in (".c", ".h"):
        code = re.sub(r"^[ \t]*#.*$", "", without_strings(tree.text(path)), flags=re.M)
        return bool(GETTEXT_CALL.search(code))
    if path.suffix == ".ui":
        return 'translatable="' in tree.text(path)
    return path.name.endswith(IN_DATA)


def potfiles(tree):
    """po/POTFILES lists every file with words for the screen, once, in order."""
    listed = [line for line in tree.text("po/POTFILES").splitlines() if line and not line.startswith("#")]
    speaking = [tree.short(path) for folder in ("data", "src", "ui")
                for path in tree.files(folder) if speaks(tree, path)]
    return ([f"po/POTFILES: {name} is missing" for name in speaking if name not in listed]
            + [f"po/POTFILES: {name} does not exist" for name in listed if not (tree.root / name).is_file()]
            + [f"po/POTFILES: {name} has no words to translate" for name in listed
               if (tree.root / name).is_file() and name not in speaking]
            + ([] if listed == sorted(set(listed)) else ["po/POTFILES: not in order, or a name stands twice"]))


def data_words(tree):
    """data/words.h holds the words of the data files that are translated, as po/data-words.py writes them."""
    place = importlib.util.spec_from_file_location("data_words", tree.root / "po" / "data-words.py")
    maker = importlib.util.module_from_spec(place)
    place.loader.exec_module(maker)
    wanted = maker.written(tree.root)
    return [] if tree.text("data/words.h") == wanted else ["data/words.h: run po/data-words.py, a data file changed"]


def linguas(tree):
    """po/LINGUAS and the files beside it name the same languages."""
    named = {word for line in tree.text("po/LINGUAS").splitlines() if not line.startswith("#") for word in line.split()}
    there = {path.stem for path in tree.files("po", (".po",))}
    return ([f"po/{name}.po: named in LINGUAS but not there" for name in sorted(named - there)]
            + [f"po/{name}.po: not named in LINGUAS" for name in sorted(there - named)])


CUSTOMER_PAGE = "src/app/hs-customer-window.c"
# What nobody who stands beside the van may read: what things cost us and what is earned, and how to reach anybody.
UNSHOWN = re.compile(r"\w*(?:cost|margin|markup|profit|wage|phone|email|street|access_note|customer_id)\w*")


def seen_from(tree, first):
    """The headers of the house that a file takes in, also through others."""
    by_name = {path.name: path for layer in LAYERS for path in tree.sources(layer, (".h",))}
    waiting, seen = [first], {}
    while waiting:
        text = waiting.pop().read_text(encoding="utf-8")
        for _, name in INCLUDE.findall(text):
            if name in by_name and name not in seen:
                seen[name] = by_name[name]
                waiting.append(by_name[name])
    return seen.values()


def customer_page(tree):
    """The page that is turned round to the customer takes in no header that knows costs or how to reach people."""
    page = tree.root / CUSTOMER_PAGE
    if not page.exists():
        return []
    complaints = []
    for path in [page, *sorted(seen_from(tree, page))]:
        # What a day's drives cost is in the plan's own words and of no job.
        if tree.layer_of(path) == "plan":
            continue
        code = without_strings(without_comments(path.read_text(encoding="utf-8")))
        for found in UNSHOWN.finditer(code):
            complaints.append(f"{tree.short(path)}:{line_of(code, found.start())}: "
                              f"{found.group()} within reach of the customer's page")
    return complaints


def icons(tree):
    """Symbolic icons are filled paths only, since only fills are recolored; each is in the resource file."""
    resource = tree.text("data/halfshaft.gresource.xml")
    complaints = []
    for path in tree.files("data/icons/hicolor/symbolic", (".svg",)):
        text = tree.text(path)
        complaints += [f"{tree.short(path)}: <{name}> is not recolored" for name in
                       re.findall(r"<(circle|rect|line|polyline|polygon|ellipse|text|g|image)\b", text)]
        if "stroke" in text:
            complaints.append(f"{tree.short(path)}: strokes are not recolored")
        if path.parent.name == "actions" and f"/{path.name}<" not in resource:
            complaints.append(f"{tree.short(path)}: not in data/halfshaft.gresource.xml")
    return complaints


# How sure a limit or a row of a table is, in the words that are shown beside it.
SURE = ("official text", "derived", "secondary text", "common practice", "memory")
# Sections that are figures; the others of the catalog only say what is measured.
FIGURES = {"data/checks/checks.ini": "limit "}


def figures(tree):
    """(file, section, its keys) of every limit of the catalog and every row of a reference table."""
    found = []
    for path in tree.files("data/checks", (".ini",)) + tree.files("data/reference", (".ini",)):
        parser = configparser.ConfigParser(interpolation=None, delimiters=("=",), strict=False)
        parser.read_string(tree.text(path))
        start = FIGURES.get(tree.short(path), "")
        found += [(tree.short(path), name, parser[name]) for name in parser.sections() if name.startswith(start)]
    return found


def sources(tree):
    """Every limit and every row of a reference table says who says so, and how sure that is."""
    complaints = []
    for path, name, keys in figures(tree):
        if not keys.get("source", "").strip():
            complaints.append(f"{path}: [{name}] has no source")
        if keys.get("tag", "") not in SURE:
            complaints.append(f"{path}: [{name}] has no tag of {', '.join(SURE)}")
    return complaints


def memory_rows(tree):
    """DEVELOPERS.md names every limit and row that stands on memory alone."""
    told = tree.text("DEVELOPERS.md")
    heading = told.find("## What stands on memory")
    told = told[heading:told.find("\n## ", heading + 1)] if heading >= 0 else ""
    missing = []
    for path, name, keys in figures(tree):
        called = name.split()[1] if name.startswith("limit ") else name
        if keys.get("tag") == "memory" and f"`{called}`" not in told:
            missing.append(f"{path}: [{name}] stands on memory and is not in DEVELOPERS.md")
    return missing


NETS = (includes, customer_page, rooms, top_level, locale_words, clock_words, spdx, left_behind, templates, potfiles,
        data_words, linguas, icons, sources, memory_rows)
