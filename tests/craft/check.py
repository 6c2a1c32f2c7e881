#!/usr/bin/env python3
"""Holds plans against what a master would accept.

check.py [--cpu] GLUEUP [CASE ...] prints a line for each case that differs, and how many agree. Without cases named,
all must agree that agree.txt lists, and that list must have every case that does: it only grows. With --cpu the processor's time counts too, which only
an idle machine can tell.
"""
import json
import pathlib
import re
import resource
import subprocess
import sys
import tomllib


KEYS = set("why source ok comfort stages clamps clamps_x clamps_y clamps_z uses avoids force_N seat_force_N mean_MPa_max glue_ml done_s "
           "before last first not_glued sized not_sized checks no_checks held_by no_clamp_for mentions no_mentions cpu_s input_error_ok".split())


def joins(plan):
    """Of each part the number of the join, through all stages, in which it first comes to another."""
    rank, n = {}, 0
    for stage in plan["stages"]:
        for step in stage["steps"]:
            if step["do"] == "join":
                n += 1
                for part in step["parts"]:
                    rank.setdefault(part, n)
    return rank


def names_in(want):
    for key in ("before", "first", "not_glued", "sized", "not_sized", "no_clamp_for"):
        for group in want.get(key, []):
            yield from group
    for group, _ in want.get("held_by", []):
        yield from group
    yield from want.get("last", [])


def together_first(plan, group):
    """True where the group's parts are in one body before any other part is with one of them."""
    group = set(group)
    bodies = {}
    for stage in plan["stages"]:
        for step in stage["steps"]:
            if step["do"] != "join":
                continue
            body = set(step["parts"])
            for part in list(body):
                body |= bodies.get(part, set())
            if body & group and body - group and not group <= body_before(bodies, body & group, group):
                return False
            for part in body:
                bodies[part] = body
    return True


def body_before(bodies, some, group):
    for part in some:
        if group <= bodies.get(part, {part}):
            return bodies[part]
    return set()


def pair(plan, a, b):
    return [j for j in plan["joints"] if set(j["parts"]) == {a, b}]


def differences(program, folder, count_cpu):
    want = tomllib.loads((folder / "expect.toml").read_text())
    args = [program, "plan", str(folder / "job.toml"), "--shop", str(folder / "shop.toml")]
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    try:
        run = subprocess.run(args + ["--json", "-"], capture_output=True, text=True, timeout=60)
    except subprocess.TimeoutExpired:
        return ["no answer in 60 s"]
    cpu = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before
    if run.returncode == 2 and want.get("input_error_ok"):
        return []
    if run.returncode not in (0, 1):
        lines = [l for l in run.stderr.strip().splitlines() if "error" in l or ":" in l]
        return [f"exit {run.returncode}: {(lines or ['silent'])[0][-150:]}"]
    plan = json.loads(run.stdout)
    bad = [f"expect.toml: no key {k}" for k in want if k not in KEYS]
    parts = {p["name"] for p in plan["parts"]}
    bad += [f"expect.toml: no part {n}" for n in names_in(want) if n not in parts]
    if want.get("ok") and not plan["verdict"]["ok"]:
        return bad + [f"refused: {'; '.join(plan['verdict']['reasons'])[:120]}"]
    text = subprocess.run(args + ["--ascii"], capture_output=True, text=True, timeout=60).stdout
    clamps = [c for s in plan["stages"] for c in s["clamps"]]

    def within(name, value, scale=1.0):
        if name in want and not want[name][0] * scale <= value <= want[name][1] * scale:
            bad.append(f"{name} {value:g}, want {want[name][0]} to {want[name][1]}")

    if "ok" in want and plan["verdict"]["ok"] != want["ok"]:
        bad.append(f"ok {plan['verdict']['ok']}: {'; '.join(plan['verdict']['reasons'])[:120]}")
    if "comfort" in want and plan["verdict"]["comfort"] not in want["comfort"]:
        bad.append(f"comfort {plan['verdict']['comfort']}")
    within("stages", len(plan["stages"]))
    within("clamps", max((len(s["clamps"]) + len(s.get("locators", [])) for s in plan["stages"]), default=0))
    for k, axis in enumerate("xyz"):
        within("clamps_" + axis, max((sum(abs(c["axis"][k]) > .7 for c in s["clamps"]) for s in plan["stages"]), default=0))
    kinds = {c["kind"] for c in clamps} | {l["kind"] for s in plan["stages"] for l in s.get("locators", [])}
    bad += [f"uses no {k}" for k in want.get("uses", []) if k not in kinds]
    bad += [f"uses {k}" for k in want.get("avoids", []) if k in kinds]
    for c in clamps:
        n = len(bad)
        within("seat_force_N" if c["level"] == "seat" else "force_N", c["force_N"])
        if len(bad) > n:
            break
    if "mean_MPa_max" in want:
        most = max((p["mean_MPa"] for p in plan["pressure"]), default=0)
        if most > want["mean_MPa_max"]:
            bad.append(f"mean pressure {most:.2f} MPa, want at most {want['mean_MPa_max']}")
    within("glue_ml", plan["glue"]["ready_ml"])
    within("done_s", max((s["makespan_s"] for s in plan["stages"]), default=0))
    rank = joins(plan)
    bad += [f"{a} isn't in before {b}" for a, b in want.get("before", []) if rank.get(a, 99) >= rank.get(b, 0)]
    if "last" in want and rank and not any(rank.get(p) == max(rank.values()) for p in want["last"]):
        bad.append(f"none of {', '.join(want['last'])} comes last")
    bad += [f"{' + '.join(g)} aren't together first" for g in want.get("first", []) if not together_first(plan, g)]
    bad += [f"{a} - {b} is glued" for a, b in want.get("not_glued", []) if any(j.get("glued", True) for j in pair(plan, a, b))]
    bad += [f"{a} - {b} isn't sized" for a, b in want.get("sized", []) if not any(j.get("sized") for j in pair(plan, a, b))]
    bad += [f"{a} - {b} is sized" for a, b in want.get("not_sized", []) if any(j.get("sized") for j in pair(plan, a, b))]
    checks = {s.get("check") for st in plan["stages"] for s in st["steps"] if s["do"] == "check"}
    bad += [f"no check of {c}" for c in want.get("checks", []) if not checks & set(c if isinstance(c, list) else [c])]
    bad += [f"a check of {c}" for c in want.get("no_checks", []) if c in checks]
    ids = {frozenset(j["parts"]): j["id"] for j in plan["joints"]}
    bad += [f"a clamp for {a} - {b}" for a, b in want.get("no_clamp_for", []) if any(ids.get(frozenset((a, b))) in c.get("joints", []) and c["level"] != "seat" for c in clamps)]
    for (a, b), by in want.get("held_by", []):
        if not any(j.get("held_by") == by for j in pair(plan, a, b)):
            bad.append(f"{a} - {b} isn't held by {by}")
    bad += [f"doesn't say {m}" for m in want.get("mentions", []) if not re.search(m, " ".join(text.split()))]
    bad += [f"says {m}" for m in want.get("no_mentions", []) if re.search(m, " ".join(text.split()))]
    if count_cpu and "cpu_s" in want and cpu > want["cpu_s"]:
        bad.append(f"{cpu:.1f} s of processor, want {want['cpu_s']}")
    for stage in plan["stages"]:
        for limit in stage["limits"]:
            if plan["verdict"]["ok"] and (limit["used_total_s"] > limit["total_s"] or limit["used_open_s"] > limit["open_s"]):
                bad.append("ok, but a glue line is past its time")
    return list(dict.fromkeys(bad))


def main():
    count_cpu = "--cpu" in sys.argv
    program, *named = [a for a in sys.argv[1:] if a != "--cpu"]
    here = pathlib.Path(__file__).parent
    cases = sorted(p.parent for p in here.glob("cases/*/expect.toml") if not named or p.parent.name in named)
    listed = set((here / "agree.txt").read_text().split())
    agree = set()
    for case in cases:
        bad = differences(program, case, count_cpu)
        if bad:
            print(f"{'** ' if case.name in listed else ''}{case.name}: {'; '.join(bad)}")
        else:
            agree.add(case.name)
    print(f"{len(agree)} of {len(cases)} cases agree with the craft")
    if named:
        return 0 if len(agree) == len(cases) else 1
    for name in sorted(agree - listed):
        print(f"** {name} agrees now: add it to tests/craft/agree.txt")
    return 0 if agree == listed else 1


sys.exit(main())
