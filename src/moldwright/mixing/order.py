"""In which order the parts of a cup go in: a matter of its chemistry, told here and nowhere else."""

from __future__ import annotations

from moldwright.materials.words import Chemistry, Side
from moldwright.plan.mixes import PartKind

STARTERS = {Chemistry.CONDENSATION: PartKind.B, Chemistry.POLYESTER: PartKind.B, Chemistry.GYPSUM: PartKind.A}
"""Where the part that starts the clock is given by the chemistry: catalyst into the base, peroxide into the resin,
gypsum into the water; whatever else the mix takes is in the other part by then. Common practice, no source."""
NOTHING_AFTER = frozenset((Chemistry.POLYESTER, Chemistry.GYPSUM))
"""Where the starter is the last of all: peroxide never meets powder that is not wetted out, setting gypsum is not
stirred again. Common practice, no source."""


def order_of(chemistry: Chemistry, leads: Side, color: Side, late_powder: bool = False) -> tuple[PartKind, ...]:
    """Every part that a mix may have, in the order in which it goes in.

    The one of A and B that takes powder and color goes in first, then these, then the other, which starts the clock;
    last a thixotropic agent, which thickens within a minute.

    Parameters
    ----------
    chemistry : what cures
    leads : the part that takes the powder or the pigment, A or B; else A goes in first
    color : the part that takes the color; neither A nor B: the stirred mix
    late_powder : the powder is sifted into the stirred mix, where the chemistry allows it (`powder_may_wait`)

    Source: common practice, no source.

    >>> [part.value for part in order_of(Chemistry.POLYESTER, Side.A, Side.A)]
    ['A', 'pigment', 'tint', 'powder', 'B', 'thixotropic agent']
    """
    last = STARTERS.get(chemistry, PartKind.A if leads is Side.B else PartKind.B)
    first = PartKind.A if last is PartKind.B else PartKind.B
    colors, powder = (PartKind.PIGMENT, PartKind.TINT), (PartKind.POWDER,)
    early = chemistry in STARTERS or color.value == first.value
    waits = late_powder and powder_may_wait(chemistry)
    before = (*(colors if early else ()), *(() if waits else powder))
    after = (*(() if early else colors), *(powder if waits else ()))
    return (first, *before, last, *after, PartKind.THIXOTROPE)


def powder_may_wait(chemistry: Chemistry) -> bool:
    """Whether powder may be sifted into the stirred mix, where the pot life leaves the time.

    Parameters
    ----------
    chemistry : what cures

    Source: common practice, no source.
    """
    return chemistry not in NOTHING_AFTER
