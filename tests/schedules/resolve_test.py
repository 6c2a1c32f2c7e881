#!/usr/bin/python3
"""Solves three instances of tests/reference/schedules.json again, with Gecode through MiniZinc, and
compares with what the file says. Where MiniZinc isn't installed it says so and is skipped.

usage: resolve_test.py SOURCE_DIR
"""
import json
import os
import shutil
import subprocess
import sys
import tempfile

REFERENCE = os.path.join(sys.argv[1], "tests", "reference")
SKIPPED = 77
# Those that Gecode proves within a second.
AGAIN = [("mitred_frame", 2), ("rabbeted_box", 1), ("open_tray_two_rings", 1)]


# Three solved schedules once more, where the solver is installed.
# Outside, solver: Gecode through MiniZinc
def solve(name, people):
    with tempfile.NamedTemporaryFile("w", suffix=".dzn") as data:
        subprocess.run([sys.executable, os.path.join(REFERENCE, "schedule_dzn.py"),
                        os.path.join(REFERENCE, "schedules.json"), name, str(people)],
                       stdout=data, check=True)
        out = subprocess.run(["minizinc", "--solver", "gecode",
                              os.path.join(REFERENCE, "schedule.mzn"), data.name],
                             capture_output=True, text=True, check=True).stdout
    answer = [line for line in out.splitlines() if line.startswith("{")][-1]
    return json.loads(answer), "==========" in out


def main():
    if shutil.which("minizinc") is None:
        print("minizinc isn't installed: nothing solved again (apt-get install minizinc)")
        return SKIPPED
    with open(os.path.join(REFERENCE, "schedules.json"), encoding="utf-8") as file:
        instances = {i["instance"]["name"]: i for i in json.load(file)["instances"]}
    failures = 0
    for name, people in AGAIN:
        expected = instances[name]["optimum"][f"people{people}"]
        got, proven = solve(name, people)
        same = (got["minslack"], got["makespan"], proven) == (
            expected["min_slack_s"], expected["makespan_s"], True)
        failures += not same
        print(f"{name}, people {people}: slack {got['minslack']} s, makespan {got['makespan']} s"
              f"{', proven' if proven else ''}{'' if same else ': not what the file says'}")
    return 1 if failures else 0


sys.exit(main())
