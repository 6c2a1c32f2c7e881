#!/usr/bin/python3
"""The program as it is installed: what lies where, that the man page knows every command and option, and that the Debian package's dependencies are all it needs.

usage: install_test.py BUILD_DIR SOURCE_DIR CMAKE
"""
import gzip
import os
import re
import shutil
import subprocess
import sys
import tempfile

BUILD, ROOT, CMAKE = (os.path.abspath(path) for path in sys.argv[1:4])
PACKAGING = os.path.join(ROOT, "cli", "packaging")
failures = []


def check(what, truth):
    if not truth:
        failures.append(what)


def run(*command, **more):
    return subprocess.run(command, capture_output=True, text=True, check=False,
                          stdin=subprocess.DEVNULL, **more)


def text_of(*path):
    with open(os.path.join(*path), encoding="utf-8") as file:
        return file.read()


def files_under(folder):
    return sorted(os.path.relpath(os.path.join(where, name), folder)
                  for where, _, names in os.walk(folder) for name in names)


def plans_chest(program, what, *before):
    """Plans the packaged example with the packaged shop, from its documentation folder."""
    plan = run(*before, program, "plan", "/usr/share/doc/glueup/examples/hive_tool_chest/job.toml", "--shop",
               "/usr/share/doc/glueup/examples/shops/enough.toml")
    check(f"{what} plans the example: {plan.stderr[:300]}", plan.returncode == 0 and "GLUE UP" in plan.stdout)


GLUEUP = os.path.join(BUILD, "glueup")
COMMANDS = re.findall(r"^  ([a-z-]+) ", run(GLUEUP, "--help").stdout.split("Commands:")[1].split("Example")[0], re.M)
check(f"commands of --help: {COMMANDS}", "plan" in COMMANDS and "tables" in COMMANDS)

# Every help fits a screen of 24 lines, under the command that asked for it, and shows an example.
for command in [None, *COMMANDS]:
    shown = run(GLUEUP, *([command] if command else []), "--help").stdout
    lines = shown.splitlines()
    check(f"help of {command} fits a screen: {len(lines)} lines", len(lines) <= 23)
    check(f"help of {command}: 80 columns", all(len(line) <= 80 for line in lines))
    check(f"help of {command} has an example", "Example:" in shown)

# The man page knows every command, option and kind, and no other; what the completions know is in completion_test.py.
man = text_of(PACKAGING, "glueup.1").replace("\\-", "-")
options = set()
for command in COMMANDS:
    options |= set(re.findall(r"^  (?:-\w,)?--([a-z-]+)", run(GLUEUP, command, "--help").stdout, re.M))
    check(f"man page: {command}", re.search(rf"^\.BI {command} ", man, re.M))
for option in sorted(options):
    check(f"man page: --{option}", f"--{option}" in man)
told = set(re.findall(r"--([a-z-]+)", man))
check(f"man page knows what isn't there: {told - options}", told <= options | {"version"})
kinds = re.findall(r"\w+", run(GLUEUP, "new").stderr.split("which kind?\n")[1].split("\n")[0])
check(f"kinds of new: {kinds}", {"box", "parts", "shop"} <= set(kinds))
for kind in set(kinds) - {"or"}:
    check(f"man page: new {kind}", re.search(rf"\b{kind}\b", man))
    check(f"help: new {kind}", re.search(rf"\b{kind}\b", run(GLUEUP, "new", "--help").stdout))
if shutil.which("groff"):
    shown = run("groff", "-man", "-Tutf8", "-ww", os.path.join(PACKAGING, "glueup.1"))
    check(f"man page: {shown.stderr}", shown.returncode == 0 and not shown.stderr)

version = run(GLUEUP, "--version").stdout
check(f"--version: {version}", re.match(r"glueup \d+\.\d+\.\d+\n", version) and "woods" in version and
      re.search(r"glues +\d+  [0-9a-f]{8}", version))

WANTED = ["bin/glueup", "share/bash-completion/completions/glueup", "share/zsh/vendor-completions/_glueup",
          "share/fish/vendor_completions.d/glueup.fish", "share/man/man1/glueup.1.gz",
          "share/glueup/job.schema.json", "share/glueup/shop.schema.json", "share/doc/glueup/README.md", "share/doc/glueup/copyright", "share/doc/glueup/docs/job_file.md",
          "share/doc/glueup/examples/hive_tool_chest/job.toml", "share/doc/glueup/examples/shops/enough.toml"]
FOLDER = tempfile.mkdtemp(prefix="glueup-install-")

# cmake --install
installed = run(CMAKE, "--install", BUILD, "--prefix", os.path.join(FOLDER, "local"))
check(f"cmake --install: {installed.stderr[-500:]}", installed.returncode == 0)
there = files_under(os.path.join(FOLDER, "local"))
for name in WANTED:
    check(f"installed: {name}", name in there or name.removesuffix(".gz") in there)
check("the installed program runs",
      run(os.path.join(FOLDER, "local/bin/glueup"), "--version").stdout == version)

if "share/glueup/glueup.html" in there:  # built with the page
    page = os.path.join(FOLDER, "local/share/glueup/glueup.html")
    check("the installed program writes the page",
          run(os.path.join(FOLDER, "local/bin/glueup"), "page").stdout == text_of(page))

check("new names no path of this machine",
      "#:schema" not in run(os.path.join(FOLDER, "local/bin/glueup"), "new", "box").stdout)


def closure(package, seen):
    """The package with all that it depends on, as installed here; of alternatives the first that is."""
    if package in seen:
        return seen
    told = run("dpkg-query", "-W", "-f", "${Pre-Depends}, ${Depends}", package)
    if told.returncode != 0:
        return seen
    seen.append(package)
    for group in re.split(r",\s*", told.stdout):
        for choice in group.split("|"):
            name = re.sub(r"\s*\(.*?\)|:any", "", choice).strip()
            if name and run("dpkg-query", "-W", name).returncode == 0:
                closure(name, seen)
                break
    return seen


def scratch_root(deb, depends):
    """A root with the package and what it says it depends on, taken from this system: nothing else."""
    root = os.path.join(FOLDER, "root")
    for link, to in [("bin", "usr/bin"), ("lib", "usr/lib"), ("lib64", "usr/lib64"), ("sbin", "usr/sbin")]:
        os.makedirs(os.path.join(root, to), exist_ok=True)
        os.symlink(to, os.path.join(root, link))
    packages = []
    for name in depends:
        closure(name, packages)
    for package in packages:
        for path in run("dpkg", "-L", package).stdout.splitlines():
            wanted = "/lib" in path and not os.path.isdir(path) and "/share/" not in path
            target = os.path.join(root, path.lstrip("/"))
            if wanted and not os.path.lexists(target):
                os.makedirs(os.path.dirname(target), exist_ok=True)
                shutil.copy2(path, target, follow_symlinks=False)
    run("dpkg", "-x", deb, os.path.join(FOLDER, "unpacked"))
    shutil.copytree(os.path.join(FOLDER, "unpacked"), root, dirs_exist_ok=True, symlinks=True)
    return root


# The Debian package.
cpack = os.path.join(os.path.dirname(CMAKE), "cpack")
if shutil.which("dpkg-deb") and shutil.which("dpkg-shlibdeps") and os.path.exists(cpack):
    packed = run(cpack, "-G", "DEB", "-B", FOLDER, "--config", os.path.join(BUILD, "CPackConfig.cmake"))
    debs = [os.path.join(FOLDER, name) for name in os.listdir(FOLDER) if name.endswith(".deb")]
    check(f"cpack: {packed.stdout[-500:]} {packed.stderr[-500:]}", packed.returncode == 0 and len(debs) == 1)
    deb = debs[0]
    listed = re.findall(r"\./(usr/\S*[^/\s])$", run("dpkg-deb", "-c", deb).stdout, re.M)
    for name in WANTED:
        check(f"in the package: usr/{name}", f"usr/{name}" in listed)
    check("the package holds no file of the tests", not [name for name in listed if re.search("expected|worked|_test", name)])
    check("the package holds nothing else than /usr", all(name.startswith("usr/") for name in listed))
    fields = run("dpkg-deb", "-f", deb).stdout
    depends = re.search(r"^Depends: (.*)$", fields, re.M)
    check(f"it says what it depends on: {fields}", depends)
    names = [re.sub(r"\s*\(.*", "", one) for one in re.split(r",\s*", depends.group(1))]
    check(f"and that is what it links: {names}", {"libc6", "libstdc++6"} <= set(names))
    by_hand = re.search(r'PACKAGE_DEPENDS\s+"(.*)"', text_of(PACKAGING, "package.cmake")).group(1)
    check(f"where dpkg-dev is missing, the same: {by_hand}",
          set(names) <= {re.sub(r"\s*\(.*", "", one) for one in by_hand.split(", ")})
    run("dpkg", "-x", deb, os.path.join(FOLDER, "unpacked"))
    program = os.path.join(FOLDER, "unpacked/usr/bin/glueup")
    # Each library belongs to a package that is named, or is one that a named one needs.
    every = []
    for name in names:
        closure(name, every)
    for library in re.findall(r"=> (/\S+)", run("ldd", program).stdout):
        found = [run("dpkg", "-S", path).stdout for path in (library, library.removeprefix("/usr"),
                                                              os.path.realpath(library))]
        owner = next((line.split(":")[0] for line in found if line), "no package")
        check(f"{library} of {owner} comes with {names}", owner in every)
    if os.geteuid() == 0 and run("chroot", "/", "/bin/true").returncode == 0:
        root = scratch_root(deb, names)
        plans_chest("/usr/bin/glueup", "in a scratch root", "chroot", root)
    else:
        examples = os.path.join(FOLDER, "unpacked/usr/share/doc/glueup/examples")
        plan = run(program, "plan", f"{examples}/hive_tool_chest/job.toml", "--shop", f"{examples}/shops/enough.toml")
        check(f"extracted it plans: {plan.stderr}", plan.returncode == 0 and "GLUE UP" in plan.stdout)
    with gzip.open(os.path.join(FOLDER, "unpacked/usr/share/man/man1/glueup.1.gz"), "rt") as page:
        check("the packaged man page is ours", "glue-ups" in page.read())
else:
    print("no dpkg-dev or cpack here: the package is not built")

shutil.rmtree(FOLDER, ignore_errors=True)
for failure in failures:
    print("FAILED:", failure)
print(f"{len(failures)} failures")
sys.exit(1 if failures else 0)
