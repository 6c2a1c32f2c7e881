#!/usr/bin/python3
"""The completions as bash, zsh and fish run them, of those that are installed: commands, every command's options and
no others, closed sets of values, files.

usage: completion_test.py GLUEUP SOURCE_DIR
"""
import os
import pty
import re
import select
import shutil
import subprocess
import sys
import tempfile
import time

GLUEUP, ROOT = (os.path.abspath(path) for path in sys.argv[1:3])
PACKAGING = os.path.join(ROOT, "cli", "packaging")
FOLDER = tempfile.mkdtemp(prefix="glueup-completion-")
BENCH = os.path.join(FOLDER, "bench")  # where completion happens
os.makedirs(os.path.join(BENCH, "old"))
for name in ["chest.toml", "my door.toml", "photo.png"]:
    with open(os.path.join(BENCH, name), "w", encoding="utf-8"):
        pass
ENVIRONMENT = {"PATH": os.path.dirname(GLUEUP) + ":" + os.environ.get("PATH", "/usr/bin:/bin"), "HOME": FOLDER,
               "TERM": "xterm", "LC_ALL": "C.UTF-8"}
failures = []


def check(what, truth):
    if not truth:
        failures.append(what)


def told(*command):
    return subprocess.run(command, capture_output=True, text=True, check=False, stdin=subprocess.DEVNULL,
                          env=ENVIRONMENT, cwd=BENCH).stdout


def by_bash(line):
    """As readline calls the function: words split at blanks and "=", the last one under the cursor."""
    words = re.findall(r"[^\s=]+|=", line) + ([""] if line.endswith(" ") else [])
    quoted = " ".join("'" + word + "'" for word in words)
    return set(told("bash", "--norc", "-c",
                    f". '{PACKAGING}/glueup.bash'; COMP_WORDS=({quoted}); COMP_CWORD={len(words) - 1}; "
                    "_glueup; printf '%s\\n' \"${COMPREPLY[@]}\"").splitlines()) - {""}


def by_fish(line):
    shown = told("fish", "--no-config", "-c", f"source '{PACKAGING}/glueup.fish'; complete -C '{line}'")
    return {hit.split("\t")[0].split("=")[-1] for hit in shown.splitlines()}


class Zsh:
    """An interactive zsh on a terminal, whose compadd writes down what it is given that matches."""
    SETUP = ("LISTMAX=1000; fpath=('{functions}' $fpath); autoload -Uz compinit; compinit -D -u; "
             "compadd() {{ local -a hits; builtin compadd -O hits \"$@\"; "
             "print -rl -- $hits >>$heard; builtin compadd \"$@\" }}\n")

    def __init__(self):
        functions = os.path.join(FOLDER, "functions")
        os.makedirs(functions)
        shutil.copy(os.path.join(PACKAGING, "glueup.zsh"), os.path.join(functions, "_glueup"))
        self.asked = 0
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            os.chdir(BENCH)
            os.execvpe("zsh", ["zsh", "-f", "-i"], ENVIRONMENT)
        self.press(self.SETUP.format(functions=functions))

    def press(self, keys):
        os.write(self.fd, keys.encode())

    def __call__(self, line):
        """A file for each line, ended by a mark. Keys are pressed once the line editor is there, which its own prompt
        says; the limit only ends a test that hangs."""
        self.asked += 1
        heard = os.path.join(FOLDER, f"heard_{self.asked}")
        self.press(f"heard='{heard}' PROMPT='<'{self.asked}'>'\n")
        shown = ""
        while f"<{self.asked}>" not in shown and select.select([self.fd], [], [], 60)[0]:
            shown += os.read(self.fd, 65536).decode(errors="replace")
        self.press(f"{line}\t\x15print END >>$heard\n")  # Ctrl-U empties the line
        end = time.monotonic() + 60
        lines = []
        while "END" not in lines and time.monotonic() < end:
            if select.select([self.fd], [], [], 0.05)[0]:
                os.read(self.fd, 65536)
            if os.path.exists(heard):
                with open(heard, encoding="utf-8") as file:
                    lines = file.read().splitlines()
        return set(lines) - {"END", ""}

    def end(self):
        self.press("exit\n")
        os.close(self.fd)
        os.waitpid(self.pid, 0)


COMMANDS = re.findall(r"^  ([a-z-]+) ", told(GLUEUP, "--help").split("Commands:")[1].split("Example")[0], re.M)
ROWS = {table: set(re.findall(r"^(\w+): ", told(GLUEUP, "tables", table), re.M)) for table in ["woods", "glues"]}
KINDS = set(re.findall(r"\w+", subprocess.run([GLUEUP, "new"], capture_output=True, text=True, check=False)
                       .stderr.split("which kind?\n")[1].split("\n")[0])) - {"or"}
check(f"commands, kinds and rows: {COMMANDS} {KINDS}", "plan" in COMMANDS and {"box", "shop"} <= KINDS and
      "beech" in ROWS["woods"] and "pva_type2" in ROWS["glues"])


def try_out(shell, completed):
    def expect(line, wanted, exactly=True):
        hits = completed(line)
        check(f"{shell}: {line!r} gives {sorted(hits)}, not {sorted(wanted)}",
              hits == wanted if exactly else wanted <= hits)

    expect("glueup ", set(COMMANDS), exactly=shell != "bash")  # bash adds --help and --version
    expect("glueup pl", {"plan"})
    expect("glueup --v", {"--version"})
    for command in COMMANDS:
        options = set(re.findall(r"^  (?:-\w,)?(--[a-z-]+)", told(GLUEUP, command, "--help"), re.M)) | {"--help"}
        expect(f"glueup {command} --", options)
    expect("glueup new ", KINDS)
    expect("glueup new dr", {"drawer"})
    expect("glueup tables ", {"woods", "glues", "clamps", "pressures"})
    expect("glueup new box --species ", ROWS["woods"])
    expect("glueup new box --species black_c", {"black_cherry"})
    for command in ["plan chest.toml", "clamps chest.toml", "glue chest.toml", "check chest.toml", "new box"]:
        expect(f"glueup {command} --glue pva_type", {"pva_type1", "pva_type2"})
    expect("glueup dry-fit chest.toml --units ", {"in", "mm"})
    expect("glueup plan chest.toml --people ", {"1", "2", "3", "4"})
    expect("glueup plan chest.toml --paper ", {"a4", "letter"})
    expect("glueup tables woods --color ", {"auto", "always", "never"})
    expect("glueup plan ch", {"chest.toml"})
    expect("glueup plan --shop ch", {"chest.toml"})
    expect("glueup plan --units=", {"in", "mm"})


if shutil.which("bash"):
    try_out("bash", by_bash)
    check(f"bash: files {by_bash('glueup plan ')}", by_bash("glueup plan ") == {"chest.toml", "my door.toml", "old"})
    check("bash: after a file that is not a job's", "photo.png" in by_bash("glueup plan chest.toml --sheet "))
if shutil.which("fish"):
    try_out("fish", by_fish)
if shutil.which("zsh"):
    zsh = Zsh()
    try_out("zsh", zsh)
    zsh.end()
ran = [shell for shell in ["bash", "fish", "zsh"] if shutil.which(shell)]

shutil.rmtree(FOLDER, ignore_errors=True)
for failure in failures:
    print("FAILED:", failure)
print(f"{', '.join(ran)}: {len(failures)} failures")
sys.exit(1 if failures else 0)
