"""The cups of a run that something was weighed into: of each a recipe can be kept."""

from __future__ import annotations

from moldwright.log.ids import RunId
from moldwright.log.run_events import CupRef, Weighed
from moldwright.log.standing import standing
from moldwright.records.shop import Shop


def weighed_cups(shop: Shop, run: RunId) -> tuple[CupRef, ...]:
    """The cups of a run that something was weighed into, in the order in which that began.

    Parameters
    ----------
    shop : the store.
    run : which.
    """
    bodies = (event.body for event in standing(shop.events_of(run)))
    return tuple(dict.fromkeys(body.cup for body in bodies if isinstance(body, Weighed)))
