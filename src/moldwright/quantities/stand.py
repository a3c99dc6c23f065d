"""The stand for pouring, told with what the mold weighs."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, fsum

from moldwright.mold.stand_found import StandFound
from moldwright.plan.stand import NoStand, StandBoard, StandPlan

STAND_BOARD = "stand-board"
"""The consumable's sheet."""
SHEET_MM2, USED_SHARE = 1200.0 * 600.0, 0.7
"""A cut sheet of board as it is sold, and how much of it can be used: common practice, no source."""


def stand_plan(
    found: StandFound | NoStand | None, shell_g: float, glove_g: float, cast_g_ml: float
) -> StandPlan | None:
    """The stand with how steadily it stands; None where none was found.

    Parameters
    ----------
    found : on the solids, or why there is none
    shell_g, glove_g : of all of the shell and of the glove [g]
    cast_g_ml : density of the heaviest mix that is poured [g/ml]

    Source: see `StandFound.tips_deg`.
    """
    if found is None or isinstance(found, NoStand):
        return None
    densities = shell_g / found.shell.volume_ml, glove_g / found.glove.volume_ml
    tips_deg = floor(found.tips_deg(*densities, cast_g_ml))
    return StandPlan(found.boards, found.thick_mm, found.gap_mm, round(found.mouth_mm, 1), float(tips_deg))


def sheets_of(boards: Sequence[StandBoard]) -> int:
    """How many sheets of board the stand is sawn from.

    Parameters
    ----------
    boards : the stand's.

    Source: common practice, no source.
    """
    return ceil(fsum(board.length_mm * board.high_mm for board in boards) / (SHEET_MM2 * USED_SHARE))
