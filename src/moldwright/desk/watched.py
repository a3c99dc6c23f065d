"""The command as a child process that its parent watches, so that Ctrl-C ends it at once wherever it is.

A native call (a boolean of solids, a cut, a PDF) hears no signal until it returns. The parent hears it, passes it on,
waits for as long as cleaning up takes, then ends the child by force and sweeps what it left half written. A child that
the system ends (out of memory, a fault in a library) is told as what it is.
"""

from __future__ import annotations

import ctypes
import os
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from typing import NoReturn

from moldwright.desk.exits import ENDED, STOPPED, STOPPED_WORDS, tell
from moldwright.errors import ComputationFailed
from moldwright.making.folder import UNDER_WAY, sweep_left

GRACE_S = 0.5
"""How long a command may clean up by itself after a signal."""
LOOK_S = 0.01
CODES = {signal.SIGINT: STOPPED, signal.SIGTERM: ENDED}
PR_SET_PDEATHSIG = 1


class _SignalCame(BaseException):
    """A signal for the parent."""


def watched(command: Callable[[], None], as_json: bool = False) -> None:
    """Run a command in a child process of its own and end as it ends; where a system cannot fork, run it here.

    Parameters
    ----------
    command : what to run.
    as_json : tell a child's violent end as one JSON object.
    """
    if not hasattr(os, "fork"):
        command()
        return
    sys.stdout.flush()
    sys.stderr.flush()
    signal.pthread_sigmask(signal.SIG_BLOCK, CODES)
    reading, writing = os.pipe()
    parent, child = os.getpid(), os.fork()
    if child:
        os.close(writing)
        _wait(child, reading, as_json)
    os.close(reading)
    UNDER_WAY.append(writing)
    _die_with(parent)
    for number, code in CODES.items():
        signal.signal(number, _leave(code))
    signal.pthread_sigmask(signal.SIG_UNBLOCK, CODES)
    command()


def _leave(code: int) -> Callable[[int, FrameType | None], None]:
    """What a signal does while nothing is being written yet."""

    def leave(_number: int, _frame: FrameType | None) -> NoReturn:
        os.write(2, STOPPED_WORDS[code].encode())
        os._exit(code)

    return leave


def _die_with(parent: int) -> None:
    """Let the system end this process when its parent is killed (Linux: prctl with PR_SET_PDEATHSIG)."""
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGKILL)
        if os.getppid() != parent:
            os._exit(ENDED)


def _came(number: int, _frame: FrameType | None) -> NoReturn:
    raise _SignalCame(number)


def _wait(child: int, reading: int, as_json: bool) -> NoReturn:
    """Wait for the child, in the parent; end with its code."""
    for number in CODES:
        signal.signal(number, _came)
    try:
        signal.pthread_sigmask(signal.SIG_UNBLOCK, CODES)
        _, status = os.waitpid(child, 0)
    except _SignalCame as came:
        _stop(child, reading, signal.Signals(came.args[0]))
    code = os.waitstatus_to_exitcode(status)
    if code < 0:
        sweep_left(_told(reading))
        remedy = "Memory may have run out: close other programs or use a smaller scan; else please report it."
        fault = ComputationFailed("ended-from-outside", signal.Signals(-code).name, None, "", remedy)
        tell(fault, as_json)
        code = fault.exit_code
    _end(code)


def _stop(child: int, reading: int, number: signal.Signals) -> NoReturn:
    """Pass a signal on and, where the child does not end by itself, end it, sweep, and show the cursor again.

    A child that was done before it heard of it ends as it would have.
    """
    for other in CODES:
        signal.signal(other, signal.SIG_IGN)
    os.kill(child, number)
    until = time.monotonic() + GRACE_S
    while not (ended := os.waitpid(child, os.WNOHANG))[0]:
        if time.monotonic() > until:
            os.kill(child, signal.SIGKILL)
        time.sleep(LOOK_S)
    code = os.waitstatus_to_exitcode(ended[1])
    if code >= 0 and code not in CODES.values():
        _end(code)
    sweep_left(_told(reading))
    shown = "\x1b[?25h\n" if sys.stderr.isatty() else ""
    os.write(2, f"{shown}{STOPPED_WORDS[CODES[number]]}".encode())
    _end(CODES[number])


def _told(reading: int) -> list[Path]:
    """The folders that the child said it works in."""
    with os.fdopen(reading, "rb") as pipe:
        return [Path(os.fsdecode(line)) for line in pipe.read().split(b"\0") if line]


def _end(code: int) -> NoReturn:
    """Leave the parent; the streams were flushed before it had a child, which writes by itself."""
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(code)
