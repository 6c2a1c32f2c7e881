#!/usr/bin/python3
"""The README's pictures: the bench sheet of the chest on a phone, and the page on a desk. Made anew
when either has changed its looks; Chromium draws them.

usage: pictures.py GLUEUP PAGE_HTML FOLDER
"""
import os
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from browser import chromium  # noqa: E402

GLUEUP, PAGE, FOLDER = (os.path.abspath(argument) for argument in sys.argv[1:4])
ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
PLANNED = "Boolean(document.getElementById('sheet').srcdoc && !document.getElementById('busy').textContent)"


def until(page, condition):
    for _ in range(600):
        if page.run(condition):
            return
        time.sleep(0.1)
    raise SystemExit(f"still not so after a minute: {condition}")


with chromium.Chromium() as browser, tempfile.TemporaryDirectory() as scratch:
    sheet = os.path.join(scratch, "chest.html")
    subprocess.run([GLUEUP, "plan", f"{ROOT}/fixtures/hive_tool_chest/job.toml", "--shop",
                    f"{ROOT}/fixtures/shops/enough.toml", "--sheet", sheet], check=True, capture_output=True)
    with browser.page(width=390, height=844) as page:
        page.open(sheet)
        page.picture(os.path.join(FOLDER, "sheet.png"))
    with browser.page(width=1200, height=720) as page:
        page.open(PAGE)
        until(page, PLANNED)
        time.sleep(8)  # the sheet in it draws itself
        page.picture(os.path.join(FOLDER, "page.png"))
