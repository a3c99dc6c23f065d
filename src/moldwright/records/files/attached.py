"""Files that belong to something, by its log."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.log.any_events import Attached
from moldwright.log.ids import EventId, FileHash, SubjectId
from moldwright.log.standing import standing
from moldwright.records.shop import Shop


@dataclass(frozen=True, slots=True)
class LaidFile:
    """A file that was laid to something.

    Parameters
    ----------
    entry : of the log, by which it is struck out.
    file : which.
    text : what it shows, in words; "" where nobody said.
    """

    entry: EventId
    file: FileHash
    text: str


def attached_to(shop: Shop, subject: SubjectId) -> tuple[LaidFile, ...]:
    """What was laid to it, the newest first; what a line goes through is not.

    Parameters
    ----------
    shop : the store.
    subject : a run, a lot, a mold, an edition, a recipe or a piece.
    """
    events = reversed(standing(shop.events_of(subject)))
    return tuple(LaidFile(e.id, e.body.file, e.body.text) for e in events if isinstance(e.body, Attached))
