"""A browser that is asked over its debugging pipe: a page at a width, on a ground, on screen or in print.

Chromium reads messages from its file 3 and answers on file 4, JSON with a zero byte between (the DevTools
protocol's pipe), so that neither a port nor a library is needed.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from types import TracebackType
from typing import Any, Self

MOVE = """
import fcntl, os, sys
ends = [fcntl.fcntl(int(end), fcntl.F_DUPFD, 10) for end in sys.argv[1:3]]
os.dup2(ends[0], 3)
os.dup2(ends[1], 4)
os.execvp(sys.argv[3], sys.argv[3:])
"""


class Browser:
    """One page of a headless Chromium with the network cut."""

    def __init__(self, chromium: str, profile: Path) -> None:
        to_read, self._to = os.pipe()
        self._from, to_write = os.pipe()
        command = [
            chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
            "--disable-background-networking", "--disable-component-update", "--disable-sync",
            "--host-resolver-rules=MAP * ~NOTFOUND", "--allow-file-access-from-files",
            f"--user-data-dir={profile}", "--remote-debugging-pipe", "about:blank",
        ]  # fmt: skip
        # a small program moves the two ends to the numbers that the browser looks at, and becomes the browser
        mover = [sys.executable, "-c", MOVE, str(to_read), str(to_write), *command]
        self._run = subprocess.Popen(
            mover, pass_fds=(to_read, to_write), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        os.close(to_read)
        os.close(to_write)
        self._number, self._rest = 0, b""
        self._session = ""
        try:
            page = self._ask("Target.createTarget", url="about:blank")["targetId"]
            self._session = self._ask("Target.attachToTarget", targetId=page, flatten=True)["sessionId"]
            self._ask("Page.enable")
            self._ask("Runtime.enable")
        except BaseException:
            self.close()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """The browser ends with its pipe."""
        os.close(self._to)
        os.close(self._from)
        try:
            self._run.wait(10)
        except subprocess.TimeoutExpired:
            self._run.kill()
            self._run.wait()

    def look(self, width: int, *, dark: bool = False, printed: bool = False) -> None:
        """The window's width in CSS pixels, the reader's wish for a dark page, and the medium."""
        self._ask(
            "Emulation.setDeviceMetricsOverride", width=width, height=900, deviceScaleFactor=1, mobile=False
        )
        shade = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
        self._ask("Emulation.setEmulatedMedia", media="print" if printed else "screen", features=[shade])

    def open(self, page: Path) -> None:
        """Load a page from disk and wait until it stands with its fonts."""
        self._ask("Page.navigate", url=page.as_uri())
        self.ask(
            "new Promise(done => document.readyState == 'complete' ? done() : addEventListener('load', done))"
        )
        self.ask("document.fonts.ready.then(() => document.fonts.size)")

    def ask(self, script: str) -> Any:
        """The value of a script in the page."""
        told = self._ask("Runtime.evaluate", expression=script, awaitPromise=True, returnByValue=True)
        if "exceptionDetails" in told:
            raise RuntimeError(json.dumps(told["exceptionDetails"])[:800])
        return told["result"].get("value")

    def _ask(self, method: str, **params: object) -> Any:
        self._number += 1
        message: dict[str, object] = {"id": self._number, "method": method, "params": params}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._to, json.dumps(message).encode() + b"\0")
        while True:
            told = self._next()
            if told.get("id") == self._number:
                if "error" in told:
                    raise RuntimeError(f"{method}: {told['error']}")
                return told["result"]

    def _next(self) -> dict[str, Any]:
        while b"\0" not in self._rest:
            some = os.read(self._from, 1 << 16)
            if not some:
                raise RuntimeError("the browser has gone")
            self._rest += some
        first, _, self._rest = self._rest.partition(b"\0")
        found: dict[str, Any] = json.loads(first)
        return found
