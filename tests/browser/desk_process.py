"""The desk as its user starts it: a process of its own on a free port of this machine, with its own records."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import moldwright

WITHIN_S = 90.0
"""When a server that says nothing is given up: far beyond what a start takes, however busy a machine is."""
SOURCE = Path(moldwright.__file__).parents[1]
"""The server is of the same tree as the tests, whichever is installed."""
SAID = re.compile(r"(https?://[^\s/]+)/")


class DeskProcess:
    """A desk in `home`. It can be killed and started again on the same port; what it said is in `home/said.txt`."""

    def __init__(self, home: Path, *options: str) -> None:
        home.mkdir(parents=True, exist_ok=True)
        self.home = home
        self.options = options
        self.port = 0
        self.address = ""
        self.process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Started, and back when it has told its address: then it listens."""
        call = [sys.executable, "-m", "moldwright", "desk", "--no-browser", "--port", str(self.port),
                "--shop", str(self.home / "shop.db"), "--data", str(self.home / "desk"), *self.options]  # fmt: skip
        own = {"data": "XDG_DATA_HOME", "cache": "XDG_CACHE_HOME"}
        folders = {name: str(self.home / folder) for folder, name in own.items()}
        surroundings = {**os.environ, **folders, "PYTHONUNBUFFERED": "1", "PYTHONPATH": str(SOURCE)}
        with self.said.open("wb") as said:
            self.process = subprocess.Popen(call, env=surroundings, stdout=said, stderr=subprocess.STDOUT)
        self.address = self._told()
        self.port = int(self.address.rsplit(":", 1)[1])

    @property
    def said(self) -> Path:
        """What it wrote since its last start."""
        return self.home / "said.txt"

    def _told(self) -> str:
        assert self.process is not None
        until = time.monotonic() + WITHIN_S
        while time.monotonic() < until:
            if found := SAID.search(self.said.read_text(encoding="utf-8", errors="replace")):
                return found[1]
            if self.process.poll() is not None:
                raise RuntimeError(f"the desk ended with {self.process.returncode}: {self.said.read_text()}")
            time.sleep(0.05)
        self.kill()
        raise RuntimeError(f"the desk told no address within {WITHIN_S:g} s: {self.said.read_text()}")

    def kill(self) -> None:
        """Ended without a word, as by a power cut."""
        self._end(signal.SIGKILL)

    def stop(self) -> None:
        """Ended as by Ctrl-C."""
        self._end(signal.SIGINT)

    def _end(self, how: signal.Signals) -> None:
        if self.process is None:
            return
        self.process.send_signal(how)
        try:
            self.process.wait(WITHIN_S)
        finally:
            if self.process.poll() is None:
                self.process.kill()
                self.process.wait()
            self.process = None
