"""What cures by itself, and how its times follow the temperature."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.plan.mixes import RUBBER_KINDS, MixKind
from moldwright.ranges import Range


class Curing(StrEnum):
    """What cures: the rubber, the resin of the skin, that of the back-fill."""

    RUBBER = "rubber"
    SKIN = "skin"
    BACK_FILL = "back-fill"


@dataclass(frozen=True, slots=True)
class CurePlan:
    """How one of them cures: all its times go by one activation energy; its pot life at the plan's temperature, in the
    mass of its sheet."""

    of: Curing
    activation_kj_mol: Range
    pot_life_s: Range


def curing_in(kind: MixKind) -> Curing | None:
    """What cures in a cup; None for gypsum, whose setting its sheet tells.

    Parameters
    ----------
    kind : what the cup is for.

    >>> curing_in(MixKind.FILL), curing_in(MixKind.SHELL)
    (<Curing.RUBBER: 'rubber'>, None)
    """
    if kind in RUBBER_KINDS:
        return Curing.RUBBER
    return {MixKind.SKIN: Curing.SKIN, MixKind.BACK_FILL: Curing.BACK_FILL}.get(kind)
