"""How a glove comes off, by what it asks of its rubber: chosen without the solids, which only a slit needs."""

from __future__ import annotations

from moldwright.errors import NoSafePlan
from moldwright.materials.peel_limits import BENDS, SLIDES
from moldwright.plan.peel import PeelFound, PeelPlan, PeelShape, PeelWay, SlitPlan, elongation_pct
from moldwright.store.stage import Kept
from moldwright.ways import Change, named_key


def peel_found(shape: PeelShape, slit: Kept[SlitPlan], allowed: float) -> PeelFound:
    """How the glove comes off; it is slit only where it is too tight.

    Parameters
    ----------
    shape : what peeling asks of it.
    slit : where it would be slit, made when it is.
    allowed : how many times its own length the rubber may be stretched.

    Raises NoSafePlan ("rubber-too-stiff"), and as the slit does.
    """
    refuse_what_does_not_bend(allowed)
    way = way_of(shape.stretch, allowed)
    return PeelFound(PeelPlan(way, allowed, shape), slit.value if way is PeelWay.SLIT else None)


def way_of(stretch: float, allowed: float) -> PeelWay:
    """How a glove comes off.

    Parameters
    ----------
    stretch : of its tightest loop, how many times its own length.
    allowed : how many times its own length the rubber may be stretched.

    >>> way_of(1.0, 2.0), way_of(3.0, 2.0)
    (<PeelWay.SLIDE: 'slide off'>, <PeelWay.SLIT: 'slit'>)
    """
    return PeelWay.SLIT if stretch > allowed else PeelWay.SLIDE if stretch < SLIDES else PeelWay.ROLL


def refuse_what_does_not_bend(allowed: float) -> None:
    """A rubber that does not even bend back on itself cannot be peeled at all, slit or not.

    Parameters
    ----------
    allowed : how many times its own length the rubber may be stretched.

    Raises NoSafePlan ("rubber-too-stiff").
    """
    if allowed < BENDS:
        remedy = (
            "Rolled over itself or opened along a slit, a glove is stretched so far on the outside of the bend, and a "
            f"third of the elongation that the rubber's sheet tells is less: change {named_key('mold.rubber')}"
        )
        needed, limit = round(elongation_pct(BENDS)), round(elongation_pct(allowed))
        raise NoSafePlan("rubber-too-stiff", needed, limit, "%", remedy, Change("mold.rubber"))
