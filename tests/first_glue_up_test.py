#!/usr/bin/python3
"""docs/first_glue_up.md, followed to the letter by somebody at a terminal: each command as it stands there, in an
empty folder with no shop file to be found, and what the page says of its answers.

usage: first_glue_up_test.py GLUEUP SOURCE_DIR
"""
import os
import pty
import re
import select
import shlex
import signal
import sys
import tempfile
import time

GLUEUP, ROOT = (os.path.abspath(argument) for argument in sys.argv[1:3])
with open(os.path.join(ROOT, "docs/first_glue_up.md"), encoding="utf-8") as file:
    PAGE = file.read()
FOLDER = tempfile.mkdtemp(prefix="glueup-first-")
ENVIRONMENT = {"PATH": os.path.dirname(GLUEUP) + ":/usr/bin:/bin", "HOME": FOLDER, "TERM": "xterm", "LC_ALL": "C.UTF-8"}
failures = []


def check(what, truth):
    if not truth:
        failures.append(what)


def at_terminal(line, press=""):
    """The command on a terminal; a key is pressed each time it waits. What it showed, and its exit status."""
    child, terminal = pty.fork()
    if child == 0:
        os.chdir(FOLDER)
        os.execve(GLUEUP, shlex.split(line), ENVIRONMENT)
    shown, pressed, end = "", time.monotonic(), time.monotonic() + 90
    while time.monotonic() < end:
        if press and time.monotonic() - pressed > 0.25:  # a running clock is never silent
            os.write(terminal, press.encode())
            pressed = time.monotonic()
        if not select.select([terminal], [], [], 0.05)[0]:
            continue
        try:
            piece = os.read(terminal, 4096).decode(errors="replace")
        except OSError:  # the end
            break
        shown += piece
    else:
        os.kill(child, signal.SIGKILL)
    shown = re.sub(r"[^\r\n]*\r(?!\r*\n)", "", re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", shown))  # less what was written over
    return shown.replace("\r", ""), os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def at_the_plans_pace(path):
    """A log as of somebody who took a tenth longer than planned: keys pressed at once are no pace to learn."""
    with open(path, encoding="utf-8") as log:
        head, *rows = log.read().splitlines()
    check(f"the log has steps: {rows[:2]}", len(rows) > 10)
    with open(path, "w", encoding="utf-8") as log:
        log.write(head + "\n")
        for row in rows:
            n, start, end, _, _, *note = row.split("\t")
            log.write("\t".join([n, start, end, f"{1.1 * float(start):.1f}", f"{1.1 * float(end):.1f}", *note]) + "\n")


# A step is what stands from one bold number to the next.
STEPS = re.split(r"^\*\*\d\. ", PAGE, flags=re.M)[1:]
check("seven steps", len(STEPS) == 7)
check("ten minutes are spent as the page says", PAGE.startswith("# A first glue-up, from nothing, in ten minutes"))
seen = []
for n, step in enumerate(STEPS, 1):
    lines = [line for fence in re.findall(r"^```sh\n(.*?)^```", step, re.S | re.M) for line in fence.splitlines()]
    lines += re.findall(r"`(glueup [^`]*--learn)`", step)
    said = ""
    for line in lines:
        if "--learn" in line:
            at_the_plans_pace(os.path.join(FOLDER, "chest.rehearsal.tsv"))
        out, status = at_terminal(line, "y\n" if "--learn" in line else " " if "rehearse" in line else
                                  "\n" if " new " in line else "")
        check(f"step {n}: {line}: exit {status}: {out[-300:]}", status == 0)
        said += out
    check(f"step {n} has a command", lines != [])
    # A section that the page names in italics is there, unless it is told only to who is short of time.
    for name in set(re.findall(r"(?<!\*)\*([A-Z][\w ]+)\*(?!\*)", step)) - {"Helps most"}:
        check(f"step {n}: no {name!r} in {said[-600:]}", re.search(rf"^{name}\b", said, re.I | re.M))
    seen.append(said)

check("the shop and the job are written", all(os.path.exists(os.path.join(FOLDER, name))
                                              for name in ["shop.toml", "chest.toml", "chest.html"]))
with open(os.path.join(FOLDER, "chest.toml"), encoding="utf-8") as file:
    bare = [line for line in file.read().split("[box]\n")[1].split("\n\n")[0].splitlines() if "#" not in line]
check(f"nearly every line of the job has a comment: {bare}", len(bare) <= 2)
verdicts = re.search(r"It begins with ([A-Z ]+), ([A-Z ]+) or ([A-Z' \n]+)\.", PAGE)
check("the page names the three verdicts", verdicts)
check(f"the plan begins with one of them: {seen[3][:80]!r}", verdicts and re.match(
    "|".join(" ".join(word.split()) for word in verdicts.groups()), seen[3].lstrip()))
hurried = at_terminal("glueup plan chest.toml --shop shop.toml --temperature '90 F'")[0]
check(f"short of time, it tells what helps most: {hurried[:600]}", "Helps most" in hurried)
measured = re.search(r'--diagonals "([^,"]+), ([^"]+)"', PAGE)
check("the diagonals of the page are those of the plan", measured and measured[1] == measured[2] and
      f"inside both {measured[1]} in" in " ".join(seen[3].split()))
check(f"times of day when the clamps come off: {seen[6]}", re.search(r"\(1\d:\d\d\).*next day", " ".join(seen[6].split())))

for failure in failures:
    print("FAILED:", failure)
print(f"{len(STEPS)} steps, {len(failures)} failures")
sys.exit(1 if failures else 0)
