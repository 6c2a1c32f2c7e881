#!/bin/sh
# How big the house is: C++ lines outside tests that are neither blank nor comment, a floor at a time;
# the share of header lines that are comment; functions over 60 lines; tracked files.
# By hand: sh tests/size.sh
set -eu
cd "$(dirname "$0")/.."
git ls-files -z -- '*.cpp' '*.h' | python3 -c '
import re, sys

FLOORS = ("geometry", "planner", "cli")
LONGEST = 60
NO_FUNCTION = re.compile(r"^(namespace|class|struct|enum|union|extern|template)\b|^#|^//|^}|=\s*$|=\s*{\s*$")


def without_comments(text):
    """The same lines, comments blank; texts are kept, so that a // inside one is none."""
    token = re.compile(
        r"//[^\n]*|/\*.*?\*/|R\"(\w*)\(.*?\)\1\"|\"(?:\\.|[^\"\\\n])*\"|\x27(?:\\.|[^\x27\\\n])+\x27", re.S)
    return token.sub(lambda m: re.sub(r"[^\n]", "", m[0]) if m[0][0] == "/" else m[0], text)


def functions(lines):
    """(first line, lines) of each function body at the margin, where our formatter puts them."""
    start = None
    for n, line in enumerate(lines):
        if line[:1] not in (" ", "}", "", "#") and start is None and not NO_FUNCTION.search(line):
            start = n
        if start is not None and line.startswith("}"):
            yield start, n - start + 1
            start = None
        elif start is not None and line.endswith(";") and line[:1] != " ":
            start = None


code = dict.fromkeys(FLOORS, 0)
header_lines = header_comments = 0
long_ones = []
for path in sys.stdin.read().split("\0"):
    floor = path.split("/")[0]
    if floor not in FLOORS or re.search(r"_test\.(cpp|h)$", path):
        continue
    text = open(path, encoding="utf-8").read()
    lines, bare = text.splitlines(), without_comments(text).splitlines()
    code[floor] += sum(1 for line in bare if line.strip())
    if path.endswith(".h"):
        written = [(a, b) for a, b in zip(lines, bare) if a.strip()]
        header_lines += len(written)
        header_comments += sum(1 for a, b in written if a.rstrip() != b.rstrip())
    for n, length in functions(bare):
        if length > LONGEST:
            long_ones.append(f"  {path}:{n + 1}: {length} lines: {lines[n].strip()}")

for floor in FLOORS:
    print(f"{floor:9} {code[floor]:6} lines of code")
print(f"in all    {sum(code.values()):6} lines of code")
print(f"headers   {100 * header_comments / header_lines:5.1f} % of {header_lines} lines hold a comment")
print(f"functions over {LONGEST} lines: {len(long_ones)}")
print("\n".join(long_ones), end="\n" if long_ones else "")
'
echo "tracked files: $(git ls-files | wc -l)"
