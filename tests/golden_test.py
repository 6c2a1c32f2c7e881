#!/usr/bin/python3
"""A fixture's plan, as text, is what its folder says: with the shop that has enough in expected.txt, with
the one that is short in expected_short.txt; and what `check` says of its drawing in expected_check.txt. Where
a folder has none of them, nothing is compared: an empty expected.txt and --update begin it. No expected text without sums by hand in worked.md.

usage: golden_test.py GLUEUP SOURCE_DIR [--update] [FIXTURE ...]    (UPDATE=1 in the environment updates too)
"""
import difflib
import glob
import os
import subprocess
import sys

GLUEUP, ROOT = os.path.abspath(sys.argv[1]), sys.argv[2]
NAMED = [word for word in sys.argv[3:] if word != "--update"]
UPDATE = "--update" in sys.argv[3:] or os.environ.get("UPDATE") == "1"
SHEETS = {"expected.txt": ("plan", "enough"), "expected_short.txt": ("plan", "short"),
          "expected_check.txt": ("check", "enough")}
failures = []


def sheet(folder, command, shop):
    run = subprocess.run([GLUEUP, command, f"{folder}/job.toml", "--shop", f"{ROOT}/fixtures/shops/{shop}.toml"],
                         capture_output=True, text=True, check=False)
    if run.returncode not in (0, 1) or run.stderr:
        failures.append(f"{folder}, {command}, {shop}: exit {run.returncode}: {run.stderr[:300]}")
    return run.stdout


def compare(path, fresh):
    if UPDATE:
        with open(path, "w", encoding="utf-8") as file:
            file.write(fresh)
        return
    with open(path, encoding="utf-8") as file:
        expected = file.read()
    if fresh != expected:
        failures.append("\n".join(difflib.unified_diff(expected.splitlines(), fresh.splitlines(), path,
                                                       "what the program prints", lineterm="")))


compared = 0
jobs = [job for name in NAMED or ["*"] for job in sorted(glob.glob(os.path.join(ROOT, f"fixtures/{name}/job.toml")))]
for job in jobs:
    folder = os.path.dirname(job)
    if not os.path.exists(f"{folder}/worked.md"):
        failures.append(f"{folder} has no worked.md")
    for name, (command, shop) in SHEETS.items():
        if os.path.exists(f"{folder}/{name}"):
            compare(f"{folder}/{name}", sheet(folder, command, shop))
            compared += 1
if not compared:
    failures.append("no fixture has an expected text")

for failure in failures:
    print("FAILED:", failure)
if failures:
    print("If that is meant: python3 tests/golden_test.py build/glueup . --update, and say why in the commit")
print(f"{compared} texts of {len(jobs)} fixtures, {len(failures)} failures")
sys.exit(1 if failures else 0)
