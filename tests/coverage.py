#!/usr/bin/python3
"""Which lines of geometry/ and planner/ their tests ran, as clang counts them; fails under 92 % of
either, and lists the files with most lines not run. BUILD is made by clang with -DGLUEUP_COVERAGE=ON and
-DGLUEUP_TESTS=ON, and ctest has run the test programs of the two floors there.

usage: coverage.py BUILD SOURCE_DIR [FILE ...]   with files: their lines that no test has run
"""
import collections
import glob
import os
import subprocess
import sys
import tempfile

BUILD, ROOT = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
TESTS = ("geometry", "planner", "schedules", "scenes", "plans", "placements")
FLOORS, LEAST = ("geometry", "planner"), 92.0
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


def lines():
    """For each file of ours, its lines with how often each ran."""
    with tempfile.TemporaryDirectory() as folder:
        profile = os.path.join(folder, "merged")
        subprocess.run(["llvm-profdata", "merge", "-o", profile, *glob.glob(os.path.join(BUILD, "profiles", "*"))],
                       check=True)
        programs = [os.path.join(BUILD, "tests", f"{name}_test") for name in TESTS]
        report = subprocess.run(["llvm-cov", "export", "-format=lcov", "-skip-expansions", f"-instr-profile={profile}",
                                 "-ignore-filename-regex=^/usr/", programs[0],
                                 *(f"-object={program}" for program in programs[1:])],
                                check=True, capture_output=True, text=True).stdout
    counts = collections.defaultdict(lambda: collections.defaultdict(int))
    for record in report.splitlines():
        key, _, value = record.partition(":")
        if key == "SF":
            path = os.path.relpath(value, ROOT)  # a compiler's cache writes build/../geometry
        elif key == "DA" and not path.endswith("_test.cpp"):
            number, count = value.split(",")[:2]
            counts[path][int(number)] += int(count)
    return counts


def main():
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
