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

from mistakes import read_mistakes

ROOT = sys.argv[1]
failures = []


def schema(name):
    with open(os.path.join(ROOT, "docs", name), encoding="utf-8") as file:
        document = json.load(file)
    jsonschema.Draft7Validator.check_schema(document)
    return jsonschema.Draft7Validator(document)


JOB, SHOP = schema("job.schema.json"), schema("shop.schema.json")


def against(validator, document, where):
    return [f"{where}: {error.json_path}: {error.message[:160]}" for error in validator.iter_errors(document)]


def against_file(validator, path):
    with open(path, "rb") as file:
        return against(validator, tomllib.load(file), path)


jobs = sorted(glob.glob(os.path.join(ROOT, "fixtures/*/job.toml")))
shops = sorted(glob.glob(os.path.join(ROOT, "fixtures/shops/*.toml")))
if len(jobs) < 4 or len(shops) < 2:
    failures.append("fixtures are missing")
for path in jobs:
    failures += against_file(JOB, path)
for path in shops:
    failures += against_file(SHOP, path)

# What a reader says of a key, a word or a missing value, a schema can say as well.
told = re.compile(r'has no |not one of those known|is a (list|table|number|text)|not a whole number')
BEYOND_SCHEMAS = {  # they depend on other values, on the tables, or on what is in a mesh
    "box_part_resized", "cut_tenon_without_shoulder", "cuts_all_wrong_at_once", "dowel_with_cut",
    "drawer_front_corners_alone", "mesh_all_needles", "mesh_empty", "mesh_flat", "mesh_garbage_stl",
    "mesh_joint_unknown", "mesh_lines_only", "mesh_no_faces", "mesh_part_unknown", "mesh_part_width",
    "mesh_units_guessed", "mesh_units_missing", "part_diameter_of_board", "part_species_missing",
    "ring_no_room_for_its_bottom", "shop_clamp_opening_missing"}
refused = 0
for mistake in read_mistakes(ROOT):
    try:
        document = tomllib.loads(mistake.files[mistake.toml].decode())
    except (tomllib.TOMLDecodeError, UnicodeDecodeError):
        continue
    if told.search(mistake.said):
        refused += 1
        found = against(SHOP if mistake.of_shop else JOB, document, mistake.toml)
        if not found and mistake.name not in BEYOND_SCHEMAS:
            failures.append(f"{mistake.toml}: the schema has nothing against it")

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
