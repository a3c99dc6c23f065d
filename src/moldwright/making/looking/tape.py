"""What was understood of a tape, before anything is planned."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.commission.orders import Commission, OriginalOrder
from moldwright.errors import InputRefused
from moldwright.job.sources import by_tape, tape_of, witnesses_of
from moldwright.original.evidence.narrow import Evidence, together
from moldwright.ranges import Range
from moldwright.sheets.tape_sheet import TapeFacts, tape_picture, tape_sheet
from moldwright.tape.drawn import Drawn
from moldwright.tape.narrower import Narrower
from moldwright.tape.taped import Taped


@dataclass(frozen=True, slots=True)
class LookedTape:
    """What a tape tells: height, ranges by itself and with water and weight, levels and limbs."""

    height_mm: float
    volume_ml: Range
    area_cm2: Range
    together_ml: Range
    drawn: Drawn
    narrower: tuple[Narrower, ...]


def look_at_tape(order: Commission) -> tuple[LookedTape, TapeFacts]:
    """Look at the tape of a commission: what was understood, and what stands of it on a page.

    Parameters
    ----------
    order : the commission.

    Raises InputRefused ("key-missing") where it has no tape.
    """
    original = order.original
    if original.tape is None:
        remedy = "Write [original.tape] with levels; a scan or a folder of photos is looked at by its own name."
        raise InputRefused("key-missing", "original.tape is left out", "original.tape", "", remedy)
    found = tape_of(original)
    all_ = evidence(original, found)
    looked = LookedTape(found.height_mm, found.volume_ml, found.area_cm2, all_.volume_ml, found.drawn, found.narrower)
    return looked, _facts(order, found, all_)


def evidence(original: OriginalOrder, found: Taped) -> Evidence:
    """What the tape says together with water and weight.

    Parameters
    ----------
    original : with what else is known of it.
    found : by tape.
    """
    return together([by_tape(found), *witnesses_of(original)])


def drawing(order: Commission, drawn: Drawn, facts: TapeFacts, as_pdf: bool) -> bytes:
    """What was understood, drawn: a file's bytes.

    Parameters
    ----------
    order : the commission, for its paper.
    drawn, facts : the tape's levels and limbs, and what stands beside them.
    as_pdf : whether it is a PDF, else PNG.
    """
    return tape_sheet(drawn, facts, order.shop.paper) if as_pdf else tape_picture(drawn, facts)


def _facts(order: Commission, found: Taped, all_: Evidence) -> TapeFacts:
    return TapeFacts(
        order.original.name,
        found.height_mm,
        found.volume_ml,
        found.area_cm2,
        order.original.gaps,
        all_.volume_ml if len(all_.said) > 1 else None,
        order.shop.units,
        found.narrower,
    )
