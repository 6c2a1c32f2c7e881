"""The page from a web server: with its service worker beside it, it opens again when the server is gone."""
import contextlib
import functools
import http.server
import json
import os
import shutil
import threading

from browser.page_faults import VERDICT

# As wide as it is once drawn; 0 where it can't be.
TOUCH_ICON = """(async () => { const icon = new Image(); icon.src = document.querySelector('link[rel=apple-touch-icon]').href;
    await icon.decode().catch(() => {}); return icon.naturalWidth; })()"""


class Quiet(http.server.SimpleHTTPRequestHandler):
    asked = []

    def log_message(self, *_):
        self.asked.append(self.path)


@contextlib.contextmanager
def served(folder):
    """The address of a server of the folder, on this machine alone."""
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=folder))
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def offline(browser, settings, page_file, folder, until, planned, check):
    shutil.copy(page_file, os.path.join(folder, "index.html"))
    with browser.page(**settings) as page:
        with served(folder) as address:
            page.open(address + "/")
            check(until(page, planned) is not None, "served without its worker, the page plans")
            wrong = [c for c in page.complaints if "glueup_offline.js" not in c and "404" not in c]
            check(not wrong, f"and the console says nothing else: {wrong}")
    shutil.copy(os.path.join(os.path.dirname(page_file), "glueup_offline.js"), folder)
    with browser.page(**settings) as page:
        with served(folder) as address:
            Quiet.asked.clear()
            page.open(address + "/")
            check(until(page, planned) is not None, "served with its worker, the page plans")
            page.run("navigator.serviceWorker.ready.then(() => 0)")
            manifest = page.call("Page.getAppManifest")
            check(manifest.get("data") and not manifest["errors"], f"its manifest is right: {manifest['errors']}")
            icons = [i for i in json.loads(manifest["data"])["icons"] if i["type"] == "image/png"]
            check([i["sizes"] for i in icons] == ["512x512"] and page.run(TOUCH_ICON) == 512, "it has an icon of 512 pixels")
            errors = [e["errorId"] for e in page.call("Page.getInstallabilityErrors")["installabilityErrors"]]
            check(set(errors) <= {"in-incognito"}, f"it can be installed: {errors}")  # the test's own window
            asked = set(Quiet.asked)
            check(asked <= {"/", "/glueup_offline.js", "/favicon.ico"}, f"it asks for nothing but itself: {asked}")
        page.open("about:blank")
        page.open(address + "/")
        check(until(page, planned) is not None, f"with the server gone, it opens and plans: {page.run(VERDICT)}")
