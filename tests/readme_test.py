#!/usr/bin/python3
"""What README.md shows is what the program prints.

A fenced block after a comment
    <!-- output of: glueup ARGUMENTS
         show: verdict, SECTION, ... -->
holds those sections of the output, and "[...]" for each run of sections left out. Commands and
options named in the text must be in --help, files that are linked must be there.

usage: readme_test.py GLUEUP SOURCE_DIR [--update]
"""
import os
import re
import shlex
import subprocess
import sys

GLUEUP, ROOT = sys.argv[1:3]
README = os.path.join(ROOT, "README.md")
BLOCK = re.compile(r"(<!-- output of: glueup (.*?)\n\s*show: (.*?) -->\n```\n)(.*?)(```\n)", re.S)
failures = []


def glueup(*arguments):
    environment = {key: value for key, value in os.environ.items() if key != "GLUEUP_SHOP"}
    environment["XDG_CONFIG_HOME"] = "/nonexistent"
    return subprocess.run([os.path.abspath(GLUEUP), *arguments], cwd=ROOT, env=environment,
                          capture_output=True, text=True, check=False)


def excerpt(output, wanted):
    """The wanted sections of a sheet; the verdict is the section before the first blank line."""
    sections = output.rstrip("\n").split("\n\n")
    shown = []
    for i, section in enumerate(sections):
        title = "verdict" if i == 0 else section.split("\n", 1)[0]
        if any(title == name or title.startswith(name + ",") for name in wanted):
            shown.append(section)
        elif not shown or shown[-1] != "[...]":
            shown.append("[...]")
    return "\n\n".join(shown) + "\n"


def fresh(match):
    head, arguments, wanted, _, tail = match.groups()
    run = glueup(*shlex.split(arguments))
    if run.returncode not in (0, 1):
        failures.append(f"glueup {arguments}: exit {run.returncode}: {run.stderr[:300]}")
    missing = [name for name in wanted.split(", ")
               if name != "verdict" and not re.search(rf"^{re.escape(name)}\b", run.stdout, re.M)]
    if missing:
        failures.append(f"glueup {arguments}: no section {', '.join(missing)}")
    return head + excerpt(run.stdout, wanted.split(", ")) + tail


with open(README, encoding="utf-8") as file:
    text = file.read()

true_text, blocks = BLOCK.subn(fresh, text)
if not blocks:
    failures.append("README.md shows no output at all")
if true_text != text:
    if "--update" in sys.argv:
        with open(README, "w", encoding="utf-8") as file:
            file.write(true_text)
    else:
        failures.append("README.md shows what the program no longer prints; run "
                        "python3 tests/readme_test.py build/glueup . --update, and look at it")

help_text = glueup("--help").stdout
for command in sorted(set(re.findall(r"`glueup ([a-z]+(?:-[a-z]+)*)", text))):
    if not re.search(rf"^  {command}\s", help_text, re.M):
        failures.append(f"glueup {command}: not in --help")
# An option told in a command's row, or after the command, is one of that command's.
for row in re.findall(r"^\| `glueup .*", text, re.M):
    command = re.search(r"`glueup ([a-z]+(?:-[a-z]+)*)", row).group(1)
    options = glueup(command, "--help").stdout
    for option in re.findall(r"`(--[a-z]+)", row):
        if option not in options:
            failures.append(f"{option}: not in the help of {command}")
options = glueup("plan", "--help").stdout + glueup("--help").stdout  # that tells of --help itself
for option in sorted(set(re.findall(r"`(?:glueup plan )?(--[a-z]+)", re.sub(r"^\|.*", "", text, flags=re.M)))):
    if option not in options:
        failures.append(f"{option}: not in the help of plan")
for name in ["README.md", "DEVELOPERS.md"]:
    with open(os.path.join(ROOT, name), encoding="utf-8") as file:
        for link in re.findall(r"\]\(([^)#:]+)\)", file.read()):
            if not os.path.exists(os.path.join(ROOT, link)):
                failures.append(f"{name}: {link} is not there")
for script in re.findall(r"^sh (\S+)", text, re.M):
    if not os.path.exists(os.path.join(ROOT, script)):
        failures.append(f"README.md: {script} is not there")

for failure in failures:
    print("FAILED:", failure)
print(f"{blocks} outputs, {len(failures)} failures")
sys.exit(1 if failures else 0)
