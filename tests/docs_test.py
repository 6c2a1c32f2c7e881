#!/usr/bin/python3
"""Every `glueup ...` line in the sh fences of docs/*.md and README.md runs, and ends with the exit status
written behind it ("# exit 2"; 0 where nothing is). The fences of one page run in order in one empty folder
that has the fixtures beside it, with no shop file to be found. Links between pages lead somewhere.

usage: docs_test.py GLUEUP SOURCE_DIR
"""
import glob
import os
import re
import shlex
import subprocess
import sys
import tempfile

GLUEUP, ROOT = (os.path.abspath(argument) for argument in sys.argv[1:3])
FENCE = re.compile(r"^```sh\n(.*?)^```", re.S | re.M)
EXIT = re.compile(r"#\s*exit (\d+)\s*$")
failures = []


def commands(text):
    """Words and exit status of each command in the page's fences."""
    for fence in FENCE.findall(text):
        for line in fence.splitlines():
            if line.startswith("glueup "):
                status = EXIT.search(line)
                yield line, shlex.split(line, comments=True)[1:], int(status.group(1)) if status else 0


def run(page, text):
    environment = {key: value for key, value in os.environ.items() if key != "GLUEUP_SHOP"}
    count = 0
    with tempfile.TemporaryDirectory() as folder:
        environment["XDG_CONFIG_HOME"] = os.path.join(folder, "nothing")
        os.symlink(os.path.join(ROOT, "fixtures"), os.path.join(folder, "fixtures"))
        for line, arguments, status in commands(text):
            done = subprocess.run([GLUEUP, *arguments], cwd=folder, env=environment, check=False,
                                  stdin=subprocess.DEVNULL, capture_output=True, text=True)
            count += 1
            if arguments[0] == "page" and done.returncode == 2 and "cli/page/build.sh" in done.stderr:
                continue  # it was built without
            if done.returncode != status:
                failures.append(f"{page}: `{line}` ends with {done.returncode}, not {status}: {done.stderr[:300]}")
            elif not done.stdout and not done.stderr and arguments[0] != "page":
                failures.append(f"{page}: `{line}` says nothing")
    return count


def links(page, text):
    for link in re.findall(r"\]\(([^)#:]+)\)", text):
        if not os.path.exists(os.path.join(os.path.dirname(page), link)):
            failures.append(f"{page}: {link} is not there")


def help_of(command):
    return subprocess.run([GLUEUP, *command, "--help"], capture_output=True, text=True, check=True).stdout


OFFERED = re.findall(r"^  ([a-z-]+)  ", help_of([]).split("Commands:")[1].split("Example:")[0], re.M)
HELP = {command: help_of([command]) for command in OFFERED}


def told_in_passing(page, text):
    """`glueup COMMAND --option` within a sentence or a comment: there is such a command, and it takes the option."""
    for told in re.findall(r"`glueup ([a-z-]+[^`]*)`", text):
        command, options = told.split()[0], re.findall(r"--[a-z-]+", told)
        if command not in OFFERED:
            failures.append(f"{page}: `glueup {told}`: there is no {command}")
            continue
        for option in options:
            if option != "--help" and not re.search(rf"{option}\b", HELP[command]):
                failures.append(f"{page}: `glueup {told}`: {command} takes no {option}")
    return len(re.findall(r"`glueup [a-z]", text))


total = {}
passing = 0
for page in sorted(glob.glob(os.path.join(ROOT, "docs/*.md"))) + [os.path.join(ROOT, "README.md")]:
    with open(page, encoding="utf-8") as file:
        content = file.read()
    total[os.path.basename(page)] = run(page, content)
    links(page, content)
    passing += told_in_passing(page, content)
for source in ["cli/terminal/starter_file.cpp", "DEVELOPERS.md"]:
    with open(os.path.join(ROOT, source), encoding="utf-8") as file:
        passing += told_in_passing(source, file.read())
if passing < 20:
    failures.append(f"only {passing} commands are told in passing")

with open(os.path.join(ROOT, "docs/commands.md"), encoding="utf-8") as file:
    shown = file.read()
for command in OFFERED:
    if f"\nglueup {command} " not in shown:
        failures.append(f"docs/commands.md shows no example of glueup {command}")
if not total["commands.md"] or not total["first_glue_up.md"]:
    failures.append("no command was found where there are some")

for failure in failures:
    print("FAILED:", failure)
print(f"{sum(total.values())} commands of {len(total)} pages, {len(failures)} failures")
sys.exit(1 if failures else 0)
