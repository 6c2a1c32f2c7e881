"""axe-core, the auditor of accessible pages, from where Debian ships it: inside Chromium's own
developer tools. Nothing is fetched."""
import re

BUNDLE = "devtools://devtools/bundled/third_party/lighthouse/lighthouse-dt-bundle.js"
LIBRARY = re.compile(r"`(/\*! axe v(?:\\.|[^`\\])*)`", re.S)


def axe_source(browser):
    """The library's script; nothing where this browser comes without it."""
    with browser.page() as page:
        try:
            bundle = page.open(BUNDLE).run("document.body.innerText")
        except RuntimeError:
            return None
        found = LIBRARY.search(bundle or "")
        # It stands in the bundle as a template literal: the browser undoes the escapes.
        return page.run("`" + found.group(1) + "`") if found else None


def audit(page, source):
    """What axe finds wrong on the page as it stands, one line each: rule, element, why."""
    if not page.run("typeof axe === 'object'"):
        page.run(source + "; 0")
    found = page.run("axe.run(document, {resultTypes: ['violations']})"
                     ".then((r) => [r.violations, r.passes.length])")
    violations, passes = found
    return passes, [f"{v['id']} ({v['impact']}): {node['html'][:90]}: {node['failureSummary']}"
                    for v in violations for node in v["nodes"]]
