"""The clock of a bench sheet, driven as a hand would: through a whole plan, over the limits, through a
reload and a locked screen, with time that moves when the driver says so."""
import json
import re

# Runs before the page's own script, and anew after a reload. Time is kept with the tab; what would be
# heard, felt or kept awake is written down.
TIME = "Date.now = () => Number(sessionStorage.getItem('now') || 1e12);"
STAND_INS = TIME + r"""
(() => {
  const at = Date.now;
  window.pass = (seconds) => {
    sessionStorage.setItem('now', at() + seconds * 1000);
    document.dispatchEvent(new Event('visibilitychange'));
  };
  window.done = { buzz: [], tones: 0, said: [], wakes: 0, sleeps: 0 };
  Object.defineProperty(navigator, 'vibrate', { value: (pattern) => done.buzz.push(pattern.length) });
  window.AudioContext = class {
    constructor() { this.currentTime = 0; this.state = 'running'; }
    createOscillator() { done.tones += 1; return { frequency: {}, connect() {}, start() {}, stop() {} }; }
  };
  const local = { name: 'here', lang: 'en-US', localService: true };
  const far = { name: 'far', lang: 'en-US', localService: false };
  window.voices = [far, local];
  window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
  Object.defineProperty(window, 'speechSynthesis', { value: {
    getVoices: () => window.voices, addEventListener() {}, cancel() {},
    speak: (words) => done.said.push([words.text, words.voice.name]) } });
  Object.defineProperty(navigator, 'wakeLock', { value: { request: async () => {
    done.wakes += 1;
    window.lock = { released: false, release() { this.released = true; done.sleeps += 1; } };
    return window.lock;
  } } });
})();
"""

LOOK = r"""
(() => {
  const text = (selector) => { const e = document.querySelector(selector); return e ? e.textContent : ''; };
  const box = (selector) => { const r = document.querySelector(selector).getBoundingClientRect(); return [r.top, r.bottom]; };
  const left = document.querySelector('#clock .left');
  return { now: text('.now'), next: text('.next'), left: left.textContent, urgency: left.className.slice(5),
           shape: getComputedStyle(left).outlineStyle, apart: text('.in-sight p:last-child'),
           spoken: text('[aria-live]'), clock: text('#clock'), log: text('#clock pre'),
           go: text('button.go'), goes: !document.querySelector('button.go').disabled,
           current: document.querySelectorAll('[aria-current]').length, place: box('#clock .left'),
           high: innerHeight, done: window.done };
})()
"""

STAGES = r"""
[...document.querySelectorAll('section.stage')].map((section) => ({
  clampTime: Number(section.dataset.clampTime),
  steps: [...section.querySelectorAll('.steps li')].map((li) => ({ n: Number(li.dataset.n),
    last: Number(li.dataset.last), start: Number(li.dataset.start), end: Number(li.dataset.end), who: li.dataset.who,
    text: li.querySelector('.say').textContent })),
  joints: [...section.querySelectorAll('tr[data-joint]')].map((tr) => ({
    spread: Number(tr.dataset.spread), open: Number(tr.dataset.open) })) }))
"""


# A scroll may glide: until two looks, apart, agree.
SETTLED = """
new Promise((done) => {
  let last = -1;
  const look = () => (scrollY === last ? done() : (last = scrollY, setTimeout(look, 150)));
  look();
})
"""


def moments(steps):
    """The steps by what is done at one time: alone as long as several are at it, else one by one."""
    out = []
    for step in steps:
        alone = out and len({s["who"] for s in out[-1]}) > 1 and step["who"] in {s["who"] for s in out[-1]}
        if out and (alone or step["start"] < max(s["end"] for s in out[-1])):
            out[-1].append(step)
        else:
            out.append([step])
    return out


class Clock:
    def __init__(self, page, path):
        self.page = page.open(path)
        self.stages = page.run(STAGES)

    def look(self):
        return self.page.run(LOOK)

    def wait(self, seconds):
        self.page.run(f"pass({seconds})")
        return self.look()

    def press(self, label):
        found = self.page.run(
            "(() => { const b = [...document.querySelectorAll('button')].find((b) => b.textContent === "
            f"{label!r}); if (!b || b.disabled) return false; b.click(); return true; }})()")
        if not found:
            raise RuntimeError(f"no button {label!r} to press")
        return self.look()

    def walk(self, stage, check, name, each=lambda index: None):
        """A whole stage at the plan's own pace; how often a joint was over its limit."""
        all_steps, over = moments(stage["steps"]), 0
        seen = self.press("Start")
        for i, steps in enumerate(all_steps):
            for step in steps:
                check(step["text"] in seen["now"], f"{name}: step {step['n']} is under way")
            check(seen["current"] == len(steps), f"{name}: what is under way is marked")
            for step in all_steps[i + 1] if i + 1 < len(all_steps) else []:
                check(step["text"] in seen["next"], f"{name}: the next step is told")
            each(i)
            seen = self.wait(max(s["end"] for s in steps) - steps[0]["start"])
            over += seen["urgency"] == "over"
            seen = self.press("Next step" if i + 1 < len(all_steps) else "All tight")
        return over


def at_the_limits(clock, check):
    """Dawdling over the first spread: hurry at three quarters of its open time, over at all of it."""
    seen = clock.look()
    check("Pull apart by" in seen["apart"], "the moment shows before the start")
    check("Not ticked" in seen["now"], "what is not ticked is counted before the start")
    clock.press("Start")
    clock.page.run(SETTLED)
    seen = clock.look()
    check(0 <= seen["place"][0] and seen["place"][1] <= seen["high"], "Start brings the time into sight")
    clock.page.run("scrollTo(0, document.body.scrollHeight / 2)")
    clock.page.run(SETTLED)
    seen = clock.look()
    check(0 <= seen["place"][0] and seen["place"][1] <= seen["high"], "and it stays in sight among the pictures")
    check(seen["done"]["wakes"] == 1, "the screen is kept awake")
    first = clock.stages[0]["steps"][0]
    opens = min(j["open"] for j in clock.stages[0]["joints"] if first["n"] <= j["spread"] <= first["last"])
    seen = clock.wait(opens * 0.5)
    check(seen["urgency"] == "" and seen["done"]["tones"] == 0, "half the time gone is calm")
    calm = seen["shape"]
    seen = clock.wait(opens * 0.26)
    check(seen["urgency"] == "soon" and "HURRY" in seen["left"], "three quarters is urgent by word")
    check(seen["shape"] not in (calm, ""), "and by shape")
    check(seen["done"]["tones"] == 1 and seen["done"]["buzz"] == [1], "and by sound and vibration")
    check("left" in seen["spoken"], "and is announced")
    soon = seen["shape"]
    seen = clock.wait(opens * 0.26)
    check(seen["urgency"] == "over" and seen["left"].startswith("OVER"), "all of it is over by word")
    check(seen["shape"] not in (calm, soon), "and by another shape")
    check(seen["done"]["tones"] == 4 and seen["done"]["buzz"] == [1, 5], "and by more sound")
    check("It had to be pulled apart by" in seen["apart"], "the last moment is past, and still shown")
    seen = clock.press("Called away")
    check("glue does not pause" in seen["clock"], "being called away does not stop the clock")
    check("called away" in seen["log"], "and is noted")
    undone(clock, check)


BEGAN = "(Object.entries(localStorage).find(([k]) => k.startsWith('glueup:')) || [])[1]"


def undone(clock, check):
    """A slip is taken back without a trace; looking back moves no time; two taps in one tick are one."""
    began = lambda: json.loads(clock.page.run(BEGAN))["began"]["0"]
    first = began()
    clock.wait(1)
    clock.page.run("document.querySelector('#clock .now').click()")  # anywhere is Next
    check(len(began()) == 2 and began()[0] == first[0], "the next step begins, the first stays where it was")
    clock.page.run("document.querySelector('button.go').click()")
    check(len(began()) == 2, "a second tap in the same tick is a slip")
    clock.press("Undo")
    check(began() == first, "undone within three seconds, all times are as they were")
    clock.wait(1)
    clock.press("Next step")
    clock.wait(4)
    kept = began()
    seen = clock.press("Back")
    check("Looking back" in seen["clock"] and clock.stages[0]["steps"][0]["text"] in seen["now"],
          "later, back only looks")
    seen = clock.press("Forward")
    check(began() == kept and clock.stages[0]["steps"][1]["text"] in seen["now"], "and forth: times are kept")


def through_a_plan(clock, check):
    """Every step at its time, with a reload and a locked screen on the way. The log of all of it, and the
    one so far when somebody was called away in the middle."""
    page, halfway = clock.page, []
    page.run("document.querySelector('input[data-key]').click()")
    page.run("document.querySelector('label.tool input').click()")

    def interrupted(index):
        if index != 3:
            return
        before = clock.look()
        page.run("scrollTo(0, 0)")
        page.reload()
        page.run(SETTLED)
        after = clock.look()
        check(after["now"] == before["now"], "a reload finds the step again")
        check(0 <= after["place"][0] and after["place"][1] <= after["high"], "with the time in sight")
        check(after["left"] == before["left"], "and its clock")
        check(page.run("document.querySelector('input[data-key]').checked"), "and the ticks")
        check(after["done"]["wakes"] == 1, "and keeps the screen awake again")
        # The system takes the lock away when the screen is put out.
        page.run("lock.released = true")
        page.screen_off_and_on()
        seen = clock.wait(0)
        check(seen["left"] == before["left"], "a locked screen loses no time and adds none")
        check(seen["done"]["wakes"] == 2, "the screen is asked for anew")
        halfway.append(clock.press("Called away")["log"])

    over = clock.walk(clock.stages[0], check, "chest", interrupted)
    seen = clock.look()
    page.run(SETTLED)
    top, bottom = page.run("(() => { const r = document.querySelector('.now').getBoundingClientRect();"
                           "return [r.top, r.bottom]; })()")
    check(0 <= top and bottom <= seen["high"], "how long to wait comes into sight")
    check(over == 0, "at the plan's own pace no joint runs over")
    check("All tight" in seen["now"], "the end is told")
    check(seen["done"]["sleeps"] == 1, "and the screen may sleep")
    said = seen["done"]["said"]
    check(len(said) > 5 and {voice for _, voice in said} == {"here"}, "steps are said, by the voice on the device")
    steps = clock.stages[0]["steps"]
    lines = [line.split("\t") for line in seen["log"].split("\n")]
    check([int(f[0]) for f in lines] == list(range(steps[0]["n"], steps[-1]["last"] + 1)),
          "the log has a line a step of the plan")
    check(all(len(f) == 6 for f in lines), "of six fields")
    check(all(abs(float(f[1]) - float(f[3])) <= 1 and abs(float(f[2]) - float(f[4])) <= 1 for f in lines),
          "real times as planned")
    page.run("window.voices = window.voices.slice(0, 1)")
    page.run("document.querySelector('label.tool input').click();document.querySelector('label.tool input').click()")
    check(len(clock.look()["done"]["said"]) == len(said), "a voice from far away is never used")
    return seen["log"], *halfway


LANES = "[...document.querySelectorAll('.lane')].map((e) => [e.textContent, e.className, e.getBoundingClientRect().top])"


def in_two_lanes(clock, check):
    """Two people side by side, each ends their own with a tap; when both are through, it goes on. The log."""
    page, steps = clock.page, clock.stages[0]["steps"]
    first = moments(steps)[0]
    check({s["who"] for s in first} == {"1", "2"}, "two work at the same time")
    clock.press("Start")
    lanes = page.run(LANES)
    check(len(lanes) == 2 and lanes[0][2] < lanes[1][2], "a lane each, on a phone one over the other")
    page.call("Emulation.setDeviceMetricsOverride", width=844, height=600, deviceScaleFactor=2, mobile=True)
    check(len({top for _, _, top in page.run(LANES)}) == 1, "and where it is wide side by side")
    page.call("Emulation.setDeviceMetricsOverride", width=390, height=844, deviceScaleFactor=2, mobile=True)
    for who, step, (text, *_) in zip("12", first, lanes):
        check(text.startswith(f"person {who}") and step["text"] in text, f"person {who} has their own step")
    check(page.run("[...document.querySelectorAll('.lane')].every((e) => e.querySelectorAll('svg.step').length === 1)"),
          "with its picture")
    tap = "document.querySelectorAll('.lane')[{}].click()"
    clock.wait(6)
    page.run(tap.format(0))
    page.run(tap.format(0))
    clock.wait(1)
    check("through" in page.run(LANES)[0][1] and "through" not in page.run(LANES)[1][1], "one is through, and waits")
    clock.press("Undo")
    check("through" not in page.run(LANES)[0][1], "which is taken back")
    clock.wait(1)
    page.run(tap.format(0))
    clock.wait(4)
    page.run(tap.format(1))
    seen = clock.look()
    check(page.run(LANES) == [] and moments(steps)[1][0]["text"] in seen["now"], "both are through: it goes on")
    lines = [line.split("\t") for line in seen["log"].split("\n")]
    check([line[3:5] for line in lines[:2]] == [["0", "8"], ["0", "12"]], f"each at their own time: {lines[:2]}")
    for _ in moments(steps)[1:]:
        clock.wait(5)
        page.run("document.querySelector('button.go').click()")
    return clock.look()["log"]


WET = r"""
(() => {
  const bars = document.querySelector('.bars'), r = bars.getBoundingClientRect();
  const picture = document.querySelector('.picture svg.step').getBoundingClientRect();
  const bar = document.querySelector('.bar-buttons').getBoundingClientRect();
  return { rows: [...bars.querySelectorAll('.wet')].map((row) => [row.querySelector('.who').textContent,
             row.querySelector('.rest').textContent, parseFloat(getComputedStyle(row).fontSize),
             row.querySelector('.track').getBoundingClientRect().width]),
           inside: [...bars.querySelectorAll('span')].every((e) => { const b = e.getBoundingClientRect();
             return b.left >= r.left - 1 && b.right <= r.right + 1; }),
           picture: [picture.top, picture.height], bar: bar.top,
           least: [...document.querySelectorAll('.picture .least')].map((e) => e.dataset.part).sort(),
           key: document.querySelector('.least-key').textContent };
})()
"""


def many_wet(clock, check, least):
    """However many joints are wet, each has a bar with its limit, and the picture stays in sight."""
    page, stage, most = clock.page, clock.stages[0], 0
    all_steps = moments(stage["steps"])
    where = lambda n: next(i for i, steps in enumerate(all_steps) for s in steps if s["n"] <= n <= s["last"])
    joints = page.run("[...document.querySelector('section.stage').querySelectorAll('tr[data-joint]')].map((tr) => ({"
                      "parts: tr.dataset.parts.split(' ').sort(), letters: tr.dataset.letters, name: tr.dataset.joint,"
                      "spread: Number(tr.dataset.spread), join: Number(tr.dataset.join), snug: Number(tr.dataset.snug) }))")
    clock.press("Start")
    for at in range(len(all_steps)):
        wet = [j for j in joints if where(j["spread"]) <= at
               and not (where(j["join"]) < at and (j["snug"] == 0 or where(j["snug"]) < at))]
        seen = page.run(WET)
        names = [j["letters" if len(wet) > 6 else "name"] for j in wet]
        check(sorted(row[0] for row in seen["rows"]) == sorted(names),
              f"step {at + 1}: a bar for each of {len(wet)} wet joints, {len(seen['rows'])}")
        check(all(re.fullmatch(r"(over )?\d+:\d\d(?: of |/)\d+:\d\d", row[1]) and row[2] >= 12 and row[3] > 40
                  for row in seen["rows"]) and seen["inside"], f"step {at + 1}: with its limit, to be read: {seen['rows'][:2]}")
        check(seen["picture"][0] + min(seen["picture"][1], 140) < seen["bar"], f"step {at + 1}: the picture is in sight")
        told = [j for j in wet if j["parts"] == seen["least"] and j["letters"] in seen["key"]]
        # Where the picture has not all parts yet it can't outline them.
        check(not wet or told or any(j["letters"] in seen["key"] and set(seen["least"]) < set(j["parts"]) for j in wet),
              f"step {at + 1}: the joint whose time runs out first is outlined: {seen['least']} {seen['key']}")
        most = max(most, len(wet))
        clock.wait(2)
        clock.press("Next step" if at + 1 < len(all_steps) else "All tight")
    check(most >= least, f"{most} joints wet at once")


def stage_by_stage(clock, check):
    """From one stage to the next; the log of all of them."""
    check(len(clock.stages) > 1, "several stages")
    for which, stage in enumerate(clock.stages):
        over = clock.walk(stage, check, f"stage {which + 1}")
        check(over == 0, f"stage {which + 1}: at the plan's own pace no joint runs over")
        seen = clock.look()
        check("off in" in seen["now"] and "squeeze-out in 30:00" in seen["now"], "the wait is told")
        heard = seen["done"]["tones"]
        seen = clock.wait(30 * 60)
        check("squeeze-out now" in seen["now"] and seen["done"]["tones"] == heard + 2, "squeeze-out is called")
        seen = clock.wait(stage["clampTime"] - 30 * 60)
        check("may come off" in seen["now"] and seen["done"]["tones"] == heard + 4, "and the end of the wait")
        check("may come off" in seen["spoken"], "for a listener too")
        if which + 1 < len(clock.stages):
            clock.press(f"On to stage {which + 2}")
    seen = clock.look()
    check(seen["go"] == "Done" and not seen["goes"], "nothing is left")
    numbers = [int(line.split("\t")[0]) for line in seen["log"].split("\n")]
    check(numbers == list(range(1, clock.stages[-1]["steps"][-1]["last"] + 1)),
          "the log has every step of every stage")
    return seen["log"]


def over_after_a_reload(clock, check):
    """With the browser's own voice, buzz and lock: over the limit when the page comes back, and nobody
    has touched it yet. Nothing that the browser would refuse is tried."""
    page = clock.page
    clock.press("Start")
    page.run("sessionStorage.setItem('now', Date.now() + 1e7)")
    page.reload()
    seen = clock.look()
    check(seen["urgency"] == "over", "over at once after a reload")
    check(seen["left"].startswith("OVER"), "and said")


def by_keyboard(clock, check):
    """Start, next and back without a finger on the glass."""
    page = clock.page
    page.run("document.querySelector('button.go').focus()")
    page.press("Enter")
    check("1." in clock.look()["now"], "Enter starts the clock")
    clock.wait(1)
    page.press(" ")
    check(clock.stages[0]["steps"][1]["text"] in clock.look()["now"], "the space bar is the next step")
    outlined = page.run("getComputedStyle(document.activeElement).outlineStyle")
    check(outlined != "none", "what the keyboard is on is outlined")
    reached = set()
    clock.wait(5)
    page.run("document.activeElement.blur()")
    for _ in range(60):
        page.press("Tab")
        reached.add(page.run("document.activeElement.textContent.slice(0, 20)"))
    check({"Back", "Next step", "Called away"} <= reached, "every button is reached by Tab")


def in_their_turn(clock, check):
    """Where clamps are tightened in an order, the one whose turn it is is dark in the picture."""
    page, steps = clock.page, clock.stages[0]["steps"]
    clock.press("Start")
    for step in steps[1:]:
        clock.wait(5)
        if "in this order" in clock.press("Next step")["now"]:
            break
    dark = "[...document.querySelectorAll('.picture .number.turn')].map((e) => e.dataset.no)"
    order = page.run("[...document.querySelectorAll('.tick')].map((e) => e.textContent)")
    plan = next(s["clamps"] for s in page.run("[...document.querySelectorAll('.steps li')].map((li) =>"
                "({ n: Number(li.dataset.n), clamps: li.dataset.clamps.split(' ') }))") if s["n"] == step["n"])
    check(len(order) > 2 and order == plan, f"all of them to be ticked, in their order: {order}")
    for i, n in enumerate(order):
        check(page.run(dark) == [n], f"it is the turn of {n}: {page.run(dark)}")
        page.run(f"document.querySelectorAll('.tick')[{i}].click()")
    check(page.run(dark) == [], "and then all are tight")


def held(clock, check):
    """A finger starts the glue's clock only by staying on it; a rehearsal starts at a tap."""
    page = clock.page
    x, y = page.run("(() => { const r = document.querySelector('button.go').getBoundingClientRect();"
                    "return [r.left + r.width / 2, r.top + r.height / 2]; })()")

    def mouse(kind):
        page.call("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)

    mouse("mousePressed")
    mouse("mouseReleased")
    check("Hold Start" in clock.look()["now"], "a tap does not start it")
    mouse("mousePressed")
    page.run("new Promise((done) => setTimeout(done, 1300))")
    clock.wait(2)
    mouse("mouseReleased")
    check(clock.look()["now"].startswith("1."), "a second's hold does, and its end is no step of its own")
    check(page.run("document.querySelector('#clock .picture svg.step') !== null"), "with its picture")


def not_to_be_started(clock, check):
    """Where the plan says not to open the glue there is nothing to press but a rehearsal."""
    labels = clock.page.run("[...document.querySelectorAll('button')].filter((b) => b.getClientRects().length)"
                            ".map((b) => b.textContent)")
    check("Start" not in labels and "Start rehearsal" in labels, f"only a rehearsal: {labels}")
    seen = clock.press("Start rehearsal")
    check("REHEARSAL" in seen["clock"], "and it says so")
    clock.wait(10)
    clock.press("Start over")
    check("Start rehearsal" in clock.look()["go"], "which starts over at one tap")
