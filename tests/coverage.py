#!/usr/bin/python3
"""Which lines and branches of geometry/ and planner/ their tests ran, as clang counts them; fails where it is under
92 % of a room's lines, and lists its files with most lines not run. BUILD is made by clang with -DGLUEUP_COVERAGE=ON and
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


def counted():
    """For each file of ours, how often each of its lines ran, and each of its branches."""
    with tempfile.TemporaryDirectory() as folder:
        profile = os.path.join(folder, "merged")
        subprocess.run(["llvm-profdata", "merge", "-o", profile, *glob.glob(os.path.join(BUILD, "profiles", "*"))],
                       check=True)
        programs = [os.path.join(BUILD, "tests", f"{name}_test") for name in TESTS]
        report = subprocess.run(["llvm-cov", "export", "-format=lcov", "-skip-expansions", f"-instr-profile={profile}",
                                 "-ignore-filename-regex=^/usr/", programs[0],
                                 *(f"-object={program}" for program in programs[1:])],
                                check=True, capture_output=True, text=True).stdout
    lines, branches = (collections.defaultdict(lambda: collections.defaultdict(int)) for _ in range(2))
    for record in report.splitlines():
        key, _, value = record.partition(":")
        if key == "SF":
            # A compiler's cache writes paths as the build saw them, build/../../geometry.
            path = os.path.relpath(os.path.join(BUILD, value), ROOT)
            ours = path.startswith(tuple(floor + "/" for floor in FLOORS)) and not path.endswith("_test.cpp")
        elif key == "DA" and ours:
            number, count = value.split(",")[:2]
            lines[path][int(number)] += int(count)
        elif key == "BRDA" and ours:
            place, _, count = value.rpartition(",")
            branches[path][place] += 0 if count == "-" else int(count)
    return lines, branches


def share(counts):
    """How many of them ran, of how many, and per cent."""
    ran, total = sum(1 for count in counts if count), len(counts)
    return ran, total, 100 * ran / max(total, 1)


def main():
    lines, branches = counted()
    for path in sys.argv[3:]:
        with open(os.path.join(ROOT, path), encoding="utf-8") as file:
            source = file.read().splitlines()
        for number, count in sorted(lines[path].items()):
            if count == 0:
                print(f"{path}:{number}: {source[number - 1].strip()}")
    if sys.argv[3:]:
        return
    fine = bool(lines)
    for room in sorted({os.path.dirname(path) for path in lines}):
        files = [path for path in lines if os.path.dirname(path) == room]
        ran, total, percent = share([count for path in files for count in lines[path].values()])
        ways = share([count for path in files for count in branches[path].values()])
        fine = fine and percent >= LEAST
        print(f"{'' if percent >= LEAST else '** '}{room}/: {ran} of {total} lines run, {percent:.1f} %; "
              f"{ways[0]} of {ways[1]} branches, {ways[2]:.1f} %")
        dark = sorted(((sum(1 for c in lines[path].values() if not c), path) for path in files), reverse=True)
        for missed, path in dark[:4]:
            if missed > 4:
                why = f" ({WHY[path]})" if path in WHY else ""
                print(f"  {path}: {missed} of {len(lines[path])} not run{why}")
    sys.exit(0 if fine else 1)


main()
