"""The work of a desk: queued, run one after the other, stopped, tried again, and swept when it is old."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import Any

from moldwright.child.start import Child
from moldwright.disk.lock import InUseError, locked
from moldwright.errors import ComputationFailed, InputRefused, MoldwrightError
from moldwright.records.clock import BenchClock, now_ms
from moldwright.web.long_work.files import ASKED, LOCK, REFUSED, JobFiles
from moldwright.web.long_work.job import JobId, LongJob, WorkKind, WorkState, desk_closed, ended_from_outside
from moldwright.web.long_work.run import end_now, run_job

KEPT_MS = 7 * 24 * 3600 * 1000
"""How long work that is over is kept: a week; our own. What a plan made is moved to the plans before."""
LIGHT_AT_ONCE = 2
Settle = Callable[[LongJob, Path], LongJob]
log = logging.getLogger(__name__)


class WorkQueue:
    """All long work of one desk. One plan is made at a time, in the order in which they were asked for.

    Parameters
    ----------
    folder : of its jobs.
    settle : what is done with what a job made, when it ended well; it is given the job and the folder of that.
    """

    def __init__(self, folder: Path, settle: Settle = lambda job, _: job) -> None:
        self.files, self._settle = JobFiles(folder), settle
        self._heavy = ThreadPoolExecutor(1, "work")
        self._light = ThreadPoolExecutor(LIGHT_AT_ONCE, "looks")
        self._ids = BenchClock("work")
        self._lock = threading.Lock()
        self._children: dict[JobId, Child | None] = {}
        self._stopped: set[JobId] = set()
        self._closing = False

    def open(self) -> None:
        """Tell what a desk that was killed left under way, sweep what is old, and go on with what waits."""
        self._sweep()
        for job in self.files.every():
            with suppress(InUseError), locked(self.files.of(job.id) / LOCK):
                self._taken_up(job)
        for job in self.files.every():
            if job.state is WorkState.WAITING:
                self._submit(job)

    def _sweep(self) -> None:
        """What is over for long goes, also at a desk that nobody ever closes."""
        for job in self.files.every():
            if job.state.ended and job.ended_ms is not None and now_ms() - job.ended_ms > KEPT_MS:
                with suppress(InUseError), locked(self.files.of(job.id) / LOCK):
                    self.files.drop(job.id)

    def _taken_up(self, job: LongJob) -> None:
        if job.state is WorkState.WORKING:
            self.files.clear(job.id)
            self.files.write(job.ended(WorkState.BROKEN, now_ms(), desk_closed()))

    def close(self) -> None:
        """End what is under way, and leave what waits for the next time."""
        with self._lock:
            self._closing = True
            children = [child for child in self._children.values() if child is not None]
        for child in children:
            end_now(child)
        for pool in (self._heavy, self._light):
            pool.shutdown(wait=True, cancel_futures=True)

    def ask(
        self,
        kind: WorkKind,
        title: str,
        about: str,
        order: Mapping[str, Any],
        lay_out: Callable[[Path], object] | None = None,
        by: str = "",
    ) -> LongJob:
        """Ask for work; it is begun when its turn comes.

        Parameters
        ----------
        kind : what is done.
        title : of what, as a person calls it.
        about : the id of the piece, or of what is being taken in.
        order : plain values for the process.
        lay_out : lays what the work is done from into a folder that is not there yet.
        by : who asks.
        """
        self._sweep()
        job = LongJob(JobId(self._ids.new_id()), kind, title, about, order, now_ms(), by=by)
        folder = self.files.of(job.id)
        folder.mkdir(mode=0o700)
        try:
            if lay_out is not None:
                lay_out(folder / ASKED)
            self.files.write(job)
        except BaseException:
            self.files.drop(job.id)
            raise
        self._submit(job)
        return job

    def stop(self, id_: JobId) -> LongJob:
        """Stop work; nothing of what it made is left. What is over stays as it is.

        Parameters
        ----------
        id_ : the job's.

        Raises InputRefused ("not-kept", "work-elsewhere").
        """
        with self._lock:
            job = self.get(id_)
            if job.state is WorkState.WAITING:
                job = job.ended(WorkState.STOPPED, now_ms())
                self.files.write(job)
            if job.state.ended:
                return job
            if id_ not in self._children:
                remedy = "Stop it at that desk's own address."
                raise InputRefused("work-elsewhere", "another desk of this machine does it", "this desk", "", remedy)
            self._stopped.add(id_)
            child = self._children[id_]
        if child is not None:
            end_now(child)
        with suppress(InUseError), locked(self.files.of(id_) / LOCK, wait=True):
            self._stopped.discard(id_)
        return self.get(id_)

    def retry(self, id_: JobId) -> LongJob:
        """Do once more what was stopped, refused or broken.

        Parameters
        ----------
        id_ : the job's.

        Raises InputRefused ("work-not-over") where it waits, is under way or is done.
        """
        with self._lock:
            job = self.get(id_)
            if not job.state.ended or job.state is WorkState.DONE:
                remedy = "Wait for its end, or stop it first." if not job.state.ended else "Ask for it anew."
                raise InputRefused("work-not-over", job.state.value, "stopped, refused or broken", "", remedy)
            self.files.clear(id_)
            job = job.again(now_ms())
            self.files.write(job)
        self._submit(job)
        return job

    def get(self, id_: JobId) -> LongJob:
        """A job as it is now.

        Parameters
        ----------
        id_ : the job's.

        Raises InputRefused ("not-kept").
        """
        job = self.files.read(self.files.meant(id_))
        if job is None:
            raise InputRefused("not-kept", id_, "work that is kept", "", "Ask for it anew.")
        return job

    def before(self, job: LongJob) -> int:
        """How many are done before it.

        Parameters
        ----------
        job : that waits.
        """
        if not job.kind.heavy or job.state is not WorkState.WAITING:
            return 0
        ahead = (each for each in self.files.every() if each.kind.heavy and not each.state.ended)
        return sum((each.asked_ms, each.id) < (job.asked_ms, job.id) for each in ahead)

    def _submit(self, job: LongJob) -> None:
        pool = self._heavy if job.kind.heavy else self._light
        with suppress(RuntimeError):
            pool.submit(self._turn, job.id)

    def _turn(self, id_: JobId) -> None:
        try:
            with locked(self.files.of(id_) / LOCK):
                self._do(id_)
        except InUseError:
            return
        except Exception:
            log.exception("work could not be kept up")

    def _do(self, id_: JobId) -> None:
        with self._lock:
            job = self.files.read(id_)
            if job is None or job.state is not WorkState.WAITING or self._closing:
                return
            job = replace(job, state=WorkState.WORKING, started_ms=now_ms())
            self._children[id_] = None
            self.files.write(job)
        try:
            self._over(self._run(job))
        finally:
            with self._lock:
                del self._children[id_]
                self._stopped.discard(id_)

    def _run(self, job: LongJob) -> LongJob:
        """How it ended; one that could not even be begun has ended too."""
        try:
            return run_job(self.files, job, lambda child: self._begun(job.id, child))
        except Exception as error:
            log.exception("work could not be done")
            return job.ended(WorkState.BROKEN, now_ms(), _unforeseen(error))

    def _begun(self, id_: JobId, child: Child) -> None:
        with self._lock:
            self._children[id_] = child
            if self._closing or id_ in self._stopped:
                child.kill()

    def _over(self, job: LongJob) -> None:
        if job.state is WorkState.DONE:
            job = self._settled(job)
        elif job.state is WorkState.BROKEN and job.id in self._stopped:
            job = job.ended(WorkState.STOPPED, now_ms())
        elif job.state is WorkState.BROKEN and self._closing:
            job = job.ended(WorkState.BROKEN, now_ms(), desk_closed())
        if job.state is not WorkState.DONE:
            self.files.clear(job.id, (REFUSED,) if job.state is WorkState.REFUSED else ())
        self.files.write(job)

    def _settled(self, job: LongJob) -> LongJob:
        """What it made is put where it belongs; what goes wrong with that is the job's end."""
        try:
            return self._settle(job, self.files.made(job.id))
        except MoldwrightError as refused:
            return job.ended(WorkState.REFUSED, now_ms(), refused)
        except Exception as error:
            log.exception("what was made could not be kept")
            return job.ended(WorkState.BROKEN, now_ms(), _unforeseen(error))


def _unforeseen(error: Exception) -> ComputationFailed:
    return ended_from_outside(f"{type(error).__name__}: {error}"[:300])
