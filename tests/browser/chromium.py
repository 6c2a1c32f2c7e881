"""Debian's Chromium, driven over a pipe by its own DevTools protocol: nothing else to install, no
port to open. Each page counts its requests and what its console says."""
import base64
import json
import os
import select
import shutil
import subprocess
import tempfile
import time

CHROMIUM = shutil.which("chromium")
PATIENCE_S = 90  # for one answer, on a machine that is busy building


class Chromium:
    """A headless browser with a profile of its own, both gone at the end of the `with`."""

    def __init__(self):
        self._profile = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        to_read, self._out = os.pipe()
        self._in, to_write = os.pipe()
        # The browser's end of the pipes has to be 3 and 4: first out of the way of each other.
        self._process = subprocess.Popen(
            ["sh", "-c", f'exec "$@" 3<&{to_read} 4>&{to_write}', "sh", CHROMIUM, "--headless=new",
             "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--no-first-run",
             "--disable-dev-shm-usage", "--disable-background-networking",
             "--disable-component-update", "--remote-debugging-pipe",
             f"--user-data-dir={self._profile.name}", "about:blank"],
            pass_fds=(to_read, to_write), stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL)
        os.close(to_read)
        os.close(to_write)
        self._buffer = b""
        self._number = 0
        self.pages = {}  # by session

    def __enter__(self):
        return self

    def __exit__(self, *_):
        try:
            self.call("Browser.close")
            self._process.wait(timeout=20)
        except (OSError, RuntimeError, subprocess.TimeoutExpired):
            self._process.kill()
            self._process.wait()
        os.close(self._out)
        os.close(self._in)
        self._profile.cleanup()

    def send(self, method, session=None, **parameters):
        self._number += 1
        message = {"id": self._number, "method": method, "params": parameters}
        if session:
            message["sessionId"] = session
        data = json.dumps(message).encode() + b"\0"
        while data:
            data = data[os.write(self._out, data):]

    def call(self, method, session=None, **parameters):
        """The answer to one command; what happens meanwhile goes to the pages."""
        self.send(method, session, **parameters)
        until = time.monotonic() + PATIENCE_S
        while True:
            answer = self._receive(until)
            if answer is None:
                raise RuntimeError(f"no answer to {method} in {PATIENCE_S} s")
            if answer.get("id") == self._number:
                if "error" in answer:
                    raise RuntimeError(f"{method}: {answer['error']['message']}")
                return answer["result"]

    def hear(self, until):
        """Lets one message in, if it comes by then."""
        return self._receive(until) is not None

    def _receive(self, until):
        while b"\0" not in self._buffer:
            wait = until - time.monotonic()
            if wait <= 0 or not select.select([self._in], [], [], wait)[0]:
                return None
            piece = os.read(self._in, 1 << 20)
            if not piece:
                raise RuntimeError("the browser is gone")
            self._buffer += piece
        line, self._buffer = self._buffer.split(b"\0", 1)
        message = json.loads(line)
        page = self.pages.get(message.get("sessionId"))
        if page and "method" in message:
            page.heard(message["method"], message["params"])
        return message

    def run(self, session, script):
        answer = self.call("Runtime.evaluate", session, expression=script, returnByValue=True,
                           awaitPromise=True, userGesture=True)
        if "exceptionDetails" in answer:
            details = answer["exceptionDetails"]
            raise RuntimeError(details.get("exception", {}).get("description", details["text"]))
        return answer["result"].get("value")

    def page(self, **settings):
        """A new page. width, height; phone=True for a touch screen; media: 'print'; features:
        {'prefers-color-scheme': 'dark'}; first: script that runs before the page's own; beside: a page
        whose storage it shares."""
        return Page(self, **settings)


class Frame:
    def __init__(self, browser, session):
        self._browser, self._session = browser, session

    def run(self, script):
        return self._browser.run(self._session, script)


class Page:
    """One tab. `requests`: what it fetched beside the file itself; `complaints`: its console and
    its errors; `choosers`: the inputs that asked for files."""

    def __init__(self, browser, width=1280, height=900, phone=False, media="", features=None,
                 first="", beside=None):
        self._browser = browser
        self.requests, self.complaints, self.choosers, self.frames = [], [], [], []
        self._loaded = False
        self._context, self._owns = beside and beside._context, beside is None
        if self._owns:
            self._context = browser.call("Target.createBrowserContext")["browserContextId"]
        self._target = browser.call("Target.createTarget", url="about:blank",
                                    browserContextId=self._context)["targetId"]
        self.session = browser.call("Target.attachToTarget", targetId=self._target,
                                    flatten=True)["sessionId"]
        browser.pages[self.session] = self
        for domain in ("Page", "Runtime", "Network", "Log"):
            self.call(f"{domain}.enable")
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height,
                  deviceScaleFactor=2 if phone else 1, mobile=phone)
        self.call("Emulation.setEmulatedMedia", media=media,
                  features=[{"name": n, "value": v} for n, v in (features or {}).items()])
        if first:
            self.call("Page.addScriptToEvaluateOnNewDocument", source=first)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._browser.call("Target.closeTarget", targetId=self._target)
        if self._owns:
            self._browser.call("Target.disposeBrowserContext", browserContextId=self._context)
        del self._browser.pages[self.session]

    def call(self, method, **parameters):
        return self._browser.call(method, self.session, **parameters)

    def heard(self, method, event):
        if method == "Page.loadEventFired":
            self._loaded = True
        elif method == "Network.requestWillBeSent":
            if event["request"]["url"] != event.get("documentURL"):
                self.requests.append(event["request"]["url"])
        elif method == "Runtime.consoleAPICalled":
            self.complaints.append(str([a.get("value") for a in event["args"]]))
        elif method == "Runtime.exceptionThrown":
            details = event["exceptionDetails"]
            self.complaints.append(details.get("exception", {}).get("description", details["text"]))
        elif method == "Target.attachedToTarget":
            if event["targetInfo"]["type"] == "iframe":
                self.frames.append(event["sessionId"])
        elif method == "Page.fileChooserOpened":
            self.choosers.append(event["backendNodeId"])
        elif method == "Log.entryAdded":
            self.complaints.append(event["entry"]["text"])

    def _await_load(self):
        until = time.monotonic() + PATIENCE_S
        while not self._loaded:
            if not self._browser.hear(until):
                raise RuntimeError("the page does not load")

    def open(self, path):
        self._loaded = False
        self.call("Page.navigate", url=path if ":" in path else "file://" + path)
        self._await_load()
        return self

    def reload(self):
        self._loaded = False
        self.call("Page.reload")
        self._await_load()

    def framed(self):
        """Its frames whose scripts may not reach the page: each with a `run` of its own."""
        self.frames.clear()
        self.call("Target.setAutoAttach", autoAttach=True, waitForDebuggerOnStart=False, flatten=True)
        self.run("0")
        return [Frame(self._browser, session) for session in self.frames]

    def run(self, script):
        """The value of an expression in the page, awaited if it is a promise. The page's own policy
        does not bind it."""
        return self._browser.run(self.session, script)

    def press(self, key, shift=False):
        """A key as from a keyboard: "Tab", "Enter", " ", an arrow, a letter or a digit."""
        text = {"Enter": "\r"}.get(key, key if len(key) == 1 else "")
        code = {"Enter": 13, "Tab": 9, "ArrowLeft": 37, "ArrowUp": 38, "ArrowRight": 39, "ArrowDown": 40}.get(key)
        for kind in ("keyDown" if text else "rawKeyDown", "keyUp"):
            self.call("Input.dispatchKeyEvent", type=kind, key=key, text=text, modifiers=8 if shift else 0,
                      code="Space" if key == " " else key, windowsVirtualKeyCode=code or ord(key.upper()))

    def screen_off_and_on(self):
        """The page is hidden and stands still, then shows again."""
        self.call("Page.setWebLifecycleState", state="frozen")
        self.call("Page.setWebLifecycleState", state="active")
        self.call("Emulation.setFocusEmulationEnabled", enabled=True)

    def crash(self):
        """Its process dies, as where the system is short of memory. It answers nothing from then on."""
        self._browser.send("Page.crash", self.session)

    def saved(self, folder):
        """What it downloads goes into the folder."""
        self._browser.call("Browser.setDownloadBehavior", behavior="allow", downloadPath=folder,
                           browserContextId=self._context)

    def picture(self, path, whole=False):
        data = self.call("Page.captureScreenshot", format="png", captureBeyondViewport=whole)["data"]
        with open(path, "wb") as file:
            file.write(base64.b64decode(data))

    def pdf(self):
        """As printed at 100 % on the paper that the page asks for."""
        return base64.b64decode(self.call("Page.printToPDF", preferCSSPageSize=True,
                                          printBackground=False)["data"])
