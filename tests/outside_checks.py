#!/usr/bin/python3
"""What the program is checked against that isn't of its own making, with sources: docs/checks.md, made from the
tests. A line above a test says so, `// Outside, KIND: SOURCE` (in Python with #, under a comment that says what);
behind SOURCE there may be more of it. `each of FILE:` before it counts each instance of that file. A craft case
counts where its source is published. Many values of one formula or table in one test are one check.

usage: outside_checks.py SOURCE_DIR [--update]
"""
import glob
import json
import os
import re
import sys
import tomllib

ROOT = sys.argv[1]
PAGE = os.path.join(ROOT, "docs/checks.md")
KINDS = {  # in the page's order
    "handbook": "Handbook tables and formulas",
    "published": "Other published figures",
    "craft": "Published facts of the craft: whole plans",
    "solver": "Answers of other solvers",
    "CGAL": "CGAL's own figures",
    "closed form": "Closed forms",
    "definition": "Definitions",
    "library": "Other libraries",
}
MARK = re.compile(r"\s*(?://|#) Outside, ([\w ]+): ?(.*)")
NAME = re.compile(r'TEST_CASE\(\s*"((?:[^"\\]|\\.)*)"')
EACH = re.compile(r"each of ([\w./]+): (.*)")
# A test whose name has one of these looks like such a check, and is to say where its figures are from.
TELLTALE = re.compile(r"Hetenyi|Handbook|Navier|Gecode|GLPK|CalculiX|finite elements|Nef|CGAL|published|closed form|"
                      r"magazine|solvers? found|handbook")
failures = []


def instances(path):
    with open(os.path.join(ROOT, path), encoding="utf-8") as file:
        return [one["instance"]["name"] for one in json.load(file)["instances"]]


def marked(path, text):
    """(kind, what, source) of each marked check of a file."""
    lines = text.splitlines()
    for i, line in enumerate(lines):
        mark = MARK.fullmatch(line)
        if not mark:
            continue
        kind, source = mark.groups()
        what = NAME.match(" ".join(lines[i + 1:i + 4]).strip()) if path.endswith(".cpp") else \
            re.fullmatch(r"\s*# (.*?)[.:]?", lines[i - 1])
        if kind not in KINDS or not source or not what:
            failures.append(f"{path}:{i + 1}: `{line.strip()}` wants one of {', '.join(KINDS)}, a source, and its test")
            continue
        each = EACH.fullmatch(source)
        for name in instances(each.group(1)) if each else [""]:
            yield kind, what.group(1) + (f": {name}" if name else ""), each.group(2) if each else source


def unmarked(path, text):
    for name in re.finditer(NAME, text):
        before = text[:name.start()].rstrip().rsplit("\n", 1)[-1]
        if TELLTALE.search(name.group(1)) and not MARK.fullmatch(before):
            failures.append(f"{path}: \"{name.group(1)}\" doesn't say what it is checked against: `// Outside, KIND: SOURCE`")


def tests():
    for folder in ("geometry", "planner", "cli", "tests"):
        for ending in ("*.cpp", "*.py"):
            for path in sorted(glob.glob(os.path.join(ROOT, folder, "**", ending), recursive=True)):
                if os.path.basename(path) != os.path.basename(__file__):
                    with open(path, encoding="utf-8") as file:
                        yield os.path.relpath(path, ROOT), file.read()


def craft():
    for path in sorted(glob.glob(os.path.join(ROOT, "tests/craft/cases/*/expect.toml"))):
        name = os.path.relpath(path, ROOT)
        with open(path, "rb") as file:
            source = tomllib.load(file).get("source", "")
        if source.startswith("published: "):
            yield name, ("craft", os.path.basename(os.path.dirname(path)).replace("_", " "), source.split(": ", 1)[1])
        elif source != "common practice":
            failures.append(f"{name}: its source is neither published nor common practice: {source!r}")


def collected():
    found = {kind: [] for kind in KINDS}
    for path, text in tests():
        unmarked(path, text)
        for kind, what, source in marked(path, text):
            found[kind].append((what, source, path))
    for path, (kind, what, source) in craft():
        found[kind].append((what, source, path))
    return found


def page(found):
    total = sum(len(checks) for checks in found.values())
    out = ["# What the program is checked against", "",
           f"{total} checks against what isn't of its own making. Made from the tests by `tests/outside_checks.py`: a test says its",
           "source in the line above it. Many values of one formula or table are one check.", "",
           "| against | checks |", "| --- | --- |"]
    out += [f"| {KINDS[kind]} | {len(checks)} |" for kind, checks in found.items()]
    for kind, checks in found.items():
        out += ["", f"## {KINDS[kind]}"]
        for path in dict.fromkeys(path for *_, path in checks):
            out += ["", f"`{path}`", ""]
            out += [f"- {what} – {source}" for what, source, its in checks if its == path]
    return total, "\n".join(out) + "\n"


def main():
    total, text = page(collected())
    if "--update" in sys.argv:
        with open(PAGE, "w", encoding="utf-8") as file:
            file.write(text)
    with open(PAGE, encoding="utf-8") as file:
        if file.read() != text:
            failures.append("docs/checks.md is stale: python3 tests/outside_checks.py . --update")
    for failure in failures:
        print("FAILED:", failure)
    print(f"{total} checks against outside sources, {len(failures)} failures")
    return 1 if failures else 0


sys.exit(main())
