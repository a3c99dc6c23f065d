"""Pieces against rubber in the reader's words and units; the figures are made up here."""

from __future__ import annotations

from dataclasses import replace

from conftest import Job

from moldwright.plan.mold import PiecesTried
from moldwright.ranges import Range
from moldwright.told.pieces_rows import PiecesRow, pieces_rows
from moldwright.units.system import UnitSystem

TRIED = (
    PiecesTried(1, 1, Range(404.0, 425.0, 425.0), 0.0, 425.0),
    PiecesTried(2, 2, Range(10.9, 13.1, 13.1), 955.0, 27.4),
    PiecesTried(3, 2, Range(10.9, 13.1, 13.1), 955.0, 27.4),
)


def test_each_number_of_pieces_has_a_row_and_what_gains_nothing_says_so(small_job: Job) -> None:
    shell = replace(small_job.planned.plan.shell, tradeoff=TRIED)
    assert pieces_rows(shell, UnitSystem.METRIC) == (
        PiecesRow("1 piece", "425 ml (404–425)", "none", False),
        PiecesRow("2 pieces", "13.1 ml (10.9–13.1)", "955 mm", True),
        PiecesRow("3 pieces", "no better than 2 pieces", "", False),
    )
    assert pieces_rows(shell, UnitSystem.US)[1].seam == "37 5/8 in"


def test_a_plan_tells_one_to_four_pieces_and_a_further_one_is_never_dearer(small_job: Job) -> None:
    tried = small_job.planned.plan.shell.tradeoff
    assert [each.pieces for each in tried] == [1, 2, 3, 4]
    energies = [each.energy for each in tried]
    assert energies == sorted(energies, reverse=True)
    shell = small_job.planned.plan.shell
    own = next(each for each in tried if each.used == len(shell.pieces))
    assert own.seam_mm == shell.seam_mm
    assert own.fill_ml.likely == sum(piece.fill_ml for piece in shell.pieces)
    assert all(each.fill_ml.low <= each.fill_ml.likely <= each.fill_ml.high for each in tried)
