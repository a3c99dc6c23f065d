"""The words on which a step of one coat depends beside its job's."""

from __future__ import annotations

from moldwright.plan.coats import CoatPlan, Gesture
from moldwright.plan.mixes import MixFor, MixKind
from moldwright.quantities.quantities import Quantities
from moldwright.steps.flags import Flag


def coat_flags(job: Quantities, coat: CoatPlan) -> frozenset[Flag]:
    """The flags that are up for one coat beside the job's.

    Parameters
    ----------
    job : the quantities.
    coat : one of its coats.
    """
    coats = job.rubber.coats
    words = {
        Flag.COAT_STIPPLE: coat.gesture is Gesture.STIPPLE,
        Flag.COAT_BRUSH: coat.gesture is Gesture.BRUSH,
        Flag.COAT_STICK: coat.gesture is Gesture.STICK,
        Flag.FIRST_COAT: coat.id == coats[0].id,
        Flag.LAST_COAT: coat.id == coats[-1].id,
        Flag.SEVERAL_CUPS: coat.cups > 1,
        Flag.NUMBERED_SPOTS: any(spot.after == coat.id for spot in job.rubber.spots),
        Flag.PACKED_NEXT: bool(job.mixes_for(MixFor(MixKind.FILL, coat.id))),
        Flag.FILL_AGAIN: job.rubber.packed_before(coat.id),
        Flag.SMALL_SPOTS: job.rubber.small_g(coat.id) >= job.commission.shop.scale_g,
    }
    return frozenset(flag for flag, up in words.items() if up)
