#!/usr/bin/python3
"""The page says what the program says: text, sheet and JSON byte for byte, from the WebAssembly core and from
the native program, of all fixtures with both shops, and of jobs made from them by a fixed seed; and what is said
of each bad file of fixtures/mistakes.

usage: page_same.py GLUEUP SOURCE_DIR CORE_WASM [JOBS]     exit 77: no node or no core here
"""
import glob
import json
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from mistakes import read_mistakes  # noqa: E402

GLUEUP, ROOT, CORE = os.path.abspath(sys.argv[1]), sys.argv[2], sys.argv[3]
JOBS = int(sys.argv[4]) if len(sys.argv) > 4 else 10
NODE = shutil.which("node")
SPECIES = ["black_cherry", "red_oak", "yellow_poplar", "hard_maple", "eastern_white_pine", "black_walnut"]
MESHES = (".obj", ".stl", ".ply", ".off")
slowest = {"page": 0.0}


class Core:
    """The page's own script in node, a fresh core for each question."""

    def __init__(self):
        self._node = subprocess.Popen(
            [NODE, os.path.join(ROOT, "tests/page_core.mjs"), CORE, os.path.join(ROOT, "cli/page/script/core.js")],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE)

    def ask(self, *request):
        self._node.stdin.write(json.dumps([list(t) if isinstance(t, bytes) else t for t in request]).encode() + b"\n")
        self._node.stdin.flush()
        return json.loads(self._node.stdout.readline())

    def close(self):
        self._node.stdin.close()
        self._node.wait()


def native(folder):
    """Text, sheet, JSON and status, of job.toml and shop.toml in the folder."""
    paths = {kind: os.path.join(folder, "plan." + kind) for kind in ("html", "json")}
    for path in paths.values():
        if os.path.exists(path):
            os.remove(path)
    run = subprocess.run([GLUEUP, "plan", "job.toml", "--shop", "shop.toml", "--sheet", "plan.html", "--json", "plan.json"],
                         cwd=folder, capture_output=True, check=False)
    texts = [run.stdout.decode()]
    for path in paths.values():
        texts.append(open(path, encoding="utf-8").read() if os.path.exists(path) else "")
    return run.returncode, texts, run.stderr.decode(errors="replace")


def difference(one, other):
    at = next((i for i, (a, b) in enumerate(zip(one, other)) if a != b), min(len(one), len(other)))
    return f"at {at}: {one[max(0, at - 60):at + 60]!r} and {other[max(0, at - 60):at + 60]!r}"


def compared(core, folder, name, job, shop, meshes):
    for file, text in (("job.toml", job), ("shop.toml", shop)):
        with open(os.path.join(folder, file), "wb") as out:
            out.write(text)
    status, texts, told = native(folder)
    reply = core.ask("plan", "a4", job, shop, *(part for mesh in meshes for part in mesh))
    if "fault" in reply:
        return [f"{name}: the page: {reply['fault']}"]
    slowest["page"] = max(slowest["page"], reply["ms"])
    found = []
    if reply["status"] != status:
        found.append(f"{name}: exit {status}, the page {reply['status']}: {told[:200]} {reply['texts'][3:][:1]}")
    elif status < 2:
        for kind, ours, its in zip(("text", "sheet", "JSON"), texts, reply["texts"]):
            if ours != its:
                found.append(f"{name}: {kind} differs {difference(ours, its)}")
    if status <= 2 and told != reply["texts"][3]:
        found.append(f"{name}: what is told differs {difference(told, reply['texts'][3])}")
    return found


def varied(dice, job):
    """The job with some numbers a little off, some other wood, or elsewhere."""
    def other(match):
        value = float(match.group(2))
        if dice.random() < 0.6 or value == 0:
            return match.group(0)
        step = dice.choice([0.0625, 0.125, 0.5]) if value < 50 else dice.choice([0.5, 1, 7])
        return f"{match.group(1)}{max(step, value + dice.choice([-1, 1]) * step):g}"

    job = re.sub(r"((?:outside|at|length|width|height) *= *\[?|, )(\d+(?:\.\d+)?)\b", other, job)
    if dice.random() < 0.5:
        job = re.sub(r'species( *)= *"[^"]*"', lambda m: f'species{m.group(1)}= "{dice.choice(SPECIES)}"', job)
    return job


def main():
    if NODE is None or not os.path.exists(CORE):
        print("no node or no core: sh cli/page/build.sh")
        return 77
    shops = {name: open(os.path.join(ROOT, f"fixtures/shops/{name}.toml"), "rb").read()
             for name in ("enough", "short")}
    jobs = []
    for path in sorted(glob.glob(os.path.join(ROOT, "fixtures/*/job.toml"))):
        folder = os.path.dirname(path)
        meshes = [(f, open(os.path.join(folder, f), "rb").read()) for f in sorted(os.listdir(folder)) if f.endswith(MESHES)]
        jobs.append((os.path.basename(folder), open(path, "rb").read(), meshes))
    work = [(f"{name}, {shop}", job, text, meshes) for name, job, meshes in jobs for shop, text in shops.items()]
    dice = random.Random(25)
    for i in range(JOBS):
        name, job, meshes = dice.choice(jobs)
        shop = dice.choice(sorted(shops))
        work.append((f"{i}: {name} varied, {shop}", varied(dice, job.decode()).encode(), shops[shop], meshes))
    chest = next(job for name, job, _ in jobs if name == "hive_tool_chest")
    for mistake in read_mistakes(ROOT):
        files = dict(mistake.files)
        bad = files.pop(mistake.toml)
        pair = (chest, bad) if mistake.of_shop else (bad, shops["enough"])
        if pair[1]:  # without a shop the page plans for an unlimited rack
            work.append((f"mistake {mistake.name}", *pair, list(files.items())))
    failures, core = [], Core()
    for name, job, shop, meshes in work:
        with tempfile.TemporaryDirectory() as folder:
            for file, data in meshes:
                with open(os.path.join(folder, file), "wb") as out:
                    out.write(data)
            failures += compared(core, folder, name, job, shop, meshes)
    core.close()
    for failure in failures:
        print("FAILED:", failure)
    print(f"{len(work)} jobs, {len(failures)} failures; the page's slowest {slowest['page']:.0f} ms")
    return 1 if failures else 0


sys.exit(main())
