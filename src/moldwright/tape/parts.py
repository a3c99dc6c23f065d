"""Body and limbs as stacks of lofts, and what each one's draws hold."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from moldwright.geometry.section_shape import SectionShape
from moldwright.tape.doubts import form, reading
from moldwright.tape.draws import Draws
from moldwright.tape.section import Floats
from moldwright.tape.stack import TIP_MM, Ends, Lofts, lofts
from moldwright.tape.told import Limb, Tape, TapeLevel

ON_BOARD_SHARE = 0.03
"""A limb that ends within so much of the height above the board stands on it."""


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """A stack with its likely draw first: the body (`limb` None) or a limb, of which `count` are alike.

    `unsided` : how many limbs before it have no side said.
    """

    lofts: Lofts
    ends: Ends
    limb: Limb | None
    count: int
    unsided: int = 0


def parts_of(tape: Tape, height_mm: float, draws: Draws) -> tuple[Part, ...]:
    """The body first, then every limb.

    Parameters
    ----------
    tape : what was measured, checked.
    height_mm : from the board to the body's top [mm].
    draws : the draws.

    Source: our own.
    """
    known, like = reading(), form()
    ends = body_ends(tape, height_mm)
    body = lofts(tape.levels, tape.shape or SectionShape.OVAL, ends, draws, known, like)
    found = [Part(body, ends, None, 1)]
    unsided = 0
    for limb in tape.limbs:
        where = limb_ends(limb, height_mm)
        loft = lofts(limb.levels, limb.shape or SectionShape.ROUND, where, draws, known, like)
        found.append(Part(loft, where, limb, limb.count, unsided))
        unsided += limb.side is None
    return tuple(found)


def body_ends(tape: Tape, height_mm: float) -> Ends:
    """Where the body begins and ends: on the board, or at its first level where it stands on limbs.

    Parameters
    ----------
    tape : what was measured.
    height_mm : from the board to the body's top [mm].

    Source: our own.
    """
    legs = any(stands(limb, height_mm) for limb in tape.limbs)
    last = tape.levels[-1]
    low = tape.levels[0].at_mm if legs else 0.0
    return Ends(low, last.at_mm if is_tip(last) else max(height_mm, last.at_mm), rounded=True)


def limb_ends(limb: Limb, height_mm: float) -> Ends:
    """A limb begins where it joins; a free end that is no tip is rounded off past its last level.

    Parameters
    ----------
    limb : what was measured.
    height_mm : of the whole piece [mm].

    Source: our own.
    """
    last = limb.levels[-1]
    flat = is_tip(last) or limb.gap_mm is not None or stands(limb, height_mm)
    return Ends(0.0, last.at_mm + (0.0 if flat else last.girth_mm / (2.0 * np.pi)), rounded=not flat)


def stands(limb: Limb, height_mm: float) -> bool:
    """Whether a limb stands on the board.

    Parameters
    ----------
    limb : what was measured.
    height_mm : of the whole piece [mm].

    Source: our own.
    """
    ends = limb.joins_at_mm if limb.ends_at_mm is None else limb.ends_at_mm
    return ends <= ON_BOARD_SHARE * height_mm and limb.joins_at_mm > ends


def is_tip(level: TapeLevel) -> bool:
    """Whether a level is a tip without a girth.

    Parameters
    ----------
    level : of body or limb.

    Source: our own.
    """
    return level.girth_mm <= TIP_MM


def whole_area_mm2(part: Part) -> Floats:
    """Area of side and flat ends of every draw [mm2]; a limb's without the end that it joins by, and less what it
    covers of the body.

    Parameters
    ----------
    part : body or limb.

    Source: our own.
    """
    side, sections = part.lofts.side_mm2, part.lofts.section_mm2
    if part.limb is None:
        return side + sections[:, 0] + sections[:, -1]
    both = part.limb.gap_mm is not None
    covered: Floats = sections[:, 0] + (sections[:, -1] if both else 0.0)
    ends = 0.0 if both else sections[:, -1]
    return part.count * (side + ends - covered)
