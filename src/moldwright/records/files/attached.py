"""Files that belong to something, by its log."""

from __future__ import annotations

from moldwright.log.any_events import Attached
from moldwright.log.ids import SubjectId
from moldwright.log.standing import standing
from moldwright.records.shop import Shop


def attached_to(shop: Shop, subject: SubjectId) -> tuple[Attached, ...]:
    """What was laid to it, the newest first; what a line goes through is not.

    Parameters
    ----------
    shop : the store.
    subject : a run, a lot, a mold, an edition, a recipe or a piece.
    """
    bodies = (event.body for event in reversed(standing(shop.events_of(subject))))
    return tuple(body for body in bodies if isinstance(body, Attached))
