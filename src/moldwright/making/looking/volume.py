"""What water or weight alone tell of an original: its volume, and what no volume tells."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.commission.orders import Commission
from moldwright.job.rough import GIVEN_BY, rough_known
from moldwright.plan.original import Source
from moldwright.plan.rough import Lack, RoughOriginal


@dataclass(frozen=True, slots=True)
class LookedVolume:
    """What water and weight tell, what they do not, and what would."""

    original: RoughOriginal
    lacks: tuple[Lack, ...]
    given_by: tuple[Source, ...]


def look_at_volume(order: Commission) -> LookedVolume:
    """Look at an original that is known by water or weight alone.

    Parameters
    ----------
    order : the commission.
    """
    _, original = rough_known(order.original)
    return LookedVolume(original, tuple(Lack), GIVEN_BY)
