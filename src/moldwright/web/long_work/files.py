"""A job's folder: what was asked, what its process says, how it ended; each file is there whole or not at all."""

from __future__ import annotations

import json
import os
import shutil
import threading
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any
from uuid import UUID

from moldwright.errors import InputRefused
from moldwright.making.refused import refused_file
from moldwright.text.shown import short
from moldwright.web.long_work.job import HowFar, JobId, LongJob, job_of, job_tree

JOB, SAID, ANSWER, LOCK = "job.json", "said.json", "answer.json", "lock"
ASKED, MADE, PROCESS = "asked", "made", "process"
"""Folders: what the work is done from, what it makes, and the process's own."""
REFUSED = refused_file(Path(MADE)).name
"""The picture of a place that nothing could be made for, beside what would have been made."""


class JobFiles:
    """The folder of all jobs of this machine.

    Parameters
    ----------
    folder : where it is; made where it is missing.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)

    def of(self, id_: JobId) -> Path:
        """A job's folder.

        Parameters
        ----------
        id_ : the job's.
        """
        return self.folder / id_

    def made(self, id_: JobId) -> Path:
        """Where what it makes lies, once it is done.

        Parameters
        ----------
        id_ : the job's.
        """
        return self.of(id_) / MADE

    def refused(self, id_: JobId) -> Path:
        """Where the picture of the place lies for which it was refused.

        Parameters
        ----------
        id_ : the job's.
        """
        return self.of(id_) / REFUSED

    def has(self, id_: JobId) -> bool:
        """Whether there is such a job.

        Parameters
        ----------
        id_ : the job's, as it came.
        """
        try:
            self.meant(id_)
        except InputRefused:
            return False
        return True

    def meant(self, written: str) -> JobId:
        """The job that is meant, refused where there is none: nothing else is ever joined to a path.

        Parameters
        ----------
        written : its id, as it came.

        Raises InputRefused ("not-kept").
        """
        try:
            id_ = JobId(str(UUID(written)))
        except ValueError:
            id_ = JobId("")
        if not id_ or id_ != written or not (self.of(id_) / JOB).is_file():
            remedy = "What is over for long is swept: ask for it anew."
            raise InputRefused("not-kept", short(written), "work that is kept", "", remedy)
        return id_

    def read(self, id_: JobId) -> LongJob | None:
        """A job, None where there is none or where its file is no job's.

        Parameters
        ----------
        id_ : the job's.
        """
        try:
            return job_of(read_tree(self.of(id_) / JOB))
        except (KeyError, TypeError, ValueError):
            return None

    def every(self) -> tuple[LongJob, ...]:
        """All jobs, as they were asked for."""
        found = (self.read(JobId(entry.name)) for entry in self.folder.iterdir() if entry.is_dir())
        return tuple(sorted((job for job in found if job is not None), key=lambda job: (job.asked_ms, job.id)))

    def write(self, job: LongJob) -> None:
        """Write a job.

        Parameters
        ----------
        job : it.
        """
        self.of(job.id).mkdir(exist_ok=True, mode=0o700)
        write_tree(self.of(job.id) / JOB, job_tree(job))

    def how_far(self, id_: JobId) -> HowFar:
        """What its process said last.

        Parameters
        ----------
        id_ : the job's.
        """
        told = read_tree(self.of(id_) / SAID)
        return HowFar(str(told.get("stage", "")), float(told.get("share", 0.0)))

    def answer(self, id_: JobId) -> dict[str, Any]:
        """What its process left at its end, empty where it left nothing.

        Parameters
        ----------
        id_ : the job's.
        """
        return read_tree(self.of(id_) / ANSWER)

    def clear(self, id_: JobId, but: Collection[str] = ()) -> None:
        """Remove all that its process said and made; what it is done from stays.

        Parameters
        ----------
        id_ : the job's.
        but : names of files that stay too.
        """
        for entry in self.of(id_).iterdir():
            if entry.name not in (JOB, ASKED, LOCK, *but):
                _remove(entry)

    def drop(self, id_: JobId) -> None:
        """Remove a job.

        Parameters
        ----------
        id_ : the job's.
        """
        shutil.rmtree(self.of(id_), ignore_errors=True)


def read_tree(path: Path) -> dict[str, Any]:
    """A file of plain values, empty where there is none.

    Parameters
    ----------
    path : the file.
    """
    try:
        tree = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return tree if isinstance(tree, dict) else {}


def write_tree(path: Path, tree: Mapping[str, Any]) -> None:
    """Plain values as a file, in its place in one step.

    Parameters
    ----------
    path : the file.
    tree : what it shall hold.
    """
    part = path.with_name(f".{path.name}.{os.getpid()}.{threading.get_ident()}.part")
    part.write_text(json.dumps(tree), encoding="utf-8")
    part.replace(path)


def _remove(entry: Path) -> None:
    if entry.is_dir() and not entry.is_symlink():
        shutil.rmtree(entry, ignore_errors=True)
    else:
        entry.unlink(missing_ok=True)
