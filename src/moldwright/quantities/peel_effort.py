"""How hard a glove is to peel, from how far a sheet of it stretches and what the rubber bears."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.materials.hardness import youngs_modulus_mpa
from moldwright.mold.strained import Point, Strained
from moldwright.plan.peel import elongation_pct
from moldwright.plan.strain import PeelEffort, StrainedPlace, StrainPlan
from moldwright.ranges import Range

EASY_SHARE = 0.5
"""Up to this share of the stretch that is allowed it is easy: common practice, no source."""
HANDS_N = 145.0
"""A standing person pulls so much with both hands without strain: EN 1005-3 (from memory)."""
GENT_SHARE = 0.3
"""How far hardness may mislead about the modulus: Gent, see `materials.hardness`."""


def strain_plan(strained: Strained, loops: float, allowed: float, shore_a: Range, glove_mm: float) -> StrainPlan:
    """What the sheet tells about a glove of a rubber.

    Parameters
    ----------
    strained : how far it stretches.
    loops : how many times its own length the tightest loop is stretched.
    allowed : how many times its own length the rubber may be stretched, > 1.
    shore_a : its hardness [Shore A].
    glove_mm : thickness of all coats together [mm].

    Source: `EASY_SHARE`, `HANDS_N`; the pull as `pull_n`.
    """
    pull = pull_n(strained.force_mm, shore_a, glove_mm)
    return StrainPlan(
        effort_of(strained, loops, allowed, pull),
        strained.off,
        None if strained.caught is None else _rounded(strained.caught),
        round(elongation_pct(strained.most_95), 1),
        round(elongation_pct(strained.most_99), 1),
        tuple(StrainedPlace(_rounded(spot.at), round(elongation_pct(spot.stretch))) for spot in strained.spots),
        pull,
    )


def _rounded(place: Point) -> Point:
    x, y, z = place
    return round(x, 1), round(y, 1), round(z, 1)


def effort_of(strained: Strained, loops: float, allowed: float, pull: Range | None) -> PeelEffort:
    """How hard it is: a slit at hand where the sheet did not come off or a hundredth of it is stretched too far. Thin
    limbs are too fine for the sheet: of it and the tightest loop what is stretched more counts.

    Parameters
    ----------
    strained, loops, allowed : as `strain_plan` has them.
    pull : how hard it pulls [N]; None where nobody knows.

    Source: `EASY_SHARE`, `HANDS_N`.
    """
    share = (max(strained.most_99, loops) - 1.0) / (allowed - 1.0)
    if not strained.off or share > 1.0:
        return PeelEffort.SLIT
    hard = pull is not None and pull.likely > HANDS_N
    return PeelEffort.FIRM if share > EASY_SHARE or hard else PeelEffort.EASY


def pull_n(force_mm: float | None, shore_a: Range, glove_mm: float) -> Range | None:
    """The greatest pull on the glove's edge [N]: `F = f h E / 3`, E by Gent.

    Parameters
    ----------
    force_mm : pull for each N/mm of shear modulus times thickness [mm]; None where it is not known.
    shore_a : hardness [Shore A]; outside of Gent's range nothing is told.
    glove_mm : thickness [mm].

    Source: incompressible rubber has the shear modulus E / 3 (Treloar, from memory); `materials.hardness`.

    >>> pull = pull_n(30.0, Range(10.0, 10.0, 10.0), 4.0)
    >>> round(pull.low, 1), round(pull.likely, 1), round(pull.high, 1)
    (11.6, 16.5, 21.5)
    """
    if force_mm is None:
        return None
    try:
        low, likely, high = (youngs_modulus_mpa(shore) for shore in (shore_a.low, shore_a.likely, shore_a.high))
    except InputRefused:
        return None
    each = force_mm * glove_mm / 3.0
    return Range(each * low * (1 - GENT_SHARE), each * likely, each * high * (1 + GENT_SHARE))
