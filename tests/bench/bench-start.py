# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Halfshaft authors
"""What opening the window costs with a large book, beside a bare window in the same run. Prints one JSON object:
medians of nine runs each, taken in turn. Needs a screen and a session bus (tests/bench/start.sh gives it both).

    bench-start.py HALFSHAFT BARE FILL [VEHICLES JOBS]    default 20000 100000
"""

import json
import os
import shutil
import statistics
import subprocess
import sys
import tempfile

RUNS = 9


def measure(command, home):
    env = dict(os.environ, XDG_DATA_HOME=home, XDG_CONFIG_HOME=home, GSK_RENDERER="cairo")
    done = subprocess.run(command, env=env, capture_output=True, text=True, timeout=120, check=True)
    return json.loads(done.stdout.splitlines()[-1])


def main():
    halfshaft, bare, fill = sys.argv[1:4]
    vehicles, jobs = sys.argv[4:6] if len(sys.argv) > 5 else ("20000", "100000")
    home = tempfile.mkdtemp(prefix="hs-start-")
    try:
        book = os.path.join(home, "large.hsbook")
        subprocess.run([fill, book, vehicles, jobs], check=True, timeout=1200)
        rows = {"bare": [], "halfshaft": []}
        for _ in range(RUNS):
            rows["bare"].append(measure([bare], home))
            rows["halfshaft"].append(measure([halfshaft, "--book", book, "--measure"], home))
    finally:
        shutil.rmtree(home)
    medians = {name: {key: statistics.median(run[key] for run in runs) for key in runs[0]}
               for name, runs in rows.items()}
    ratios = {key: round(medians["halfshaft"][key] / medians["bare"][key], 2) for key in medians["bare"]}
    print(json.dumps({"vehicles": int(vehicles), "jobs": int(jobs), "runs": RUNS, "medians": medians,
                      "ratios": ratios}, indent=1))


main()
