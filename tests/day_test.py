#!/usr/bin/python3
"""The commands round the plan, as somebody at the bench types them: new, fit, rehearse. Questions and keys go
through a terminal (a pseudo-terminal pair).

usage: day_test.py GLUEUP SOURCE_DIR
"""
import fcntl
import json
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import tempfile
import termios
import time

GLUEUP, ROOT = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
CHEST = os.path.join(ROOT, "fixtures/hive_tool_chest/job.toml")
SHOP = os.path.join(ROOT, "fixtures/shops/enough.toml")
FOLDER = tempfile.mkdtemp(prefix="glueup-day-")
os.chdir(FOLDER)
ENVIRONMENT = {key: value for key, value in os.environ.items() if key != "GLUEUP_SHOP"}
ENVIRONMENT |= {"XDG_CONFIG_HOME": os.path.join(FOLDER, "config"), "TERM": "xterm"}
failures = []


def check(what, truth):
    if not truth:
        failures.append(what)


def glueup(*arguments, text=None):
    return subprocess.run([GLUEUP, *arguments], env=ENVIRONMENT, input=text, capture_output=True, text=True,
                          check=False, stdin=None if text is not None else subprocess.DEVNULL)


def wrote(path, text):
    with open(path, "w", encoding="utf-8", newline="") as file:
        file.write(text)


def text_of(path):
    with open(path, encoding="utf-8", newline="") as file:
        return file.read()


class Terminal:
    """The program on a terminal: what it has shown so far, keys to press."""

    def __init__(self, *arguments, width=80):
        self.shown = ""
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            fcntl.ioctl(1, termios.TIOCSWINSZ, struct.pack("HHHH", 24, width, 0, 0))
            os.execve(GLUEUP, [GLUEUP, *arguments], ENVIRONMENT)

    def read(self):
        try:
            piece = os.read(self.fd, 4096).decode(errors="replace")
        except OSError:
            piece = ""
        self.shown += piece
        return piece != ""

    def until(self, pattern):
        """Waits for a text behind what an earlier call found; the limit only ends a test that hangs."""
        end = time.monotonic() + 60
        while (found := re.search(pattern, self.shown)) is None:
            left = end - time.monotonic()
            if left <= 0 or not select.select([self.fd], [], [], left)[0] or not self.read():
                failures.append(f"terminal: no {pattern!r} in {self.shown[-300:]!r}")
                return ""
        self.shown = self.shown[found.end():]
        return found.group()

    def press(self, keys):
        os.write(self.fd, keys.encode())

    def end(self):
        while select.select([self.fd], [], [], 60)[0] and self.read():
            pass
        return os.waitstatus_to_exitcode(os.waitpid(self.pid, 0)[1])


# new: each kind is planned without a change.
KINDS = sorted(set(re.findall(r"\w+", glueup("new").stderr.split("which kind?\n")[1].split("\n")[0])) - {"or", "shop"})
for kind in KINDS:
    for units in ["in", "mm"]:
        path = f"{kind}_{units}.toml"
        made = glueup("new", kind, "--units", units, "-o", path)
        check(f"new {kind}: {made.stderr}", made.returncode == 0)
        wide = [line for line in text_of(path).splitlines() if len(line) > 79]
        check(f"new {kind} fits a screen's width: {wide}", not wide)
        plan = glueup("plan", path)
        check(f"plan of new {kind} {units}: {plan.returncode} {plan.stderr[:200]}", plan.returncode in (0, 1))
check("new writes to standard output, and no path of this machine", "#:schema" not in glueup("new", "box").stdout and
      "title" in glueup("new", "box").stdout)
os.makedirs("with_schema")
wrote("with_schema/job.schema.json", "{}")
glueup("new", "box", "-o", "with_schema/chest.toml")
check("a schema beside the file is named", text_of("with_schema/chest.toml").startswith("#:schema ./job.schema.json\n"))
again = glueup("new", "box", "-o", "box_in.toml")
check("new keeps what is there", again.returncode == 2 and "--force" in again.stderr)
check("new --force", glueup("new", "box", "-o", "box_in.toml", "--force").returncode == 0)
sized = glueup("new", "box", "--size", "400 x 1' 2 3/4\" x 200", "--species", "cherry")
check(f"new --size: {sized.stderr}", sized.returncode == 0 and "400" in sized.stdout)
nowhere = glueup("new", "box", "-o", "jbos/chest.toml")
check(f"new makes no folder of a misspelt name: {nowhere.stderr}", nowhere.returncode == 2 and
      "jbos/chest.toml: can't be written: No such file or directory" in nowhere.stderr and not os.path.exists("jbos"))
small = glueup("new", "box", "--size", "10 x 10 x 10", "-o", "small.toml")
check("new refuses a box inside its walls", small.returncode == 2 and not os.path.exists("small.toml"))
for wrong, hint in [(["bx"], "did you mean box"), (["box", "--species", "chery"], "cherry"),
                    (["box", "--size", "3 x 4"], "3 lengths, not 2"), (["box", "--size", "a x b x c"], "--size"),
                    (["shop", "--size", "3"], "--size is of a job"), (["box", "--size"], "--size SIZES")]:
    told = glueup("new", *wrong)
    check(f"new {wrong}: {told.stderr}", told.returncode == 2 and hint in told.stderr and not told.stdout)

asked = Terminal("new", "box")
for answer, question in [("inches", "Units"), ("", "Length"), ("zero", "Width"), ("9", "Width"), ("", "Height"),
                         ("1/2", "Stock"), ("mitre", "Corners"), ("butt", "write butt"), ("none", "Top"), ("", "Bottom"),
                         ("chery", "Wood"), ("", "Wood"), ("", "Glue"), ("asked.toml", "Write it to")]:
    asked.until(question)
    asked.press(answer + "\n")
check("new asks", asked.end() == 0 and "[14, 9, 8]" in text_of("asked.toml"))
check("what decides the plan is in the file as answered", re.search(
    r'stock +.*"1/2".*\ncorners +.*"butt".*\ntop +.*"none".*\nbottom +.*"rabbet"', text_of("asked.toml")))
wrote("mine.toml", "kept")
again = Terminal("new", "box", "--units", "mm")
for answer, question in [("", "Length"), ("", "Width"), ("", "Height"), ("", "Stock"), ("", "Corners"), ("", "Top"),
                         ("", "Bottom"), ("", "Wood"), ("", "Glue"),
                         ("mine.toml", "Write it to"), ("other.toml", "mine.toml is there already.*Write it to")]:
    again.until(f"(?s){question}")
    again.press(answer + "\n")
check("a name that is taken is asked for again", again.end() == 0 and text_of("mine.toml") == "kept" and
      "[box]" in text_of("other.toml"))
asked_for_nothing = Terminal("new", "box", "-o", "mine.toml")
asked_for_nothing.until("is there already")
check("nothing is asked for a file that is there", asked_for_nothing.end() == 2)
given_up = Terminal("new", "panel")
given_up.until("Units")
given_up.press("\x04")
check("Ctrl-D gives up", given_up.until("nothing written") and given_up.end() == 2)

shop = Terminal("new", "shop")
for answer, question in [("in", "Units"), ("5", "people"), ("2", "1 to 4"), ("warm", "Temperature"), ("64", "write 68 F"),
                         ("G-cramp", "Kind of"),
                         ("6", "How many"), ("4", "How far"), ("", "Kind of"), ("", "Glue"), ("8 fl oz", "left"), ("", "Write it to")]:
    shop.until(question)
    shop.press(answer + "\n")
check("new shop asks", shop.end() == 0)
usual = os.path.join(ENVIRONMENT["XDG_CONFIG_HOME"], "glueup/shop.toml")
check("new shop goes where it is found", 'kind = "c_clamp_100"' in text_of(usual) and '"64 F"' in text_of(usual))
check("the asked shop plans", glueup("plan", CHEST).returncode in (0, 1))
check("the shop on standard output plans",
      glueup("new", "shop", "-o", "s.toml").returncode == 0 and
      glueup("plan", CHEST, "--shop", "s.toml").returncode in (0, 1))
os.remove(usual)

# glue: side by side
warm = glueup("glue", CHEST, "--shop", SHOP)
check(f"the glues side by side: {warm.stdout}", re.search(r"^  \* shop bottle +\d+:\d\d .* good$", warm.stdout, re.M) and
      re.search(r" - epoxy_fast \(.*?\) is out: \S+ - \S+ takes \d+:\d\d of its 3:00", " ".join(warm.stdout.split())))
cold = glueup("glue", CHEST, "--shop", SHOP, "--temperature", "45 F").stdout
check(f"a cold shop puts glues out: {cold}", re.search(
    r"resorcinol \(.*?\)\s+is\s+out:[^*]*?wants\s+70\s+F\s+or\s+more,\s+the\s+shop\s+has\s+45\s+F", cold))
mixed = glueup("glue", CHEST, "--shop", SHOP, "--glue", "epoxy_fast").stdout
slow = " ".join(glueup("glue", CHEST, "--shop", SHOP, "--glue", "epoxy_slow").stdout.split())
check(f"a glue that is only pressed too little isn't out: {slow}",
      re.search(r"pva_yellow [^*]* clamps ", slow) and "pva_yellow is out" not in slow and
      "want more clamps than are laid out for epoxy_slow: 25 psi, " in slow)
check(f"batches by pot life: {mixed}", re.search(r"Mix \d batches of .* one\s+at\s+a\s+time", mixed))

# A box sawn open later, one joint glued in its middle only, by the clock on the wall.
wrote("sawn.toml", text_of(CHEST) + '\n[[saw_later]]\naxis = "z"\nat = 6\nkerf = "1/8"\n'
      '[[joint]]\nbetween = ["front", "top"]\nmiddle = "4 in"\n')
sawn = glueup("plan", "sawn.toml", "--shop", SHOP, "--start", "14:30", "--details").stdout
for told in ["Only the middle 4 in of front - top", "sawn open later", "only the outside diagonals",
             "bear on show faces", "Mark both ends of every joint", "Stand it on battens", "2 min to soak in",
             r"After +clamps off after 1 h \(1\d:\d\d\)", r"about 30 min after the last is tight \(1\d:",
             r"full strength \(\d+:\d\d next day\)"]:
    check(f"the plan of a box sawn open tells {told!r}: {sawn}", re.search(told.replace(" ", r"\s+"), sawn))
panel = glueup("plan", "panel_in.toml", "--start", "9:00").stdout
check("edge joints are planed after a week", re.search(r"after 7 days\s+\(9:\d\d,\s+7\s+days\s+on\)", panel))

# Several jobs: which clamp to buy next. Two of them want long clamps, which the trunk hasn't got.
FIXTURES = os.path.join(ROOT, "fixtures")
several = [os.path.join(FIXTURES, name, "job.toml") for name in
           ["captured_bottom_box", "cupboard_door", "shelf_and_sides"]]
TRUNK = os.path.join(FIXTURES, "shops/short.toml")
buy = glueup("clamps", *several, "--shop", TRUNK)
check(f"the one clamp to buy: {buy.stdout} {buy.stderr}", buy.returncode == 1 and "1 of 3 jobs work" in buy.stdout and
      re.search(r"BUY NEXT\n +1\. 1 heavy F clamp of 800 mm: then\s+\S+captured_bottom_box\S+ and\s+\S+shelf_and_sides"
                r"\S+ work\s+too", buy.stdout))
check("with them they do work", glueup("clamps", *several, "--shop", SHOP).returncode == 0)
check("without a rack there is nothing to compare", "glueup new shop" in glueup("clamps", *several).stderr)
everything = glueup("clamps", *several, TRUNK, "--shop", TRUNK)
check(f"the shop file among the jobs is no job: {everything.stderr}", everything.stdout == buy.stdout)
wrong_file = glueup("plan", TRUNK)
check(f"a shop file given as a job: {wrong_file.stderr}", wrong_file.returncode == 2 and
      "this is a shop file, not a job" in wrong_file.stderr and wrong_file.stderr.count("error") <= 1)
wrong_file = glueup("plan", CHEST, "--shop", CHEST)
check(f"a job given as the shop file: {wrong_file.stderr}", wrong_file.returncode == 2 and
      "this is a job file, not the shop's" in wrong_file.stderr)
check("JSON is of one job", "takes one job" in glueup("clamps", *several, "--shop", TRUNK, "--json").stderr)
check("one job at a time", "one at a time" in glueup("plan", *several).stderr)

# Long work shows one line, on a terminal only. Ctrl-C ends it with the best so far, twice with nothing.
wrote("long.toml", 'units = "mm"\n[carcass]\noutside = [900, 300, 1800]\nstock = 18\ntop = "rabbet"\nbottom = "dado"\n'
      'shelves = 8\ndividers = 2\nspecies = "plywood_birch"\n[glue]\nuse = "pva_type1"\n')
long_plan = Terminal("plan", "long.toml", "--no-limit", "--shop", SHOP, "--json", "long.json")
check("what is found soon is told", long_plan.until(r"so far: [A-Z][^\r]+; looking on, \d+ s; Ctrl-C stops"))
long_plan.press("\x03")
check("Ctrl-C is told", long_plan.until("stopping; Ctrl-C again stops at once"))
check("the sheet says that it was stopped", long_plan.until("Stopped +by hand: the best found so far"))
check("and ends with 130", long_plan.end() == 130)
check("so does the JSON", json.loads(text_of("long.json"))["verdict"]["stopped"])
at_once = Terminal("plan", "long.toml", "--no-limit", "--shop", SHOP, "--json", "none.json")
at_once.until("Ctrl-C stops")
at_once.press("\x03")
at_once.until("Ctrl-C again stops at once")
at_once.press("\x03")
check("a second Ctrl-C is told", at_once.until("stopped; nothing was written"))
check("and ends at once", at_once.end() == 130 and not os.path.exists("none.json"))


def interrupted(*arguments):
    """The program with a signal from outside in the middle of its work, and no terminal."""
    work = subprocess.Popen([GLUEUP, *arguments], env=ENVIRONMENT, stdin=subprocess.DEVNULL,
                            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    time.sleep(1)
    work.send_signal(signal.SIGINT)
    out, err = work.communicate(timeout=60)
    return work.returncode, out, err


status, out, err = interrupted("plan", "long.toml", "--shop", SHOP)
check(f"a stopped plan is whole: {out} {err}",
      status == 130 and "Stopped" in out and "GLUE UP" in out and "WATCH OUT" in out)
status, out, err = interrupted("glue", "long.toml", "--shop", SHOP)
check(f"no glue is said to be out: {out}", status == 130 and "HOW MUCH" in out and "before the glues were compared" in out)
status, out, err = interrupted("rehearse", "long.toml", "--shop", SHOP)
check(f"no rehearsal of half a plan: {err}", status == 130 and not out and "nothing was written" in err and
      not os.path.exists("long.rehearsal.tsv"))
status, out, err = interrupted("clamps", "long.toml", "box_mm.toml", "--shop", SHOP)
check(f"nor a comparison of half the jobs: {err}", status == 130 and not out and "nothing was written" in err)

# fit
none = glueup("dry-fit", CHEST)
check("dry-fit says what to measure", none.returncode == 0 and "WHAT TO MEASURE" in none.stdout)
wrote("ends.toml", text_of(os.path.join(FOLDER, "box_mm.toml")) +
      '\n[dry_fit]\nopenings = [203.4, 203.1, 203.8, 203.5]\ncloses = ["left", "right"]\n')
ends = glueup("dry-fit", "ends.toml")
check(f"fit of four openings: {ends.stdout}", ends.returncode == 1 and "203.1 mm" in ends.stdout and
      "front and back" in ends.stdout)
lean = glueup("dry-fit", CHEST, "--diagonals", "16 5/8, 16 3/4")
check(f"fit leans: {lean.stdout}", lean.returncode == 1 and "front right and back left" in lean.stdout)
# A parallelogram worked by hand: sides 600 and 400, diagonals 722.11 and 720.11.
# Outside, closed form: a parallelogram's diagonals, d1^2 - d2^2 = 4 a b sin and d1^2 + d2^2 = 2 (a^2 + b^2)
wrote("open.toml", 'units = "mm"\n[box]\noutside = [640, 440, 200]\nstock = 20\ncorners = "rabbet"\nspecies = "cherry"\n'
      '[glue]\nuse = "pva_type1"\n')
lean = glueup("dry-fit", "open.toml", "--diagonals", "722.11, 720.11")
for told in ["leans by 0.17 degrees, 1.80 mm over the 600.0 mm side, 1.20 mm over the 400.0 mm side",
             "one clamp from corner to corner, front left and back right, and draw it up until both diagonals read 721.1 mm"]:
    check(f"fit by the exact formula tells {told!r}: {lean.stdout}", told in " ".join(lean.stdout.split()))
# What `dry-fit` prints to copy is right as it stands: nothing to mend in it.
copied = [line[2:] for line in none.stdout.split("[dry_fit]")[1].splitlines() if line.startswith("  ")]
wrote("copied.toml", text_of(CHEST) + "\n[dry_fit]\n" + "\n".join(copied) + "\n")
drawn = glueup("dry-fit", "copied.toml")
check(f"the lines to copy: {drawn.stdout} {drawn.stderr}", drawn.returncode == 0 and "GOOD" in drawn.stdout and
      "3/8 in deep as drawn" in drawn.stdout)
# The left is 8 1/4 in long; its rabbet in the front is 1/16 in shallower than drawn. Sticks 18 in long that differ
# by 1/8 in over work 14 in long: 1/8 x 14 / 18 = 0.097 in, 3/32 in.
wrote("bench.toml", text_of(CHEST) + '[dry_fit]\nwind = "1/8"\nsticks = 18\nhigh = "left"\n[[dry_fit.cut]]\n'
      'between = ["left", "front"]\ndepth = "5/16"\n')
bench = glueup("dry-fit", "bench.toml")
for told in ["Rabbet of front for left: 5/16 in deep, drawn 3/8 in",
             "left: 8 3/16 in long, not 8 1/4 in; else the work comes out 1/16 in larger front-back",
             "One corner stands 3/32 in out of the plane", "back left and front right corners are high"]:
    check(f"fit tells {told!r}: {bench.stdout}", told in " ".join(bench.stdout.split()))
for kind in KINDS:
    fresh = glueup("dry-fit", f"{kind}_in.toml")
    check(f"fit of a new {kind}: {fresh.stdout}", fresh.returncode == 0 and "NOT YET" not in fresh.stdout)
check("dry-fit is good", glueup("dry-fit", CHEST, "--diagonals", "16 5/8, 16 5/8").returncode == 0)
check("dry-fit refuses three diagonals", "two lengths" in glueup("dry-fit", CHEST, "--diagonals", "1, 2, 3").stderr)

# rehearse: keys through a terminal, a kill in the middle, and on from there.
wrote("chest.toml", text_of(CHEST))
LOG = "chest.rehearsal.tsv"
keys = ["rehearse", "chest.toml", "--shop", SHOP, "--speed", "100"]


def logged():
    return [line.split("\t") for line in text_of(LOG).splitlines() if line and not line.startswith("#")]


first = Terminal(*keys)
first.until("Press space to start the clock")
first.press(" ")
for step in range(1, 4):
    first.until(rf"{step}/\d+ ")
    first.press("thello\n" if step == 2 else "")
    if step == 2:
        first.until("note: ")
    first.press(" ")
    first.until(r"done at \S+, (?:\d+ \w+ )+(?:behind|ahead of) the plan +\r?\n")  # nothing left of the clock under it
first.until(r"4/\d+ ")
os.kill(first.pid, signal.SIGKILL)
os.waitpid(first.pid, 0)
check(f"a kill loses the running step alone: {logged()}", [line[0] for line in logged()] == ["1", "2", "3"])
check("the note is kept", logged()[1][5] == "hello")
wrote(LOG, text_of(LOG) + "4\t12")  # as a kill in the middle of a write leaves it

second = Terminal(*keys)
second.until("Going on after step 3")
second.until("Press space to go on")
second.press(" ")
second.until(r"4/\d+ ")
second.press("b")
second.until(r"3/\d+ ")
second.press("q")
second.until("Stopped in step 3")
check("stopped", second.end() == 0)

rest = Terminal(*keys)
rest.until("Press space to go on")
rest.press(" ")
while "/" in rest.until(r"\d+/\d+ |All \d+ steps done"):
    rest.press(" ")
check("the rehearsal ends", rest.end() == 0)
check(f"it says how to learn from it: {rest.shown}", f"glueup rehearse chest.toml --shop {SHOP} --learn" in rest.shown)
complete = glueup(*keys)
check(f"a complete log is said to be so: {complete.stderr}", complete.returncode == 2 and "--learn" in complete.stderr)
other = glueup("rehearse", "panel_mm.toml", "--log", LOG)
check("the log of another plan is refused", other.returncode == 2 and "another plan" in other.stderr)

# learn: steps that took half as long again, from a log of the plan's own times.
lines = [f"{n}\t{a}\t{b}\t{float(a) * 1.5}\t{float(b) * 1.5}\t" for n, a, b in (line[:3] for line in logged())]
wrote("half.tsv", "\n".join(lines) + "\n")
wrote("shop.toml", text_of(SHOP) + "\n# the end, without its newline")
before = text_of("shop.toml")
learn = ["rehearse", "chest.toml", "--shop", "shop.toml", "--log", "half.tsv", "--learn"]
refused = glueup(*learn, text="n\n")
check("learning asks", refused.returncode == 0 and text_of("shop.toml") == before)
check(f"old and new pace: {refused.stdout}", re.search(r"join_short +8 s +12 s", refused.stdout))
learned = glueup(*learn, text="y\n")
after = text_of("shop.toml")
check("the rest of the shop file is kept", learned.returncode == 0 and after.startswith(before))
check("the pace is written", 'join_short = "12 s"' in after and glueup("plan", CHEST, "--shop", "shop.toml").returncode in (0, 1))

# The plan is another with the learned pace, and with another job's: its log tells nothing of these steps.
for what, told in [("shop has changed", learn), ("job is another", ["rehearse", "panel_mm.toml", *learn[2:]])]:
    refused = glueup(*told, text="y\n")
    check(f"no pace is learned where the {what}: {refused.stderr}", refused.returncode == 2 and not refused.stdout and
          re.search(r"half\.tsv is the log of another plan: (its step \d+ was planned for|it has \d+ steps, the plan \d+)",
                    refused.stderr) and "rehearse anew: glueup rehearse" in refused.stderr)
check("and nothing written", text_of("shop.toml") == after)
wrote("shop.toml", before)
holes = [line for line in lines if not line.startswith("3\t")]
wrote("holes.tsv", "\n".join(holes) + "\n")
refused = glueup(*learn[:5], "holes.tsv", "--learn", text="y\n")
check(f"a log with a step missing: {refused.stderr}", refused.returncode == 2 and "step 3 is missing" in refused.stderr)
capital = glueup(*learn, text="Y\n")
check("a capital is a yes", capital.returncode == 0 and "written" in capital.stderr)

# The same asked on a terminal: no, Ctrl-D, yes.
for answer, writes in [("n\n", False), ("\x04", False), ("yes\n", True)]:
    wrote("shop.toml", before)
    asked = Terminal(*learn)
    asked.until(r"join_short +8 s +12 s")
    asked.until(r"Write the learned pace to shop\.toml\? y/n: ")
    asked.press(answer)
    asked.until("shop.toml written" if writes else "nothing written")
    check(f"{answer!r} on a terminal ends well", asked.end() == 0)
    check(f"{answer!r} on a terminal", (text_of("shop.toml") == before) != writes)

# Ctrl-D stops a rehearsal as q does, before the first stroke and in a step.
for steps in [0, 2]:
    log = f"eof{steps}.tsv"
    eof = Terminal(*keys, "--log", log)
    eof.until("Press space to start the clock")
    for step in range(steps + (steps > 0)):
        eof.press(" ")
        eof.until(rf"{step + 1}/\d+ ")
    eof.press("\x04")
    eof.until(rf"Stopped in step {steps + 1} of \d+; the same command goes on from there")
    check(f"Ctrl-D in step {steps + 1}", eof.end() == 0)
    done = [line for line in text_of(log).splitlines() if line[:1].isdigit() and line.split("\t")[4]]
    check(f"Ctrl-D loses no step that was done: {done}", len(done) == steps)

# On a narrow terminal the clock stays on its line; with two people each step says whose it is.
narrow = Terminal(*keys, "--people", "2", "--log", "two.tsv", width=44)
narrow.until("1\\+2 is persons 1 and 2")
narrow.press(" ")
narrow.until(r"1/\d+ 0:00-0:14  1  Spread")
clock = narrow.until(r"\r  0:[^\r\n]*[\r\n]")
check(f"the clock fits 44 columns: {clock!r}", len(clock.strip("\r\n")) == 43)
narrow.press("q")
check("a narrow rehearsal ends", narrow.end() == 0)

# Live, the glue's clock runs on while nobody looks, from the first stroke: also where step 1 was not done.
live = [*keys[:-2], "--live", "--log", "live.tsv"]
for asked, step in [("Press space at the first stroke of glue", 1), ("", 1), ("Going on after step 1", 2)]:
    now = Terminal(*live)
    if asked.startswith("Press"):
        now.until(asked)
        now.press(" ")
    now.until(asked if step == 2 else r"1/\d+ ")
    if step == 1 and not asked:
        check(f"no second first stroke: {now.shown}", "Press space" not in now.shown)
        now.press(" ")
        now.until(r"2/\d+ ")
    now.press("p")
    now.until("keys: space next, b back, t note, q stop")  # no pause
    now.press("q")
    check(f"live, stopped in step {step}", now.end() == 0)
check(f"one clock: {text_of('live.tsv')}", text_of("live.tsv").count("# began ") == 1)
# The wall's clock put back by an hour: the log stays one.
wrote("live.tsv", re.sub(r"# began \d+", lambda began: f"# began {int(began.group()[8:]) + 3600}", text_of("live.tsv")))
now = Terminal(*live)
now.until(r"2/\d+ ")
now.press(" ")
now.until(r"3/\d+ ")
now.press("q")
now.end()
now = Terminal(*live)
now.until("Going on after step 2")
now.press("q")
check(f"a clock put back: {text_of('live.tsv')}", now.end() == 0)

# What the bench sheet writes down is a log as well: whole seconds, a note, the last step still running,
# no line end. It is learned from, and gone on with.
planned = list({line[0]: line[:3] for line in logged()}.values())  # a step gone back to is there twice
running = len(planned) // 2
sheet = [f"{n}\t{a}\t{b}\t{float(a):.0f}\t{'' if i == running else f'{float(b):.0f}'}\t{'called away' if i == 1 else ''}"
         for i, (n, a, b) in enumerate(planned[:running + 1])]
wrote("sheet.tsv", "\n".join(sheet))
wrote("shop.toml", before)
learned = glueup("rehearse", "chest.toml", "--shop", "shop.toml", "--log", "sheet.tsv", "--learn", text="n\n")
check(f"--learn takes the bench sheet's log: {learned.stderr}", learned.returncode == 0 and "channel" in learned.stdout)
on = Terminal("rehearse", "chest.toml", "--shop", SHOP, "--log", "sheet.tsv")
on.until(f"Going on after step {running} of {len(planned)}")
on.press("q")
check("and a rehearsal goes on with it", on.end() == 0)

for failure in failures:
    print("FAILED:", failure)
print(f"{len(failures)} failures")
sys.exit(1 if failures else 0)
