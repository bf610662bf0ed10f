# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""Proves the nets: each is cast over a copy of the tree with one fault put in and must name it.

A net that stays silent about a fault is broken, however quiet the house looks. Each row is one fault: the net, the
file it goes into, what is put in, and words the complaint must hold. The same net must not have complained of it
before, so that no older fault can stand in for the new one.
"""

import argparse
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import nets_compiler
import nets_objects
import nets_release
import nets_shape
import nets_text
from tree import SKIPPED_FOLDERS, Tap, Tree

CORE = "src/core/hs-core-error.c"
SPDX_C = "// SPDX-License-Identifier: GPL-3.0-or-later\n// SPDX-FileCopyrightText: The Halfshaft authors\n\n"
LONG_FUNCTION = "void\nhs_long (void)\n{\n" + "  hs_x ();\n" * 101 + "}\n"

# (net, file, text added at the end or a whole new file; None: another version, words of the complaint)
TEXT_FAULTS = (
    (nets_text.includes, CORE, "#include <gio/gio.h>\n", "<gio/gio.h> is not for core"),
    (nets_text.includes, CORE, '#include "hs-store-error.h"\n', "belongs to store"),
    (nets_text.includes, CORE, '#include "core/hs-core-error.h"\n', "not a flat include name"),
    (nets_text.includes, CORE, '#include "hs-nowhere.h"\n', "is in no room"),
    (nets_text.includes, "src/plan/hs-plan-error.c", "#  include <stdio.h>\n", "<stdio.h> is not for plan"),
    (nets_text.includes, "src/store/hs-store-error.c", '#include "hs-plan-error.h"\n', "belongs to plan"),
    (nets_text.includes, "src/ops/hs-ops-error.c", '#include "hs-model-error.h"\n', "belongs to model"),
    (nets_text.includes, "src/paper/hs-paper-error.c", '#include "hs-ops-error.h"\n', "belongs to ops"),
    (nets_text.includes, "src/paper/hs-paper-error.c", "#include <gtk/gtk.h>\n", "<gtk/gtk.h> is not for paper"),
    (nets_text.includes, "src/paper/hs-paper-error.c", "#include <gio/gio.h>\n", "<gio/gio.h> is not for paper"),
    (nets_text.potfiles, "src/ops/hs-new.c", 'char *x = in->gettext ("Jobs");\n', "src/ops/hs-new.c is missing"),
    (nets_text.includes, "src/model/hs-model-error.c", "#include <gtk/gtk.h>\n", "<gtk/gtk.h> is not for model"),
    (nets_text.includes, "src/cli/hs-new.c", "#include <gtk/gtk.h>\n", "<gtk/gtk.h> is not for cli"),
    (nets_text.includes, "src/app/hs-new.c", '#include "hs-store-error.h"\n', "belongs to store"),
    (nets_text.customer_page, "src/app/hs-customer-window.c", '#include "hs-choice-op.h"\n', "cost_cents within reach"),
    (nets_text.customer_page, "src/ops/hs-customer-shot.h", "typedef struct { char *phone; } HsLeak;\n",
     "phone within reach of the customer's page"),
    (nets_text.customer_page, "src/ops/hs-customer-shot.h", '#include "hs-board.h"\n', "phone within reach"),
    (nets_text.rooms, "src/utils/hs-all.c", SPDX_C, "not a room"),
    (nets_text.rooms, "src/plan/hs-core-error.h", SPDX_C, "in core and in plan"),
    (nets_text.rooms, "src/core/money.c", SPDX_C, "start with hs-"),
    (nets_text.top_level, "docs/page.md", "A page.\n", "docs: does not belong"),
    (nets_text.locale_words, CORE, 'char *x = g_strdup_printf ("%.2f", y);\n', "locale's decimal point"),
    (nets_text.locale_words, CORE, "double x = strtod (y, NULL);\n", "strtod depends on the locale"),
    (nets_text.locale_words, "src/plan/hs-plan-error.c", "double x = atof (y);\n", "atof depends on the locale"),
    (nets_text.clock_words, "src/ops/hs-ops-error.c", "gint64 x = g_get_real_time ();\n", "reads a clock"),
    (nets_text.clock_words, "src/store/hs-store-error.c", 'char *x = "DEFAULT CURRENT_TIMESTAMP";\n', "reads a clock"),
    (nets_text.spdx, "src/core/hs-bare.c", "int x;\n", "no line"),
    (nets_text.left_behind, CORE, "/* TO" "DO: later */\n", "TO" "DO"),
    (nets_text.left_behind, CORE, "#if" " 0\n#endif\n", "#if" " 0"),
    (nets_text.left_behind, "tests/notes.txt", "see /ho" "me/somebody\n", "/ho" "me/s"),
    (nets_text.templates, "ui/hs-orphan.ui", "<interface/>\n", "has no src/app/hs-orphan.c"),
    (nets_text.templates, "src/app/hs-orphan.c", "gtk_widget_class_set_template_from_resource (a, b);\n",
     "has no ui/hs-orphan.ui"),
    (nets_text.potfiles, "src/app/hs-new.c", 'char *x = _("Jobs");\n', "src/app/hs-new.c is missing"),
    (nets_text.potfiles, "ui/hs-new.ui", '<property translatable="yes">x</property>\n', "ui/hs-new.ui is missing"),
    (nets_text.potfiles, "po/POTFILES", "src/app/hs-gone.c\n", "hs-gone.c does not exist"),
    (nets_text.data_words, "data/safety/lists.ini", "[item new]\nwords=It stands.\n", "run po/data-words.py"),
    (nets_text.data_words, "data/words.h", 'N_ ("Not from a file")\n', "run po/data-words.py"),
    (nets_text.linguas, "po/LINGUAS", "fr\n", "named in LINGUAS but not there"),
    (nets_text.linguas, "po/pl.po", "# Polish\n", "not named in LINGUAS"),
    (nets_text.icons, "data/icons/hicolor/symbolic/actions/hs-new-symbolic.svg", '<svg><path stroke="red"/></svg>\n',
     "strokes are not recolored"),
    (nets_text.icons, "data/icons/hicolor/symbolic/actions/hs-new-symbolic.svg", "<svg><circle/></svg>\n",
     "<circle> is not recolored"),
    (nets_text.icons, "data/icons/hicolor/symbolic/actions/hs-new-symbolic.svg", "<svg/>\n",
     "not in data/halfshaft.gresource.xml"),
    (nets_text.sources, "data/checks/checks.ini", "[limit ripple new]\nbands=within\nwhy1=A.\ntag=memory\n",
     "[limit ripple new] has no source"),
    (nets_text.sources, "data/reference/trouble-codes.ini", "[P9999]\nsource=We\ntag=sure\n", "[P9999] has no tag"),
    (nets_text.memory_rows, "data/checks/checks.ini", "[limit new_check any]\nsource=We\ntag=memory\n",
     "[limit new_check any] stands on memory"),
    (nets_shape.file_lengths, "src/core/hs-long.c", SPDX_C + "int x;\n" * 800, "803 lines"),
    (nets_shape.function_lengths, "src/core/hs-long.c", SPDX_C + LONG_FUNCTION, "hs_long has 101 lines"),
    (nets_shape.function_lengths, "tests/core/test-long.c", SPDX_C + LONG_FUNCTION, "hs_long has 101 lines"),
    (nets_shape.columns, CORE, "// " + "x" * 118 + "\n", "121 columns"),
    (nets_shape.indents, CORE, "\tint x;\n", "a tab"),
    (nets_shape.indents, CORE, "int x; \n", "space at the end"),
    (nets_shape.test_lines, "src/plan/hs-long.c", SPDX_C + "int x;\n" * 90000, "plan: "),
    (nets_release.links, "README.md", "[here](data/nowhere.png)\n", "data/nowhere.png is not there"),
    (nets_release.whole_languages, "data/org.halfshaft.Halfshaft.desktop.in", "Comment=One more sentence\n",
     "One more sentence"),
    (nets_release.one_version, "meson.build", None, "builds 9.9"),
    (nets_shape.module_comments, "src/core/hs-mute.c", SPDX_C + "int x;\n", "no module comment"),
)

# (what looks, C source, the name it must report)
OBJECT_FAULTS = (
    (nets_objects.foreign_names, "int stray (void) { return 1; }", "stray"),
    (nets_objects.asked_for, "#include <time.h>\nlong hs_a (void) { return time (0); }", "time"),
    (nets_objects.asked_for, "#include <time.h>\nint hs_a (void *t) { return clock_gettime (0, t); }", "clock_gettime"),
    (nets_objects.asked_for, "#include <stdlib.h>\nchar *hs_a (void) { return getenv (\"X\"); }", "getenv"),
    (nets_objects.asked_for, "#include <stdlib.h>\nint hs_a (void) { return rand (); }", "rand"),
    (nets_objects.asked_for, "#include <stdio.h>\nvoid *hs_a (void) { return fopen (\"x\", \"r\"); }", "fopen"),
    (nets_objects.asked_for, "#include <stdlib.h>\ndouble hs_a (char *x) { return strtod (x, 0); }", "strtod"),
    (nets_objects.asked_for, "long g_get_real_time (void);\nlong hs_a (void) { return g_get_real_time (); }",
     "g_get_real_time"),
    (nets_objects.asked_for, "int g_random_int (void);\nint hs_a (void) { return g_random_int (); }", "g_random_int"),
    (nets_objects.asked_for, "int g_file_test (char *x, int y);\nint hs_a (void) { return g_file_test (\"\", 0); }",
     "g_file_test"),
    (nets_objects.asked_for, "int g_key_file_load_from_file (void *x);\nint hs_a (void) "
     "{ return g_key_file_load_from_file (0); }", "g_key_file_load_from_file"),
    (nets_objects.asked_for, "int g_key_file_load_from_data_dirs (void *x);\nint hs_a (void) "
     "{ return g_key_file_load_from_data_dirs (0); }", "g_key_file_load_from_data_dirs"),
    (nets_objects.spoken, "#include <stdio.h>\nvoid hs_a (int x) { printf (\"%d\", x); }", "printf"),
    (nets_objects.spoken, "void g_log (char *x);\nvoid hs_a (void) { g_log (\"\"); }", "g_log"),
    (nets_objects.widget_names, "int gtk_init_check (void);\nint hs_a (void) { return gtk_init_check (); }",
     "gtk_init_check"),
    (nets_objects.widget_names, "int gdk_pixbuf_get_width (void *x);\n"
     "int hs_a (void) { return gdk_pixbuf_get_width (0); }", "gdk_pixbuf_get_width"),
)


def copy_of(root, target):
    """A copy of what the text nets read: no build folders, no history."""
    shutil.copytree(root, target, ignore=lambda where, names: [
        name for name in names if SKIPPED_FOLDERS.match(name) or name.endswith(".pyc")])
    return Tree(target)


def try_text(tree, net, name, added, wanted):
    """Puts a fault into the copy, casts the net, takes the fault out again."""
    path = tree.root / name
    before = path.read_bytes() if path.is_file() else None
    made = [folder for folder in path.parents if not folder.exists()]
    older = net(tree)
    path.parent.mkdir(parents=True, exist_ok=True)
    if added is None:
        path.write_bytes(re.sub(rb"version: '[^']+'", b"version: '9.9'", before, count=1))
    else:
        with path.open("a", encoding="utf-8") as out:
            out.write(added)
    found = [complaint for complaint in net(tree) if complaint not in older]
    if before is None:
        path.unlink()
    else:
        path.write_bytes(before)
    for folder in made:
        folder.rmdir()
    return [] if any(wanted in complaint for complaint in found) else [f"expected “{wanted}”, heard {found}"]


def try_object(folder, look, source, wanted):
    """Compiles a fault into a library and has it looked at; a clean library must be silent."""
    heard = []
    for name, text in (("clean", "int hs_clean (int x) { return x + 1; }"), ("fault", source)):
        Path(folder, f"{name}.c").write_text(text + "\n", encoding="utf-8")
        nets_objects.read(["cc", "-fno-builtin", "-w", "-c", "-o", f"{folder}/{name}.o", f"{folder}/{name}.c"])
        archive = Path(folder, f"lib{name}.a")
        archive.unlink(missing_ok=True)
        nets_objects.read(["ar", "rcs", str(archive), f"{folder}/{name}.o"])
        heard.append(look(archive))
    return ([] if not heard[0] else [f"a clean library is accused of {heard[0]}"]) \
        + ([] if wanted in heard[1] else [f"expected {wanted}, heard {heard[1]}"])


def try_link(folder):
    """A program that links a library named like GTK's is found, also when the link is not its own."""
    Path(folder, "g.c").write_text("int hs_g (void) { return 1; }\n", encoding="utf-8")
    Path(folder, "m.c").write_text("int hs_m (void);\nint hs_g (void);\nint hs_m (void) { return hs_g (); }\n",
                                   encoding="utf-8")
    Path(folder, "p.c").write_text("int hs_m (void);\nint main (void) { return hs_m (); }\n", encoding="utf-8")
    Path(folder, "q.c").write_text("int main (void) { return 0; }\n", encoding="utf-8")
    rpath = f"-Wl,-rpath,{folder}"
    gtk, middle = f"{folder}/libgtk-4.so.1", f"{folder}/libmiddle.so"
    nets_objects.read(["cc", "-shared", "-fPIC", "-Wl,-soname,libgtk-4.so.1", "-o", gtk, f"{folder}/g.c"])
    nets_objects.read(["cc", "-shared", "-fPIC", "-o", middle, f"{folder}/m.c", gtk, rpath])
    nets_objects.read(["cc", "-o", f"{folder}/p", f"{folder}/p.c", middle, rpath])
    nets_objects.read(["cc", "-o", f"{folder}/q", f"{folder}/q.c"])
    complaints = []
    if nets_objects.widget_libraries(f"{folder}/p") != ["libgtk-4.so.1"]:
        complaints.append(f"heard {nets_objects.widget_libraries(f'{folder}/p')}")
    if nets_objects.widget_libraries(f"{folder}/q"):
        complaints.append("a plain program is accused")
    return complaints


def try_include_path(tree):
    """A source compiled with src/ on its include path is found."""
    spoiled = Tree(tree.root, tree.build)
    commands = {"x.c": ["cc", f"-I{tree.root}/src", "-c", "x.c"]}
    spoiled.commands = lambda: commands
    return [] if nets_objects.include_paths(spoiled) else ["src/ on the include path is not seen"]


def try_header(tree, folder):
    """A header that needs another one first is found."""
    Path(folder, "hs-lame.h").write_text("GQuark hs_lame (void);\n", encoding="utf-8")
    heard = nets_compiler.lone_header(tree, tree.flags("store") + [f"-I{folder}"], Path(folder, "hs-lame.h"))
    return [] if heard else ["a header that does not compile alone is not seen"]


def try_walls(tree):
    """The walls let a layer's own headers through, so that a failure is the wall's doing."""
    wanted = {"core": "hs-core-error.h", "plan": "hs-core-error.h", "store": "hs-core-error.h",
              "ops": "hs-store-error.h", "model": "hs-ops-error.h", "cli": "hs-ops-error.h"}
    return [f"{layer}: cannot include {name}" for layer, name in wanted.items()
            if tree.flags(layer) and not nets_compiler.passes(tree, tree.flags(layer), name)]


def try_fallen_walls(tree):
    """Without its wall a layer lets in what lies on every include path, and the net names it."""
    wanted = {"core": "sqlite3.h", "plan": "gio/gio.h", "store": "gio/gio.h", "ops": "sqlite3.h", "model": "sqlite3.h",
              "cli": "sqlite3.h"}
    spoiled = Tree(tree.root, tree.build)
    spoiled.flags = lambda layer: nets_compiler.without_walls(tree.flags(layer)) if tree.flags(layer) else None
    heard = nets_compiler.walls(spoiled)
    return [f"{layer}: <{name}> passed unseen" for layer, name in wanted.items()
            if tree.flags(layer) and f"src/{layer}: the build lets <{name}> pass" not in heard]


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--root", required=True)
    parser.add_argument("--build", required=True)
    options = parser.parse_args()
    real = Tree(options.root, options.build)

    tap = Tap()
    with tempfile.TemporaryDirectory() as folder:
        tree = copy_of(real.root, Path(folder, "copy"))
        for net, name, added, wanted in TEXT_FAULTS:
            tap.check(f"{net.__name__}: {re.sub(r'[^ -~]', '?', wanted)}", try_text(tree, net, name, added, wanted))
        for look, source, wanted in OBJECT_FAULTS:
            tap.check(f"{look.__name__}: {wanted}", try_object(folder, look, source, wanted))
        tap.check("widget_libraries: direct and through another library", try_link(folder))
        tap.check("include_paths: src", try_include_path(real))
        tap.check("headers: one that leans on another", try_header(real, folder))
        tap.check("walls: own headers pass", try_walls(real))
        tap.check("walls: one that has fallen", try_fallen_walls(real))
    return tap.done()


if __name__ == "__main__":
    sys.exit(main())
