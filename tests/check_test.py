#!/usr/bin/python3
"""What `check` says of a drawing: parts that no glue holds, faces drawn apart, parts that lock each other
in, wood across its grain; and that a shop which lacks clamps is no fault of the drawing's. The same from
the JSON.

usage: check_test.py GLUEUP SOURCE_DIR
"""
import json
import os
import re
import subprocess
import sys
import tempfile

GLUEUP, ROOT = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
ENOUGH, SHORT = (os.path.join(ROOT, f"fixtures/shops/{name}.toml") for name in ("enough", "short"))
failures = []


def check(what, truth):
    if not truth:
        failures.append(what)


def part(name, size, along, face, at, *cuts):
    length, width, thickness = size
    return (f'[[part]]\nname = "{name}"\nlength = {length}\nwidth = {width}\nthickness = {thickness}\n'
            f'along = "{along}"\nface = "{face}"\nat = {list(at)}\n' +
            "".join(f"[[part.cut]]\n{cut}\n" for cut in cuts))


def job(*parts, glue="pva_yellow", species="red_maple"):
    return f'units = "mm"\nspecies = "{species}"\n' + "".join(parts) + f'[glue]\nuse = "{glue}"\n'


def checked(text, shop=ENOUGH):
    """What check prints, wrapped lines put together again, and what a program is told."""
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "job.toml")
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
        said = subprocess.run([GLUEUP, "check", path, "--shop", shop], capture_output=True, text=True, check=False)
        told = subprocess.run([GLUEUP, "check", path, "--shop", shop, "--json", "-"], capture_output=True, text=True,
                              check=False)
    check(f"checked: {said.returncode} {said.stderr}", said.returncode == 0 and told.returncode == 0)
    check(f"80 columns at most: {said.stdout}", all(len(line) <= 80 for line in said.stdout.splitlines()))
    return re.sub(r"\n {4,}", " ", said.stdout), json.loads(told.stdout)["mend_first"]


def fixture(name):
    with open(os.path.join(ROOT, f"fixtures/{name}/job.toml"), encoding="utf-8") as file:
        return file.read()


# A bottom a millimetre thinner than its grooves, all round: it touches nothing, and can't fall out.
tray = re.sub(r"\[\[joint\]\].*?glue = false\n", "", fixture("captured_bottom_box"), flags=re.S)
tray = tray.replace("thickness = 6\nalong = \"x\"\nface = \"z\"\nat = [10, 10, 10]",
                    "thickness = 5\nalong = \"x\"\nface = \"z\"\nat = [10, 10, 10.5]")
said, mends = checked(tray)
check(f"captured with room to move: {said}",
      "  - Bottom touches nothing: the others capture it with room to move.\n" in said)
check(f"which is no mistake: {said}", "  - Nothing: the parts go together as drawn.\n" in said and mends == [])

# Joints that stay dry are told once.
said, _ = checked(fixture("captured_bottom_box"))
check(f"dry joints together: {said}", said.count("as the job file says") == 1 and
      "  - Left dry, as the job file says: front - bottom, back - bottom, left end - bottom and right end - bottom.\n"
      in said)
check(f"what lies dry is told: {said}",
      "Bottom floats: it lies dry against front, back, left end and right end." in said)

# Three boards, the second joint drawn a tenth open, which the glue fills.
boards = job(part("left", (400, 90, 20), "y", "z", (0, 0, 0)), part("middle", (400, 90, 20), "y", "z", (90, 0, 0)),
             part("right", (400, 90, 20), "y", "z", (180.1, 0, 0)))
said, mends = checked(boards)
check(f"a gap to mend: {said}", re.search(
    r"  1\. middle - right is drawn 0\.10 mm apart, and glue in a gap is weak\. Draw the faces touching, unless they "
    r"are cut so loose\.\n", said))
check(f"and in its column: {said}", re.search(r"middle - right +\S.* 0\.10 mm\n", said) and
      re.search(r"left - middle +\S.* -\n", said))
check(f"and for programs: {mends}", mends == [{"kind": "gap", "gap_mm": 0.1, "joints": [1]}])

# A frame whose corners go together along x, up, and along y at both ends of one stile: each keeps the next in.
TENON = 'kind = "tenon"\non = "{}"\nlength = {}\nfrom = [10, 6]\nsize = [20, 6]'
MORTISE = 'kind = "mortise"\non = "{}"\nfrom = {}\nsize = {}\ndepth = {}'
NOTCH = 'kind = "notch"\nfrom = {}\nsize = {}'
ring = job(
    part("bottom rail", (280, 40, 18), "x", "z", (0, 0, 0), TENON.format("+x", 20),
         MORTISE.format("+y", [10, 6], [20, 6], 15)),
    part("right stile", (400, 40, 18), "y", "z", (260, 0, 0), MORTISE.format("-x", [10, 6], [20, 6], 20),
         MORTISE.format("+z", [0, 370], [15, 15], 9), MORTISE.format("+z", [15, 365], [15, 25], 9)),
    part("top rail", (290, 40, 18), "x", "z", (0, 360, 0), NOTCH.format([260, 0, 0], [30, 40, 9]),
         NOTCH.format([260, 0, 0], [15, 10, 18]), NOTCH.format([260, 25, 0], [15, 15, 18]),
         NOTCH.format([275, 0, 0], [15, 5, 18]), NOTCH.format([275, 30, 0], [15, 10, 18]),
         MORTISE.format("-y", [10, 6], [20, 6], 15)),
    part("left stile", (350, 40, 18), "y", "z", (0, 25, 0), TENON.format("+y", 15), TENON.format("-y", 15)))
said, mends = checked(ring)
check(f"what is locked is the first to mend: {said}", re.search(
    r"FIX FIRST\n  1\. No way to put together bottom rail, right stile, top rail, left stile: .* locks the others in\.\n",
    said))
check(f"locked, for programs: {mends}", mends and mends[0] == {
    "kind": "locked", "parts": ["bottom rail", "right stile", "top rail", "left stile"]})

# A solid bottom glued all round, by a shop that hasn't the clamps either.
said, mends = checked(fixture("hive_tool_chest"), SHORT)
mend = said.split("FIX FIRST\n")[1].split("\n\n")[0]
check(f"wood across its grain: {said}", mend.startswith("  1. Wood glued across its grain cracks as it moves: "))
check(f"the rack is no fault of the drawing's: {said}", "clamp" not in said and "  2. " not in mend)
check(f"across, for programs: {mends}", [each["kind"] for each in mends] == ["across the grain"] and
      len(mends[0]["joints"]) == 4)
check("so another rack changes nothing", checked(fixture("hive_tool_chest"), ENOUGH) == (said, mends))

# A case of shelves whose orders take minutes to look through: the drawing is checked at once.
with tempfile.TemporaryDirectory() as folder:
    grid = os.path.join(folder, "grid.toml")
    with open(grid, "w", encoding="utf-8") as file:
        file.write('units = "mm"\n[carcass]\noutside = [900, 300, 1800]\nstock = 18\ntop = "rabbet"\nbottom = "dado"\n'
                   'shelves = 8\ndividers = 2\nspecies = "plywood_birch"\n[glue]\nuse = "pva_type1"\n')
    done = subprocess.run([GLUEUP, "check", grid, "--shop", ENOUGH], capture_output=True, text=True, check=False,
                          timeout=60)
check(f"a large drawing: {done.stdout}", done.returncode == 0 and "go together as drawn" in done.stdout)

for failure in failures:
    print("FAILED:", failure)
print(f"{len(failures)} failures")
sys.exit(1 if failures else 0)
