#!/usr/bin/python3
"""The same job gives the same bytes: fifty runs over, in any language and time zone, at any address,
and from every build given (other compilers, sanitizers, no optimisation).

usage: determinism_test.py GLUEUP SOURCE_DIR [OTHER_GLUEUP ...]
"""
import glob
import hashlib
import os
import subprocess
import sys
import tempfile

GLUEUP, ROOT, OTHERS = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]), sys.argv[3:]
RUNS, FEW = 50, 4
OFTEN = ("hive_tool_chest", "cupboard_door")  # one go and stages; the rest are run a few times
SHOPS = ("enough.toml", "short.toml")
# Whatever a user's shell may have set.
SURROUNDINGS = [
    {"LANG": "C", "TZ": "UTC"},
    {"LANG": "de_DE.UTF-8", "LC_ALL": "de_DE.UTF-8", "TZ": "Pacific/Auckland"},
    {"LANG": "tr_TR.UTF-8", "LC_NUMERIC": "fr_FR.UTF-8", "TZ": "America/St_Johns"},
    {"LANG": "ar_EG", "LC_ALL": "C.UTF-8", "TZ": ":nowhere", "COLUMNS": "40", "TERM": "dumb"},
    {"LC_ALL": "xx_YY", "TZ": "", "MALLOC_PERTURB_": "165", "NO_COLOR": "1"},
]


def digest(program, job, shop, surroundings, folder):
    """Of the text, the JSON and the bench sheet."""
    sheet, plan = os.path.join(folder, "sheet.html"), os.path.join(folder, "plan.json")
    for old in (sheet, plan):
        if os.path.exists(old):
            os.remove(old)
    run = subprocess.run(
        [program, "plan", job, "--shop", shop, "--sheet", sheet, "--json", plan, "--explain"],
        capture_output=True, check=False, cwd=folder,
        env={"HOME": "/nonexistent", "PATH": os.environ["PATH"], **surroundings})
    if run.returncode not in (0, 1):
        return f"exit {run.returncode}: {run.stderr.decode(errors='replace')[:300]}"
    parts = [run.stdout]
    for path in (sheet, plan):
        with open(path, "rb") as file:
            parts.append(file.read())
    return " ".join(hashlib.sha256(part).hexdigest()[:16] for part in parts)


def main():
    failures, runs = [], 0
    with tempfile.TemporaryDirectory() as folder:
        for job in sorted(glob.glob(os.path.join(ROOT, "fixtures/*/job.toml"))):
            name = os.path.basename(os.path.dirname(job))
            for shop_name in SHOPS:
                shop = os.path.join(ROOT, "fixtures/shops", shop_name)
                first = digest(GLUEUP, job, shop, {}, folder)
                tries = [(GLUEUP, SURROUNDINGS[i % len(SURROUNDINGS)])
                         for i in range(RUNS if name in OFTEN else FEW)]
                tries += [(os.path.abspath(other), {}) for other in OTHERS]
                for program, surroundings in tries:
                    runs += 1
                    seen = digest(program, job, shop, surroundings, folder)
                    if seen != first or seen.startswith("exit"):
                        failures.append(f"{name}, {shop_name}, {os.path.relpath(program, ROOT)}, "
                                        f"{surroundings}: {seen}, not {first}")
    for failure in failures[:20]:
        print(failure)
    print(f"{runs - len(failures)} of {runs} runs gave the same text, sheet and JSON "
          f"(builds: {1 + len(OTHERS)})")
    sys.exit(1 if failures else 0)


main()
