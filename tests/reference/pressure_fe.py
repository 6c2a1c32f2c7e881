#!/usr/bin/python3
"""Panels pressed on a strip through a caul, solved by the finite-element program CalculiX: the cases P_*_caul with a
"caul" in pressure_cases.json. Not run by any test; it shows where those figures are from.

usage: pressure_fe.py CASES.json [NAME ...]     solves the named cases of that file (all with a caul's section) and
                                                prints their statistics; needs `ccx` (Debian's calculix-ccx)

Modelled are x from the line's end to its middle (mirror plane), the panel from its edge over the strip to its middle
(y = B, mirror plane), and the mating part down to z = -H (a rigid support without friction).
Hexahedra with incompatible modes, linear elastic and orthotropic. Between caul, panel and mating part stand springs
a million N/mm stiff, node to node; those that pull are taken out and those that overlap put back until neither is so.
"""

import json
import pathlib
import re
import subprocess
import sys
import tempfile

STIFF_N_MM = 1e6
PRINTED_MM = 5e-8  # CalculiX prints displacements to seven digits: nothing is known of less


def grid(points, step):
    """Coordinates from the first of `points` to the last, through each of them, no further apart than `step`."""
    out = [points[0]]
    for a, b in zip(points, points[1:]):
        cells = max(1, round((b - a) / step + 0.499))
        out += [a + (b - a) * (i + 1) / cells for i in range(cells)]
    return out


class Body:
    """A box of hexahedra. `first` is the number of its first node."""

    def __init__(self, name, xs, ys, zs, xyz, first):
        self.name, self.xs, self.ys, self.zs, self.xyz, self.first = name, xs, ys, zs, xyz, first

    def count(self):
        return len(self.xs) * len(self.ys) * len(self.zs)

    def node(self, i, j, k):
        return self.first + (k * len(self.ys) + j) * len(self.xs) + i

    def nodes(self):
        for k, z in enumerate(self.zs):
            for j, y in enumerate(self.ys):
                for i, x in enumerate(self.xs):
                    yield self.node(i, j, k), x, y, z

    def elements(self):
        for k in range(len(self.zs) - 1):
            for j in range(len(self.ys) - 1):
                for i in range(len(self.xs) - 1):
                    yield [self.node(i + a, j + b, k + c) for c in (0, 1) for a, b in ((0, 0), (1, 0), (1, 1), (0, 1))]


def constants(wood, xyz):
    """CalculiX's engineering constants with the wood's axes `xyz`, such as "TLR", along x, y, z."""
    longwise = wood["EL"]
    e = {"L": longwise, "R": longwise * wood["ER"], "T": longwise * wood["ET"]}
    g = {"LR": wood["GLR"], "LT": wood["GLT"], "RT": wood["GRT"]}
    nu = {"LR": wood["nLR"], "LT": wood["nLT"], "RT": wood["nRT"]}

    def poisson(a, b):
        return nu[a + b] if a + b in nu else nu[b + a] * e[a] / e[b]

    def shear(a, b):
        return longwise * (g[a + b] if a + b in g else g[b + a])

    a, b, c = xyz
    values = [e[a], e[b], e[c], poisson(a, b), poisson(a, c), poisson(b, c), shear(a, b), shear(a, c)]
    return ", ".join(f"{v:.6g}" for v in values) + f",\n{shear(b, c):.6g}, 293."


def bodies_of(p):
    half = p["L"] / 2
    jaws = {x + side * p["pad"] / 2 for x in p["clamps"] for side in (-1, 1)}
    edges = sorted({0.0, half} | {x for x in jaws if x < half})
    xs = grid(edges, p.get("dx", 5.0))
    strip = grid([0.0, p["b"]], p["b"] / 4)
    wide, tall = p["caul"]
    under = strip + (grid([p["b"], wide], 5.0)[1:] if wide > p["b"] else [])
    panel_y = under + grid([wide, wide + 20, p["B"]], 12.0)[1:]
    thick = grid([0.0, p["t"]], 3.5)
    deep = [-z for z in reversed(grid([0.0, 12.0, 30.0, p["H"]], 6.0))]
    high = grid([p["t"], p["t"] + tall], 5.0)
    out, first = [], 1
    for name, ys, zs, xyz in (("mating", strip, deep, p["mating_xyz"]), ("panel", panel_y, thick, p["panel_xyz"]),
                              ("caul", under, high, "LRT")):
        out.append(Body(name, xs, ys, zs, xyz, first))
        first += out[-1].count()
    return out


def shares(coordinates, low, high):
    """The length of [low, high] that belongs to each coordinate, half of each cell to either end."""
    out = [0.0] * len(coordinates)
    for i, (a, b) in enumerate(zip(coordinates, coordinates[1:])):
        a, b = max(a, low), min(b, high)
        if b > a:
            out[i] += (b - a) / 2
            out[i + 1] += (b - a) / 2
    return out


def pairs_of(bodies):
    """Node pairs that touch, lower and upper, by interface: the joint, and under the caul."""
    mating, panel, caul = bodies
    top = len(mating.zs) - 1, len(panel.zs) - 1
    xs = range(len(caul.xs))
    return [[(mating.node(i, j, top[0]), panel.node(i, j, 0)) for j in range(len(mating.ys)) for i in xs],
            [(panel.node(i, j, top[1]), caul.node(i, j, 0)) for j in range(len(caul.ys)) for i in xs]]


def deck(p, wood, bodies, closed):
    mating, panel, caul = bodies
    last = len(mating.xs) - 1
    out = ["*NODE, NSET=ALL"]
    out += [f"{n}, {x:.6f}, {y:.6f}, {z:.6f}" for body in bodies for n, x, y, z in body.nodes()]
    number = 1
    for body in bodies:
        out.append(f"*ELEMENT, TYPE=C3D8I, ELSET={body.name}")
        for corners in body.elements():
            out.append(", ".join(str(n) for n in [number] + corners))
            number += 1
        out += [f"*MATERIAL, NAME=M{body.name}", "*ELASTIC, TYPE=ENGINEERING CONSTANTS", constants(wood, body.xyz),
                f"*SOLID SECTION, ELSET={body.name}, MATERIAL=M{body.name}"]
    out.append("*ELEMENT, TYPE=SPRING2, ELSET=TOUCH")
    for low, high in closed:
        out.append(f"{number}, {low}, {high}")
        number += 1
    out += ["*SPRING, ELSET=TOUCH", "3, 3", f"{STIFF_N_MM:.1f}", "*BOUNDARY"]
    out += [f"{b.node(last, j, k)}, 1" for b in bodies for j in range(len(b.ys)) for k in range(len(b.zs))]
    out += [f"{mating.node(i, j, 0)}, 3" for i in range(last + 1) for j in range(len(mating.ys))]
    out += [f"{panel.node(i, len(panel.ys) - 1, k)}, 2" for i in range(last + 1) for k in range(len(panel.zs))]
    # Held sideways where nothing else does: neither is pushed that way.
    out += [f"{body.node(i, 2, 0)}, 2" for body in (mating, caul) for i in range(last + 1)]
    out += ["*STEP", "*STATIC", "*CLOAD"]
    wide = p["caul"][0]
    across = shares(caul.ys, 0, wide)
    for x in p["clamps"]:
        low, high = x - p["pad"] / 2, min(x + p["pad"] / 2, p["L"] / 2)
        for i, a in enumerate(shares(caul.xs, low, high)):
            for j, b in enumerate(across):
                if a > 0:
                    force = p["F"] * a / p["pad"] * b / wide
                    out.append(f"{caul.node(i, j, len(caul.zs) - 1)}, 3, {-force:.9g}")
    return "\n".join(out + ["*NODE PRINT, NSET=ALL", "U", "*END STEP"]) + "\n"


def lifts(text):
    """Displacement along z by node, from CalculiX's printed results."""
    found = re.findall(r"^\s*(\d+)\s+(\S+)\s+(\S+)\s+(\S+)\s*$", text, re.MULTILINE)
    return {int(n): float(w) for n, _, _, w in found}


def solve(p, wood):
    """x of half the line, mm; pressure there, averaged over the joint's width, MPa; force on the whole line, N."""
    bodies = bodies_of(p)
    pairs = [pair for interface in pairs_of(bodies) for pair in interface]
    closed = set(pairs)
    for tries in range(60):
        with tempfile.TemporaryDirectory() as folder:
            path = pathlib.Path(folder) / "case.inp"
            path.write_text(deck(p, wood, bodies, sorted(closed)))
            subprocess.run(["ccx", "case"], cwd=folder, check=True, stdout=subprocess.DEVNULL)
            w = lifts((pathlib.Path(folder) / "case.dat").read_text())
        over = {(low, high): w[low] - w[high] for low, high in pairs}
        wrong = [pair for pair in pairs if abs(over[pair]) > PRINTED_MM and (over[pair] > 0) != (pair in closed)]
        if not wrong:
            break
        # All at once while that helps, then the worst alone, which can't go round in circles for long.
        closed ^= set(wrong if tries < 12 else [max(wrong, key=lambda pair: abs(over[pair]))])
    else:
        raise RuntimeError("the contact did not settle")
    caul = bodies[2]
    columns = len(caul.xs)
    force = [0.0] * columns
    for at, (low, high) in enumerate(pairs_of(bodies)[0]):
        if (low, high) in closed:
            force[at % columns] += STIFF_N_MM * (w[low] - w[high])
    return caul.xs, [f / (a * p["b"]) for f, a in zip(force, shares(caul.xs, 0, p["L"] / 2))], 2 * sum(force)


def statistics(xs, pressures):
    """As the file's other cases: the mean; least and greatest over the mean; the share of cells below half of it."""
    length = xs[-1]
    mean = sum((p + q) / 2 * (b - a) for p, q, a, b in zip(pressures, pressures[1:], xs, xs[1:])) / length
    low = sum((b - a) * (p + q < mean) for p, q, a, b in zip(pressures, pressures[1:], xs, xs[1:])) / length
    return {"mean": round(mean, 5), "min": round(min(pressures) / mean, 5), "max": round(max(pressures) / mean, 5),
            "low50": round(low, 5)}


def main():
    data = json.loads(pathlib.Path(sys.argv[1]).read_text())
    names = sys.argv[2:] or [n for n, c in data["cases"].items() if "caul" in c["params"]]
    for name in names:
        p = data["cases"][name]["params"]
        xs, pressures, total = solve(p, data["about"]["wood"][p["wood"]])
        print(json.dumps({name: {"params": p, "joints": {"J": {
            "total_N": round(total, 3), "stats": statistics(xs, pressures),
            "x_mm": xs, "p_MPa": [round(q, 5) for q in pressures]}}}}), flush=True)


if __name__ == "__main__":
    main()
