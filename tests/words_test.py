#!/usr/bin/python3
"""The words of docs/words.md: one word for one thing in all that the program can print and in the manual, and
plans that a tired person can read: short, and what is the same in all of them last.

usage: words_test.py GLUEUP SOURCE_DIR
"""
import glob
import html
import os
import re
import subprocess
import sys
import tempfile

GLUEUP, ROOT = (os.path.abspath(argument) for argument in sys.argv[1:3])
SHOP = os.path.join(ROOT, "fixtures/shops/enough.toml")
failures = []


def text_of(*path):
    with open(os.path.join(ROOT, *path), encoding="utf-8") as file:
        return file.read()


def check(what, truth):
    if not truth:
        failures.append(what)


# The list.
WORDS = text_of("docs/words.md")
SECTION = WORDS.split("## One word, one thing")[1].split("\n## ")[0]


def rows(head):
    """The rows of the table whose head begins so, as lists of cells."""
    table = SECTION.split(f"| {head} |")[1].split("\n\n")[0]
    return [[cell.strip() for cell in line.strip().strip("|").split(" | ")]
            for line in table.splitlines()[2:] if line.startswith("|")]


def quoted(cell):
    return re.findall(r"`([^`]+)`", cell)


LISTED = rows("say")
TERMS = [quoted(row[0])[0] for row in LISTED]
MEANINGS = [row[1] for row in LISTED]
BANNED = [(phrase, quoted(row[0])[0]) for row in LISTED for phrase in quoted(row[2])]
UK = quoted(SECTION.split("in UK words: never")[1].split("\n\n")[0])
ONE_USE = {quoted(row[0])[0]: [re.compile(use) for use in quoted(row[2])] for row in rows("word")}
check("the list is read", len(LISTED) > 20 and len(BANNED) > 10 and len(UK) > 10 and len(ONE_USE) > 2)
for words, kind in [(TERMS, "word"), (MEANINGS, "meaning"), ([phrase for phrase, _ in BANNED], "word that is not to be")]:
    for word in words:
        check(f"words.md has the {kind} {word!r} twice", words.count(word) == 1)
for phrase, _ in BANNED:
    check(f"words.md bans {phrase!r}, and says it", phrase not in TERMS)


def pattern(phrase):
    """As whole words; where the phrase has capitals, just so."""
    edge = [r"(?<![\w\[])" if re.match(r"\w", phrase) else "", r"(?![\w\]])" if re.search(r"\w$", phrase) else ""]
    flags = 0 if re.search("[A-Z]", phrase) else re.I
    return re.compile(edge[0] + re.escape(phrase).replace(r"\ ", r"\s+") + edge[1], flags)


NEVER = [(pattern(phrase), f"say {term!r}") for phrase, term in BANNED]
SPELLING = [(pattern(word), "US spelling") for word in UK]
USES = {word: (re.compile(rf"\b{word}\b", re.I), allowed) for word, allowed in ONE_USE.items()}


def judge(where, text, uk=False, manual=False):
    for found, why in NEVER + ([] if uk else SPELLING):
        for hit in found.finditer(text):
            line = text[text.rfind("\n", 0, hit.start()) + 1:(text + "\n").find("\n", hit.end())]
            check(f"{where}: {hit.group()!r} in {line.strip()!r}: {why}", False)
    if manual:
        return
    flat = " ".join(text.split())
    for word, (found, allowed) in USES.items():
        fine = [hit.span() for use in allowed for hit in use.finditer(flat)]
        for hit in found.finditer(flat):
            held = any(start <= hit.start() and hit.end() <= end for start, end in fine)
            check(f"{where}: {word!r} as in {flat[max(0, hit.start() - 40):hit.end() + 40]!r}", held)


# What stands in the sources between quotation marks. Old names, UK words and ids are there to be read.
STRING = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
READ_ONLY = re.compile(r"old_names\.cpp|spelling\.cpp|trade_name\.cpp|quantity_text\.cpp|job_text\.cpp|joint_kind\.cpp|/json/|/verify/|/html/")


def strings(path):
    lines = []
    for line in text_of(path).splitlines():
        code = line.split(" // ")[0]
        if not line.lstrip().startswith(("//", "#include")) and "uk_" not in code and "kOldCommand" not in code:
            lines += [found.replace('\\"', '"') for found in STRING.findall(code)]
    return "\n".join(lines)


for folder in ["cli", "planner"]:
    for path in sorted(glob.glob(os.path.join(ROOT, folder, "**/*.cpp"), recursive=True)):
        name = os.path.relpath(path, ROOT)
        if not name.endswith("_test.cpp") and not READ_ONLY.search(name):
            judge(name, strings(name), manual=True)

# The manual.
for path in sorted(glob.glob(os.path.join(ROOT, "docs/*.md"))) + [os.path.join(ROOT, "README.md")]:
    name = os.path.relpath(path, ROOT)
    if name not in ("docs/words.md", "docs/checks.md"):  # which has the tests' names and publications' titles
        text = "\n".join(line for line in text_of(name).splitlines() if "UK words" not in line)
        judge(name, text, manual=True)
judge("the manual page", text_of("cli/packaging/glueup.1"), manual=True)

# What the program prints.
FOLDER = tempfile.mkdtemp(prefix="glueup-words-")
ENVIRONMENT = {key: value for key, value in os.environ.items() if key != "GLUEUP_SHOP"} | {"XDG_CONFIG_HOME": FOLDER}


def glueup(*arguments):
    done = subprocess.run([GLUEUP, *arguments], capture_output=True, text=True, check=False, env=ENVIRONMENT,
                          stdin=subprocess.DEVNULL)
    return done.stdout + done.stderr


def words_of_sheet(path):
    with open(path, encoding="utf-8") as file:
        page = re.sub(r"(?s)<(script|style).*?</\1>", " ", file.read())
    return html.unescape(re.sub(r"<[^>]*>", "\n", page))


COMMANDS = re.findall(r"^  ([a-z-]+)  ", glueup("--help").split("Commands:")[1].split("Example:")[0], re.M)
check("commands", len(COMMANDS) > 6)
judge("help", glueup("--help"))
for command in COMMANDS:
    judge(f"help of {command}", glueup(command, "--help"))
for table in ["woods", "glues", "clamps", "pressures"]:
    judge(f"table of {table}", glueup("tables", table), manual=True)
    for line in glueup("tables", table).splitlines()[4:]:
        check(f"tables {table}: no label: {line!r}", not re.match(r"  \S", line) or re.match(r"  [A-Za-z][^:]*: ", line))

plans = {}
for job in sorted(glob.glob(os.path.join(ROOT, "fixtures/*/job.toml"))):
    name = os.path.basename(os.path.dirname(job))
    uk = re.search(r"rebate|housing|mitre|mortice|cramp", text_of(job)) is not None
    sheet = os.path.join(FOLDER, name + ".html")
    plans[name] = glueup("plan", job, "--shop", SHOP, "--sheet", sheet)
    judge(f"plan of {name}", plans[name], uk)
    judge(f"details of {name}", glueup("plan", job, "--shop", SHOP, "--details", "--explain"), uk)
    judge(f"sheet of {name}", words_of_sheet(sheet), uk)
    for command in ["check", "glue", "clamps", "dry-fit"]:
        judge(f"{command} of {name}", glueup(command, job, *([] if command == "dry-fit" else ["--shop", SHOP])), uk)

# A job in UK words is answered in them throughout, with a rack that is enough, one that isn't, and none.
british = os.path.join(FOLDER, "british.toml")
with open(british, "w", encoding="utf-8") as file:
    file.write(text_of("fixtures/hive_tool_chest/job.toml").replace('"rabbet"', '"rebate"'))
for shop in [["--shop", SHOP], ["--shop", SHOP.replace("enough", "short")], []]:
    for command in [["plan"], ["plan", "--details", "--explain"], ["plan", "--people", "2"], ["clamps"], ["check"],
                    ["glue"], ["sheet"]]:
        page = os.path.join(FOLDER, "british.html")
        said = glueup(*(["plan", "--sheet", page] if command == ["sheet"] else command), british, *shop)
        said = words_of_sheet(page) if command == ["sheet"] else said
        for american in ["clamp", "rabbet", "miter", "I-bar", "C-clamp", "centered", "toward the"]:
            check(f"{command} in UK words: {american}: {said[:1500]}", american not in re.sub(r"glueup clamps", "", said))
    check("UK words are said", "cramp" in glueup("plan", british, *shop) and "rebate" in glueup("plan", british, *shop))

# Length.
MOST = {"hive_tool_chest": 70, "tool_drawer": 70, "shelf_and_sides": 80, "eight_shelves": 110}
for name, most in MOST.items():
    lines = plans[name].count("\n")
    check(f"plan of {name}: {lines} lines, {most} at most", 20 < lines <= most)

# What is the same in all comes last: titles aside, no such line stands before one of the job's own.
lines_of = {name: [line for line in plan.splitlines() if line.startswith(" ")] for name, plan in plans.items()}
same = set.intersection(*(set(lines) for lines in lines_of.values()))
check("the usual cautions are the same in all", len(same) == 2)
for name, lines in lines_of.items():
    first = min(lines.index(line) for line in same)
    check(f"plan of {name}: {lines[first]!r} is the same in all, and stands before others", set(lines[first:]) <= same)
usual = " ".join(" ".join(line.split()) for line in lines_of["hive_tool_chest"][-2:])
for matter in ["label", "safety sheet", "eyes", "fingers", "fall", "fresh air", "local codes", "licensed practice", "carries people"]:
    check(f"the usual cautions say nothing of {matter}: {usual}", matter in usual.lower())

for failure in failures[:60]:
    print("FAILED:", failure)
print(f"{len(BANNED) + len(UK)} words that are not to be, {len(plans)} plans, {len(failures)} failures")
sys.exit(1 if failures else 0)
