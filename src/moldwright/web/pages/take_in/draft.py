"""What is being taken in and is no piece yet: answers and files, kept so that a closed browser loses nothing."""

from __future__ import annotations

import shutil
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NewType
from uuid import UUID

from moldwright.disk.lock import locked
from moldwright.errors import InputRefused
from moldwright.records.clock import BenchClock
from moldwright.text.shown import short
from moldwright.web.long_work.files import read_tree, write_tree

DraftId = NewType("DraftId", str)
ANSWERS, FILES, PHOTOS = "answers.json", "files", "photos"
KEPT_S = 7 * 24 * 3600
"""How long what nobody goes on with is kept: a week; our own."""


@dataclass(frozen=True, slots=True)
class TakingIn:
    """What is being taken in.

    Parameters
    ----------
    id : its own.
    folder : where its files lie, as its commission names them.
    answers : what was answered, by dotted key, as a commission holds it.
    beside : what is no key of a commission: for whom, by when, the piece that is changed, the last look.
    """

    id: DraftId
    folder: Path
    answers: Mapping[str, Any]
    beside: Mapping[str, Any]

    @property
    def photos(self) -> Path:
        """The folder of its photos."""
        return self.folder / PHOTOS


class Drafts:
    """All that is being taken in at a desk.

    Parameters
    ----------
    data : the desk's folder of this machine.
    """

    def __init__(self, data: Path) -> None:
        self._home = data / "taking-in"

    def begin(self, answers: Mapping[str, Any], beside: Mapping[str, Any]) -> TakingIn:
        """Begin to take something in.

        Parameters
        ----------
        answers, beside : what is answered already.
        """
        self._home.mkdir(parents=True, exist_ok=True, mode=0o700)
        self._sweep()
        id_ = DraftId(BenchClock("draft").new_id())
        (self._home / id_).mkdir(mode=0o700)
        (self._home / id_ / FILES).mkdir()
        return self.keep(id_, answers, beside)

    def keep(self, id_: DraftId, answers: Mapping[str, Any], beside: Mapping[str, Any]) -> TakingIn:
        """Keep what is answered by now.

        Parameters
        ----------
        id_ : of what is being taken in.
        answers, beside : all of it.
        """
        write_tree(self._home / id_ / ANSWERS, {"answers": dict(answers), "beside": dict(beside)})
        return TakingIn(id_, self._home / id_ / FILES, answers, beside)

    def get(self, written: str) -> TakingIn:
        """What is meant.

        Parameters
        ----------
        written : its id, as it came.

        Raises InputRefused ("not-kept").
        """
        try:
            id_ = DraftId(str(UUID(written)))
        except ValueError:
            id_ = DraftId("")
        if not id_ or id_ != written or not (self._home / id_ / ANSWERS).is_file():
            raise InputRefused("not-kept", short(written), "what is being taken in", "", "Begin anew at Take in.")
        told = read_tree(self._home / id_ / ANSWERS)
        return TakingIn(id_, self._home / id_ / FILES, told.get("answers", {}), told.get("beside", {}))

    @contextmanager
    def held(self, draft: TakingIn) -> Iterator[TakingIn]:
        """It as it stands now, for one who makes something of it: who comes second finds that it is gone.

        Parameters
        ----------
        draft : as it was.

        Raises InputRefused ("not-kept").
        """
        with locked(self._home / f".{draft.id}.lock", wait=True):
            try:
                yield self.get(draft.id)
            finally:
                (self._home / f".{draft.id}.lock").unlink(missing_ok=True)

    def drop(self, id_: DraftId) -> None:
        """Remove it: it is a piece now, or nobody wants it.

        Parameters
        ----------
        id_ : of what is being taken in.
        """
        shutil.rmtree(self._home / id_, ignore_errors=True)

    def _sweep(self) -> None:
        for entry in self._home.iterdir():
            if time.time() - entry.stat().st_mtime > KEPT_S:
                shutil.rmtree(entry, ignore_errors=True)
