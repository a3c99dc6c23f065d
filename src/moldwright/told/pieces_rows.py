"""Pieces of a shell against the rubber that they ask for, a row for each number of pieces."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.mold import PiecesTried, ShellPlan
from moldwright.sheets.mold_words import hands_against, money_against
from moldwright.sheets.totals_words import hands
from moldwright.units import show_length, show_volume
from moldwright.units.printing import show_range
from moldwright.units.system import UnitSystem
from moldwright.words.speaker import say, say_count, with_mark


@dataclass(frozen=True, slots=True)
class PiecesRow:
    """What at most so many pieces would take, in words.

    Parameters
    ----------
    pieces, fill, seam : how many, the rubber to pack, the seams.
    labor, material : hands and material of the whole job against the recommended number.
    remarks : what else is to be known.
    planned : the plan has just so many.
    share : its rubber as a share of the most, 0 to 1, for a bar.
    """

    pieces: str
    fill: str
    seam: str
    labor: str
    material: str
    remarks: tuple[str, ...]
    planned: bool
    share: float


def pieces_rows(shell: ShellPlan, units: UnitSystem) -> tuple[PiecesRow, ...]:
    """A row for one piece, for two, and so on, as far as they were tried.

    Parameters
    ----------
    shell : of the plan.
    units : of who reads.
    """
    best = next((each for each in shell.tradeoff if each.used == shell.recommended), None)
    most_ml = max((each.fill_ml.likely for each in shell.tradeoff), default=0.0) or 1.0
    return tuple(_row(tried, best or tried, len(shell.pieces), most_ml, units) for tried in shell.tradeoff)


def pieces_reason(shell: ShellPlan, units: UnitSystem) -> str:
    """Why so many pieces are recommended, in a sentence; "" where nothing was tried.

    Parameters
    ----------
    shell : of the plan.
    units : of who reads.
    """
    best = next((each for each in shell.tradeoff if each.used == shell.recommended), None)
    if best is None:
        return ""
    others = {each.used: each for each in shell.tradeoff if each.used != best.used}
    told = [_count(best.used) + ": " + say("least hands and material of those with which the glove rolls.")]
    told += [_against(each, best, units) for each in others.values()]
    return " ".join(told)


def _against(other: PiecesTried, best: PiecesTried, units: UnitSystem) -> str:
    labor, material = _labor(other, best), _material(other, best)
    if other.rolls:
        return say("{pieces}: hands {labor}, material {material}.", pieces=_count(other.used), **_of(labor, material))
    return say(
        "{pieces}: hands {labor}, material {material}, but {stiff} of its rubber would be too thick to roll.",
        pieces=_count(other.used),
        stiff=show_volume(other.stiff_ml, units),
        **_of(labor, material),
    )


def _of(labor: str, material: str) -> dict[str, str]:
    return {"labor": labor, "material": material}


def _row(tried: PiecesTried, best: PiecesTried, planned: int, most_ml: float, units: UnitSystem) -> PiecesRow:
    share = tried.fill_ml.likely / most_ml
    if tried.used < tried.pieces:
        nothing = say("no better than {used}", used=_count(tried.used))
        return PiecesRow(_count(tried.pieces), nothing, "", "", "", (), tried.pieces == planned, 0.0)
    return PiecesRow(
        pieces=_count(tried.pieces),
        fill=show_range(tried.fill_ml, "volume", units),
        seam=show_length(tried.seam_mm, units) if tried.used > 1 else say("none"),
        labor=_labor(tried, best),
        material=_material(tried, best),
        remarks=_remarks(tried, best, units),
        planned=tried.pieces == planned,
        share=share,
    )


def _remarks(tried: PiecesTried, best: PiecesTried, units: UnitSystem) -> tuple[str, ...]:
    least = (say("recommended"),) if tried.used == best.used else ()
    thick = () if tried.rolls else (say("{stiff} too thick to roll", stiff=show_volume(tried.stiff_ml, units)),)
    ordered = (say("off in the order of their numbers"),) if tried.in_order else ()
    return (*least, *thick, *ordered)


def _labor(tried: PiecesTried, best: PiecesTried) -> str:
    same = tried.used == best.used
    return hands(best.labor_min) if same else hands_against(tried.labor_min, best.labor_min)


def _material(tried: PiecesTried, best: PiecesTried) -> str:
    same = tried.used == best.used
    return with_mark(str(best.material)) if same else money_against(tried.material, best.material)


def _count(pieces: int) -> str:
    return say_count("{num} piece", "{num} pieces", pieces, num=pieces)
