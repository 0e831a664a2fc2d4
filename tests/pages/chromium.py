"""A headless Chromium spoken to over its debugging pipe, with nothing but the standard library."""

import base64
import fcntl
import json
import os
import pathlib
import select
import shutil
import signal
import tempfile
import time

FLAGS = ["--headless", "--no-sandbox", "--remote-debugging-pipe", "--disable-gpu", "--disable-dev-shm-usage",
         "--no-first-run", "--no-default-browser-check", "--disable-sync", "--disable-extensions",
         "--disable-background-networking", "--disable-component-update", "--hide-scrollbars"]
MOST_SECONDS = 120


def program():
    """Where Chromium is, or None."""
    return next((path for name in ("chromium", "chromium-browser") if (path := shutil.which(name))), None)


def high(descriptor):
    """The same descriptor where it is not in the way of 3 and 4."""
    moved = fcntl.fcntl(descriptor, fcntl.F_DUPFD, 20)
    os.close(descriptor)
    return moved


class Browser:
    """One page at a time; what it complained of and asked for is kept until the next is opened."""

    def __init__(self):
        self.home = tempfile.mkdtemp(prefix="ballchange-chromium-")
        (to_read, self.to), (self.come, to_write) = [tuple(map(high, os.pipe())) for _ in range(2)]
        log = os.path.join(self.home, "log")
        self.process = os.posix_spawn(
            program(), [program(), *FLAGS, f"--user-data-dir={self.home}/profile", "about:blank"],
            {**os.environ, "HOME": self.home, "LC_ALL": "C.UTF-8"},
            file_actions=[(os.POSIX_SPAWN_OPEN, 0, os.devnull, os.O_RDONLY, 0),
                          (os.POSIX_SPAWN_OPEN, 1, log, os.O_WRONLY | os.O_CREAT, 0o600),
                          (os.POSIX_SPAWN_DUP2, 1, 2),
                          (os.POSIX_SPAWN_DUP2, to_read, 3), (os.POSIX_SPAWN_DUP2, to_write, 4)],
            setpgroup=0)
        os.close(to_read)
        os.close(to_write)
        self.buffer, self.number, self.session = b"", 0, None
        self.messages, self.requests, self.events = [], [], []
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.call(f"{domain}.enable")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        os.close(self.to)
        os.close(self.come)
        try:
            os.killpg(self.process, signal.SIGKILL)
        except ProcessLookupError:
            pass
        os.waitpid(self.process, 0)
        shutil.rmtree(self.home, ignore_errors=True)

    def receive(self):
        """The next message of the browser."""
        end = time.monotonic() + MOST_SECONDS
        while b"\0" not in self.buffer:
            if not select.select([self.come], [], [], max(0, end - time.monotonic()))[0]:
                raise TimeoutError("Chromium does not answer")
            read = os.read(self.come, 1 << 20)
            if not read:
                raise EOFError("Chromium ended: " + pathlib.Path(self.home, "log").read_text(errors="replace")[-2000:])
            self.buffer += read
        text, _, self.buffer = self.buffer.partition(b"\0")
        message = json.loads(text)
        method, told = message.get("method"), message.get("params", {})
        if method == "Runtime.consoleAPICalled":
            self.messages.append(" ".join(str(a.get("value", a)) for a in told["args"]))
        elif method == "Log.entryAdded":
            self.messages.append(told["entry"]["text"])
        elif method == "Runtime.exceptionThrown":
            self.messages.append(told["exceptionDetails"]["text"])
        elif method == "Network.requestWillBeSent":
            self.requests.append(told["request"]["url"])
        elif method:
            self.events.append(method)
        return message

    def call(self, method, **told):
        """What the browser answers; what it tells in between is kept."""
        self.number += 1
        message = {"id": self.number, "method": method, "params": told}
        if self.session:
            message["sessionId"] = self.session
        os.write(self.to, json.dumps(message).encode() + b"\0")
        while True:
            answer = self.receive()
            if answer.get("id") == self.number:
                if "error" in answer:
                    raise RuntimeError(f"{method}: {answer['error']['message']}")
                return answer["result"]

    def open(self, path, width, scheme="light"):
        """Loads a file into a window that wide, for a reader who wants it light or dark."""
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=900, deviceScaleFactor=1,
                  mobile=width < 500)
        self.call("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": scheme}])
        self.messages.clear()
        self.requests.clear()
        self.events.clear()
        self.call("Page.navigate", url=pathlib.Path(path).resolve().as_uri())
        while "Page.loadEventFired" not in self.events:
            self.receive()

    def evaluate(self, script):
        """The value of an expression on the page, by the debugger: the page itself runs none."""
        answer = self.call("Runtime.evaluate", expression=script, returnByValue=True)
        if "exceptionDetails" in answer:
            raise RuntimeError(str(answer["exceptionDetails"]))
        return answer["result"].get("value")

    def screenshot(self, path):
        """The whole page, from top to bottom."""
        shot = self.call("Page.captureScreenshot", captureBeyondViewport=True, format="png")
        pathlib.Path(path).write_bytes(base64.b64decode(shot["data"]))

    def print(self, path, width, height):
        """As PDF on paper of so many inches, with the margins that the page asks for."""
        pdf = self.call("Page.printToPDF", paperWidth=width, paperHeight=height)
        pathlib.Path(path).write_bytes(base64.b64decode(pdf["data"]))
