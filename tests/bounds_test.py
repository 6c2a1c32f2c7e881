#!/usr/bin/python3
"""Hostile but legal input: an answer or a clear refusal within 10 seconds of processor time and 2 GB,
never a crash, never a plan that fails its own check.

usage: bounds_test.py GLUEUP SOURCE_DIR [NAME ...]
"""
import math
import os
import resource
import subprocess
import sys
import tempfile

GLUEUP, ROOT = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
SECONDS, BYTES = 10, 2 << 30
CHEST = os.path.join(ROOT, "fixtures/hive_tool_chest/job.toml")
HEAD = 'units = "mm"\nspecies = "black_cherry"\n'
NM = '"0.000001 mm"'


def part(name, size, at, more=""):
    return (f'[[part]]\nname = "{name}"\nlength = {size[0]}\nwidth = {size[1]}\n'
            f'thickness = {size[2]}\nalong = "x"\nface = "z"\nat = [{at[0]}, {at[1]}, {at[2]}]\n{more}')


def row(n, width=20, length=300):
    """A panel of n boards."""
    return HEAD + "".join(part(f"b{i}", (length, width, 18), (0, i * width, 0)) for i in range(n))


def grid(n):
    """A block of n x n pieces: as many ways apart as there can be."""
    return HEAD + "".join(part(f"b{i} {j}", (100, 50, 18), (100 * j, 50 * i, 0))
                          for i in range(n) for j in range(n))


def dadoes(n):
    cut = '[[part.cut]]\nkind = "dado"\non = "+z"\nruns = "y"\noffset = {:.6f}\nwidth = {:.6f}\ndepth = 5\n'
    cuts = "".join(cut.format(i * 2000 / n, 1000 / n) for i in range(n))
    return HEAD + part("rail", (2000, 100, 18), (0, 0, 0), cuts) + part("cleat", (2000, 100, 18),
                                                                        (0, 100, 0))


def cut_boards(parts, cuts):
    cut = '[[part.cut]]\nkind = "dado"\non = "+z"\nruns = "y"\noffset = {:.6f}\nwidth = {:.6f}\ndepth = 5\n'
    each = "".join(cut.format(i * 2000 / cuts, 1000 / cuts) for i in range(cuts))
    return HEAD + "".join(part(f"b{i}", (2000, 20, 18), (0, 20 * i, 0), each) for i in range(parts))


def two(size, at):
    return HEAD + part("one", size, (0, 0, 0)) + part("two", size, at)


def ring(n):
    """A tub of n staves, each turned a little further: as many directions as there can be."""
    radius = 400
    width = 2 * (radius + 18) * math.tan(math.pi / n)
    staves = ""
    for i in range(n):
        more = f'turn = {{ axis = "z", angle = {360 * i / n!r}, about = [0, 0, 0] }}\n'
        for side in ("-y", "+y"):
            more += f'[[part.cut]]\nkind = "miter"\nside = "{side}"\nlong = "+x"\nangle = {180 / n!r}\n'
        staves += part(f"s{i}", (300, f"{width:.6f}", 18), (radius, f"{-width / 2:.6f}", 0), more)
    return (HEAD + staves).replace('along = "x"\nface = "z"', 'along = "z"\nface = "x"')


def lamination(layers):
    return HEAD + f"[lamination]\nlength = 1200\nwidth = 80\nlayers = {layers}\nthickness = {3 * layers}\n"


def rack(rows):
    return 'units = "mm"\n' + "".join(
        f'[[clamp]]\nkind = "{kind}"\ncount = 1\nopening = {200 + i}\nforce = "{1000 + i} N"\n'
        for i in range(rows) for kind in [("f_heavy", "f_light", "parallel", "pipe_3_4")[i % 4]])


def torsion_box(ribs, fillers):
    """Skins on two rails, ribs between those, and fillers between ribs: nearly all unlike."""
    def along(way, name, size, at):
        return part(name, size, at).replace('along = "x"\nface = "z"', f'along = "{way[0]}"\nface = "{way[1]}"')
    long, wide, high, stock, skin = 1200, 600, 80, 18, 6
    at_x = [i * (long - stock) // (ribs - 1) for i in range(ribs)]
    boards = [along("xy", f"rail {i}", (long, high, stock), (0, y, skin)) for i, y in ((1, 0), (2, wide - stock))]
    boards += [along("yx", f"rib {i}", (wide - 2 * stock, high, stock), (x, stock, skin)) for i, x in enumerate(at_x)]
    boards += [along("xy", f"filler {i} {k}", (at_x[i + 1] - x - stock, high, stock),
                     (x + stock, stock + k * (wide - 2 * stock) // (fillers + 1), skin))
               for i, x in enumerate(at_x[:-1]) for k in range(1, fillers + 1)]
    skins = [part(f"skin {i}", (long, wide, skin), (0, 0, z)) for i, z in ((1, 0), (2, skin + high))]
    return HEAD + "".join(boards + skins)


def bookcase(dividers, shelves):
    return HEAD + (f"[carcass]\noutside = [1200, 300, 1800]\nstock = 18\nshelves = {shelves}\n"
                   f"dividers = {dividers}\nback = \"none\"\n")


def placed(n):
    with open(CHEST, encoding="utf-8") as file:
        return file.read() + "".join(
            f'[[my_clamp]]\naxis = "y"\nat = [{13.25 * (i % 2) + 0.375}, 0, {i % 7 + 0.5}]\nkind = "f_heavy"\n'
            for i in range(n))


def chest(more):
    with open(CHEST, encoding="utf-8") as file:
        return file.read() + more


def box_mesh(n, name, x0):
    """A box whose six faces are each n x n squares of two triangles."""
    points, faces = [], []
    sides = [((0, 0, 0), (0, 1, 0), (1, 0, 0)), ((0, 0, 1), (1, 0, 0), (0, 1, 0)),
             ((0, 0, 0), (1, 0, 0), (0, 0, 1)), ((0, 1, 0), (0, 0, 1), (1, 0, 0)),
             ((0, 0, 0), (0, 0, 1), (0, 1, 0)), ((1, 0, 0), (0, 1, 0), (0, 0, 1))]
    for o, u, v in sides:
        first = len(points) + 1
        points += [[o[k] + (u[k] * i + v[k] * j) / n for k in range(3)]
                   for i in range(n + 1) for j in range(n + 1)]
        at = lambda i, j: first + i * (n + 1) + j
        for i in range(n):
            for j in range(n):
                a, b, c, d = at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)
                faces += [(a, b, c), (a, c, d)]
    return name, [(x0 + 400 * p[0], 100 * p[1], 20 * p[2]) for p in points], faces


def ball_mesh(n, name, x0):
    points, faces = [(x0, 0, 50)], []
    for i in range(1, n):
        for j in range(2 * n):
            a, b = math.pi * i / n, math.pi * j / n
            points.append((x0 + 50 * math.sin(a) * math.cos(b), 50 * math.sin(a) * math.sin(b),
                           50 * math.cos(a)))
    points.append((x0, 0, -50))
    at = lambda i, j: 2 + (i - 1) * 2 * n + j % (2 * n)
    for j in range(2 * n):
        faces.append((1, at(1, j), at(1, j + 1)))
        faces.append((len(points), at(n - 1, j + 1), at(n - 1, j)))
        for i in range(1, n - 1):
            faces += [(at(i, j), at(i + 1, j), at(i + 1, j + 1)),
                      (at(i, j), at(i + 1, j + 1), at(i, j + 1))]
    return name, points, faces


def obj(*parts):
    text, first = [], 0
    for name, points, faces in parts:
        text.append(f"o {name}\n")
        text += ["v {:.6g} {:.6g} {:.6g}\n".format(*p) for p in points]
        text += [f"f {a + first} {b + first} {c + first}\n" for a, b, c in faces]
        first += len(points)
    return "".join(text)


MESH = HEAD + '[mesh]\nfile = "work.obj"\nunits = "mm"\n'
LONG = "x" * (1 << 20)
# name: (job, shop or None, mesh or None, what must be said where it is refused)
CASES = {
    "100 boards": lambda: (row(100), None, None, None),
    "a block of 16 parts": lambda: (grid(4), None, None, None),
    "40 shelves": lambda: (HEAD + '[carcass]\noutside = [600, 300, 3000]\nstock = 18\nshelves = 40\n',
                           None, None, None),
    "a bookcase with a divider": lambda: (bookcase(1, 8), None, None, None),
    "a bookcase with three dividers": lambda: (bookcase(3, 8), None, None, None),
    "a torsion box": lambda: (torsion_box(5, 1), None, None, None),
    "beams of 10 m": lambda: (two((10000, 200, 400), (0, 200, 0)), None, None, None),
    "beams of 30 m": lambda: (two((30000, 200, 400), (0, 200, 0)), None, None, None),
    "10 000 parts": lambda: (grid(100), None, None, "128"),
    "129 parts": lambda: (row(129), None, None, "128"),
    "a tub of 24 staves": lambda: (ring(24), None, None, None),
    "64 layers": lambda: (lamination(64), None, None, None),
    "256 layers": lambda: (lamination(256), None, None, "128"),
    "100 000 cuts": lambda: (dadoes(100_000), None, None, "500"),
    "500 cuts in one part": lambda: (dadoes(500), None, None, None),
    "100 000 cuts in many parts": lambda: (cut_boards(250, 400), None, None, "1000"),
    "1000 cuts in many parts": lambda: (cut_boards(25, 40), None, None, None),
    "301 fingers": lambda: (HEAD + '[box]\noutside = [3000, 300, 2500]\nstock = 18\n'
                             'corners = "finger"\nfingers = 301\n', None, None, None),
    "a rack of 500 clamps": lambda: (chest(""), rack(500), None, None),
    "a panel on 500 clamps": lambda: (row(4, 60, 3000), rack(500), None, None),
    "a clamp count of 10 000": lambda: (row(6, 60, 3000), rack(4).replace("count = 1", "count = 10000"),
                                        None, None),
    "500 placed clamps": lambda: (placed(500), None, None, None),
    "names of 1 MB": lambda: (row(3).replace('"b1"', f'"{LONG}"'), None, None, "1000"),
    "a title of 1 MB": lambda: (f'title = "{LONG}"\n' + row(3), None, None, "1000"),
    "a key of 1 MB": lambda: (row(3) + f"{LONG} = 1\n", None, None, "no key"),
    "a wood of 1 MB": lambda: (row(3).replace("black_cherry", LONG), None, None, "1000"),
    "a word of 1 MB": lambda: (row(3).replace('along = "x"', f'along = "{LONG}"'), None, None, "along"),
    "a length of 1 MB": lambda: (row(3).replace("300", "3" * (1 << 20)), None, None, "3333"),
    "names of 1000 letters": lambda: (row(4).replace('name = "b', 'name = "' + "name " * 199), None, None,
                                     None),
    "a comment of 20 MB": lambda: ("# " + "x" * (20 << 20) + "\n" + row(3), None, None, None),
    "a million empty lines": lambda: ("\n" * 1_000_000 + row(3), None, None, None),
    "100 000 unknown keys": lambda: (row(3) + "".join(f"k{i} = {i}\n" for i in range(100_000)), None,
                                     None, "no key"),
    "100 000 joints": lambda: (row(3) + '[[joint]]\nbetween = ["b0", "b1"]\nglue = true\n' * 100_000,
                               None, None, None),
    "10 000 saw lines": lambda: (chest('[[saw_later]]\naxis = "z"\nat = "6 in"\n' * 10_000), None, None,
                                 None),
    "a list of a million lengths": lambda: (HEAD + "[panel]\nlength = 300\nthickness = 18\nboards = [" +
                                            "9, " * 1_000_000 + "9]\n", None, None, ""),
    "lists in lists": lambda: (HEAD + "[panel]\nlength = 300\nthickness = 18\nboards = " + "[" * 100_000 +
                               "]" * 100_000 + "\n", None, None, ""),
    "tables in tables": lambda: (HEAD + "[box]\nstock = " + "{a = " * 50_000 + "1" + "}" * 50_000 + "\n",
                                 None, None, ""),
    "50 000 glues": lambda: (row(3), 'units = "mm"\n' + "".join(
        f'[[glue]]\nname = "g{i}"\nfamily = "pva_type2"\n' for i in range(50_000)), None, None),
    "1 nm boards": lambda: (two((NM, NM, NM), (0, NM, 0)), None, None, "unit"),
    "a leaf of 1 nm": lambda: (two((300, 60, NM), (0, 0, NM)), None, None, "unit"),
    "an edge of 1 nm": lambda: (two((300, NM, 20), (0, NM, 0)), None, None, "unit"),
    "two boards a millimetre wide": lambda: (two((300, 1, 1), (0, 1, 0)), None, None, None),
    "a wide face under cauls with a camber": lambda: (two((600, 600, 9), (0, 0, 9)), None, None, None),
    "a cube of 30 m": lambda: (two((30000, 30000, 15000), (0, 0, 15000)), None, None, None),
    "a shop as slow as can be": lambda: (chest(""), 'units = "mm"\n[pace]\njoin = "24 h"\nsnug = "24 h"\n'
                                         'channel = "24 h per mm"\n', None, None),
    "a million triangles on flat faces": lambda: (MESH, None, obj(
        box_mesh(204, "rail", 0), box_mesh(204, "cleat", 400)), None),
    "a ball of 4000 flats": lambda: (MESH, None, obj(ball_mesh(32, "ball", 0), box_mesh(
        1, "cleat", 400)), ""),
    "a face of 100 000 corners": lambda: (MESH, None, "o rail\n" + "".join(
        f"v {400 * math.cos(i / 16000):.6f} {400 * math.sin(i / 16000):.6f} 0\n"
        for i in range(100_000)) + "f " + " ".join(str(i + 1) for i in range(100_000)) + "\n", ""),
    "a million triangles on a ball": lambda: (MESH, None, obj(
        ball_mesh(500, "ball", 0), box_mesh(1, "cleat", 400)), ""),
    "20 000 parts in a mesh": lambda: (MESH, None, obj(*[box_mesh(1, f"p{i}", 400 * i)
                                                         for i in range(20_000)]), ""),
    "20 000 parts within reach": lambda: (MESH, None, obj(*[box_mesh(1, f"p{i}", i % 70 * 400)
                                                           for i in range(20_000)]), "128"),
}


def limits():
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS + 1))
    resource.setrlimit(resource.RLIMIT_AS, (BYTES, BYTES))


def run(name, folder):
    job, shop, mesh, refusal = CASES[name]()
    paths = {}
    for file, text in (("job.toml", job), ("shop.toml", shop), ("work.obj", mesh)):
        paths[file] = os.path.join(folder, file)
        with open(paths[file], "w", encoding="utf-8") as out:
            out.write(text or "")
    command = [GLUEUP, "plan", paths["job.toml"]] + (["--shop", paths["shop.toml"]] if shop else [])
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(command, capture_output=True, check=False, preexec_fn=limits,
                          env={"HOME": "/nonexistent", "PATH": os.environ["PATH"]})
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    err = done.stderr.decode(errors="replace")
    wrong = []
    if done.returncode not in (0, 1, 2):
        wrong.append(f"exit {done.returncode}")
    if done.returncode == 2 and (refusal is None or refusal not in err):
        wrong.append("refused" if refusal is None else f"doesn't say {refusal}")
    if done.returncode in (0, 1) and len(done.stdout) < 300:
        wrong.append("no plan")
    if len(done.stdout) > 4 << 20 or len(err) > 1 << 20:
        wrong.append("says too much")
    print(f"{name}: exit {done.returncode}, {spent:.1f} s"
          f"{'  <-- ' + '; '.join(wrong) + ': ' + err[:300] if wrong else ''}", flush=True)
    return not wrong


def main():
    names = sys.argv[3:] or list(CASES)
    with tempfile.TemporaryDirectory() as folder:
        results = [run(name, folder) for name in names]
    print(f"{sum(results)} of {len(results)} bounds kept")
    sys.exit(0 if all(results) else 1)


main()
