"""Faults tried in copies of the tree: does a fast test of the room notice? Processes are forked from one that has
loaded the libraries, so that a trial costs its tests and little more. For systems that can fork."""

from __future__ import annotations

import importlib
import os
import resource
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
COPIED = ("src", "tests", "docs", "pyproject.toml", "README.md")
SLOTS = 2
CPU_S, WALL_S = 60, 600
MOST_BYTES = 12 * 2**30
LOADED = (
    "numpy", "scipy.ndimage", "scipy.spatial", "scipy.constants", "numba", "igl", "manifold3d", "shapely",
    "skimage.measure", "ortools.graph.python.max_flow", "embreex.mesh_construction", "pytest", "hypothesis",
)  # fmt: skip
QUIET = (
    "-x", "-q", "--no-header", "--tb=line", "-p", "no:cacheprovider", "-p", "no:xdist", "-m", "not slow",
    "-W", "ignore::pytest.PytestAssertRewriteWarning",
)  # fmt: skip


class Verdict(StrEnum):
    """What became of a fault."""

    CAUGHT = "caught"
    OUT_OF_TIME = "out of time"
    SURVIVED = "survived"


@dataclass(frozen=True, slots=True)
class Trial:
    """A fault: the file that is changed, its new text (None: as it is), and the tests that may notice."""

    name: str
    path: str
    text: str | None
    tests: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a trial, the last words of its tests, and how long it took [s]."""

    trial: Trial
    verdict: Verdict
    said: str
    seconds: float


@dataclass(slots=True)
class _Running:
    trial: Trial
    started_s: float


def outcomes(trials: Iterable[Trial]) -> Iterator[Outcome]:
    """Try all faults, two at a time, each within its limit of time; told as they end."""
    _load()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(128 + signal.SIGTERM))
    with tempfile.TemporaryDirectory() as folder:
        copies = [_copy(Path(folder) / str(n)) for n in range(SLOTS)]
        yield from _all(iter(trials), copies)


def _load() -> None:
    os.environ.update(PYTHONDONTWRITEBYTECODE="1", OMP_NUM_THREADS="1", OPENBLAS_NUM_THREADS="1")
    sys.dont_write_bytecode = True
    for name in LOADED:
        importlib.import_module(name)
    settings = importlib.import_module("hypothesis").settings
    settings.register_profile("trial", derandomize=True, database=None, deadline=None, max_examples=20)
    settings.load_profile("trial")


def _copy(to: Path) -> Path:
    """The tree with the compiled code that lies in it, the same to the second, so that nothing compiles anew."""
    to.mkdir()
    for name in COPIED:
        of = ROOT / name
        if of.is_dir():
            shutil.copytree(of, to / name)
        else:
            shutil.copy2(of, to / name)
    return to


def _all(waiting: Iterator[Trial], copies: list[Path]) -> Iterator[Outcome]:
    running: dict[int, tuple[_Running, Path]] = {}
    free = list(copies)
    try:
        while True:
            while free and (trial := next(waiting, None)) is not None:
                copy = free.pop()
                running[_start(trial, copy)] = (_Running(trial, time.monotonic()), copy)
            if not running:
                return
            pid, status = os.waitpid(-1, os.WNOHANG)
            if pid == 0:
                _end_late(running)
                time.sleep(0.02)
                continue
            done, copy = running.pop(pid)
            free.append(copy)
            yield _judged(done, copy, status)
    finally:
        for pid in running:
            _kill(pid)


def _start(trial: Trial, copy: Path) -> int:
    if trial.text is not None:
        (copy / trial.path).write_text(trial.text, encoding="utf-8")
        for stale in (copy / trial.path).parent.glob(f"__pycache__/{Path(trial.path).stem}.*.pyc"):
            stale.unlink()
    pid = os.fork()
    if pid:
        return pid
    try:
        code = _test(trial.tests, copy)
    except BaseException:
        traceback.print_exc()
        code = 1
    os._exit(code)


def _test(tests: tuple[str, ...], copy: Path) -> int:
    """In the child: the exit code of its tests."""
    os.setsid()
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    resource.setrlimit(resource.RLIMIT_CPU, (CPU_S, CPU_S))
    with suppress(ValueError, OSError):  # not every system bounds its memory
        resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    out = os.open(copy / "said.txt", os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
    os.dup2(out, 1)
    os.dup2(out, 2)
    os.chdir(copy)
    os.environ["PYTHONPATH"] = str(copy / "src")
    sys.path[:] = [str(copy / "src"), *(p for p in sys.path if Path(p) not in (ROOT / "src", ROOT / "tools"))]
    code = int(importlib.import_module("pytest").main([*QUIET, *tests]))
    sys.stdout.flush()
    return code


def _end_late(running: dict[int, tuple[_Running, Path]]) -> None:
    for pid, (one, _) in running.items():
        if time.monotonic() - one.started_s > WALL_S:
            _kill(pid)


def _kill(pid: int) -> None:
    with suppress(ProcessLookupError):
        os.killpg(pid, signal.SIGKILL)


def _judged(done: _Running, copy: Path, status: int) -> Outcome:
    trial = done.trial
    if trial.text is not None:
        shutil.copy2(ROOT / trial.path, copy / trial.path)
    said = (copy / "said.txt").read_text(encoding="utf-8", errors="replace") if (copy / "said.txt").exists() else ""
    ended = os.WIFSIGNALED(status) and os.WTERMSIG(status) in (signal.SIGXCPU, signal.SIGKILL)
    passed = os.WIFEXITED(status) and os.WEXITSTATUS(status) == 0
    verdict = Verdict.OUT_OF_TIME if ended else Verdict.SURVIVED if passed else Verdict.CAUGHT
    return Outcome(trial, verdict, said[-2000:], time.monotonic() - done.started_s)
