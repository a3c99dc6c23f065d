"""Tables under a step: what is cut of bandage and of matting, by piece; rows counted by hand from what was planned."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets_fixture import plan as made_up

from moldwright.plan.mold import (
    BandagePlan,
    MatsOfPiece,
    MatsPlan,
    PlyCut,
    RollCut,
    StripCut,
    StripsOfPiece,
    StripUse,
)
from moldwright.plan.plan import Plan
from moldwright.plan.steps import LAID_IN, Phase, Shows, StepPlan
from moldwright.ranges import Range
from moldwright.sheets.step_tables import step_tables
from moldwright.units.system import UnitSystem

FIRST = StripsOfPiece(3, 300.0, (StripCut(StripUse.ROUND, 250.0, 150.0, 2), StripCut(StripUse.LAP, 180.0, 75.0, 1)))
SECOND = StripsOfPiece(4, 400.0, (StripCut(StripUse.UPRIGHT, 210.0, 150.0, 4),))
ROLLS = (RollCut(2, (PlyCut(250.0, 8), PlyCut(180.0, 2))), RollCut(1, (PlyCut(210.0, 16),)))
BANDAGE = BandagePlan(4, 2, 7, 250.0, 150.0, 3, 500.0, Range(400.0, 450.0, 500.0), 700.0, (FIRST, SECOND), ROLLS)
MATS = MatsPlan(3, 2, 200.0, 30.0, Range(40.0, 48.0, 56.0), (MatsOfPiece(2, 25_000.0, 16.0), MatsOfPiece(4, 5e4, 32.0)))


def shown(
    bandage: BandagePlan | None = None,
    mats: MatsPlan | None = None,
    piece: int | None = None,
    shows: Shows | None = Shows.CUTS,
    units: UnitSystem = UnitSystem.METRIC,
) -> list[tuple[tuple[str, ...], ...]]:
    """The rows of each table, its head first."""
    plan: Plan = replace(made_up(units), bandage=bandage, mats=mats, units=units)
    phase = Phase.BEFORE_SHELL if piece is None else LAID_IN[piece - 1]
    step: StepPlan = replace(plan.steps[0], phase=phase, shows=shows)
    return [(table.head, *table.rows) for table in step_tables(plan, step)]


def test_a_step_that_shows_no_cuts_has_no_table() -> None:
    assert shown(BANDAGE, MATS, shows=None) == []


def test_all_strips_stand_by_their_piece_and_the_rolls_below() -> None:
    strips, rolls = shown(BANDAGE)
    assert strips == (
        ("Shell", "For", "Strips", "Length", "Width", "Plies"),
        ("1", "goes round", "2", "250 mm", "150 mm", "4"),
        ("1", "lap", "1", "180 mm", "75 mm", "4"),
        ("2", "stands upright", "4", "210 mm", "150 mm", "4"),
    )
    assert rolls[1:] == (("2", "8 × 250 mm, 2 × 180 mm"), ("1", "16 × 210 mm"))


def test_where_one_piece_is_laid_only_its_own_strips_stand_without_its_number() -> None:
    (strips,) = shown(BANDAGE, piece=2)
    assert strips == (("For", "Strips", "Length", "Width", "Plies"), ("stands upright", "4", "210 mm", "150 mm", "4"))


@pytest.mark.parametrize(("piece", "rows"), [(None, 4), (1, 2), (2, 2)])
def test_matting_begins_with_the_second_layer(piece: int | None, rows: int) -> None:
    """Three layers, the first bare; 16 g of piece 1 in two of them are 8 g each, 25 000 mm2 are 250 cm2."""
    (mats,) = shown(mats=MATS, piece=piece)
    assert len(mats) == 1 + rows
    if piece != 2:
        assert mats[1:3] == (("1", "2", "2", "8 g", "250 cm²"), ("1", "3", "2", "8 g", "250 cm²"))
    else:
        assert mats[1] == ("2", "2", "4", "16 g", "500 cm²")


def test_lengths_are_in_the_readers_units() -> None:
    """254 mm are 10 in, 152.4 mm 6 in (the inch by definition)."""
    cut = StripsOfPiece(1, 100.0, (StripCut(StripUse.BASE, 254.0, 152.4, 1),))
    (strips,) = shown(replace(BANDAGE, pieces=(cut,)), piece=1, units=UnitSystem.US)
    assert strips[1][:4] == ("along the base", "1", "10 in", "6 in")
