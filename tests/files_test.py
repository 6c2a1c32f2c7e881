#!/usr/bin/python3
"""What is written is written whole or not at all, and whatever stands in the way is told: full
disks, read-only folders, links, pipes, closed streams, files of the wrong sort.

usage: files_test.py GLUEUP SOURCE_DIR
"""
import fcntl
import json
import os
import resource
import select
import signal
import stat
import subprocess
import sys
import tempfile
import threading

GLUEUP, ROOT = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
CHEST = os.path.join(ROOT, "fixtures/hive_tool_chest/job.toml")
ENOUGH = os.path.join(ROOT, "fixtures/shops/enough.toml")
NOBODY = 65534
failures = []
checks = 0


def check(ok, what, seen=""):
    global checks
    checks += 1
    if not ok:
        failures.append(f"{what}{': ' + repr(seen[:300]) if seen else ''}")


def glueup(*arguments, **more):
    kept = {key: value for key, value in os.environ.items()
            if key not in ("GLUEUP_SHOP", "XDG_CONFIG_HOME", "NO_COLOR")}
    more.setdefault("stdout", subprocess.PIPE)
    more.setdefault("stderr", subprocess.PIPE)
    return subprocess.run([GLUEUP, *arguments], check=False, timeout=60,
                          env={**kept, "HOME": "/nonexistent"}, **more)


def plan(*arguments, **more):
    return glueup("plan", CHEST, "--shop", ENOUGH, *arguments, **more)


def told(run, what, says, status=2):
    err = (run.stderr or b"").decode(errors="replace")
    check(run.returncode == status, f"{what}: exit {run.returncode}, not {status}", err)
    check(says in err, f"{what}: doesn't say \"{says}\"", err)
    check(err.count("\n") <= 4, f"{what}: one message is enough", err)


def content(path):
    with open(path, "rb") as file:
        return file.read()


def put(path, text, mode=0o644):
    with open(path, "wb") as file:
        file.write(text if isinstance(text, bytes) else text.encode())
    os.chmod(path, mode)
    return path


def as_nobody():
    if os.geteuid() == 0:  # root may write anywhere
        os.setgid(NOBODY)
        os.setuid(NOBODY)


def small_files():
    resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))


def standard_output(folder):
    with open("/dev/full", "wb") as full:
        told(plan(stdout=full), "a full standard output", "can't write to standard output: No space")
        told(plan("--json", stdout=full), "JSON to a full standard output", "No space")
        told(glueup("tables", "glues", stdout=full), "tables to a full standard output", "No space")
        told(glueup("--help", stdout=full), "help to a full standard output", "No space")
    with open(os.path.join(folder, "out"), "wb") as out:
        told(plan(stdout=out, preexec_fn=small_files), "a file that may not grow", "File too large")
    told(plan(preexec_fn=lambda: os.close(1)), "a closed standard output", "can't write")
    read_end, write_end = os.pipe()
    os.close(read_end)
    enough = plan(stdout=write_end)
    check(enough.returncode == 2 and enough.stderr == b"", "a reader that has gone is told nothing", enough.stderr)
    os.close(write_end)
    run = plan(preexec_fn=lambda: os.close(2))
    check(run.returncode == 0 and len(run.stdout) > 1000, "a closed standard error")
    run = glueup("plan", CHEST + ".none", preexec_fn=lambda: os.close(2))
    check(run.returncode == 2 and run.stdout == b"", "nowhere to tell a mistake")


def standard_input():
    run = glueup("plan", "-", "--shop", ENOUGH, preexec_fn=lambda: os.close(0))
    told(run, "a job from a closed standard input", "standard input:")
    run = glueup("plan", "-", "--shop", ENOUGH, input=content(CHEST))
    check(run.returncode == 0, "a job from standard input", run.stderr.decode())


def full_disk(folder, name, option):
    """An old file stays what it was, and nothing is left beside it."""
    target = os.path.join(folder, name)
    run = plan(option, target)
    check(run.returncode == 0, f"{name}: written", run.stderr.decode())
    whole = content(target)
    old = whole[:-1] if name.endswith(".json") else whole.replace(b"chest", b"box")
    put(target, old, 0o640)
    told(plan(option, target, preexec_fn=small_files), f"{name} on a full disk", "File too large")
    check(content(target) == old, f"{name}: the old file is as it was")
    told(plan(option, "/dev/full"), f"{name} to a full device", "No space left")
    run = plan(option, target)
    check(run.returncode == 0 and content(target) == whole, f"{name}: replaced")
    check(stat.S_IMODE(os.stat(target).st_mode) == 0o640, f"{name}: its permissions stay")
    check(os.listdir(folder) == [name], f"{name}: nothing beside it", str(os.listdir(folder)))
    os.remove(target)


def places(folder):
    locked = os.path.join(folder, "locked")
    os.mkdir(locked, 0o555)
    target = os.path.join(locked, "plan.json")
    told(plan("--json", target, preexec_fn=as_nobody), "a read-only folder", "Permission denied")
    told(plan("--json", os.path.join(folder, "none", "plan.json")), "a folder that isn't there",
         "No such file or directory")
    told(plan("--json", folder), "a folder as target", "Is a directory")
    told(plan("--json", CHEST + "/plan.json"), "a file as folder", "Not a directory")
    told(plan("--json", os.path.join(folder, "n" * 300)), "a name too long", "File name too long")
    check(os.listdir(locked) == [], "nothing is left in the read-only folder")
    os.rmdir(locked)


def other_files(folder):
    """What is there and of another sort is somebody's work."""
    for option, sort in (("--json", "JSON"), ("--sheet", "HTML")):
        mine = put(os.path.join(folder, "mine"), "cherry, 3/4\n")
        told(plan(option, mine), f"{option} over a note", f"isn't {sort}")
        check(content(mine) == b"cherry, 3/4\n", f"{option}: the note is as it was")
        os.remove(mine)
    job = put(os.path.join(folder, "job.toml"), content(CHEST))
    told(glueup("plan", job, "--json", job), "--json over its own job", "isn't JSON")
    check(content(job) == content(CHEST), "the job is as it was")
    os.remove(job)


def links(folder):
    real, link = os.path.join(folder, "real.json"), os.path.join(folder, "link.json")
    put(real, "{}\n")
    os.symlink("real.json", link)
    check(plan("--json", link).returncode == 0, "written through a link")
    check(os.path.islink(link) and b"schema_version" in content(real), "the link stays a link")
    os.remove(real)
    check(plan("--json", link).returncode == 0 and os.path.islink(link) and os.path.exists(real),
          "a link that points nowhere yet")
    os.remove(real)
    os.remove(link)
    os.symlink("link.json", link)
    told(plan("--json", link), "a link to itself", "Too many levels of symbolic links")
    told(glueup("plan", link), "a job that is a link to itself", "Too many levels")
    check(os.listdir(folder) == ["link.json"], "nothing beside the link", str(os.listdir(folder)))
    os.remove(link)
    # Two names of one file: the other name keeps the old plan, as renaming has it.
    put(real, "{}\n")
    os.link(real, link)
    check(plan("--json", real).returncode == 0 and content(link) == b"{}\n", "a hard link")
    os.remove(real)
    os.remove(link)


def devices_and_pipes(folder):
    pipe = os.path.join(folder, "pipe")
    os.mkfifo(pipe)
    seen = []
    reader = threading.Thread(target=lambda: seen.append(content(pipe)))
    reader.start()
    run = plan("--json", pipe)
    reader.join()
    check(run.returncode == 0 and json.loads(seen[0])["schema_version"] >= 1, "JSON into a pipe")
    check(stat.S_ISFIFO(os.stat(pipe).st_mode), "the pipe stays a pipe")
    os.remove(pipe)
    check(plan("--json", "/dev/null").returncode == 0, "JSON to nowhere")
    check(stat.S_ISCHR(os.stat("/dev/null").st_mode), "nowhere stays nowhere")
    told(glueup("plan", "/dev/zero"), "a job without end", "larger than 64 MB")


def unreadable(folder):
    secret = put(os.path.join(folder, "secret.toml"), content(CHEST), 0o000)
    told(glueup("plan", secret, preexec_fn=as_nobody), "a job one may not read", "Permission denied")
    os.remove(secret)
    odd = os.path.join(os.fsencode(folder), b"odd \xff\n\x1b[31m.toml")
    run = glueup("plan", odd)
    check(run.returncode == 2 and b"\x1b" not in run.stderr and b"\xff" not in run.stderr,
          "a name that would drive the terminal", run.stderr.decode(errors="replace"))
    run = glueup("plan", odd, "--json")
    check(json.loads(run.stdout)["errors"][0]["message"] != "", "the same as JSON")


def stop_when(moment, *arguments):
    """Stops a plan as soon as moment() is true; whether that was before it ended by itself."""
    with subprocess.Popen([GLUEUP, "plan", CHEST, "--shop", ENOUGH, *arguments],
                          stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as running:
        while running.poll() is None and not moment():
            pass
        running.kill()
    return running.returncode == -signal.SIGKILL


def stopped_half_way(folder):
    """Stopped while it writes: the old file or the new one."""
    target, pipe = os.path.join(folder, "plan"), os.path.join(folder, "pipe")
    # A pipe that takes a page and no more holds it in the middle of a file: of two, one is whole by
    # then and the other as it was.
    os.mkfifo(pipe)
    end = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    fcntl.fcntl(end, fcntl.F_SETPIPE_SZ, 4096)
    replaced = 0
    for mine, piped in (("--json", "--sheet"), ("--sheet", "--json")):
        old = b"{}\n" if mine == "--json" else b"<!DOCTYPE html>\n"
        put(target, old)
        check(stop_when(lambda: select.select([end], [], [], 0)[0], mine, target, piped, pipe),
              f"stopped while {piped} is written")
        seen = content(target)
        check(seen == old or seen.endswith((b"}\n", b"</html>\n")), f"{mine} is whole", seen[-99:])
        replaced += seen != old
        os.read(end, 1 << 16)
    check(replaced == 1, "one after the other", str(replaced))
    os.close(end)
    os.remove(pipe)
    # At the first sign of writing, be it a temporary file beside or another size.
    put(target, "{}\n")

    def state():
        file = os.stat(target)
        return os.listdir(folder), file.st_ino, file.st_size, file.st_mtime_ns

    for _ in range(10):
        before = state()
        stop_when(lambda old=before: state() != old, "--json", target)
        check(isinstance(json.loads(content(target)), dict), "half a file")
    for name in os.listdir(folder):
        os.remove(os.path.join(folder, name))


with tempfile.TemporaryDirectory() as scratch:
    os.chmod(scratch, 0o755)
    standard_output(scratch)
    os.remove(os.path.join(scratch, "out"))
    standard_input()
    full_disk(scratch, "plan.json", "--json")
    full_disk(scratch, "plan.html", "--sheet")
    for test in (places, other_files, links, devices_and_pipes, unreadable, stopped_half_way):
        test(scratch)

for failure in failures:
    print(failure)
print(f"{checks - len(failures)} of {checks} checks passed")
sys.exit(1 if failures else 0)
