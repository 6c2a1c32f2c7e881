#!/usr/bin/python3
"""The bench sheet in a real browser: every fixture's sheet opened on phone and desk, light and dark,
and looked at by axe; clamps drawn where the plan has them; the clock through whole plans on time of our
own; print at both paper sizes; letters twice as large.

usage: bench_sheet_test.py GLUEUP SOURCE_DIR [FOLDER for pictures]     exit 77: no chromium here
"""
import glob
import json
import os
import re
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from browser import chromium, clock, paper, sheets  # noqa: E402
from browser.axe import axe_source  # noqa: E402

GLUEUP, ROOT = os.path.abspath(sys.argv[1]), sys.argv[2]
SHOP = os.path.join(ROOT, "fixtures/shops/enough.toml")
failures = []
checks = 0

# Two people, ten dadoes a side: more than one go. And one of forty parts.
SHELVES = """title = "Shelves for the honey room"
units = "in"
[carcass]
outside = [30, 10, {height}]
stock = "3/4"
shelves = {shelves}
species = "yellow_poplar"
[glue]
use = "pva_type2"
"""
STRAP = """
[[clamp]]
kind = "band"
count = 2
opening = "1800 mm"
"""
# Names that would be markup.
NAMES = """title = "<script>alert('title')</script>"
units = "mm"
[[part]]
name = "<script>document.title='taken'</script>"
species = "black_cherry"
length = 400
width = 100
thickness = 18
along = "x"
face = "z"
at = [0, 0, 0]
[[part]]
name = "\\"><img src=x onerror=alert(1)>"
species = "black_cherry"
length = 400
width = 100
thickness = 18
along = "x"
face = "z"
at = [0, 100, 0]
[glue]
use = "pva_type2"
"""


# Bytes of a step's picture at most, of the fixtures.
PICTURE = {"": 7_000, "eight_shelves": 10_000}


def check(ok, what):
    global checks
    checks += 1
    if not ok:
        failures.append(what)


def made_sheet(folder, name, job, *options, shop=SHOP):
    """The sheet of a job file, and its plan as JSON."""
    path, plan = (os.path.join(folder, f"{name}.{kind}") for kind in ("html", "json"))
    run = subprocess.run([GLUEUP, "plan", job, "--shop", shop, "--sheet", path, "--json", plan, *options],
                         check=False, capture_output=True, text=True)
    check(run.returncode in (0, 1), f"{name}: planned, {run.returncode} {run.stderr[:200]}")
    with open(plan, encoding="utf-8") as file:
        found = json.load(file)
    with open(job, encoding="utf-8") as file:
        found["units"] = re.search(r'^units = "(\w+)"', file.read(), re.M).group(1)
    return path, found


def written(folder, name, text):
    path = os.path.join(folder, name + ".toml")
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)
    return path


def all_sheets(folder):
    """Name, path and plan of each sheet to look at."""
    jobs = [(os.path.basename(os.path.dirname(job)), job, ())
            for job in sorted(glob.glob(os.path.join(ROOT, "fixtures/*/job.toml")))]
    jobs.append(("shelves", written(folder, "shelves", SHELVES.format(height=60, shelves=8)),
                 ("--people", "2")))
    jobs.append(("forty", written(folder, "forty", SHELVES.format(height=90, shelves=36)),
                 ("--people", "2")))
    jobs.append(("for two", os.path.join(ROOT, "fixtures/hive_tool_chest/job.toml"), ("--people", "2")))
    jobs.append(("names", written(folder, "names", NAMES), ()))
    made = [(name, *made_sheet(folder, name, job, *options)) for name, job, options in jobs]
    with open(SHOP, encoding="utf-8") as file:
        strapped = written(folder, "strapped_shop", file.read() + STRAP)
    rim = os.path.join(ROOT, "fixtures/hexagon_frame/job.toml")
    return made + [("strapped", *made_sheet(folder, "strapped", rim, shop=strapped))]


def small_pictures(name, path):
    with open(path, encoding="utf-8") as file:
        sizes = [len(svg.encode()) for svg in re.findall(r'<svg class="step .*?</svg>', file.read(), re.S)]
    most = PICTURE.get(name, PICTURE[""])
    check(sizes and max(sizes) <= most, f"{name}: a picture has {max(sizes, default=0)} bytes, {most} at most")


def looked_at(browser, made):
    axe = axe_source(browser)
    if not axe:
        print("this chromium comes without axe-core: only our own checks of access")
    slowest = 0
    for name, path, plan in made:
        size = sheets.same_policy(path, check, name)
        check(size <= (400_000 if name == "hive_tool_chest" else 2_000_000), f"{name}: {size} bytes")
        if os.path.isdir(os.path.join(ROOT, "fixtures", name)):
            small_pictures(name, path)
        sheets.looked_at(browser, path, name, axe, check)
        with browser.page() as page:
            page.open(path)
            if name == "hive_tool_chest":
                words = page.run("document.body.innerText.split(/\\s+/).filter((w) => w).length")
                check(words <= 900, f"{name}: {words} words in sight with every fold closed")
            page.run(sheets.OPEN)
            sheets.clamps_in_place(page, plan, name, check)
            sheets.steps_pictured(page, plan, name, check)
            sheets.strips_placed(page, name, check)
            sheets.modelled(page, plan, name, check)
            sheets.sides_told(page, name, check, 9)
            sheets.tightest_told(page, name, check)
            check(page.run("document.scripts.length") == 1, f"{name}: one script, our own")
            check(page.run("document.querySelectorAll('[src], [href], link, iframe, object').length") == 0,
                  f"{name}: it names nothing outside")
            slowest = max(slowest, page.run(
                "performance.getEntriesByType('navigation')[0].loadEventEnd"))
    print(f"the slowest sheet opened in {slowest:.0f} ms")


def driven(browser, made):
    paths, logs = {name: path for name, path, _ in made}, {}
    for act, name, settings in (
            (clock.at_the_limits, "hive_tool_chest", {"width": 360, "height": 740, "phone": True}),
            (clock.stage_by_stage, "extractor_table", {"width": 360, "height": 740, "phone": True}),
            (clock.by_keyboard, "hive_tool_chest", {})):  # the table is glued up in three stages
        with browser.page(first=clock.STAND_INS, **settings) as page:
            logs[act] = act(clock.Clock(page, paths[name]), check)
            check(not page.complaints, f"{act.__name__}: the console says {page.complaints[:2]}")
    with browser.page(first=clock.STAND_INS, width=390, height=844, phone=True) as page:
        logs[clock.in_two_lanes] = clock.in_two_lanes(clock.Clock(page, paths["for two"]), check)
        check(not page.complaints, f"in two lanes: the console says {page.complaints[:2]}")
    for name, least in (("hive_tool_chest", 7), ("eight_shelves", 7)):
        with browser.page(first=clock.STAND_INS, width=390, height=844, phone=True) as page:
            clock.many_wet(clock.Clock(page, paths[name]), check, least)
    unfit = next(path for _, path, plan in made if not plan["verdict"]["ok"] and plan["stages"][0]["steps"])
    for act, path in ((clock.held, paths["hive_tool_chest"]), (clock.in_their_turn, paths["hive_tool_chest"]), (clock.not_to_be_started, unfit)):
        with browser.page(first=clock.STAND_INS) as page:
            act(clock.Clock(page, path), check)
            check(not page.complaints, f"{act.__name__}: the console says {page.complaints[:2]}")
    with browser.page(first=clock.TIME) as page:
        clock.over_after_a_reload(clock.Clock(page, paths["hive_tool_chest"]), check)
        check(not page.complaints, f"over after a reload: the console says {page.complaints[:2]}")
    with browser.page(first=clock.STAND_INS) as page:
        through = clock.Clock(page, paths["hive_tool_chest"])
        return *clock.through_a_plan(through, check), logs[clock.stage_by_stage], logs[clock.in_two_lanes]


def at_their_own_pace(browser, made):
    """A plan that says it works has a clock that says so too."""
    for name, path, plan in made:
        if not plan["verdict"]["ok"] or len(plan["stages"]) > 1:
            continue
        with browser.page(first=clock.STAND_INS) as page:
            walked = clock.Clock(page, path)
            over = walked.walk(walked.stages[0], check, name)
            check(over == 0, f"{name}: at the plan's own pace no joint runs over")


def learned_from(folder, name, job, log, *options):
    """What the clock wrote down, to the byte, is what `rehearse --learn` reads. The shop file it then has."""
    shop, kept = os.path.join(folder, "shop.toml"), os.path.join(folder, "bench.tsv")
    with open(SHOP, encoding="utf-8") as file, open(shop, "w", encoding="utf-8") as copy:
        copy.write(file.read())
    with open(kept, "w", encoding="utf-8", newline="") as file:
        file.write(log)
    run = subprocess.run([GLUEUP, "rehearse", job, "--shop", shop, "--log", kept, "--learn", *options],
                         input="y\n", check=False, capture_output=True, text=True)
    check(run.returncode == 0 and "learned" in run.stdout,
          f"rehearse --learn takes the log of {name}, {run.returncode} {run.stderr[:200]}")
    with open(shop, encoding="utf-8") as file:
        return file.read()


def slower(log):
    """The same by someone who takes a fifth longer."""
    lines = (line.split("\t") for line in log.split("\n"))
    return "\n".join("\t".join((n, start, end, *(f"{1.2 * float(real):.0f}" for real in reals), note))
                     for n, start, end, *reals, note in lines)


def main():
    if chromium.CHROMIUM is None:
        print("chromium is not installed: apt-get install chromium")
        return 77
    with tempfile.TemporaryDirectory() as folder, chromium.Chromium() as browser:
        made = all_sheets(folder)
        looked_at(browser, made)
        whole, halfway, staged, by_two = driven(browser, made)
        at_their_own_pace(browser, made)
        for name, job, options in (("hive_tool_chest", "fixtures/hive_tool_chest/job.toml", ()),
                                   ("benchtop_panel", "fixtures/benchtop_panel/job.toml", ()),
                                   ("for two", "fixtures/hive_tool_chest/job.toml", ("--people", "2")),
                                   ("shelves", os.path.join(folder, "shelves.toml"), ("--people", "2"))):
            for size in paper.SIZES:
                path, plan = made_sheet(folder, f"{name}-{size}", os.path.join(ROOT, job), *options,
                                        "--paper", size)
                paper.printed(browser, path, f"{name}, {size}", size, plan, check)
        chest = {name: path for name, path, _ in made}["hive_tool_chest"]
        sheets.running(browser, chest, axe_source(browser), check)
        sheets.two_on_a_phone(browser, next(path for name, path, _ in made if name == "for two"), check)
        spent = sheets.ready_soon(browser, chest, "chest", check)
        print("the chest is ready after " + ", ".join(f"{key} {1000 * s:.0f} ms" for key, s in spent.items()) + " of processor")
        sheets.turned(browser, chest, check)
        paper.large_letters(browser, chest, check)
        paper.without_motion(browser, chest, check)
        job = os.path.join(ROOT, "fixtures/hive_tool_chest/job.toml")
        check('channel = "18 s per ft"' in learned_from(folder, "a slow hand", job, slower(whole)),
              "a fifth slower is what it learns")
        learned_from(folder, "a whole plan", job, whole)
        check("called away" in halfway and halfway.endswith("called away"), "the log so far ends with its note")
        learned_from(folder, "half a plan", job, halfway)
        learned_from(folder, "two people", job, by_two, "--people", "2")
        table = os.path.join(ROOT, "fixtures/extractor_table/job.toml")
        learned_from(folder, "several stages", table, staged)
    for failure in failures:
        print("FAILED:", failure)
    print(f"{checks} checks, {len(failures)} failures")
    return 1 if failures else 0


sys.exit(main())
