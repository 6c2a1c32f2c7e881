"""The page by the keyboard alone: Tab to each thing, keys to use it, and always seen where one is."""
import json
import os
import time

# The element that has the keyboard, whether it is in sight, and whether it is marked.
LOOK = """(() => {
  const active = document.activeElement;
  const seen = active.closest('label.button') || active, box = seen.getBoundingClientRect(), style = getComputedStyle(seen);
  return { tag: active.tagName, name: active.id || active.textContent.slice(0, 40),
    marked: active.tagName === 'IFRAME' || (style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2),
    seen: box.width > 8 && box.height > 8 && box.bottom > 0 && box.top < innerHeight && Number(style.opacity) > 0.5 };
})()"""
ACTIVE = "document.activeElement"


class Keys:
    def __init__(self, page, until, check):
        self.page, self._until, self._check = page, until, check
        self.lost = set()

    def to(self, selector, shift=False, most=400):
        """Tab until there. What is passed has to be in sight and marked."""
        for _ in range(most):
            self.page.press("Tab", shift)
            look = self.page.run(LOOK)
            if look["tag"] not in ("BODY", "IFRAME") and not (look["marked"] and look["seen"]):
                self.lost.add(json.dumps(look))
            if self.page.run(f"{ACTIVE}.matches({json.dumps(selector)})"):
                return
        self._check(False, f"keys: {selector} cannot be reached; now at {self.page.run(LOOK)}")

    def press(self, *keys):
        for key in keys:
            self.page.press(key)

    def becomes(self, condition, what):
        self._check(self._until(self.page, condition) is not None, f"keys: {what}")


def value(name):
    return f"document.getElementById('{name}').value"


def opens_and_edits(keys, root, planned, check):
    page = keys.page
    page.call("Page.setInterceptFileChooserDialog", enabled=True)
    keys.to("#open")
    keys.press("Enter")
    time.sleep(0.2)
    page.run("0")
    check(len(page.choosers) == 1, "keys: Enter on Open asks for a file")
    page.call("DOM.setFileInputFiles", files=[os.path.abspath(os.path.join(root, "fixtures/comb_box/job.toml"))],
              backendNodeId=page.choosers[0])
    keys.becomes(f"{value('job-names')} === 'job' && {planned}", "what was opened is planned")
    keys.to("nav [data-to=work]", shift=True)
    keys.press("Enter")
    keys.to("#job-names", most=1)
    keys.to("#glueup-job-file-title")
    keys.press(*"By keys", "Enter")
    keys.becomes("/By keys/.test(document.getElementById('verdict').textContent)", "what was typed is planned")
    check('"By keys"' in page.run(value("job-text")), "keys: and stands in the text")


def adds_and_removes(keys, check):
    page, before = keys.page, keys.page.run(value("shop-text"))
    keys.to("nav [data-to=shop]", shift=True)
    keys.press("Enter")
    keys.to("#shop-form .another")
    keys.press("Enter")
    check(page.run(f"/-\\d+-/.test({ACTIVE}.id)"), f"keys: the new table's first field has the keyboard: {page.run(LOOK)}")
    keys.to("#shop-form .remove")
    keys.press(" ")
    check(page.run(value("shop-text")) == before, "keys: and it is taken out again")
    check(page.run(f"{ACTIVE}.closest('#shop-form') !== null"), f"keys: the keyboard stays in the form: {page.run(LOOK)}")


def looks_and_saves(keys, folder, planned, check):
    page = keys.page
    keys.becomes(planned, "the plan is there")
    keys.to("nav [data-to=plan]", shift=True)
    keys.press("Enter")
    keys.to("#sheet")
    sheet = next(f for f in page.framed() if f.run("document.getElementById('turn') !== null"))
    for _ in range(40):
        if sheet.run("document.activeElement.matches('#turn button')"):
            break
        page.press("Tab")
    keys.press("Enter")
    check(sheet.run("document.querySelector('#turn canvas, #turn p') !== null"), "keys: the sheet's picture is to be turned")
    page.saved(folder)
    keys.to("#save-sheet")
    keys.press("Enter")
    keys.to("#views", shift=True)
    keys.press("ArrowDown")
    keys.becomes("/By keys/.test(document.getElementById('view').textContent)", "the plan as text")
    until = time.monotonic() + 20
    while not os.path.exists(os.path.join(folder, "job.html")) and time.monotonic() < until:
        time.sleep(0.1)
    check(os.path.exists(os.path.join(folder, "job.html")), "keys: the sheet is saved")
    keys.to("nav [data-to=about]", shift=True)
    keys.press("Enter")
    keys.to("#keep", most=2)
    keys.press(" ")
    check(page.run("!document.getElementById('keep').checked"), "keys: a box is unticked")


def all_by_keys(page, root, folder, until, planned, check):
    """Opens a file, edits it, adds and takes out a table, passes the sheet, saves it, switches views and panes."""
    keys = Keys(page, until, check)
    opens_and_edits(keys, root, planned, check)
    adds_and_removes(keys, check)
    looks_and_saves(keys, folder, planned, check)
    check(not keys.lost, f"keys: where one is doesn't show: {sorted(keys.lost)[:4]}")
    check(not page.complaints, f"keys: the console says {page.complaints[:3]}")
