#!/usr/bin/python3
"""Every plan's JSON keeps to docs/plan.schema.json, and the schema knows every key that is written.

usage: json_schema_test.py GLUEUP SOURCE_DIR
"""
import copy
import glob
import json
import os
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

import jsonschema

from mistakes import read_mistakes

GLUEUP, ROOT = sys.argv[1:3]
failures = []


def check(ok, what):
    if not ok:
        failures.append(what)


def strict(schema):
    """The schema with no key allowed that it doesn't name: a key written but not documented fails."""
    if isinstance(schema, dict):
        for value in schema.values():
            strict(value)
        if "properties" in schema:
            schema["additionalProperties"] = False
    elif isinstance(schema, list):
        for value in schema:
            strict(value)
    return schema


with open(os.path.join(ROOT, "docs/plan.schema.json"), encoding="utf-8") as file:
    SCHEMA = json.load(file)
jsonschema.Draft202012Validator.check_schema(SCHEMA)
validator = jsonschema.Draft202012Validator(strict(SCHEMA))


def glueup(*arguments):
    return subprocess.run([GLUEUP, *arguments], capture_output=True, text=True, check=False,
                          env={**os.environ, "HOME": "/nonexistent", "GLUEUP_SHOP": "",
                               "XDG_CONFIG_HOME": ""})


def mistakes(document):
    return [f"{'/'.join(map(str, e.absolute_path))}: {e.message[:200]}"
            for e in validator.iter_errors(document)]


def check_references(plan, job):
    """What the schema can't say: names, ids and numbers that refer to one another."""
    names = [part["name"] for part in plan["parts"]]
    ids = [joint["id"] for joint in plan["joints"]]
    check(ids == list(range(len(ids))), f"{job}: joint ids are their indices")
    for joint in plan["joints"]:
        check(set(joint["parts"]) <= set(names), f"{job}: joint {joint['id']} names its parts")
    for stage in plan["stages"]:
        numbers = [clamp["n"] for clamp in stage["clamps"]]
        for step in stage["steps"]:
            check(set(step["parts"]) <= set(names), f"{job}: step {step['n']} names its parts")
            check(set(step["joints"]) <= set(ids), f"{job}: step {step['n']} knows its joints")
            check(set(step["clamps"]) <= set(numbers), f"{job}: step {step['n']} knows its clamps")


def plan_of(job, shop):
    return glueup("plan", job, "--json", *(["--shop", shop] if shop else []))


def parsed(run, job):
    check(run.returncode in (0, 1), f"{job}: exit {run.returncode}: {run.stderr[:300]}")
    try:
        return json.loads(run.stdout)
    except json.JSONDecodeError as error:
        check(False, f"{job}: standard output is not JSON alone: {error}")
        return None


def failure_of(mistake):
    """What the program says, as a run, when it is given a bad file as the job."""
    with tempfile.TemporaryDirectory() as folder:
        return glueup("plan", mistake.write_to(folder), "--json")


jobs = sorted(glob.glob(os.path.join(ROOT, "fixtures/*/job.toml")))
check(bool(jobs), "there are fixtures to check")
sample = None
shops = sorted(glob.glob(os.path.join(ROOT, "fixtures/shops/*.toml")))
check(bool(shops), "there are shops to plan with")
glueups = [(job, shop) for job in jobs for shop in [None, *shops]]
bad_files = read_mistakes(ROOT)
with ThreadPoolExecutor(os.cpu_count()) as pool:  # the program runs on one core at a time
    first, second = (pool.map(lambda work: plan_of(*work), glueups) for _ in range(2))
    refusals = pool.map(failure_of, bad_files)

for (job, _), run, run_again in zip(glueups, first, second):
    plan = parsed(run, job)
    if plan is None:
        continue
    for mistake in mistakes(plan):
        check(False, f"{job}: {mistake}")
    check_references(plan, job)
    check(plan["verdict"]["ok"] == (run.returncode == 0), f"{job}: exit status and verdict agree")
    check(parsed(run_again, job) == plan, f"{job}: the same job gives the same plan")
    sample = plan

for bad, run in zip(bad_files, refusals):
    if run.returncode != 2:
        continue  # a mistake of the shop file, or one that only warns
    for mistake in mistakes(json.loads(run.stdout)):
        check(False, f"{bad.toml}: {mistake}")

# The test can fail: a plan that lacks a required key, or has one too many, is refused.
if sample is not None:
    for key in SCHEMA["$defs"]["plan"]["required"]:
        broken = copy.deepcopy(sample)
        del broken[key]
        check(mistakes(broken), f"a plan without {key} is refused")
    broken = copy.deepcopy(sample)
    broken["parts"][0]["colour"] = "red"
    check(mistakes(broken), "an undocumented key is noticed")

for failure in failures:
    print("FAILED:", failure)
print(f"{len(jobs)} fixtures, {len(failures)} failures")
sys.exit(1 if failures else 0)
