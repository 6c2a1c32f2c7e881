#!/usr/bin/python3
"""Runs the fuzz targets on one core, for so many seconds in all, and says how many inputs each has
seen. A crash is kept in FOLDER/TARGET/ and printed; once mended it belongs into fixtures/mistakes.

usage: run.py BUILD_DIR SOURCE_DIR SECONDS [TARGET ...]
"""
import os
import re
import subprocess
import sys

sys.path.insert(1, os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
from mistakes import read_mistakes  # noqa: E402

BUILD, ROOT, SECONDS = sys.argv[1], os.path.abspath(sys.argv[2]), int(sys.argv[3])
# Longest input: a job of a page; a mesh of a few boards. More is slower, not more telling.
TARGETS = {"job_file": ("toml.dict", 4096), "shop_file": ("toml.dict", 2048),
           "rehearsal_log": ("log.dict", 1024), "mesh_text": ("mesh.dict", 1500), "json": (None, 512),
           "mesh_file": ("mesh.dict", 1500), "json_plan": (None, 512)}
OF_MESH = {".obj": b"\0", ".off": b"\1", ".ply": b"\2", ".stl": b"\3"}


def fixtures():
    """Name and content of every file, and of those that the sections of fixtures/mistakes hold."""
    for folder, _, names in sorted(os.walk(os.path.join(ROOT, "fixtures"))):
        for name in sorted(names):
            path = os.path.join(folder, name)
            with open(path, "rb") as file:
                yield path, file.read()
    for mistake in read_mistakes(ROOT):
        yield from mistake.files.items()


def seeds_of(target, folder):
    """The fixtures that the target reads; what it found before stays."""
    os.makedirs(folder, exist_ok=True)
    for path, fixture in fixtures():
        ending = os.path.splitext(path)[1]
        of_shop = "/shops/" in path or os.path.basename(path).startswith("shop_")
        head = None
        if target.startswith("mesh_"):
            head = OF_MESH.get(ending)
        elif ending == ".toml" and target in ("job_file", "shop_file"):
            head = b"" if of_shop == (target == "shop_file") else None
        elif target == "rehearsal_log" and ending == ".log":
            head = b""
        if head is None:
            continue
        content = head + fixture
        if len(content) <= 2 * TARGETS[target][1]:
            with open(os.path.join(folder, "seed_" + os.path.basename(path)), "wb") as file:
                file.write(content)
    if target == "rehearsal_log":
        with open(os.path.join(folder, "seed_short"), "wb") as file:
            file.write(b"# step\n1\t0.0\t30.0\t0.0\t31.5\tran out\n2\t30.0\t60.0\t\t\t\n")


def run(target, seconds):
    folder = os.path.join(BUILD, "corpus", target)
    seeds_of(target, folder)
    words, longest = TARGETS[target]
    command = [os.path.join(BUILD, "tests/fuzz", target + "_fuzz"), folder,
               f"-max_total_time={seconds}", f"-max_len={longest}", "-timeout=10",
               "-rss_limit_mb=2048", f"-artifact_prefix={folder}/../{target}-", "-print_final_stats=1",
               "-verbosity=1", "-seed=1", "-reduce_inputs=0", "-detect_leaks=0",
               # Naming each new function costs more than a thousand inputs; so does weighing them.
               "-print_funcs=0", "-entropic=0"]
    if words:
        command.append("-dict=" + os.path.join(ROOT, "tests/fuzz", words))
    # No stack is kept of every allocation: the sanitizer's largest cost; a crash is run again for it.
    fast = {"ASAN_OPTIONS": "malloc_context_size=1:quarantine_size_mb=16:detect_leaks=0"}
    done = subprocess.run(command, env={**os.environ, **fast}, stdout=subprocess.DEVNULL,
                          stderr=subprocess.PIPE, text=True, errors="replace", check=False)
    seen = re.search(r"stat::number_of_executed_units:\s*(\d+)", done.stderr)
    count = int(seen.group(1)) if seen else 0
    print(f"{target}: {count} inputs in {seconds} s{'' if done.returncode == 0 else ', CRASHED'}",
          flush=True)
    if done.returncode != 0:
        print("\n".join(done.stderr.splitlines()[-60:]))
    return count, done.returncode == 0


def main():
    targets = sys.argv[4:] or list(TARGETS)
    results = [run(target, max(1, SECONDS // len(targets))) for target in targets]
    print(f"{sum(count for count, _ in results)} inputs in all")
    sys.exit(0 if all(fine for _, fine in results) else 1)


if __name__ == "__main__":
    main()
