"""What every bench sheet must be, whatever it is a plan of."""
import re
from fractions import Fraction

from browser.axe import audit

# Things said without a picture: what axe does not look at, or looks at only for what is on screen.
OVERFLOW = r"""
(() => {
  const found = [];
  if (document.documentElement.scrollWidth > innerWidth) {
    found.push(`the page runs ${document.documentElement.scrollWidth - innerWidth} px off the side`);
  }
  for (const svg of document.querySelectorAll('svg[viewBox]')) {
    const box = svg.viewBox.baseVal;
    if (svg.getBoundingClientRect().width === 0) continue;
    for (const text of svg.querySelectorAll('text')) {
      if (text.transform.baseVal.numberOfItems > 0) continue;  // written aslant on a part that is inside
      const b = text.getBBox();
      if (b.width === 0) continue;  // not shown
      const right = box.x + box.width, bottom = box.y + box.height;
      if (b.x < box.x - 0.5 || b.y < box.y - 0.5 || b.x + b.width > right + 0.5 || b.y + b.height > bottom + 0.5) {
        found.push(`"${text.textContent}" leaves its picture "${svg.querySelector('title').textContent}"`);
      }
    }
  }
  for (const e of document.querySelectorAll('p, li, td, th, dd, dt, button, label, span, figcaption, summary, time')) {
    if (e.closest('.quiet, .wide') || e.getClientRects().length === 0) continue;
    if (e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0 && getComputedStyle(e).display !== 'inline') {
      found.push(`clipped: ${e.tagName} "${e.textContent.slice(0, 40)}"`);
    }
  }
  return found;
})()
"""

# What a listener, a low-sighted reader and a gluey finger need; drawn letters too, which axe skips.
FOR_EVERYBODY = r"""
(() => {
  const found = [];
  const all = (selector) => [...document.querySelectorAll(selector)];
  const say = (wrong, what) => { for (const e of wrong) found.push(`${what}: ${e.outerHTML.slice(0, 80)}`); };
  if (all('h1').length !== 1 || all('main').length !== 1 || !document.title) found.push('one title, heading and main part');
  say(all('svg[role=img]').filter((s) => !s.querySelector('title').textContent), 'a picture without a name');
  say(all('svg:not([role=img])').filter((s) => s.getAttribute('aria-hidden') !== 'true'), 'a drawing neither named nor hidden');
  say(all('input, select').filter((i) => !i.closest('label').textContent.trim()), 'a field without a label');
  say(all('th').filter((th) => !th.scope), 'a table head that does not say what it heads');
  say(all('table').filter((t) => !t.caption), 'a table without a caption');
  say(all('section').filter((s) => !s.getAttribute('aria-label')), 'a section without a name');
  if (all('[aria-live]').length !== 1 || all('[role=timer]').length !== 1) found.push('one timer, one live region');
  let level = 1;
  for (const h of all('h1, h2, h3, h4')) {
    if (Number(h.tagName[1]) > level + 1) say([h], 'a heading skips a level');
    level = Number(h.tagName[1]);
  }
  say(all('.bar-buttons button').filter((b) => b.offsetHeight < 64), 'too small for a gluey finger');
  say(all('button, input, select, summary').filter((b) => b.getClientRects().length > 0 && b.offsetHeight < 24), 'too small to hit');
  const light = (rgb) => rgb.match(/[\d.]+/g).slice(0, 3).map((v) => v / 255)
    .map((v) => (v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4))
    .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
  const ground = (e) => {
    const disc = e.closest('.badge.part, .number.turn');
    if (disc) return getComputedStyle(disc.querySelector('circle')).fill;
    for (let at = e; at; at = at.parentElement) {
      const c = getComputedStyle(at).backgroundColor;
      if (!c.endsWith(', 0)') && c !== 'transparent') return c;
    }
    return 'rgb(255, 255, 255)';
  };
  const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (words.nextNode()) {
    const e = words.currentNode.parentElement;
    if (!words.currentNode.textContent.trim() || e.closest('script, title') || e.getClientRects().length === 0) continue;
    const ink = getComputedStyle(e)[e.namespaceURI.endsWith('svg') ? 'fill' : 'color'];
    const [a, b] = [light(ink), light(ground(e))];
    if ((Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05) < 4.5) say([e], 'too faint');
  }
  return found;
})()
"""

OPEN = "document.querySelectorAll('details.fold').forEach((each) => { each.open = true; })"

# What a step's picture has: parts drawn once and clamps that are the step's, all on the sheet.
STEP_PICTURES = r"""
[...document.querySelectorAll('.steps li')].map((li) => {
  const svg = li.querySelector('svg.step');
  if (!svg) return null;
  const all = (selector, name) => [...svg.querySelectorAll(selector)].map((e) => Number(e.dataset[name]));
  const off = [...svg.querySelectorAll('path, circle, text')].filter((e) => {
    if (e.closest('.name') || getComputedStyle(e).display === 'none') return false;
    const b = e.getBBox(), m = e.transform.baseVal.consolidate();
    if (m || b.width + b.height === 0) return false;
    const box = svg.viewBox.baseVal;
    return b.x < box.x - 2 || b.y < box.y - 2 || b.x + b.width > box.x + box.width + 2
      || b.y + b.height > box.y + box.height + 2;
  }).length;
  const empty = [...svg.querySelectorAll('path[data-part]')].filter((e) => !e.getAttribute('d')).length;
  return { n: Number(li.dataset.n), last: Number(li.dataset.last), parts: all('[data-part]', 'part'),
           clamps: all('[data-no]', 'no'), off, empty, size: svg.outerHTML.length };
})
"""

# In each section: the drawn clamps' places from the drawn corner, mm, by way of looking.
PLACES = r"""
(() => [...document.querySelectorAll('section.stage')].map((section) =>
  [...section.querySelectorAll('svg[data-scale]')].flatMap((svg) => {
    const corner = svg.querySelector('.corner');
    if (!corner) return [];
    const scale = Number(svg.dataset.scale);
    const at = (c) => [Number(c.getAttribute('cx')), Number(c.getAttribute('cy'))];
    const [u0, v0] = at(corner);
    return [...svg.querySelectorAll('g[data-clamp]')].map((g) => {
      const [u, v] = at(g.querySelector('circle'));
      const edge = svg.querySelector('path.edge').getBBox();
      const row = [...section.querySelectorAll('.clamps tbody tr:not(.way)')]
        .find((tr) => tr.cells[0].textContent === g.dataset.clamp);
      return { n: Number(g.dataset.clamp), u: (u - u0) / scale, v: (v0 - v) / scale,
               told: [1, 2, 3].map((i) => row.cells[i].textContent),
               corner: [(u0 - edge.x) / scale, (edge.y + edge.height - v0) / scale] };
    });
  })))()
"""


def same_policy(path, check, name):
    """Nothing but our own style and script may run, and nothing may be fetched."""
    with open(path, encoding="utf-8") as file:
        sheet = file.read()
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', sheet)
    check(policy and policy.group(1).startswith("default-src &#39;none&#39;; script-src &#39;sha256-"),
          f"{name}: the policy starts from nothing")
    check(policy and "unsafe" not in policy.group(1), f"{name}: the policy lets nothing unsafe in")
    return len(sheet.encode())


def looked_at(browser, path, name, axe, check):
    """Opens without complaint on phone and desk, light and dark; text stays whole; axe is content."""
    dark = {"prefers-color-scheme": "dark"}
    for where, settings in (("narrow phone", {"width": 320, "height": 640, "phone": True}),
                            ("phone", {"width": 360, "height": 740, "phone": True}),
                            ("dark phone", {"width": 360, "height": 740, "phone": True, "features": dark}),
                            ("desk", {"width": 1280, "height": 900}),
                            ("dark desk", {"width": 1280, "height": 900, "features": dark})):
        with browser.page(**settings) as page:
            page.open(path)
            at = f"{name}, {where}"
            check(page.run("!document.getElementById('clock').hidden"), f"{at}: the script runs")
            check(page.run("document.querySelectorAll('details.fold[open]').length") == 0, f"{at}: folded at first")
            page.run(OPEN)
            for wrong in page.run(OVERFLOW) + page.run(FOR_EVERYBODY):
                check(False, f"{at}: {wrong}")
            if axe and where in ("phone", "dark desk"):
                passes, violations = audit(page, axe)
                check(passes > 25, f"{at}: axe looks at the page, {passes} rules passed")
                for violation in violations:
                    check(False, f"{at}: {violation}")
            check(not page.requests, f"{at}: it fetches {page.requests[:2]}")
            check(not page.complaints, f"{at}: the console says {page.complaints[:2]}")


def running(browser, path, axe, check):
    """One step at a time: as whole and as accessible as the sheet, on a phone upright and on its side."""
    for where, settings in (("phone", {"width": 360, "height": 740, "phone": True}),
                            ("phone on its side", {"width": 740, "height": 360, "phone": True}),
                            ("desk", {"width": 1280, "height": 900})):
        with browser.page(**settings) as page:
            page.open(path)
            page.run("document.querySelector('button.go').click()")
            check(page.run("document.querySelector('.steps').getClientRects().length") == 0,
                  f"running, {where}: the step has the screen")
            seen = page.run("(() => { const r = document.querySelector('.picture svg.step').getBoundingClientRect();"
                            "return [r.left >= 0, r.right <= innerWidth, r.height > 80]; })()")
            check(all(seen), f"running, {where}: its picture is in sight")
            for wrong in page.run(OVERFLOW) + page.run(FOR_EVERYBODY) + (audit(page, axe)[1] if axe else []):
                check(False, f"running, {where}: {wrong}")


def two_on_a_phone(browser, path, check):
    """Two people's steps on a narrow phone: both pictures large enough to be looked at across a bench."""
    with browser.page(width=360, height=740, phone=True) as page:
        page.open(path)
        page.run("document.querySelector('button.go').click()")
        pictures = page.run("[...document.querySelectorAll('.lane svg.step')].map((svg) => { const r ="
                            "svg.getBoundingClientRect(); return [r.width, r.height, r.left >= 0 && r.right <= innerWidth]; })")
        check(len(pictures) == 2 and all(w >= 140 and h >= 140 and whole for w, h, whole in pictures),
              f"two lanes on a narrow phone: {pictures}")
        for wrong in page.run(OVERFLOW):
            check(False, f"two lanes on a narrow phone: {wrong}")


def turned(browser, path, check):
    with browser.page() as page:
        turns(page.open(path), check)


def turns(page, check):
    """The view that turns: drawn and turned by the arrow keys where the browser has WebGL, else said plainly."""
    page.run("document.querySelector('#turn button').click()")
    drawn = page.run("""(() => {
      const canvas = document.querySelector('#turn canvas'), gl = canvas && canvas.getContext('webgl');
      if (!gl) return null;
      const look = (key) => {
        canvas.dispatchEvent(new KeyboardEvent('keydown', { key }));
        const all = new Uint8Array(4 * canvas.width * canvas.height);
        gl.readPixels(0, 0, canvas.width, canvas.height, gl.RGBA, gl.UNSIGNED_BYTE, all);
        return all;
      };
      const a = look('ArrowLeft'), b = look('ArrowUp');
      return [a.filter((v, i) => i % 4 === 2 && v < 230).length, a.filter((v, i) => v !== b[i]).length];
    })()""")
    if drawn is None:
        check("pictures" in page.run("document.querySelector('#turn').innerText"), "no WebGL, and it is said")
    else:
        check(drawn[0] > 10_000 and drawn[1] > 1_000, f"it is drawn, and turns: {drawn}")


def steps_pictured(page, plan, name, check):
    """Each step has its picture: its parts once, its clamps once, nothing off the sheet, none hidden wholly."""
    by_n = {step["n"]: step for stage in plan["stages"] for step in stage["steps"]}
    for drawn in page.run(STEP_PICTURES):
        if drawn is None:
            check(False, f"{name}: a step without a picture")
            continue
        at = f"{name}, step {drawn['n']}"
        steps = [by_n[n] for n in range(drawn["n"], drawn["last"] + 1)]
        parts = [p for p in drawn["parts"]]
        check(parts and len(parts) == len(set(parts)), f"{at}: each part is drawn once")
        clamps = sorted({n for step in steps for n in step.get("clamps", [])})
        check(sorted(drawn["clamps"]) == clamps, f"{at}: its clamps are numbered: {drawn['clamps']}, not {clamps}")
        check(drawn["off"] == 0 and drawn["empty"] == 0, f"{at}: {drawn['off']} off the sheet, {drawn['empty']} hidden")


# On every drawing of the work: the words that tell its sides, how high they are in px, and what lies over them.
SIDES = r"""
[...document.querySelectorAll('svg.step, .order svg, svg[data-scale]')].flatMap((svg) => {
  if (!svg.matches('.step, .order svg') && !svg.querySelector('.corner')) return [];
  const all = [...svg.querySelectorAll('text')].filter((text) => text.getClientRects().length > 0);
  if (svg.getClientRects().length === 0) return [];
  const words = all.filter((text) => /^(FRONT|TOP)( faces you)?$/.test(text.textContent));
  const box = svg.viewBox.baseVal, shown = svg.getBoundingClientRect();
  const scale = Math.min(shown.width / box.width, shown.height / box.height);
  const inside = (word) => { const r = word.getBoundingClientRect(); return r.left >= shown.left - 1
    && r.right <= shown.right + 1 && r.top >= shown.top - 1 && r.bottom <= shown.bottom + 1; };
  const over = words.flatMap((word) => all.filter((other) => {
    const a = word.getBoundingClientRect(), b = other.getBoundingClientRect();
    return other !== word && Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1
      && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.3 * Math.min(a.height, b.height);
  }).map((other) => other.textContent));
  return [{ title: svg.querySelector('title').textContent, told: words.map((word) => word.textContent.split(' ')[0]).sort(),
            size: Math.min(...words.map((word) => parseFloat(getComputedStyle(word).fontSize) * scale)),
            whole: words.every(inside), over }];
})
"""


def sides_told(page, name, check, least_px):
    """FRONT and TOP on every drawing, once, whole, in letters that can be read, with nothing over them."""
    drawings = page.run(SIDES)
    check(drawings, f"{name}: drawings of the work")
    for drawn in drawings:
        at = f"{name}, \"{drawn['title'][:40]}\""
        check(drawn["told"] == ["FRONT", "TOP"], f"{at}: front and top are told: {drawn['told']}")
        if drawn["told"]:
            check(drawn["size"] >= least_px, f"{at}: its sides in {drawn['size']:.1f} px")
            check(drawn["whole"] and not drawn["over"], f"{at}: its sides are whole: {drawn['over']}")


def tightest_told(page, name, check):
    """The joint with the least time to spare: its two parts stand out in the first picture, and it is named."""
    told = page.run("""(() => {
      const rows = [...document.querySelectorAll('section.stage')].map((stage) => stage.querySelector('tr[data-joint]'))
        .filter((row) => row), hero = document.querySelector('.hero');
      return { rows: rows.map((row) => [row.dataset.joint, row.dataset.parts.split(' ').sort().join()]),
               bold: [...hero.querySelectorAll('path.bold')].map((path) => path.dataset.part).sort().join(),
               legend: hero.innerText };
    })()""")
    if not told["rows"]:
        check(told["bold"] == "" and "Heavy" not in told["legend"], f"{name}: nothing is spread, no joint is told")
        return
    check(any(parts == told["bold"] and joint in told["legend"] for joint, parts in told["rows"]),
          f"{name}: the tightest joint is told: {told}")


def ready_soon(browser, path, name, check):
    """Seconds of processor, not of the wall's clock, until the page's first step stands: script, style and layout."""
    with browser.page(width=390, height=844, phone=True) as page:
        page.call("Performance.enable", timeDomain="threadTicks")
        before = metrics(page)
        page.open(path)
        page.run("document.querySelector('.steps li').getBoundingClientRect().height")
        spent = {key: value - before.get(key, 0) for key, value in metrics(page).items()}
    shares = {key: spent[key + "Duration"] for key in ("Task", "Script", "Layout", "RecalcStyle")}
    check(shares["Task"] < 0.5, f"{name}: ready after {shares} s of processor")
    return shares


def metrics(page):
    return {each["name"]: each["value"] for each in page.call("Performance.getMetrics")["metrics"]}


# Of each strip: how many places it is told for, how many its key drawing shows, and whether all of them are on it.
KEYS = r"""
[...document.querySelectorAll('#strips figure')].map((figure) => {
  const svg = figure.querySelector('svg.step'), box = svg.viewBox.baseVal;
  const on = (x, y) => x >= box.x && y >= box.y && x <= box.x + box.width && y <= box.y + box.height;
  return { told: figure.querySelectorAll('figcaption div').length, drawn: svg.querySelectorAll('.rule').length,
           noughts: svg.querySelectorAll('.nought').length, size: svg.outerHTML.length,
           off: [...svg.querySelectorAll('.zero')].filter((c) => !on(c.cx.baseVal.value, c.cy.baseVal.value)).length };
})
"""


def strips_placed(page, name, check):
    """Each paper ruler has a small drawing of everywhere it lies, with its zero."""
    for i, key in enumerate(page.run(KEYS)):
        at = f"{name}, paper ruler {i + 1}"
        check(key["told"] == key["drawn"] == key["noughts"] and key["off"] == 0, f"{at}: {key}")
        check(key["size"] < 30_000, f"{at}: {key['size']} bytes")  # of forty boards


def modelled(page, plan, name, check):
    """In the view that turns, show faces are marked, and a box has an inside."""
    parts = page.run("(() => { const turn = document.querySelector('#turn'); return turn ? JSON.parse(turn.dataset.model)"
                     ".parts.map((part) => [part.m.t.length, part.m.i.length, part.m.s.length]) : []; })()")
    for part, (outside, inside, marks) in zip(plan["parts"], parts):
        check((marks > 0) == bool(part["show"]), f"{name}: the show faces of {part['name']} are marked")
        check(outside + inside > 0, f"{name}: {part['name']} is drawn")  # a dowel lies wholly inside
        check(inside > 0 or name not in ("hive_tool_chest", "for two"), f"{name}: {part['name']} has an inside")


def plane_of(axis):
    """Across a main axis: which coordinates run to the right and up in the picture."""
    for i, pair in enumerate(((1, 2), (0, 2), (0, 1))):
        if abs(axis[i]) > 0.999:
            return pair
    return None


def told_mm(text, units):
    """A measure of the table, and how far it may be rounded."""
    whole = sum((Fraction(piece) for piece in text.split()), Fraction(0))
    return (float(whole) * 25.4, 25.4 / 32) if units == "in" else (float(whole), 0.5)


def clamps_in_place(page, plan, name, check):
    """Every clamp of the plan drawn once, within 0.5 mm of scale of where the plan has it: from the
    first one in the same picture as the plan says, from the corner as the table says."""
    for drawn, stage in zip(page.run(PLACES), plan["stages"]):
        check(sorted(d["n"] for d in drawn) == [c["n"] for c in stage["clamps"]],
              f"{name}: each clamp is drawn once")
        by_n = {d["n"]: d for d in drawn}
        firsts = {}
        for clamp in stage["clamps"]:
            plane, spot = plane_of(clamp["axis"]), by_n.get(clamp["n"])
            if plane is None or spot is None:
                continue
            check(max(map(abs, spot["corner"])) < 0.5, f"{name}: the corner is the work's own")
            first, there = firsts.setdefault(plane, (clamp, spot))
            off = max(abs((spot[way] - there[way]) - (clamp["at_mm"][k] - first["at_mm"][k]))
                      for way, k in zip("uv", plane))
            check(off < 0.5, f"{name}: clamp {clamp['n']} is drawn {off:.2f} mm off")
            for way, k in zip("uv", plane):
                if spot["told"][k] == "-":
                    continue  # a strap, which goes all round
                told, rounding = told_mm(spot["told"][k], plan["units"])
                check(abs(spot[way] - told) < 0.5 + rounding,
                      f"{name}: clamp {clamp['n']}: the table says {told:.1f}, drawn at {spot[way]:.1f}")
