"""Ctrl-C, SIGTERM and violent ends, wherever a command is: also within a native call that hears no signal."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")

HEAD = """
import ctypes, os, pathlib, signal, sys
signal.signal(signal.SIGINT, signal.default_int_handler)
from moldwright.desk.exits import ending
from moldwright.making.folder import whole_folder
from moldwright.desk.watched import watched

def command():
    with ending(False, lambda error: "nowhere"), whole_folder(pathlib.Path("plan")) as folder:
        (folder / "half").write_text("half")
        print(os.getpid(), flush=True)
        at_work()

def at_work():
    {work}

watched(command, as_json={as_json})
"""
"""Ctrl-C counts, though whoever runs the tests may have told theirs to pass it over."""
DEAF = "ctypes.PyDLL(None).sleep(60); ctypes.PyDLL(None).sleep(60)"
"""The C library's sleep, called with Python's lock held: no handler runs while it lasts."""
DEAFER = f"signal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGINT, signal.SIGTERM]); {DEAF}"
"""Nor does a signal end it."""


Begun = Callable[..., tuple[subprocess.Popen[str], int]]


@pytest.fixture
def begun(tmp_path: Path) -> Iterator[Begun]:
    """`begun(work, as_json)`: a command that is at work, and the process that works for it. Both end with the test."""
    started: list[int] = []

    def beginning(work: str, as_json: bool = False) -> tuple[subprocess.Popen[str], int]:
        code = HEAD.format(work=work, as_json=as_json)
        command = [sys.executable, "-c", code]
        pipe = subprocess.PIPE
        parent = subprocess.Popen(command, cwd=tmp_path, stdout=pipe, stderr=pipe, text=True)
        assert parent.stdout is not None
        started.append(parent.pid)
        started.append(int(parent.stdout.readline()))
        return parent, started[-1]

    yield beginning
    for process in started:
        with suppress(ProcessLookupError):
            os.kill(process, signal.SIGKILL)


def gone(process: int) -> bool:
    """Whether a process ends within a while; one that waits to be taken leave of counts as ended."""
    for _ in range(600):
        try:
            if Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0] == "Z":
                return True
        except FileNotFoundError:
            return True
        time.sleep(0.05)
    return False


@pytest.mark.parametrize("work", ["signal.pause()", DEAF, DEAFER])
@pytest.mark.parametrize(("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_a_signal_ends_it_and_leaves_nothing(
    tmp_path: Path, begun: Begun, work: str, number: signal.Signals, code: int
) -> None:
    parent, child = begun(work)
    parent.send_signal(number)
    _, told = parent.communicate(timeout=30)
    assert parent.returncode == code
    assert told == ("Stopped. Nothing half written is left.\n" if code == 130 else "")
    assert list(tmp_path.iterdir()) == []
    assert gone(child)


def test_ctrl_c_of_a_terminal_reaches_both_and_is_one(tmp_path: Path, begun: Begun) -> None:
    parent, child = begun("signal.pause()")
    os.kill(child, signal.SIGINT)
    parent.send_signal(signal.SIGINT)
    _, told = parent.communicate(timeout=30)
    assert (parent.returncode, told) == (130, "Stopped. Nothing half written is left.\n")
    assert list(tmp_path.iterdir()) == []


def test_what_the_system_ends_is_told_and_swept(tmp_path: Path, begun: Begun) -> None:
    parent, _ = begun("os.kill(os.getpid(), signal.SIGKILL)", as_json=True)
    _, told = parent.communicate(timeout=30)
    error = json.loads(told)["error"]
    assert (parent.returncode, error["code"], error["actual"]) == (5, "ended-from-outside", "SIGKILL")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(sys.platform != "linux", reason="prctl is Linux's")
def test_nobody_works_on_for_a_parent_that_was_killed(begun: Begun) -> None:
    parent, child = begun(DEAFER)
    parent.kill()
    parent.communicate(timeout=30)
    assert gone(child)


def test_what_is_kept_is_planned_without_the_libraries_of_geometry() -> None:
    """Their import takes a second or two, half of what a new price may take."""
    heavy = ("numba", "scipy", "skimage", "igl", "ortools", "manifold3d", "shapely", "embreex", "PIL")
    code = ("import sys, moldwright.desk.main, moldwright.desk.command_plan, moldwright.desk.show_plan\n"
            f"print([name for name in {heavy} if name in sys.modules])")  # fmt: skip
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"
