"""Files that come onto the page and leave it: a mesh dropped, the calendar, the sheet's turning picture."""
import json
import os
import tempfile
import time

from browser.sheets import turns

VERDICT = "document.getElementById('verdict').textContent"


def drop(page, paths, x, y):
    data = {"items": [], "files": [os.path.abspath(path) for path in paths], "dragOperationsMask": 1}
    for kind in ("dragEnter", "dragOver", "drop"):
        page.call("Input.dispatchDragEvent", type=kind, x=x, y=y, data=data)


def dropped(browser, desk, root, opened, planned, until, check):
    folder = os.path.join(root, "fixtures/feeder_rack")
    for name, place in (("on the form", (200, 300)), ("on the sheet", (1000, 400))):
        with browser.page(**desk) as page:
            opened(page)
            page.call("Input.dispatchDragEvent", type="dragEnter", x=600, y=10, data={
                "items": [], "files": [os.path.join(os.path.abspath(folder), "rack.obj")], "dragOperationsMask": 1})
            drop(page, [os.path.join(folder, "job.toml"), os.path.join(folder, "rack.obj")], *place)
            check(until(page, f"!/Hive|mending|Opening/.test({VERDICT}) && {planned}") is not None,
                  f"a job and its mesh, dropped {name}, are planned: {page.run(VERDICT)}")
            check(page.run("location.pathname").endswith("glueup.html"), f"{name}: the page stays")
    with browser.page(**desk) as page:
        opened(page)
        drop(page, [os.path.join(folder, "rack.obj")], 200, 300)
        check(until(page, "document.getElementById('job-names').value === 'rack'", 10) is not None,
              "a mesh alone begins a job of its own")
        check("file = \"rack.obj\"" in page.run("document.getElementById('job-text').value"), "which names it")
        check(not page.complaints, f"drop: the console says {page.complaints[:3]}")


def awaited(path, seconds=20):
    until = time.monotonic() + seconds
    while not os.path.exists(path) and time.monotonic() < until:
        time.sleep(0.1)
    if not os.path.exists(path):
        return None
    with open(path, "rb") as file:
        return file.read()


def calendar(page, native, folder, check):
    """native: the program's own, for the same job begun on 6 March 2027 at 9:00."""
    page.saved(folder)
    check(page.run("/T09:00$/.test(document.getElementById('begin').value)"), "a day and a time are proposed")
    page.run("(() => { const b = document.getElementById('begin'); b.value = ''; document.getElementById('save-calendar').click(); })()")
    check("needs a day" in page.run("document.getElementById('calendar-told').textContent"), "without a day it says so")
    page.run("(() => { const b = document.getElementById('begin'); b.value = '2027-03-06T09:00'; document.getElementById('save-calendar').click(); })()")
    check(awaited(os.path.join(folder, "hive-tool chest.ics")) == native, "the calendar is the program's own")


def exported(browser, desk, opened, planned, until, check):
    """All jobs and shops go into one file, and come back from it on another device."""
    with tempfile.TemporaryDirectory() as folder:
        with browser.page(**desk) as page:
            opened(page)
            page.saved(folder)
            page.run("document.getElementById('job-new').click()")
            until(page, planned)
            page.run("document.getElementById('export').click()")
            saved = awaited(os.path.join(folder, "glueup.json")) or b"{}"
            check(list(json.loads(saved).get("jobs", {})) == ["hive-tool chest", "box"], f"all jobs are saved: {saved[:80]}")
        with browser.page(**desk) as page:
            opened(page)
            drop(page, [os.path.join(folder, "glueup.json")], 200, 300)
            names = "[...document.getElementById('job-names').options].map((option) => option.value).join()"
            check(until(page, f"{names} === 'hive-tool chest,hive-tool chest 2,box'", 10) is not None, f"and come back: {page.run(names)}")
            check(not page.complaints, f"export: the console says {page.complaints[:3]}")


def turned(page, check):
    """The sheet in Plan has its turning picture."""
    sheet = next((f for f in page.framed() if f.run("document.getElementById('turn') !== null")), None)
    check(sheet is not None, "the sheet in its frame has a picture that turns")
    if sheet is not None:
        turns(sheet, check)
