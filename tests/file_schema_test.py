#!/usr/bin/python3
"""The schemas that editors use for job and shop files: every fixture keeps to them, and they refuse what
the readers refuse of keys and words.

usage: file_schema_test.py SOURCE_DIR
"""
import glob
import json
import os
import re
import sys
import tomllib

import jsonschema

ROOT = sys.argv[1]
failures = []


def schema(name):
    with open(os.path.join(ROOT, "docs", name), encoding="utf-8") as file:
        document = json.load(file)
    jsonschema.Draft7Validator.check_schema(document)
    return jsonschema.Draft7Validator(document)


def parsed(path):
    with open(path, "rb") as file:
        return tomllib.load(file)


JOB, SHOP = schema("job.schema.json"), schema("shop.schema.json")


def mistakes(validator, path):
    return [f"{path}: {error.json_path}: {error.message[:160]}" for error in validator.iter_errors(parsed(path))]


jobs = sorted(glob.glob(os.path.join(ROOT, "fixtures/*/job.toml")))
shops = sorted(glob.glob(os.path.join(ROOT, "fixtures/shops/*.toml")))
if len(jobs) < 4 or len(shops) < 2:
    failures.append("fixtures are missing")
for path in jobs:
    failures += mistakes(JOB, path)
for path in shops:
    failures += mistakes(SHOP, path)

# What a reader says of a key, a word or a missing value, a schema can say as well.
told = re.compile(r'has no |not one of those known|is a (list|table|number|text)|not a whole number')
BEYOND_SCHEMAS = {  # they depend on other values, on the tables, or on what is in a mesh
    "box_part_resized", "cut_tenon_without_shoulder", "cuts_all_wrong_at_once", "dowel_with_cut", "mesh_all_needles",
    "mesh_empty", "mesh_flat", "mesh_garbage_stl", "mesh_joint_unknown", "mesh_lines_only", "mesh_no_faces", "mesh_part_unknown",
    "mesh_part_width", "part_diameter_of_board", "part_species_missing", "shop_clamp_opening_missing"}
refused = 0
for expected in sorted(glob.glob(os.path.join(ROOT, "fixtures/mistakes/*.expected"))):
    path = expected.replace(".expected", ".toml")
    with open(expected, encoding="utf-8") as file:
        text = file.read()
    validator = SHOP if os.path.basename(path).startswith("shop_") else JOB
    try:
        found = mistakes(validator, path)
    except (tomllib.TOMLDecodeError, UnicodeDecodeError):
        continue
    if told.search(text):
        refused += 1
        if not found and os.path.basename(path).removesuffix(".toml") not in BEYOND_SCHEMAS:
            failures.append(f"{path}: the schema has nothing against it")

# The examples of the documentation.
for page, validator in (("job_file.md", JOB), ("shop_file.md", SHOP)):
    with open(os.path.join(ROOT, "docs", page), encoding="utf-8") as file:
        examples = re.findall(r"```toml\n(.*?)```", file.read(), re.S)
    for number, example in enumerate(examples, 1):
        document = tomllib.loads(example)
        if "units" in document:
            failures += [f"docs/{page} example {number}: {e.message[:160]}" for e in validator.iter_errors(document)]

print("\n".join(failures) or f"{len(jobs)} jobs, {len(shops)} shops, {refused} refused mistakes")
sys.exit(1 if failures else 0)
