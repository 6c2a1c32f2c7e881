#!/usr/bin/python3
"""The bench sheet in a real browser: its clock through a whole plan on a clock of our own, a reload
midway, print at both paper sizes, phone and desk, and no word of complaint in the console.

usage: bench_sheet_test.py GLUEUP SOURCE_DIR     exit 77: no chromium here, nothing tried
"""
import glob
import html
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile

GLUEUP, ROOT = os.path.abspath(sys.argv[1]), sys.argv[2]
SHOP = os.path.join(ROOT, "fixtures/shops/enough.toml")
CHROMIUM = shutil.which("chromium")
failures = []
checks = 0

# Time stands still until the driver moves it.
CLOCK = "<script>window.now=1e12;Date.now=()=>window.now;</script>"

HELPERS = r"""
const seen = [];
const check = (ok, what) => seen.push([Boolean(ok), String(what)]);
const $ = (selector) => document.querySelector(selector);
const pass = (seconds) => { window.now += seconds * 1000; document.dispatchEvent(new Event('visibilitychange')); };
const press = (label) => {
  const button = [...document.querySelectorAll('button')].find((b) => b.textContent === label);
  check(button && !button.disabled, `button ${label} is there`);
  if (button) button.click();
};
const reload = () => {
  $('#clock').replaceChildren();
  $('.bar-buttons').remove();
  const own = [...document.scripts].find((s) => s.textContent.includes('pullApartBy'));
  new Function(own.textContent)();
};
const tell = () => document.body.replaceChildren(Object.assign(document.createElement('pre'),
  { id: 'results', textContent: JSON.stringify(seen) }));
"""

DRIVER = r"""
try {
  const section = $('section.stage');
  const steps = [...section.querySelectorAll('.steps li')];
  const say = (li) => li.querySelector('.say').textContent;
  const left = () => $('#clock .left');
  check(!$('#clock').hidden, 'the clock shows');
  check($('#clock').textContent.includes('Last moment to pull apart'), 'the last moment shows before the start');

  const box = $('input[data-key]');
  box.click();
  press('Start');
  check($('#clock .now').textContent.includes(say(steps[0])), 'the first step is said');
  check($('#clock .next').textContent.includes(say(steps[1])), 'and the next one');

  // Dawdling over the first spread: hurry at three quarters of its open time, over at all of it.
  const first = Number(steps[0].dataset.n), last = Number(steps[0].dataset.last);
  const wet = [...section.querySelectorAll('tr[data-joint]')]
    .filter((tr) => first <= tr.dataset.spread && tr.dataset.spread <= last);
  const open = Math.min(...wet.map((tr) => Number(tr.dataset.open)));
  pass(open * 0.5);
  check(left().className === 'left ', 'half the time gone is calm');
  pass(open * 0.26);
  check(left().classList.contains('soon') && left().textContent.includes('HURRY'), 'three quarters is urgent');
  check($('[aria-live]').textContent.includes('left'), 'and is announced');
  pass(open * 0.26);
  check(left().classList.contains('over') && left().textContent.startsWith('OVER'), 'all of it is over');
  check($('#clock').textContent.includes('The last moment to pull apart was'), 'the last moment is past');
  press('Called away');
  check($('#clock').textContent.includes('glue does not pause'), 'being called away does not stop the clock');
  check($('#clock pre').textContent.includes('called away'), 'and is noted');

  // Back to the start, and through the plan at its own pace.
  press('Back');
  check($('#clock .now').textContent.includes('Press Start'), 'back takes the first step back');
  press('Start');
  let over = 0;
  steps.forEach((li, i) => {
    check($('#clock .now').textContent.includes(say(li)), `step ${li.dataset.n} is under way`);
    check(section.querySelectorAll('[aria-current]').length === 1, 'one step is marked');
    if (i === 3) {
      const before = $('#clock .planned').textContent;
      reload();
      check($('#clock .now').textContent.includes(say(li)), 'a reload finds the step again');
      check($('#clock .planned').textContent === before, 'and its clock');
      check($('input[data-key]').checked, 'and the ticks');
    }
    pass(Number(li.dataset.end) - Number(li.dataset.start));
    over += left().classList.contains('over') ? 1 : 0;
    press(i + 1 < steps.length ? 'Next step' : 'All tight');
  });
  check(over === 0, 'at the plan\'s own pace no joint runs over');
  check($('#clock .now').textContent.includes('All tight'), 'the end is told');
  const log = $('#clock pre').textContent.split('\n').map((line) => line.split('\t'));
  const planned = steps.reduce((n, li) => n + 1 + Number(li.dataset.last) - Number(li.dataset.n), 0);
  check(log.length === planned, 'the log has a line a step of the plan');
  check(log.every((f, i) => Number(f[0]) === i + Number(steps[0].dataset.n)), 'numbered as in the plan');
  check(log.every((fields) => fields.length === 6), 'of six fields');
  check(log.every((f) => Math.abs(f[1] - f[3]) <= 1 && Math.abs(f[2] - f[4]) <= 1), 'real times as planned');

  // For those who listen, and those with narrow screens.
  check(document.documentElement.lang.startsWith('en'), 'the language is told');
  check([...document.querySelectorAll('svg[role=img]')].every((s) => s.querySelector('title')), 'each picture has a title');
  check([...document.querySelectorAll('input, select')].every((i) => i.closest('label')), 'each input has a label');
  check([...document.querySelectorAll('th')].every((th) => th.scope), 'each table head says what it heads');
  check(document.querySelectorAll('h1').length === 1, 'one main heading');
  const small = [...document.querySelectorAll('.bar-buttons button')].filter((b) => b.offsetHeight < 64);
  check(small.length === 0, 'buttons are big enough for a gluey finger');
  check(document.documentElement.scrollWidth <= window.innerWidth, `nothing runs off the side (${document.documentElement.scrollWidth} in ${window.innerWidth})`);

  // Contrast of text on its ground, WCAG 2: at least 4.5.
  const light = (rgb) => rgb.match(/[\d.]+/g).slice(0, 3).map((v) => v / 255)
    .map((v) => (v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4))
    .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
  const ground = (e) => {
    for (let at = e; at; at = at.parentElement) {
      const c = getComputedStyle(at).backgroundColor;
      if (!c.endsWith(', 0)') && c !== 'transparent') return c;
    }
    return 'rgb(255, 255, 255)';
  };
  for (const e of document.querySelectorAll('p, li, dt, dd, td, th, caption, figcaption, button, h1, h2, .say, time, summary')) {
    const [a, b] = [light(getComputedStyle(e).color), light(ground(e))];
    const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    if (contrast < 4.5) check(false, `contrast ${contrast.toFixed(1)} of ${e.tagName} ${e.className}`);
  }
} catch (error) {
  check(false, `the driver stopped: ${error.stack}`);
}
tell();
"""

# From one stage to the next, and a log of all of them.
STAGES = r"""
try {
  const sections = [...document.querySelectorAll('section.stage')];
  check(sections.length > 1, 'several stages');
  let planned = 0;
  sections.forEach((section, which) => {
    const steps = [...section.querySelectorAll('.steps li')];
    press('Start');
    steps.forEach((li, i) => {
      check($('#clock .now').textContent.includes(li.querySelector('.say').textContent), `stage ${which + 1}, step ${li.dataset.n}`);
      pass(Number(li.dataset.end) - Number(li.dataset.start));
      press(i + 1 < steps.length ? 'Next step' : 'All tight');
      planned = Number(li.dataset.last);
    });
    check($('#clock .now').textContent.includes('off in'), 'the wait is told');
    pass(Number(section.dataset.clampTime));
    check($('#clock .now').textContent.includes('may come off'), 'and its end');
    if (which + 1 < sections.length) press(`On to stage ${which + 2}`);
  });
  check([...document.querySelectorAll('button')].some((b) => b.textContent === 'Done' && b.disabled), 'nothing is left');
  const numbers = $('#clock pre').textContent.split('\n').map((line) => Number(line.split('\t')[0]));
  check(numbers.length === planned && numbers.every((n, i) => n === i + 1), 'the log has every step of every stage');
} catch (error) {
  check(false, `the driver stopped: ${error.stack}`);
}
tell();
"""

# Two people, ten dadoes a side: more than one go.
SHELVES = """title = "Shelves for the honey room"
units = "in"
[carcass]
outside = [30, 10, 60]
stock = "3/4"
shelves = 8
species = "yellow_poplar"
[glue]
use = "pva_type2"
"""


def check(ok, what):
    global checks
    checks += 1
    if not ok:
        failures.append(what)


def chromium(profile, *arguments):
    return subprocess.run(
        [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
         f"--user-data-dir={profile}", *arguments],
        capture_output=True, text=True, check=False, timeout=120)


def drive(folder, name, sheet, driver, *arguments):
    """The driver's findings on a copy of the sheet with its own clock and without the policy."""
    copy = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*/>', "", sheet)
    copy = copy.replace("<script>", CLOCK + "<script>", 1).replace(
        "</body>", "<script>" + HELPERS + driver + "</script></body>")
    path = os.path.join(folder, name + ".html")
    with open(path, "w", encoding="utf-8") as file:
        file.write(copy)
    run = chromium(os.path.join(folder, "profile-" + name), *arguments, "--dump-dom", "file://" + path)
    found = re.search(r'<pre id="results">(.*?)</pre>', run.stdout, re.S)
    check(found, f"{name}: the driver answers")
    for ok, what in json.loads(html.unescape(found.group(1))) if found else []:
        check(ok, f"{name}: {what}")


if CHROMIUM is None:
    print("chromium is not installed: apt-get install chromium")
    sys.exit(77)

with tempfile.TemporaryDirectory() as folder:
    for job in sorted(glob.glob(os.path.join(ROOT, "fixtures/*/job.toml"))):
        name = os.path.basename(os.path.dirname(job))
        path = os.path.join(folder, name + "-sheet.html")
        subprocess.run([GLUEUP, "plan", job, "--shop", SHOP, "--sheet", path], check=False,
                       capture_output=True)
        with open(path, encoding="utf-8") as file:
            sheet = file.read()
        # As it is, policy and all: nothing refused, nothing fetched, no error.
        run = chromium(os.path.join(folder, "profile"), "--enable-logging=stderr", "--dump-dom",
                       "file://" + path)
        console = [line for line in run.stderr.split("\n") if "CONSOLE" in line]
        check(not console, f"{name}: the console complains: {console[:2]}")
        check("Press Start" in run.stdout, f"{name}: the policy lets our own script run")
        if name == "hive_tool_chest":
            drive(folder, "phone", sheet, DRIVER, "--window-size=360,740")
            drive(folder, "desk", sheet, DRIVER, "--window-size=1280,900")
            drive(folder, "dark", sheet, DRIVER, "--window-size=1280,900", "--blink-settings=preferredColorScheme=0")
    path, staged = os.path.join(folder, "shelves.toml"), os.path.join(folder, "shelves-sheet.html")
    with open(path, "w", encoding="utf-8") as file:
        file.write(SHELVES)
    subprocess.run([GLUEUP, "plan", path, "--shop", SHOP, "--people", "2", "--sheet", staged],
                   check=False, capture_output=True)
    with open(staged, encoding="utf-8") as file:
        drive(folder, "stages", file.read(), STAGES, "--window-size=360,740")
    chest = os.path.join(ROOT, "fixtures/hive_tool_chest/job.toml")
    for paper, size in (("a4", (595, 842)), ("letter", (612, 792))):
        path, pdf = (os.path.join(folder, f"{paper}.{kind}") for kind in ("html", "pdf"))
        subprocess.run([GLUEUP, "plan", chest, "--shop", SHOP, "--sheet", path, "--paper", paper],
                       check=False, capture_output=True)
        chromium(os.path.join(folder, "profile"), "--no-pdf-header-footer", f"--print-to-pdf={pdf}",
                 "file://" + path)
        with open(pdf, "rb") as file:
            printed = file.read()
        boxes = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", printed)
        check(boxes and all((round(float(w)), round(float(h))) == size for w, h in boxes),
              f"{paper}: printed on its own size, {boxes[:1]}")
        check(2 <= len(boxes) <= 8, f"{paper}: a few pages, {len(boxes)}")

for failure in failures:
    print("FAILED:", failure)
print(f"{checks} checks, {len(failures)} failures")
sys.exit(1 if failures else 0)
