#!/usr/bin/python3
"""Whether the tests see a mistake in a rule of the craft. 200 places of the rules' sources, found by a fixed seed, get
a mistake each (a comparison turned, a sum a difference, a number a tenth more) that is there only when the environment
asks for it (mutant.h), so that all are in one build, of a copy of the tree. Then for each the tests run, quick ones
first, that would meet a difference, until one fails or takes far too long, or forty seconds are over. Fails under
85 % caught; what is not caught is listed, with why it need not be from survivors.txt.

usage: mutants.py SOURCE_DIR FOLDER_OF_THE_COPY [NUMBER ...]        with numbers: these mutants alone
"""
import collections
import concurrent.futures
import functools
import glob
import hashlib
import os
import re
import shutil
import subprocess
import sys
import time

ROOT, TREE = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
BUILD = os.path.join(TREE, "build")
WANTED, SEED, LEAST = 200, "glueup", 85.0
SLOW_S, MOST_S = 20, 40  # of the processor: a test that takes longer is left out; with all that is asked of one mutant
# The rooms that decide what a master would accept. Not: files, plan and tables, which are data; the searches, whose
# rules are closed forms and other solvers (tests/schedules, placements, pressure); verify, which is a test itself.
RULES = """
order/comfort order/clock_remedies order/schedule_clock order/spread_window order/boards order/order_reasons
pressure/crush pressure/glue_line pressure/mitre_press pressure/racking
clamps/axis/* clamps/bodies/* clamps/layout/*
stage/* advice/* placed/placed_check
work/bend work/compound_mitre work/force_balance work/glue_quantity work/joint* work/motion work/movement
work/panel_room work/square work/standing work/step_seconds tables/pressure_range
""".split()

OPERATORS = {"<": ("Less", ">"), ">": ("Greater", "<"), "<=": ("LessEqual", ">="), ">=": ("GreaterEqual", "<="),
             "==": ("Equal", "=="), "!=": ("Unequal", "!="), "+": ("Plus", "+"), "-": ("Minus", "-")}
OPERATOR = re.compile(r"(?<=[\w)\]}] )(<=|>=|==|!=|<|>|\+|-)(?=\s)")
# Not an index, not 0 and 1 where sums and products begin, not what only bounds rounding: none is a rule.
NUMBER = re.compile(r"(?<![\w.'\[])(?<!e-)(?![01](\.0)?\b)\d[\d']*(\.\d+)?(?![\w.'\]])")
# Nor is how a loop goes through all that there is.
BLANKED = re.compile(r'//[^\n]*|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])\'|^#[^\n]*|\bfor \([^;\n]*;[^\n]*', re.M)

Place = collections.namedtuple("Place", "rank path start end line now")


def rule_files():
    for rule in RULES:
        for path in sorted(glob.glob(os.path.join(ROOT, "planner", rule + ".cpp"))):
            if not path.endswith("_test.cpp"):
                yield os.path.relpath(path, ROOT)


@functools.cache
def text_of(path):
    """Read once, so that a file that is edited meanwhile is still the one whose places are known."""
    with open(os.path.join(ROOT, path), encoding="utf-8") as file:
        return file.read()


def places():
    """All places of the rules that could hold a mistake, in an order that a seed gives; edits elsewhere leave it."""
    found, seen = [], collections.Counter()
    for path in rule_files():
        text = text_of(path)
        code = BLANKED.sub(lambda m: " " * len(m.group()), text)
        for match in [*OPERATOR.finditer(code), *NUMBER.finditer(code)]:
            number = code.count("\n", 0, match.start()) + 1
            key = f"{SEED} {path} {match.group()} {text.splitlines()[number - 1].strip()}"
            seen[key] += 1
            rank = hashlib.sha256(f"{key} {seen[key]}".encode()).hexdigest()
            found.append(Place(rank, path, match.start(), match.end(), number, match.group()))
    return sorted(found)


def written(path, chosen):
    """The file's text with these mutants in it, by number."""
    text, edits = text_of(path), {}
    for number, place in chosen.items():
        if place.path != path:
            continue
        if place.now in OPERATORS:
            name, second = OPERATORS[place.now]
            edits[place.start, place.end] = f"{place.now} mutant::{name}{{{number}}} {second}"
        else:
            edits[place.start, place.end] = f"mutant::number({number}, {place.now})"
        constant = text.rfind("constexpr ", 0, place.start)
        if constant >= 0 and ";" not in text[constant:place.start]:
            edits[constant, constant + len("constexpr")] = "const"
    for (start, end), new in sorted(edits.items(), reverse=True):
        text = text[:start] + new + text[end:]
    return f'#include "tests/mutants/mutant.h"\n#line 1\n{text}' if edits else text


def put(path, text):
    """Writes it where it differs, so that nothing is built twice."""
    path = os.path.join(TREE, path)
    if os.path.exists(path):
        with open(path, encoding="utf-8") as file:
            if file.read() == text:
                return
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)


def copy_tree():
    """All that git knows or would, but for the rules; what has gone meanwhile goes there too."""
    kept = subprocess.run(["git", "-C", ROOT, "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
                          check=True, capture_output=True, text=True).stdout.split("\0")
    kept = {path for path in kept if path and os.path.isfile(os.path.join(ROOT, path))}
    for folder, _, names in os.walk(TREE):
        for path in (os.path.relpath(os.path.join(folder, name), TREE) for name in names):
            if path not in kept and not path.startswith("build/"):
                os.remove(os.path.join(TREE, path))
    rules = set(rule_files())
    for path in sorted(kept):
        source, target = os.path.join(ROOT, path), os.path.join(TREE, path)
        os.makedirs(os.path.dirname(target), exist_ok=True)
        if path not in rules and (not os.path.exists(target) or os.stat(target).st_mtime < os.stat(source).st_mtime):
            shutil.copyfile(source, target)


def build(chosen):
    """What the compiler says of the copy with these mutants; nothing where all is well."""
    for path in rule_files():
        put(path, written(path, chosen))
    configure = ["cmake", "-S", TREE, "-B", BUILD, "-G", "Ninja", "-DGLUEUP_TESTS=ON"]
    environment = dict(os.environ, CCACHE_BASEDIR=TREE, CCACHE_NOHASHDIR="1", CCACHE_SLOPPINESS="pch_defines,time_macros")
    if shutil.which("ccache"):
        configure.append("-DCMAKE_CXX_COMPILER_LAUNCHER=ccache")
    subprocess.run(configure, check=True, capture_output=True, env=environment)
    run = subprocess.run(["ninja", "-C", BUILD, "-k", "0", "glueup", *PROGRAMS], capture_output=True, text=True,
                         env=environment, check=False)
    return "" if run.returncode == 0 else run.stdout


def refused_in(path, said, chosen):
    """The mutants of a file that the compiler's words name by their lines, or else the one that stands nearest."""
    lines = {int(line) for line in re.findall(re.escape(path) + r":(\d+):\d+: ", said)}
    distance = {number: min(abs(place.line - line) for line in lines)
                for number, place in chosen.items() if lines and place.path == path}
    return [number for number in distance if distance[number] == min(distance.values())]


def planted():
    """The mutants, by number, in a build that has them. Where a constant must be known to the compiler there is none:
    what it refuses gives way to the next."""
    copy_tree()
    waiting, chosen = iter(places()), {}
    refused = True
    while refused:
        for number in range(WANTED):
            if number not in chosen:
                chosen[number] = next(waiting)
        said = build(chosen)
        refused = {number for path in rule_files() for number in refused_in(path, said, chosen)}
        if said and not refused:
            sys.exit(f"the copy with mutants does not build:\n{said[-3000:]}")
        for number in refused:
            del chosen[number]
    return chosen


PROGRAMS = ("planner_test", "plans_test", "schedules_test", "cli_test")


def units():
    """The tests, by name: a suite, a fixture's texts, a case of the craft, what is shown to be read; each a command that
    fails or not."""
    found = {}
    for program in (os.path.join(BUILD, "tests", name) for name in PROGRAMS):
        listed = subprocess.run([program, "-lts"], check=True, capture_output=True, text=True).stdout
        for suite in re.findall(r"^(?!\[|=)\S.*$", listed, re.M):
            found[suite] = [program, f"-ts={suite}", "--abort-after=1"]
    glueup = os.path.join(BUILD, "glueup")
    for name in sorted({os.path.basename(os.path.dirname(text))
                        for text in glob.glob(os.path.join(TREE, "fixtures/*/expected*.txt"))}):
        found[f"fixture {name}"] = [sys.executable, os.path.join(TREE, "tests/golden_test.py"), glueup, TREE, name]
    for case in sorted(glob.glob(os.path.join(TREE, "tests/craft/cases/*/expect.toml"))):
        name = os.path.basename(os.path.dirname(case))
        found[f"craft {name}"] = [sys.executable, os.path.join(TREE, "tests/craft/check.py"), glueup, name]
    for name in ("readme", "first_glue_up"):
        found[name] = [sys.executable, os.path.join(TREE, f"tests/{name}_test.py"), glueup, TREE]
    return found


def passes(command, seconds, **environment):
    """Whether it does, and the processor's time that it took; none of its programs gets more than so much of that."""
    limited = ["sh", "-c", 'ulimit -t "$0"; exec "$@"', str(seconds), *command]
    with subprocess.Popen(limited, env={**os.environ, **environment}, stdout=subprocess.DEVNULL,
                          stderr=subprocess.DEVNULL) as run:
        _, status, used = os.wait4(run.pid, 0)
        run.returncode = os.waitstatus_to_exitcode(status)
    return run.returncode == 0, used.ru_utime + used.ru_stime


def rehearse(name, command):
    """Without a mutant: how long the test takes, and which mutants it would meet."""
    path = os.path.join(BUILD, "met_" + re.sub(r"\W", "_", name))
    with open(path, "wb") as file:
        file.write(bytes(4096))
    passed, seconds = passes(command, 600, GLUEUP_MUTANTS_MET=path)
    with open(path, "rb") as file:
        met = file.read()
    os.remove(path)
    if not passed or seconds > SLOW_S:
        print(f"left out, since it {'takes %.0f s' % seconds if passed else 'fails without a mutant'}: {name}")
        return name, seconds, set()
    return name, seconds, {number for number in range(WANTED) if met[number]}


def main():
    start = time.monotonic()
    chosen = planted()
    tests = units()
    print(f"{len(chosen)} mutants in {len({place.path for place in chosen.values()})} files, {len(tests)} tests; "
          f"built in {time.monotonic() - start:.0f} s", flush=True)
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool, \
            open(os.path.join(BUILD, "caught.txt"), "w", encoding="utf-8", buffering=1) as log:
        rehearsed = sorted(pool.map(lambda item: rehearse(*item), tests.items()), key=lambda told: told[1])

        kills = collections.Counter()

        def catcher(number):
            """The first test that fails with this mutant; its own file's is asked first, then those that are quick and
            have caught others."""
            own = "planner/" + os.path.basename(chosen[number].path)[:-len(".cpp")]
            meeting = [(name, seconds) for name, seconds, met in rehearsed if number in met]
            found, spent = None, 0
            for name, seconds in sorted(meeting, key=lambda told: (told[0] != own, told[1] / (1 + kills[told[0]]))):
                if spent > MOST_S:
                    break
                passed, used = passes(tests[name], int(5 + 5 * seconds), GLUEUP_MUTANT=str(number))
                spent += used
                if not passed:
                    found = name
                    kills[name] += 1
                    break
            log.write(f"{number} {chosen[number].path}:{chosen[number].line} {chosen[number].now}: {found}\n")
            return number, found, len(meeting)

        numbers = [int(number) for number in sys.argv[3:]] or sorted(chosen)
        caught = list(pool.map(catcher, numbers))
    tell(chosen, caught)
    survivors = sum(1 for _, name, _ in caught if not name)
    share = 100 * (1 - survivors / len(caught))
    print(f"{len(caught) - survivors} of {len(caught)} mutants caught, {share:.1f} %, in {time.monotonic() - start:.0f} s")
    sys.exit(0 if share >= LEAST else 1)


def tell(chosen, caught):
    """Each that lives, with why that is no matter where survivors.txt knows."""
    why = {}
    with open(os.path.join(ROOT, "tests/mutants/survivors.txt"), encoding="utf-8") as file:
        for entry in re.findall(r"^(\S.*)\n((?:  .*\n)+)", file.read(), re.M):
            why[entry[0]] = " ".join(entry[1].split())
    for number, name, meeting in caught:
        place = chosen[number]
        line = text_of(place.path).splitlines()[place.line - 1].strip()
        if not name:
            print(f"{place.path}:{place.line}: mutant {number} lives, which {meeting} tests meet: {place.now}\n    {line}\n"
                  f"  {why.get(f'{place.path} {place.now} in: {line}', '** survivors.txt does not say why')}")


if __name__ == "__main__":
    main()
