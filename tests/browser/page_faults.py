"""What goes wrong round the page: each a sentence, nothing that was typed lost."""

VERDICT = "document.getElementById('verdict').textContent"
KEPT = "document.getElementById('kept').textContent"
TITLE = "document.getElementById('job-text').value.match(/title *= *\"(.*)\"/)[1]"

# Memory ends so many pages of 64 KiB above what the core begins with.
LITTLE_MEMORY = """(() => {
  const compile = WebAssembly.compile;
  WebAssembly.compile = (bytes) => {
    let at = 8;
    const number = () => {
      let value = 0;
      for (let shift = 0; ; shift += 7) {
        const byte = bytes[at++];
        value |= (byte & 127) << shift;
        if (byte < 128) return value;
      }
    };
    for (;;) {
      const id = bytes[at++], size = number();
      if (id === 5) break;
      at += size;
    }
    at += 2;  // one memory, with a maximum
    let most = number() + %d;
    for (; bytes[at] > 127; at += 1, most >>= 7) bytes[at] = most & 127 | 128;
    bytes[at] = most;
    return compile.call(WebAssembly, bytes);
  };
})()"""

# With `window.deadly` set, each new worker ends while it plans, and the page isn't told: so a browser ends one.
DEADLY = """(() => {
  const Living = Worker;
  window.Worker = class extends Living {
    constructor(...from) {
      super(...from);
      this.addEventListener('message', ({ data }) => data.what === 'alive' && window.deadly && super.terminate());
    }
  };
})()"""
SHEET = "document.getElementById('sheet').srcdoc.length"

DEAF = "(() => { const add = addEventListener; window.addEventListener = (name, ...more) => name === 'storage' || add(name, ...more); })()"
NAMES = "[...document.getElementById('job-names').options].map((option) => option.value)"

FILLED = """(() => {
  for (let size = 1 << 22, n = 0; size >= 1; n += 1) {
    try { localStorage.setItem('full ' + n, 'x'.repeat(size)); } catch (error) { size >>= 1; }
  }
})()"""


def memory_ends(browser, desk, page_file, until, check):
    for more, what in ((40, "planning"), (0, "anything")):
        with browser.page(first=LITTLE_MEMORY % more, **desk) as page:
            page.open(page_file)
            check(until(page, f"/memory/.test({VERDICT})", 30) is not None, f"no memory for {what} is said: {page.run(VERDICT)}")
            check(page.run("document.getElementById('work').textContent.length > 20"), f"no memory for {what}: the page stands")


def worker_ends(browser, desk, opened, typed, until, check):
    with browser.page(first=DEADLY, **desk) as page:
        opened(page)
        sheet = page.run(SHEET)
        page.run("window.deadly = true")
        typed(page, "glueup-job-file-title", "Before the end")
        check(until(page, f"/ended the planner/.test({VERDICT})", 30) is not None, f"a worker's end is said: {page.run(VERDICT)}")
        check("What you typed is safe" in page.run(VERDICT) and page.run(TITLE) == "Before the end", "what was typed stands")
        check(page.run(SHEET) == sheet, "the last plan stays")
        check(not page.run("document.getElementById('again').hidden"), "it can be planned again")
        page.run("window.deadly = false")
        typed(page, "glueup-job-file-title", "After it")
        check(until(page, f"/^GO: After it/.test({VERDICT})", 60) is not None, f"the next change is planned afresh: {page.run(VERDICT)}")
        check(not page.complaints, f"a worker's end: the console says {page.complaints[:3]}")


def stopped(browser, desk, opened, until, check):
    with browser.page(**desk) as page:
        opened(page)
        sheet = page.run(SHEET)
        page.run(f"""new Promise((done) => {{
          const title = document.getElementById('glueup-job-file-title'), stop = document.getElementById('stop');
          title.value = 'Stopped';
          title.dispatchEvent(new Event('input', {{ bubbles: true }}));
          const wait = setInterval(() => {{
            if (!stop.hidden) {{ clearInterval(wait); stop.click(); setTimeout(done, 1000); }}
          }}, 5); }})""")
        check(page.run(SHEET) == sheet and page.run(f"!/Stopped/.test({VERDICT})"), "stopped, it keeps the last plan")
        page.run("document.getElementById('again').click()")
        check(until(page, f"/^GO: Stopped/.test({VERDICT})") is not None, f"and plans again when asked: {page.run(VERDICT)}")
        page.run("(() => { const t = document.getElementById('job-text'); t.value = ''; t.dispatchEvent(new Event('input', { bubbles: true })); })()")
        told = "document.getElementById('job-mistakes').textContent"
        check(until(page, f"/no parts/.test({told})", 10) is not None and "Line 0" not in page.run(told), f"an empty job is told: {page.run(told)}")


def page_crashes(browser, desk, opened, typed, until, check):
    with browser.page(**desk) as dying:
        opened(dying)
        typed(dying, "glueup-job-file-title", "Before the crash")
        dying.crash()
        with browser.page(beside=dying, **desk) as page:
            opened(page)
            check(page.run(TITLE) == "Before the crash", f"what was typed survives a crash of the page: {page.run(TITLE)}")


def browser_too_old(browser, settings, page_file, until, check):
    for gone in ("WebAssembly", "DecompressionStream"):
        with browser.page(first=f"delete window.{gone}", **settings) as page:
            page.open(page_file)
            check(until(page, f"/can’t run the planner/.test({VERDICT})", 10) is not None, f"without {gone}: {page.run(VERDICT)}")
            check(page.run("document.body.innerText.length > 100"), f"without {gone} the page isn't blank")
    with browser.page(**settings) as page:
        page.call("Emulation.setScriptExecutionDisabled", value=True)
        page.open(page_file)
        check("runs no scripts" in page.run(VERDICT), f"without scripts: {page.run(VERDICT)}")


def two_tabs(browser, desk, opened, typed, until, check):
    with browser.page(**desk) as one, browser.page(beside=one, **desk) as other:
        opened(one)
        opened(other)
        typed(one, "glueup-job-file-title", "From one")
        check(until(other, f"{TITLE} === 'From one'", 5) is not None, "another tab follows")
        check("Another tab" in other.run(KEPT), f"and says so: {other.run(KEPT)}")
        other.run("document.getElementById('undo').click()")
        check(other.run(TITLE) == "Hive-tool chest", "undo brings back what stood there")
        for page in (one, other):
            check(not page.complaints, f"two tabs: the console says {page.complaints[:3]}")


def tab_asleep(browser, desk, opened, typed, until, check):
    """It hears nothing of the other, and both change the same job."""
    with browser.page(first=DEAF, **desk) as asleep, browser.page(beside=asleep, **desk) as other:
        opened(asleep)
        opened(other)
        other.run("document.getElementById('job-new').click()")
        other.run("document.getElementById('undo').click()")
        typed(other, "glueup-job-file-title", "Theirs")
        typed(asleep, "glueup-job-file-title", "Mine")
        check("kept as hive-tool chest, other tab" in asleep.run(KEPT), f"what both changed is said: {asleep.run(KEPT)}")
        check(until(other, f"{TITLE} === 'Mine'", 5) is not None, "the later text stands in both")
        for page in (asleep, other):
            check(page.run(NAMES) == ["hive-tool chest", "hive-tool chest, other tab"], f"the earlier lies beside: {page.run(NAMES)}")
            page.run("(() => { const n = document.getElementById('job-names'); n.selectedIndex = 1; n.dispatchEvent(new Event('change')); })()")
            check(page.run(TITLE) == "Theirs", f"as it was: {page.run(TITLE)}")
            check(not page.complaints, f"a tab asleep: the console says {page.complaints[:3]}")


def storage_full(browser, desk, opened, typed, until, check):
    with browser.page(**desk) as page:
        opened(page)
        typed(page, "glueup-job-file-title", "Kept")
        page.run(FILLED)
        long = "A long title " * 30
        typed(page, "glueup-job-file-title", long)
        check("storage is full" in page.run(KEPT), f"a full storage is said: {page.run(KEPT)}")
        check(page.run(TITLE) == long.strip(), "and what was typed stands")
        page.run("Object.keys(localStorage).filter((key) => key.startsWith('full')).forEach((key) => localStorage.removeItem(key))")
        typed(page, "glueup-job-file-title", long + "more")
        check(page.run(KEPT) == "", "with room again, it is kept again")
        page.reload()
        check(until(page, f"document.body.dataset.ready && {TITLE}.endsWith('more')", 20) is not None, "and is there after a reload")
        check(not page.complaints, f"full storage: the console says {page.complaints[:3]}")
