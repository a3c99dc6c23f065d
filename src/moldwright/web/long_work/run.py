"""One job run: its process started, waited for, and its end told as what it was."""

from __future__ import annotations

import signal
import subprocess
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from moldwright.child.start import Child, child_process
from moldwright.errors import ComputationFailed
from moldwright.records.clock import now_ms
from moldwright.web.long_work.files import PROCESS, JobFiles
from moldwright.web.long_work.job import LongJob, WorkState, ended_from_outside

MODULE = "moldwright.web.long_work.process"


def run_job(files: JobFiles, job: LongJob, started: Callable[[Child], None]) -> LongJob:
    """Do a job in a process of its own, and how it ended; nothing of it is written.

    Parameters
    ----------
    files : the jobs' folder.
    job : that is under way.
    started : is given the process, to end it before its time.
    """
    own = files.of(job.id) / PROCESS
    own.mkdir(exist_ok=True)
    with child_process(MODULE, {"kind": job.kind.value, "order": job.order}, own) as child:
        started(child)
        code = child.wait()
    return _ended(job, files.answer(job.id), code)


def _ended(job: LongJob, answer: dict[str, Any], code: int) -> LongJob:
    if "result" in answer:
        return replace(job, state=WorkState.DONE, ended_ms=now_ms(), result=answer["result"])
    if "refused" in answer:
        return replace(job, state=WorkState.REFUSED, ended_ms=now_ms(), refused=answer["refused"])
    if "broken" in answer:
        return replace(job, state=WorkState.BROKEN, ended_ms=now_ms(), refused=answer["broken"])
    return job.ended(WorkState.BROKEN, now_ms(), _violent(code))


def _violent(code: int) -> ComputationFailed:
    if code >= 0:
        return ended_from_outside(f"code {code}")
    try:
        return ended_from_outside(signal.Signals(-code).name)
    except ValueError:
        return ended_from_outside(f"signal {-code}")


def end_now(child: Child) -> None:
    """End a process, wherever it is; what reads a scan for it ends with it.

    Parameters
    ----------
    child : the process.
    """
    child.kill()
    try:
        child.wait(timeout=1.0)
    except subprocess.TimeoutExpired:  # pragma: no cover - a process that the system itself holds
        return
