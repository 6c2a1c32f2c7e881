"""The bench sheet on paper, and with letters twice as large."""
import collections
import html
import re
import shutil
import subprocess
import zlib

from browser.clock import SETTLED
from browser.sheets import OVERFLOW, sides_told

SIZES = {"a4": (595, 842), "letter": (612, 792)}  # points
INSIDE_PX = {"a4": 703, "letter": 725}  # between margins of 12 mm
MOST_PAGES = {"hive_tool_chest": 5, "for two": 5, "benchtop_panel": 4, "shelves": 12}  # strips and all; one to spare

# What is on paper, from the page as it is styled for print.
ON_PAPER = r"""
(() => {
  const shown = (e) => e.getClientRects().length > 0;
  const mm = (svg) => svg.getBoundingClientRect().width * 25.4 / 96;
  return {
    boxes: [...document.querySelectorAll('.boxes input')].filter(shown).length,
    filled: [...document.querySelectorAll('.boxes input')].filter((i) => getComputedStyle(i).appearance !== 'none').length,
    steps: [...document.querySelectorAll('.steps li')].filter(shown).length,
    clock: shown(document.querySelector('#clock')) || shown(document.querySelector('.bar-buttons')),
    ground: getComputedStyle(document.body).backgroundColor, ink: getComputedStyle(document.body).color,
    strips: [...document.querySelectorAll('svg.strip')].map(mm),
    marks: [...document.querySelectorAll('svg.strip .at text:first-of-type')].map((t) => t.textContent),
    words: [...document.querySelectorAll('h1, h2, h3, .verdict, li, td, th, figcaption, main p')]
      .filter(shown).map((e) => e.innerText).join(' ').split(/\s+/).filter((w) => w),
    breaks: [...document.querySelectorAll('.stage')].slice(1).every((s) => getComputedStyle(s).breakBefore === 'page'),
  };
})()
"""


def page_sizes(pdf):
    return [(round(float(w)), round(float(h)))
            for w, h in re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)]


def dark_grounds(pdf):
    """Whether any page starts with a filling of itself that is not white."""
    for stream in re.findall(rb"stream\r?\n(.*?)endstream", pdf, re.S):
        try:
            text = zlib.decompress(stream)
        except zlib.error:
            continue
        for fill in re.findall(rb"([\d.]+) ([\d.]+) ([\d.]+) rg\s+0 0 (\d+)[\d.]* (\d+)[\d.]* re\s+f", text[:2000]):
            if float(fill[0]) < 0.9 and int(fill[3]) > 500 and int(fill[4]) > 500:
                return True
    return False


MARGIN = 34  # points: 12 mm
WORD = re.compile(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>')


def words_on(pdf, size):
    """Every word of the file, and those that reach over its margins. Nothing without poppler-utils."""
    if not shutil.which("pdftotext"):
        return None, []
    text = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=pdf, capture_output=True, check=True).stdout
    width, height = SIZES[size]
    words, over = [], []
    for x0, y0, x1, y1, word in WORD.findall(text.decode()):
        words.append(html.unescape(word))
        if float(x0) < MARGIN - 2 or float(x1) > width - MARGIN + 2 or float(y0) < 0 or float(y1) > height:
            over.append(words[-1])
    return words, over


def pieces(words):
    """Counted, and cut at hyphens, where a line may end."""
    return collections.Counter(piece for word in words for piece in word.split("-") if piece)


def printed(browser, path, name, size, plan, check):
    """Ticked half through and in a dark room, then printed: its own paper, few pages, all the content."""
    with browser.page(features={"prefers-color-scheme": "dark"}) as page:
        page.open(path)
        page.run("document.querySelector('input[data-key]').click(); document.querySelector('button.go').click()")
        pdf = page.pdf()
        pages = page_sizes(pdf)
        check(pages and set(pages) == {SIZES[size]}, f"{name}: printed on its own size, {pages[:1]}")
        check(len(pages) <= MOST_PAGES[name.split(",")[0]], f"{name}: {len(pages)} pages")
        check(not dark_grounds(pdf), f"{name}: no dark ground")
        words, over = words_on(pdf, size)
        check(not over, f"{name}: over the margin: {over[:5]}")
    with browser.page(media="print", width=INSIDE_PX[size], height=1000,
                      features={"prefers-color-scheme": "dark"}) as page:
        page.open(path)
        on_paper = page.run(ON_PAPER)
        for clipped in page.run(OVERFLOW):
            check(False, f"{name}: {clipped}")
        sides_told(page, f"{name}, on paper", check, 2 * 96 / 25.4)  # 2 mm
        lost = pieces(on_paper["words"]) - pieces(words) if words else {}
        check(not lost, f"{name}: not on paper: {list(lost)[:8]}")
        check(on_paper["boxes"] > 8 and on_paper["filled"] == 0, f"{name}: the boxes are there, and empty")
        check(on_paper["steps"] > 0 and not on_paper["clock"], f"{name}: all steps, no clock")
        check(on_paper["ground"] == "rgb(255, 255, 255)" and on_paper["ink"] == "rgb(0, 0, 0)",
              f"{name}: black on white")
        check(on_paper["breaks"], f"{name}: each stage starts a page")
        check(on_paper["strips"] and all(abs(w - 180) < 0.2 for w in on_paper["strips"]),
              f"{name}: strips at full size")
        marked = {int(n) for text in on_paper["marks"] for n in re.findall(r"\d+", text)}
        clamps = {c["n"] for stage in plan["stages"] for c in stage["clamps"] if "round_mm" not in c}
        check(marked == clamps, f"{name}: each clamp is marked on a strip")


def large_letters(browser, path, check):
    """Letters of 200 %, as set in the browser: nothing cut off, the time left still in sight."""
    for where, settings in (("phone", {"width": 360, "height": 740, "phone": True}), ("desk", {})):
        with browser.page(**settings) as page:
            page.call("Page.setFontSizes", fontSizes={"standard": 32, "fixed": 26})
            page.open(path)
            check(page.run("parseFloat(getComputedStyle(document.body).fontSize)") == 36,
                  f"large, {where}: letters are twice as large")
            page.run("document.querySelector('button.go').click()")
            for clipped in page.run(OVERFLOW):
                check(False, f"large, {where}: {clipped}")
            page.run("scrollTo(0, document.body.scrollHeight / 2)")
            page.run(SETTLED)
            top, bottom = page.run("(() => { const r = document.querySelector('#clock .left')"
                                   ".getBoundingClientRect(); return [r.top, r.bottom]; })()")
            bar = page.run("document.querySelector('.bar-buttons').getBoundingClientRect().top")
            check(top >= 0 and bottom < bar, f"large, {where}: the time left is in sight")
            check(bar - bottom > 0.4 * page.run("innerHeight"), f"large, {where}: with room below it")


def without_motion(browser, path, check):
    """Nothing glides, blinks or slides for whoever asked for that."""
    with browser.page(features={"prefers-reduced-motion": "reduce"}) as page:
        page.open(path)
        check(page.run("getComputedStyle(document.documentElement).scrollBehavior") == "auto",
              "reduced motion: the page jumps")
        moving = page.run("[...document.querySelectorAll('*')].filter((e) => { const s = getComputedStyle(e);"
                          "return s.animationName !== 'none' || parseFloat(s.transitionDuration) > 0; }).length")
        check(moving == 0, "reduced motion: nothing moves by itself")
