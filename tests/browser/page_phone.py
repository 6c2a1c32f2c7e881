"""On a phone: its keyboard takes half of the screen, offers figures where figures are typed, and nothing zooms in."""
import json

VERDICT = "document.getElementById('verdict')"
KEYBOARD = 364  # pixels of 844

FIELDS = "[...document.querySelectorAll('#%s-form .field input')].filter((input) => input.checkVisibility()).map(({ id }) => id)"
# As far down as it goes: where a keyboard would lie over it.
LOW = """(() => { const field = document.getElementById(%s); field.scrollIntoView({ block: 'end' });
    const { x, y, width, height } = field.getBoundingClientRect(); return [x + width / 2, y + height / 2]; })()"""
# The field that is typed in: all of it on the screen, nothing over it.
SEEN = """((at) => { const { left, right, top, bottom } = at.getBoundingClientRect();
    return top >= 0 && bottom <= innerHeight && [[left + 4, top + 4], [right - 4, top + 4], [left + 4, bottom - 4],
      [right - 4, bottom - 4]].every(([x, y]) => document.elementFromPoint(x, y) === at); })(document.activeElement)"""
SMALL = "[...document.querySelectorAll('input, select, textarea')].filter((i) => parseFloat(getComputedStyle(i).fontSize) < 16).map(({ id }) => id)"


def sized(page, phone, height):
    page.call("Emulation.setDeviceMetricsOverride", width=phone["width"], height=height, deviceScaleFactor=2, mobile=True)


def tap(page, x, y):
    page.call("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x, "y": y}])
    page.call("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])


def keyboard_up(page, phone, until, check):
    for pane, form in (("work", "job"), ("shop", "shop")):
        page.run(f"document.querySelector('nav [data-to={pane}]').click()")
        names = page.run(FIELDS % form)
        check(len(names) >= 3, f"phone, {pane}: there are fields: {names}")
        for name in dict.fromkeys([names[0], names[len(names) // 2], names[-1]]):
            page.run("document.activeElement.blur()")
            sized(page, phone, phone["height"])
            tap(page, *page.run(LOW % json.dumps(name)))
            check(until(page, f"document.activeElement.id === {json.dumps(name)}", 5) is not None, f"phone: {name} is tapped into")
            sized(page, phone, phone["height"] - KEYBOARD)
            check(until(page, SEEN, 5) is not None, f"phone: with its keyboard up, {name} stays in sight")
            check(page.run(f"{VERDICT}.getBoundingClientRect().bottom <= innerHeight"), f"phone: {name}: so does the verdict")
    sized(page, phone, phone["height"])


def keys_offered(page, until, check):
    mode = "document.getElementById('glueup-%s').inputMode"
    check(page.run(mode % "job-file-box-outside") == "text", "phone: inches may be fractions")
    check(page.run(mode % "shop-file-clamp-0-count") == "numeric", "phone: clamps are counted with figures")
    page.run("""(() => { const u = document.getElementById('units'); u.value = 'mm'; u.dispatchEvent(new Event('change'));
        document.getElementById('job-new').click(); })()""")
    until(page, f"/Box/.test({VERDICT}.textContent)")
    for name in ("job-file-box-outside", "job-file-box-stock"):
        check(page.run(mode % name) == "decimal", f"phone: millimeters are figures: {name}: {page.run(mode % name)}")
    check(page.run(mode % "job-file-title") == "text", "phone: a title is letters")
    check(page.run(SMALL) == [], f"phone: smaller than 16 pixels, it zooms in: {page.run(SMALL)}")


def on_a_phone(browser, phone, opened, until, check):
    with browser.page(**phone) as page:
        opened(page)
        page.call("Emulation.setTouchEmulationEnabled", enabled=True)
        keyboard_up(page, phone, until, check)
        keys_offered(page, until, check)
        check(not page.complaints, f"phone: the console says {page.complaints[:3]}")
