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
from concurrent.futures import ThreadPoolExecutor

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


def digest(program, job, shop, surroundings):
    """Of the text, the JSON and the bench sheet."""
    with tempfile.TemporaryDirectory() as folder:
        run = subprocess.run(
            [program, "plan", job, "--shop", shop, "--sheet", "sheet.html", "--json", "plan.json",
             "--explain"], capture_output=True, check=False, cwd=folder,
            env={"HOME": "/nonexistent", "PATH": os.environ["PATH"], **surroundings})
        if run.returncode not in (0, 1):
            return f"exit {run.returncode}: {run.stderr.decode(errors='replace')[:300]}"
        parts = [run.stdout]
        for name in ("sheet.html", "plan.json"):
            with open(os.path.join(folder, name), "rb") as file:
                parts.append(file.read())
    return " ".join(hashlib.sha256(part).hexdigest()[:16] for part in parts)


def main():
    runs = []  # program, job, shop, surroundings
    for job in sorted(glob.glob(os.path.join(ROOT, "fixtures/*/job.toml"))):
        often = os.path.basename(os.path.dirname(job)) in OFTEN
        for shop in (os.path.join(ROOT, "fixtures/shops", name) for name in SHOPS):
            runs.append((GLUEUP, job, shop, {}))
            runs += [(GLUEUP, job, shop, SURROUNDINGS[i % len(SURROUNDINGS)])
                     for i in range(RUNS if often else FEW)]
            runs += [(os.path.abspath(other), job, shop, {}) for other in OTHERS]
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        digests = list(pool.map(lambda run: digest(*run), runs))
    first, failures = {}, []
    for (program, job, shop, surroundings), seen in zip(runs, digests):
        wanted = first.setdefault((job, shop), seen)
        if seen != wanted or seen.startswith("exit"):
            failures.append(f"{os.path.relpath(job, ROOT)}, {os.path.basename(shop)}, "
                            f"{os.path.relpath(program, ROOT)}, {surroundings}: {seen}, not {wanted}")
    for failure in failures[:20]:
        print(failure)
    print(f"{len(runs) - len(failures)} of {len(runs)} runs gave the same text, sheet and JSON "
          f"(builds: {1 + len(OTHERS)})")
    sys.exit(1 if failures else 0)


main()
