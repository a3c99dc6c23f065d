"""Pieces of a shell against the rubber that they ask for, a row for each number of pieces."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.mold import PiecesTried, ShellPlan
from moldwright.units import show_length
from moldwright.units.printing import show_range
from moldwright.units.system import UnitSystem
from moldwright.words.speaker import say, say_count


@dataclass(frozen=True, slots=True)
class PiecesRow:
    """What at most so many pieces would take, in words; `planned`: the plan has just so many."""

    pieces: str
    fill: str
    seam: str
    planned: bool


def pieces_rows(shell: ShellPlan, units: UnitSystem) -> tuple[PiecesRow, ...]:
    """A row for one piece, for two, and so on, as far as they were tried.

    Parameters
    ----------
    shell : of the plan.
    units : of who reads.
    """
    return tuple(_row(tried, len(shell.pieces), units) for tried in shell.tradeoff)


def _row(tried: PiecesTried, planned: int, units: UnitSystem) -> PiecesRow:
    pieces = say_count("{num} piece", "{num} pieces", tried.pieces, num=tried.pieces)
    if tried.used < tried.pieces:
        nothing = say(
            "no better than {used}", used=say_count("{num} piece", "{num} pieces", tried.used, num=tried.used)
        )
        return PiecesRow(pieces, nothing, "", tried.pieces == planned)
    seam = show_length(tried.seam_mm, units) if tried.used > 1 else say("none")
    return PiecesRow(pieces, show_range(tried.fill_ml, "volume", units), seam, tried.pieces == planned)
