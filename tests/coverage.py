#!/usr/bin/python3
"""Which lines of geometry/ and planner/ their tests run, by gcov; fails under 90 % of either, and
lists the files with most lines not run. BUILD is made by gcc with -DGLUEUP_COVERAGE=ON and
-DGLUEUP_TESTS=ON; only the test programs of the two floors are needed.

usage: coverage.py BUILD SOURCE_DIR [FILE ...]   with files: their lines that no test has run
"""
import collections
import json
import os
import subprocess
import sys

BUILD, ROOT = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
TESTS = ("geometry", "planner", "schedules", "scenes", "plans", "placements")
FLOORS, LEAST = ("geometry", "planner"), 90.0
# Why lines are left over, where a file has more than a few.
WHY = {
    "geometry/exact/lattice.cpp": "a box under very many cuts: bounds_test.py has them",
    "geometry/mesh/mesh_cells.cpp": "meshes of too many pieces: bounds_test.py has them",
    "planner/rehearsal/rehearsal.cpp": "learning from a run of the whole program: day_test.py",
    "planner/work/joint_kind.cpp": "names, which cli asks for: golden_test.py",
    "planner/files/job_text.cpp": "a dry fit written out: for cli's check --expand",
    "planner/order/stages.cpp": "stages of whole plans too large for a test of one file",
    "planner/stage/clock_ways_out.cpp": "ways out of one join too long, which bounds_test.py meets",
    "planner/verify/verify_steps.cpp": "breaches that no planted damage makes yet",
}


def measure():
    for folder, _, names in os.walk(BUILD):
        for name in names:
            if name.endswith(".gcda"):
                os.remove(os.path.join(folder, name))
    subprocess.run(["ctest", "--test-dir", BUILD, "-R", f"^({'|'.join(TESTS)})$", "-j", "2"],
                   check=True, stdout=subprocess.DEVNULL)


def lines():
    """For each file of ours, its lines with how often each ran."""
    counts = collections.defaultdict(lambda: collections.defaultdict(int))
    for folder, _, names in os.walk(BUILD):
        data = [os.path.join(folder, name) for name in names if name.endswith(".gcda")]
        if not data:
            continue
        out = subprocess.run(["gcov", "--json-format", "--stdout", *data], cwd=folder, check=True,
                             capture_output=True, text=True).stdout
        for document in filter(None, out.splitlines()):
            for file in json.loads(document)["files"]:
                path = os.path.relpath(os.path.join(folder, file["file"]), ROOT)
                if path.startswith(FLOORS) and not path.endswith("_test.cpp"):
                    for line in file["lines"]:
                        counts[path][line["line_number"]] += line["count"]
    return counts


def main():
    if not sys.argv[3:]:
        measure()
    counts = lines()
    for path in sys.argv[3:]:
        with open(os.path.join(ROOT, path), encoding="utf-8") as file:
            source = file.read().splitlines()
        for number, count in sorted(counts[path].items()):
            if count == 0:
                print(f"{path}:{number}: {source[number - 1].strip()}")
    if sys.argv[3:]:
        return
    fine = True
    for floor in FLOORS:
        mine = {path: lines for path, lines in counts.items() if path.startswith(floor + "/")}
        total = sum(len(lines) for lines in mine.values())
        ran = sum(1 for lines in mine.values() for count in lines.values() if count)
        share = 100 * ran / max(total, 1)
        fine = fine and share >= LEAST
        print(f"{floor}/: {ran} of {total} lines run, {share:.1f} %")
        dark = sorted(((sum(1 for c in lines.values() if not c), path) for path, lines in mine.items()),
                      reverse=True)
        for missed, path in dark[:12]:
            if missed:
                why = f" ({WHY[path]})" if path in WHY else ""
                print(f"  {path}: {missed} of {len(mine[path])} not run{why}")
    sys.exit(0 if fine else 1)


main()
