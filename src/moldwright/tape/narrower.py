"""What a maker could measure or tell besides, so that a tape's range becomes narrower or true."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from moldwright.tape.parts import Part, is_tip
from moldwright.tape.section import Floats
from moldwright.tape.told import Gap, Tape

MOST_PLACES = 2
LEAST_GAIN = 0.025
"""Half the range of a span, as a share of the whole volume, from which a level within it is worth measuring: a quarter
of what the hollows leave unsure; our own."""
LEAST_SPAN_MM = 12.0
"""Levels nearer than half of it lie within the doubt of their own heights, 3 mm each."""
SMALL_MM = 90.0
"""A piece lower than this is told badly by readings that are off by millimeters."""


SLIP = 5.0
"""A girth so many times less or more than both its neighbors' looks like another unit: ours; a goblet's stem is asked
after in vain."""
THICKER = 1.25
"""Of the body's largest girth, from which a limb's first one looks like a slip."""


class Wanted(StrEnum):
    """What is asked: a level more, hollows or gaps that nothing is told of, calipers, water, where the top
    is, or whether a girth that looks like a slip of the unit, or a limb thicker than the body, is so."""

    LEVEL = "level"
    LIMB_LEVEL = "limb-level"
    HOLLOWS = "hollows"
    GAPS = "gaps"
    CALIPERS = "calipers"
    SMALL = "small"
    TOP = "top"
    GIRTH = "girth"
    FAT_LIMB = "fat-limb"


@dataclass(frozen=True, slots=True)
class Narrower:
    """One thing to measure or tell; for a level, between which two and about where [mm], and of which limb."""

    ask: Wanted
    limb: str = ""
    low_mm: float = 0.0
    high_mm: float = 0.0
    girth_mm: float = 0.0

    @property
    def about_mm(self) -> float:
        """The middle, to 5 mm where the span is wide.

        >>> Narrower(Wanted.LEVEL, "", 40.0, 83.0).about_mm
        60.0
        """
        return float(5.0 * round((self.low_mm + self.high_mm) / 10.0))


def narrower(
    tape: Tape, parts: Sequence[Part], gaps: Sequence[Gap], height_mm: float, *, flat: bool
) -> tuple[Narrower, ...]:
    """What would narrow the range or make it true, what matters most first.

    Parameters
    ----------
    tape : what was measured, checked.
    parts : body and limbs.
    gaps : what the maker told of recesses.
    height_mm : of the piece [mm].
    flat : no height was told, so that the piece ends at its last level.

    Source: our own.
    """
    unsaid = [Narrower(Wanted.HOLLOWS)] if tape.hollows is None else []
    no_gap = [Narrower(Wanted.GAPS)] if not gaps else []
    read = [level for level in tape.levels if not is_tip(level)]
    both = sum(level.breadth_mm is not None and level.depth_mm is not None for level in read)
    calipers = [Narrower(Wanted.CALIPERS)] if 2 * both < len(read) else []
    small = [Narrower(Wanted.SMALL)] if height_mm < SMALL_MM else []
    top = [Narrower(Wanted.TOP, "", height_mm, height_mm)] if flat and not is_tip(tape.levels[-1]) else []
    return (*_slips(tape), *top, *unsaid, *no_gap, *calipers, *_places(parts), *small)


def _slips(tape: Tape) -> list[Narrower]:
    """Inner levels whose girth is a slip's factor off both their neighbors', and limbs thicker than the body."""
    found = []
    for stack, name in ((tape.levels, ""), *((limb.levels, limb.name) for limb in tape.limbs)):
        for low, level, high in zip(stack, stack[1:], stack[2:], strict=False):
            beside = [one.girth_mm for one in (low, high) if not is_tip(one)]
            odd = level.girth_mm * SLIP < min(beside, default=0.0) or level.girth_mm > SLIP * max(
                beside, default=np.inf
            )
            found += [Narrower(Wanted.GIRTH, name, level.at_mm, level.at_mm, level.girth_mm)] if odd else []
    body = max(level.girth_mm for level in tape.levels)
    fat = (limb for limb in tape.limbs if limb.levels[0].girth_mm > THICKER * body)
    return [*found, *(Narrower(Wanted.FAT_LIMB, limb.name, girth_mm=limb.levels[0].girth_mm) for limb in fat)]


def _places(parts: Sequence[Part]) -> list[Narrower]:
    """The spans that leave the whole volume most unsure, from the lowest up."""
    whole_mm3 = sum(part.count * part.lofts.volume_mm3[0] for part in parts)
    found = []
    for part in parts:
        at, off_mm3 = part.lofts.levels_mm, part.count * _unsure_mm3(part)
        limb = "" if part.limb is None else part.limb.name
        found += [
            (off / whole_mm3, Narrower(Wanted.LIMB_LEVEL if part.limb else Wanted.LEVEL, limb, float(low), float(high)))
            for off, low, high in zip(off_mm3, at[:-1], at[1:], strict=True)
            if off >= LEAST_GAIN * whole_mm3 and high - low >= LEAST_SPAN_MM
        ]
    worst = sorted(found, key=lambda pair: -pair[0])[:MOST_PLACES]
    return sorted((one for _, one in worst), key=lambda one: (one.limb, one.low_mm))


def _unsure_mm3(part: Part) -> Floats:
    """Half the range of the likely volume between each two levels [mm3]."""
    loft = part.lofts
    middle, step = (loft.section_mm2[0, :-1] + loft.section_mm2[0, 1:]) / 2.0, np.diff(loft.at_mm)
    half = (loft.at_mm[:-1] + loft.at_mm[1:]) / 2.0
    spans = zip(loft.levels_mm[:-1], loft.levels_mm[1:], strict=True)
    held = np.array([(middle * step)[(half > low) & (half < high)].sum() for low, high in spans])
    return held * loft.unsure
