#!/usr/bin/python3
"""The page in a real browser, opened from the disk: it plans, its forms and texts follow each other, nothing
is fetched, what a user typed stays inert, on a phone and on a desk, by the keyboard alone; what goes wrong is
said and loses nothing; from a web server it works without a network after the first visit.

usage: page_test.py GLUEUP SOURCE_DIR PAGE_HTML [FOLDER for pictures]     exit 77: no chromium or no page here
"""
import json
import os
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from browser.axe import audit, axe_source  # noqa: E402
from browser import chromium, firefox, page_faults, page_files, page_phone, page_served  # noqa: E402
from browser.page_keys import all_by_keys  # noqa: E402

GLUEUP, ROOT, PAGE = os.path.abspath(sys.argv[1]), sys.argv[2], os.path.abspath(sys.argv[3])
PICTURES = sys.argv[4] if len(sys.argv) > 4 else None
PHONE = {"width": 390, "height": 844, "phone": True}
DESK = {"width": 1366, "height": 768}
NO_STORAGE = "Object.defineProperty(window, 'localStorage', {get() { throw new Error('refused'); }})"
failures = []
checks = 0


def check(ok, what):
    global checks
    checks += 1
    if not ok:
        failures.append(what)


def until(page, condition, seconds=60):
    """Seconds until the condition holds; nothing where it doesn't."""
    began = time.monotonic()
    while time.monotonic() - began < seconds:
        if page.run(f"Boolean({condition})"):
            return time.monotonic() - began
        time.sleep(0.02)
    return None


READY = "document.body.dataset.ready"
PLANNED = "document.getElementById('sheet').srcdoc && !document.getElementById('busy').textContent"
verdict = "document.getElementById('verdict').textContent"


def opened(page):
    page.open(PAGE)
    check(until(page, READY) is not None, "the page is ready")
    check(until(page, PLANNED) is not None, "the page plans by itself")


def typed(page, field, value):
    """Into a field, as by hand; waits for the plan that follows."""
    page.run(f"""(() => {{ const input = document.getElementById({json.dumps(field)}); input.focus();
        input.value = {json.dumps(value)}; input.dispatchEvent(new Event('input', {{ bubbles: true }})); }})()""")
    until(page, "document.getElementById('busy').textContent", 2)
    check(until(page, PLANNED) is not None, f"{field}: planned again")


def text_of(page, which):
    return page.run(f"document.getElementById('{which}-text').value")


def pictured(page, name):
    if PICTURES:
        page.picture(os.path.join(PICTURES, name + ".png"))


def shows_the_chest(page, folder, name):
    """The plan and the sheet of the program itself."""
    check(page.run(verdict).startswith("GO: Hive-tool chest"), f"{name}: a chest is planned: {page.run(verdict)}")
    job = os.path.join(ROOT, "fixtures/hive_tool_chest/job.toml")
    shop = os.path.join(ROOT, "fixtures/shops/enough.toml")
    sheet = os.path.join(folder, "chest.html")
    subprocess.run([GLUEUP, "plan", job, "--shop", shop, "--sheet", sheet, "--paper", "letter"], check=True, capture_output=True)
    with open(sheet, encoding="utf-8") as file:
        check(page.run("document.getElementById('sheet').srcdoc") == file.read(), f"{name}: the program's own sheet")


def first_visit(browser, settings, name, axe):
    with browser.page(**settings) as page:
        opened(page)
        shows_the_chest(page, browser.folder, name)
        check(page.run("document.querySelector('#picture svg.step path') !== null"), f"{name}: the work is pictured")
        for pane in ("work", "shop", "plan", "about"):
            page.run(f"document.querySelector('nav [data-to={pane}]').click()")
            check(page.run("document.documentElement.scrollWidth <= innerWidth"), f"{name}: {pane} is no wider than the screen")
            pictured(page, f"{name}-{pane}")
            if axe:
                passes, wrong = audit(page, axe)
                check(passes > 15 and not wrong, f"{name}, {pane}: axe: {wrong[:3]}")
        check(not [r for r in page.requests if not r.startswith(("blob:", "data:"))], f"{name}: it fetches {page.requests[:3]}")
        check(not page.complaints, f"{name}: the console says {page.complaints[:3]}")


def forms(browser):
    with browser.page(**DESK) as page:
        opened(page)
        before = text_of(page, "job")
        typed(page, "glueup-job-file-box-outside", "16")
        check(text_of(page, "job") == before.replace("[14, 9, 8]", "[16, 9, 8]"), "a length changes one number of the text")
        typed(page, "glueup-job-file-box-stock", "5/8")
        check('stock   = "5/8"' in text_of(page, "job"), "a fraction is quoted, its column kept")
        typed(page, "glueup-shop-file-clamp-0-count", "1")
        check("count = 1\n" in text_of(page, "shop"), "the shop's text follows its form")
        typed(page, "glueup-job-file-box-stock", "thick")
        wrong = "document.getElementById('glueup-job-file-box-stock-wrong').textContent"
        check("length" in page.run(wrong), f"a mistake stands beside its field: {page.run(wrong)}")
        check(page.run("document.getElementById('sheet').srcdoc.length > 10000"), "the last plan stays")
        for _ in range(4):
            page.run("document.getElementById('undo').click()")
        check(text_of(page, "job") == before, "undone, the text is as it was")
        page.run("""(() => { const t = document.getElementById('job-text'); t.value = t.value.replace('[16, 9, 8]', '[14, 9, 8]')
            .replace('14, 9', '20, 9'); t.dispatchEvent(new Event('input', { bubbles: true })); })()""")
        until(page, PLANNED)
        check(page.run("document.getElementById('glueup-job-file-box-outside').value") == "20", "the form follows the text")
        page.run("document.getElementById('job-new').click()")
        until(page, "document.getElementById('busy').textContent", 2)
        check(until(page, PLANNED) is not None and 'title = "Box"' in text_of(page, "job"), "a starter is planned")
        for view in ("text", "clamps", "rack", "glue", "check", "fit"):
            page.run(f"(() => {{ const v = document.getElementById('views'); v.value = '{view}'; v.dispatchEvent(new Event('change')); }})()")
            shown = "document.getElementById('view').textContent"
            check(until(page, f"{shown}.length > 90 && !/^Working/.test({shown})") is not None, f"the view {view}: {page.run(shown)[:80]}")
        page.run("document.getElementById('print').click()")
        check(until(page, "document.querySelector('iframe.paper')") is not None, "a frame for the printer")
        check(not page.complaints, f"forms: the console says {page.complaints[:3]}")


def meshes(browser):
    with browser.page(**DESK) as page:
        opened(page)
        folder = os.path.join(ROOT, "fixtures/feeder_rack")
        for name in ("job.toml", "rack.obj"):
            with open(os.path.join(folder, name), encoding="utf-8") as file:
                page.run(f"""(() => {{ const all = new DataTransfer(), open = document.getElementById('open');
                    all.items.add(new File([{json.dumps(file.read())}], {json.dumps(name)})); open.files = all.files;
                    open.dispatchEvent(new Event('change')); }})()""")
            time.sleep(1)
        check(until(page, "!/Hive|mending|Opening/.test(" + verdict + ") && " + PLANNED) is not None,
              f"a job and its mesh, opened, are planned: {page.run(verdict)}")
        check(page.run("document.getElementById('job-names').value") == "job", "the job keeps its file's name")
        check(not page.complaints, f"meshes: the console says {page.complaints[:3]}")


def tables_added(browser):
    with browser.page(**DESK) as page:
        opened(page)
        before = text_of(page, "shop")
        page.run("[...document.querySelectorAll('#shop-form button')].find((b) => b.textContent === 'Another clamp').click()")
        check(text_of(page, "shop").count("[[clamp]]") == before.count("[[clamp]]") + 1, "another clamp is put in")
        page.run("document.querySelector('[aria-label=\"Remove clamp 5\"]').click()")
        check(text_of(page, "shop") == before, "and taken out again")
        page.run("(() => { const s = document.querySelector('#shop-form .adder select'); s.value = 'pace'; s.nextElementSibling.click(); })()")
        check(text_of(page, "shop") == before + "\n[pace]\n", "a table is put in at the end")
        page.run("document.getElementById('glueup-shop-file-pace-join').closest('details').open = true")
        typed(page, "glueup-shop-file-pace-join", "25 s")
        check(text_of(page, "shop").endswith('[pace]\njoin = "25 s"\n'), "and filled")
        check(not page.complaints, f"tables: the console says {page.complaints[:3]}")


def kept(browser):
    with browser.page(**DESK) as page:
        opened(page)
        typed(page, "glueup-job-file-title", "Kept chest")
        page.reload()
        until(page, READY)
        check('title = "Kept chest"' in text_of(page, "job"), "what was typed survives a reload")
        page.run("document.getElementById('keep').click()")
        check(page.run("localStorage.length") == 0, "switched off, nothing is kept")
        page.reload()
        until(page, READY)
        check("Hive-tool chest" in text_of(page, "job"), "and the next visit is a first one")
        for broken in ("{", "{\"jobs\": \"x\", \"shops\": 1, \"job\": \"toString\"}", "{\"jobs\": {\"a\": 1}, \"shops\": {}, \"job\": \"a\"}"):
            page.run(f"localStorage.setItem('glueup page', {json.dumps(broken)})")
            page.reload()
            check(until(page, READY) is not None and "Hive-tool chest" in text_of(page, "job"), f"what was kept is broken: {broken}")
    with browser.page(first=NO_STORAGE, **DESK) as page:
        opened(page)
        typed(page, "glueup-job-file-title", "Private")
        check(page.run(verdict).startswith("GO: Private"), "it works without storage")
        check(not page.complaints, f"without storage: the console says {page.complaints[:3]}")


def hostile(browser):
    with browser.page(**DESK) as page:
        opened(page)
        typed(page, "glueup-job-file-title", "<img src=x onerror=\"document.title='taken'\"><script>document.title='taken'</script>")
        check(page.run("document.querySelectorAll('img').length") == 0, "a title is no markup")
        check("taken" not in page.run("document.title"), "a title runs nothing")
        for text in ("[[[", "\x00", "title = ", "x" * 300000, "[box]\noutside = [1e999, 2, 3]\n"):
            page.run(f"""(() => {{ const t = document.getElementById('job-text'); t.value = {json.dumps(text)};
                t.dispatchEvent(new Event('input', {{ bubbles: true }})); }})()""")
            until(page, "document.getElementById('busy').textContent", 2)
            until(page, "!document.getElementById('busy').textContent")
            said = page.run(verdict + " + document.getElementById('job-mistakes').textContent")
            check("mending" in said or "Line" in said, f"bad text is told: {text[:20]!r}: {said[:100]}")
        check(not [c for c in page.complaints if "Content Security" not in c], f"hostile: {page.complaints[:3]}")


def keyboard(browser, settings):
    with browser.page(**settings) as page, tempfile.TemporaryDirectory() as folder:
        opened(page)
        all_by_keys(page, ROOT, folder, until, PLANNED, check)


def faults(browser):
    page_faults.memory_ends(browser, DESK, PAGE, until, check)
    page_faults.worker_ends(browser, DESK, opened, typed, until, check)
    page_faults.stopped(browser, DESK, opened, until, check)
    page_faults.page_crashes(browser, DESK, opened, typed, until, check)
    page_faults.browser_too_old(browser, PHONE, PAGE, until, check)
    page_faults.two_tabs(browser, DESK, opened, typed, until, check)
    page_faults.tab_asleep(browser, DESK, opened, typed, until, check)
    page_faults.storage_full(browser, DESK, opened, typed, until, check)


def files(browser):
    page_files.dropped(browser, DESK, ROOT, opened, PLANNED, until, check)
    page_files.exported(browser, DESK, opened, PLANNED, until, check)
    with browser.page(**DESK) as page, tempfile.TemporaryDirectory() as folder:
        opened(page)
        job = os.path.join(ROOT, "fixtures/hive_tool_chest/job.toml")
        shop = os.path.join(ROOT, "fixtures/shops/enough.toml")
        native = subprocess.run([GLUEUP, "plan", job, "--shop", shop, "--calendar", "-", "--start", "2027-03-06 9:00"],
                                check=True, capture_output=True).stdout
        page_files.calendar(page, native, folder, check)
        page_files.turned(page, check)
        check(not page.complaints, f"files: the console says {page.complaints[:3]}")


def timed(browser):
    with browser.page(**DESK) as page:
        began = time.monotonic()
        page.open(PAGE)
        until(page, READY)
        ready = time.monotonic() - began
        until(page, PLANNED)
        planned = time.monotonic() - began
        page.call("Emulation.setCPUThrottlingRate", rate=4)
        began = time.monotonic()
        typed(page, "glueup-job-file-box-outside", "15")
        slow = time.monotonic() - began
    print(f"ready in {ready * 1000:.0f} ms, a chest planned {planned * 1000:.0f} ms after opening; "
          f"slowed four times, replanned in {slow * 1000:.0f} ms")


def in_firefox():
    """Another browser's engine: the same plan, and a picture of it."""
    if firefox.FIREFOX is None:
        print("no firefox: not opened there")
        return
    with tempfile.TemporaryDirectory() as folder, firefox.Firefox() as page:
        opened(page)
        shows_the_chest(page, folder, "firefox")
        before = text_of(page, "job")
        typed(page, "glueup-job-file-box-outside", "16")
        check(text_of(page, "job") == before.replace("[14, 9, 8]", "[16, 9, 8]"), "firefox: text and form follow each other")
        seen = os.path.join(PICTURES or folder, "firefox.png")
        page.picture(seen)
        check(os.path.getsize(seen) > 20_000, "firefox: it can be seen")


def main():
    if chromium.CHROMIUM is None or not os.path.exists(PAGE):
        print("no chromium, or no page: sh cli/page/build.sh")
        return 77
    with chromium.Chromium() as browser:
        with tempfile.TemporaryDirectory() as folder:
            browser.folder = folder
            axe = axe_source(browser)
            first_visit(browser, DESK, "desk", axe)
            first_visit(browser, PHONE, "phone", axe)
            forms(browser)
            tables_added(browser)
            meshes(browser)
            kept(browser)
            hostile(browser)
            files(browser)
            faults(browser)
            page_phone.on_a_phone(browser, PHONE, opened, until, check)
            keyboard(browser, DESK)
            keyboard(browser, PHONE)
            with tempfile.TemporaryDirectory() as served:
                page_served.offline(browser, PHONE, PAGE, served, until, PLANNED, check)
            timed(browser)
    in_firefox()
    for failure in failures:
        print("FAILED:", failure)
    print(f"{checks} checks, {len(failures)} failures")
    return 1 if failures else 0


sys.exit(main())
