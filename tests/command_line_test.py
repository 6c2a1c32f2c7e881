#!/usr/bin/python3
"""How the program behaves on a command line: what goes where, and what it answers to bad input.

usage: command_line_test.py GLUEUP SOURCE_DIR
"""
import glob
import json
import os
import pty
import shutil
import subprocess
import sys
import tempfile

GLUEUP, ROOT = os.path.abspath(sys.argv[1]), sys.argv[2]
CHEST = os.path.join(ROOT, "fixtures/hive_tool_chest/job.toml")
ENOUGH = os.path.join(ROOT, "fixtures/shops/enough.toml")
SHORT = os.path.join(ROOT, "fixtures/shops/short.toml")
failures = []
checks = 0


def check(ok, what, seen=""):
    global checks
    checks += 1
    if not ok:
        failures.append(f"{what}{': ' + repr(seen[:300]) if seen else ''}")


def plain_environment(**more):
    kept = {key: value for key, value in os.environ.items()
            if key not in ("GLUEUP_SHOP", "XDG_CONFIG_HOME", "NO_COLOR", "LC_ALL")}
    return {**kept, "HOME": "/nonexistent", **more}


def without_notes(plan, kinds):
    """The plan's JSON without notes of these kinds."""
    data = json.loads(plan)
    kept = [i for i, note in enumerate(data["notes_data"]) if note["kind"] not in kinds]
    for key in ("notes", "notes_data"):
        data[key] = [data[key][i] for i in kept]
    return json.dumps(data)


def glueup(*arguments, text=None, **environment):
    return subprocess.run([GLUEUP, *arguments], input=text, capture_output=True, text=True,
                          check=False, timeout=60, env=plain_environment(**environment))


def bad(what, *arguments, says, **more):
    run = glueup(*arguments, **more)
    check(run.returncode == 2, f"{what}: exit {run.returncode}, not 2", run.stderr)
    check(run.stdout == "", f"{what}: something on standard output", run.stdout)
    check(says in run.stderr, f"{what}: doesn't say \"{says}\"", run.stderr)


with tempfile.TemporaryDirectory() as folder:
    def path(name):
        return os.path.join(folder, name)

    def write(name, content):
        with open(path(name), "wb") as file:
            file.write(content if isinstance(content, bytes) else content.encode())
        return path(name)

    # Files that are no jobs.
    bad("a missing job", "plan", path("nothing.toml"), says="no such file")
    bad("a missing job is offered", "plan", path("nothing.toml"), says="`glueup new box -o ")
    bad("a folder", "plan", folder, says="is a directory")
    bad("binary junk", "plan", write("junk", bytes(range(256)) * 40), says="junk:")
    bad("an empty file", "plan", write("empty.toml", ""), says="empty.toml")
    with open(path("huge.toml"), "wb") as file:
        file.truncate(100 << 20)
    bad("100 MB", "plan", path("huge.toml"), says="larger than 64 MB")
    bad("a missing shop", "plan", CHEST, "--shop", path("no.toml"), says="no such file")
    bad("both missing", "plan", path("a.toml"), "--shop", path("b.toml"), says="b.toml: no such file")
    bad("a shop from the environment that isn't there", "plan", CHEST, says="no such file",
        GLUEUP_SHOP=path("gone.toml"))
    bad("an unknown glue", "plan", CHEST, "--glue", "treacle", says="treacle")
    bad("no command", says="say what to do")
    bad("an unknown command", "plam", CHEST, says="did you mean plan?")

    # A mistake is shown with its line and a mark under it.
    with open(CHEST, encoding="utf-8") as file:
        chest = file.read()
    misspelt = write("misspelt.toml", chest.replace("black_cherry", "black_chery"))
    run = glueup("plan", misspelt)
    check("black_chery" in run.stderr and " | species" in run.stderr and "^" in run.stderr,
          "a misspelt wood is quoted and marked", run.stderr)
    run = glueup("plan", misspelt, "--json")
    check(json.loads(run.stdout)["errors"][0]["line"] > 0, "the mistake in JSON has its line")
    check(run.returncode == 2 and "black_chery" in run.stderr, "and is told in words as well")

    # Where the job comes from, and where the shop file is found.
    piped = glueup("plan", "-", "--shop", ENOUGH, text=chest)
    named = glueup("plan", CHEST, "--shop", ENOUGH)
    check(piped.stdout == named.stdout, "a job on standard input is planned alike")
    check(glueup("plan", CHEST, GLUEUP_SHOP=ENOUGH).stdout == named.stdout, "GLUEUP_SHOP is used")
    os.makedirs(path("glueup"))
    with open(ENOUGH, encoding="utf-8") as file:
        write("glueup/shop.toml", file.read())
    check(glueup("plan", CHEST, XDG_CONFIG_HOME=folder).stdout == named.stdout,
          "the shop file of XDG_CONFIG_HOME is used")
    check("no shop file" in glueup("plan", CHEST).stdout, "without a shop file it says so")
    check("no shop file" not in named.stdout, "with one it doesn't")

    # Exit statuses.
    check(named.returncode == 0, "the chest works with enough clamps", named.stdout)
    # A job written out part by part is the same job.
    jobs = sorted(glob.glob(os.path.join(ROOT, "fixtures/*/job.toml")))
    kinds = glueup("new").stderr.split("which kind?\n")[1].split("\n")[0].replace(" or ", ", ").split(", ")
    check(kinds[0].strip() == "box" and kinds[-2:] == ["parts", "shop"], "new tells its kinds", str(kinds))
    for kind in (kind.strip() for kind in kinds[:-1]):
        jobs.append(path(f"{kind}.toml"))
        check(glueup("new", kind, "-o", jobs[-1]).returncode == 0, f"new {kind}")
    shutil.copy(os.path.join(ROOT, "fixtures/feeder_rack/rack.obj"), folder)  # a mesh stays a file
    for job in jobs:
        run = glueup("check", job, "--shop", ENOUGH, "--expand", "--quiet")
        expanded = write("expanded.toml", run.stdout)
        plans = [glueup("plan", job, "--shop", ENOUGH, "--json").stdout for job in (job, expanded)]
        # A breadboard end's slots, a ring's diameters and how its leaning sides are sawn are told of the starter alone.
        plans = [without_notes(plan, ("breadboard", "ring true", "leaning sides")) for plan in plans]
        check(len(plans[0]) > 1000 and plans[0] == plans[1] and "[box]" not in run.stdout,
              f"{job} expanded gives the same JSON", run.stderr)

    run = glueup("plan", CHEST, "--shop", SHORT)
    check(run.returncode == 1, "and doesn't with too few")
    check("GLUE UP" in run.stdout and "WAYS OUT" in run.stdout, "the sheet is printed all the same")
    check(glueup("check", CHEST, "--shop", SHORT).returncode == 0, "check doesn't ask for clamps")
    for command in ("clamps", "glue"):
        check(glueup(command, CHEST, "--shop", ENOUGH).returncode == 0, f"{command} works")
    for table in ("woods", "glues", "clamps", "pressures"):
        run = glueup("tables", table)
        check(run.returncode == 0 and "published" in run.stdout, f"tables {table} has its sources")
        check(json.loads(glueup("tables", table, "--json").stdout)["rows"], f"{table} as JSON")

    # What JSON and the bench sheet may overwrite.
    out = path("plan.json")
    run = glueup("plan", CHEST, "--shop", ENOUGH, "--json", out)
    check(run.stdout == named.stdout, "with a JSON file the text is printed too")
    with open(out, encoding="utf-8") as file:
        first = file.read()
    check(json.loads(first)["schema_version"] == 2, "the file holds the plan")
    check(glueup("plan", CHEST, "--shop", ENOUGH, "--json", out).returncode == 0,
          "JSON is written over JSON")
    check(glueup("plan", CHEST, "--shop", ENOUGH, "--json", "-").stdout == first,
          "the same bytes on standard output")
    mine = write("mine.toml", chest)
    for option, sort in (("--json", "JSON"), ("--sheet", "HTML")):
        run = glueup("plan", CHEST, "--shop", ENOUGH, option, mine)
        check(run.returncode == 2 and f"isn't {sort}" in run.stderr, f"{option} spares other files",
              run.stderr)
    with open(mine, encoding="utf-8") as file:
        check(file.read() == chest, "the job file is as it was")
    sheet = path("sheet.html")
    check(glueup("plan", CHEST, "--shop", ENOUGH, "--sheet", sheet).returncode == 0
          and os.path.getsize(sheet) < 400_000, "the bench sheet is written, under 400 kB")
    run = glueup("plan", misspelt, "--sheet", path("none.html"), "--json", path("none.json"))
    check(not os.path.exists(path("none.html")) and not os.path.exists(path("none.json")),
          "bad input writes nothing")

    # Standard output that can't take it.
    with open("/dev/full", "w", encoding="utf-8") as full:
        run = subprocess.run([GLUEUP, "plan", CHEST], stdout=full, stderr=subprocess.PIPE, text=True,
                             check=False, env=plain_environment())
    check(run.returncode == 2 and "standard output" in run.stderr, "a full disk is told", run.stderr)
    run = subprocess.run(["sh", "-c", f'"{GLUEUP}" plan "{CHEST}" >&-'], capture_output=True,
                         text=True, check=False, env=plain_environment())
    check(run.returncode == 2 and "standard output" in run.stderr, "a closed one is told", run.stderr)

    # Colour and Unicode on a terminal only.
    def on_terminal(*arguments, **environment):
        master, slave = pty.openpty()
        with subprocess.Popen([GLUEUP, *arguments], stdout=slave, stderr=subprocess.DEVNULL,
                              env=plain_environment(TERM="xterm", LC_ALL="C.UTF-8", **environment)
                              ) as process:
            os.close(slave)
            seen = b""
            while True:
                try:
                    block = os.read(master, 65536)
                except OSError:
                    break
                if not block:
                    break
                seen += block
            process.wait()
        os.close(master)
        return seen.decode().replace("\r\n", "\n")

    terminal = on_terminal("plan", CHEST, "--shop", ENOUGH, "--details")
    check("\x1b[" in terminal and not terminal.isascii(), "a terminal gets colour and Unicode")
    check("\x1b" not in on_terminal("plan", CHEST, NO_COLOR="1"), "NO_COLOR is kept")
    check("\x1b" not in on_terminal("plan", CHEST, "--color", "never"), "--color never is kept")
    check(on_terminal("plan", CHEST, "--shop", ENOUGH, "--ascii", "--color", "never") == named.stdout,
          "--ascii is the plain form")
    check(named.stdout.isascii() and "\x1b" not in named.stdout, "a pipe gets the plain form")
    check("\x1b[" in glueup("plan", CHEST, "--color", "always").stdout, "--color always is kept")

    # What the command line says wins over the files.
    mm = glueup("plan", CHEST, "--shop", ENOUGH, "--units", "mm").stdout
    check(" mm" in mm and " lbf" not in mm, "--units mm")
    check("third column" in glueup("plan", CHEST, "--people", "2").stdout, "--people 2")
    start = glueup("plan", CHEST, "--shop", ENOUGH, "--start", "23:30").stdout
    check("23:30" in start and "next day" in start, "--start runs over midnight")
    check("why:" in glueup("plan", CHEST, "--explain").stdout, "--explain says why")

for failure in failures:
    print("FAILED:", failure)
print(f"{checks} checks, {len(failures)} failures")
sys.exit(1 if failures else 0)
