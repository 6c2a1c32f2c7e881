"""Debian's Firefox, driven over a socket of this machine by its own Marionette protocol: nothing else to
install. Enough to see that a page works there too."""
import base64
import json
import os
import shutil
import socket
import subprocess
import tempfile
import time

FIREFOX = shutil.which("firefox-esr") or shutil.which("firefox")
PATIENCE_S = 90  # for the browser to come up and for one answer, on a machine that is busy building


class Firefox:
    """A headless browser with one window and a profile of its own, both gone at the end of the `with`."""

    def __init__(self, width=1366, height=768):
        self._profile = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        with open(os.path.join(self._profile.name, "user.js"), "w", encoding="utf-8") as file:
            # Port 0: one that is free, which it writes beside its settings. No call home.
            file.write('user_pref("marionette.port", 0);\nuser_pref("datareporting.policy.dataSubmissionEnabled", false);\n'
                       'user_pref("app.update.enabled", false);\nuser_pref("network.captive-portal-service.enabled", false);\n')
        self._process = subprocess.Popen(
            [FIREFOX, "--headless", "--no-remote", "--marionette", "--profile", self._profile.name,
             f"--width={width}", f"--height={height}"],
            env={**os.environ, "HOME": self._profile.name}, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL)
        self._number = 0
        try:
            self._socket = socket.create_connection(("127.0.0.1", self._port()), PATIENCE_S)
            self._buffer = b""
            self._receive()  # its greeting
            self.call("WebDriver:NewSession", capabilities={"alwaysMatch": {}})
        except BaseException:
            self._end()
            raise

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._socket.close()
        self._end()

    def _end(self):
        self._process.terminate()
        try:
            self._process.wait(20)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        self._profile.cleanup()

    def _port(self):
        told = os.path.join(self._profile.name, "MarionetteActivePort")
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until and self._process.poll() is None:
            if os.path.exists(told) and (text := open(told, encoding="ascii").read().strip()):
                return int(text)
            time.sleep(0.1)
        raise RuntimeError("firefox does not come up")

    def _receive(self):
        """One message: its length in digits, a colon, JSON."""
        while b":" not in self._buffer or len(self._buffer.split(b":", 1)[1]) < int(self._buffer.split(b":", 1)[0]):
            piece = self._socket.recv(1 << 20)
            if not piece:
                raise RuntimeError("the browser is gone")
            self._buffer += piece
        length, rest = self._buffer.split(b":", 1)
        self._buffer = rest[int(length):]
        return json.loads(rest[:int(length)])

    def call(self, method, **parameters):
        self._number += 1
        text = json.dumps([0, self._number, method, parameters]).encode()
        self._socket.sendall(b"%d:%s" % (len(text), text))
        _, _, error, result = self._receive()
        if error:
            raise RuntimeError(f"{method}: {error['message']}")
        return result

    def open(self, path):
        self.call("WebDriver:Navigate", url=path if ":" in path else "file://" + path)
        return self

    def run(self, script):
        """The value of an expression in the page."""
        return self.call("WebDriver:ExecuteScript", script=f"return ({script});", args=[])["value"]

    def picture(self, path):
        with open(path, "wb") as file:
            file.write(base64.b64decode(self.call("WebDriver:TakeScreenshot", full=False)["value"]))
