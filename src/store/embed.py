#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors

"""Writes the migrations of the book as a C array: NNNN-*.sql of one number are one step, in the order of their names.

Usage: embed.py OUTPUT SQL...
"""

import os
import sys


def c_string(line):
    out = ''
    for char in line:
        if char in '"\\':
            out += '\\' + char
        elif ' ' <= char <= '~':
            out += char
        else:
            sys.exit(f'a schema is plain ASCII; this is not: {line}')
    return f'  "{out}\\n"'


def main(output, paths):
    steps = {}
    for path in sorted(paths, key=os.path.basename):
        steps.setdefault(int(os.path.basename(path).split('-')[0].split('.')[0]), []).append(path)
    if sorted(steps) != list(range(1, len(steps) + 1)):
        sys.exit(f'the steps of the schema are not 1, 2, 3 ...: {sorted(steps)}')
    with open(output, 'w', encoding='ascii') as c:
        c.write('/* Made by embed.py from the files in schema/. */\n#include "hs-migrate.h"\n')
        for number, files in sorted(steps.items()):
            c.write(f'static const char *const step_{number}[] = {{\n')
            for path in files:
                with open(path, encoding='utf-8') as sql:
                    lines = [line.rstrip('\n') for line in sql]
                c.write('\n'.join(c_string(line) for line in lines if line and not line.startswith('--')) + ',\n')
            c.write('  NULL,\n};\n')
        c.write('const HsMigration hs_migrations[] = {\n')
        for number in sorted(steps):
            c.write(f'  {{ {number}, step_{number} }},\n')
        c.write(f'}};\nconst guint hs_n_migrations = {len(steps)};\n')


if __name__ == '__main__':
    main(sys.argv[1], sys.argv[2:])
