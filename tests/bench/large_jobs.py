#!/usr/bin/python3
"""What plans of 20 to 60 parts cost, as a table for docs/order.md: processor time and peak memory of the process, and
how far the slack of the tightest stage is from what no order exceeds. Without a shop file: a rack without limits.

usage: large_jobs.py GLUEUP
"""
import json
import os
import subprocess
import sys
import tempfile

GLUEUP = os.path.abspath(sys.argv[1])
MM = 'units = "mm"\nspecies = "black_cherry"\n'


def part(name, along, face, size, at):
    return (f'[[part]]\nname = "{name}"\nlength = {size[0]}\nwidth = {size[1]}\nthickness = {size[2]}\n'
            f'along = "{along}"\nface = "{face}"\nat = [{at[0]}, {at[1]}, {at[2]}]\n')


def bookcase(dividers, shelves, back="none"):
    return MM + (f'[carcass]\noutside = [1200, 300, 1800]\nstock = 18\nshelves = {shelves}\ndividers = {dividers}\n'
                 f'back = "{back}"\n')


def bench_top(strips):
    return MM + f'[panel]\nlength = 1500\nthickness = 60\nboards = [{", ".join(["40"] * strips)}]\n'


def torsion_box(ribs, fillers):
    long, wide, high, stock, skin = 1200, 600, 80, 18, 6
    at_x = [i * (long - stock) // (ribs - 1) for i in range(ribs)]
    boards = [part(f"rail {i}", "x", "y", (long, high, stock), (0, y, skin)) for i, y in ((1, 0), (2, wide - stock))]
    boards += [part(f"rib {i}", "y", "x", (wide - 2 * stock, high, stock), (x, stock, skin)) for i, x in enumerate(at_x)]
    boards += [part(f"filler {i} {k}", "x", "y", (at_x[i + 1] - x - stock, high, stock),
                    (x + stock, stock + k * (wide - 2 * stock) // (fillers + 1), skin))
               for i, x in enumerate(at_x[:-1]) for k in range(1, fillers + 1)]
    return MM + "".join(boards + [part(f"skin {i}", "x", "z", (long, wide, skin), (0, 0, z))
                                  for i, z in ((1, 0), (2, skin + high))])


JOBS = {
    "bench top of 20 strips": bench_top(20),
    "bench top of 40 strips": bench_top(40),
    "bookcase, 2 dividers, 6 shelves": bookcase(2, 6),
    "bookcase, 3 dividers, 8 shelves": bookcase(3, 8),
    "bookcase, 5 dividers, 8 shelves": bookcase(5, 8),
    "torsion box, 6 ribs, 2 fillers a bay": torsion_box(6, 2),
    "torsion box, 7 ribs, 7 fillers a bay": torsion_box(7, 7),
}


def measured(folder, name, text):
    job, out = os.path.join(folder, "job.toml"), os.path.join(folder, "plan.json")
    with open(job, "w", encoding="utf-8") as file:
        file.write(text)
    with subprocess.Popen([GLUEUP, "plan", job, "--json", out], stdout=subprocess.DEVNULL,
                          stderr=subprocess.PIPE, env={"HOME": folder, "PATH": os.environ["PATH"]}) as run:
        said = run.stderr.read()
        _, status, used = os.wait4(run.pid, 0)
        run.returncode = os.waitstatus_to_exitcode(status)
    if run.returncode not in (0, 1):
        sys.exit(f"{name}: exit {run.returncode}: {said.decode()}")
    with open(out, encoding="utf-8") as file:
        plan = json.load(file)
    stages = plan["stages"]
    tightest = min(stages, key=lambda stage: stage["slack_s"])
    gap = tightest.get("bound_s", tightest["slack_s"]) - tightest["slack_s"]
    return (f'| {name} | {len(plan["parts"])} | {len(stages)} | {used.ru_utime + used.ru_stime:.1f} s | '
            f'{used.ru_maxrss / 1024:.0f} MB | {tightest["slack_s"]:.0f} s | '
            f'{"proven" if tightest["status"] == "proven" else f"{gap:.0f} s"} |')


print("| job | parts | stages | processor | memory | slack | from the bound |\n| --- | --- | --- | --- | --- | --- | --- |")
with tempfile.TemporaryDirectory() as scratch:
    for job_name, job_text in JOBS.items():
        print(measured(scratch, job_name, job_text), flush=True)
