"""Pieces against rubber in the reader's words and units; the figures are made up here."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from conftest import Job

from moldwright.plan.mold import PiecesTried, ShellPlan
from moldwright.plan.strategies import Strategy
from moldwright.ranges import Range
from moldwright.told.pieces_rows import PiecesRow, pieces_reason, pieces_rows
from moldwright.units.system import UnitSystem

ONE = PiecesTried(1, 1, Range(404.0, 425.0, 425.0), 230.0, 0.0, 425.0, False, 900.0, Decimal("110.00"), False)
TWO = PiecesTried(2, 2, Range(10.9, 13.1, 13.1), 0.5, 955.0, 27.4, False, 1100.0, Decimal("102.50"), True)
FOUR = PiecesTried(4, 4, Range(1.0, 1.2, 1.3), 0.0, 1500.0, 23.7, False, 1400.0, Decimal("115.00"), True)
TRIED = (ONE, TWO, replace(TWO, pieces=3), FOUR)


def shell_of(job: Job) -> ShellPlan:
    return replace(job.planned.plan.shell, tradeoff=TRIED, recommended=2)


def test_each_number_of_pieces_has_a_row_and_what_gains_nothing_says_so(small_job: Job) -> None:
    """Hands and material of one are told against those of the recommended: 900 and 1100 min, 110.00 and 102.50."""
    shell = shell_of(small_job)
    assert pieces_rows(shell, UnitSystem.METRIC) == (
        PiecesRow("1 piece", "425 ml (404–425)", "none", "−3½ h", "+7.50", ("230 ml too thick to roll",), False, 1.0),
        PiecesRow("2 pieces", "13.1 ml (10.9–13.1)", "955 mm", "18½ h", "102.50", ("recommended",), True, 13.1 / 425.0),
        PiecesRow("3 pieces", "no better than 2 pieces", "", "", "", (), False, 0.0),
        PiecesRow("4 pieces", "1.2 ml (1.0–1.3)", "1500 mm", "+5 h", "+12.50", (), False, 1.2 / 425.0),
    )
    assert pieces_rows(shell, UnitSystem.US)[1].seam == "37 5/8 in"


def test_the_reason_is_told_in_hands_and_material(small_job: Job) -> None:
    assert pieces_reason(shell_of(small_job), UnitSystem.METRIC) == (
        "2 pieces: least hands and material of those with which the glove rolls."
        " 1 piece: hands −3½ h, material +7.50, but 230 ml of its rubber would be too thick to roll."
        " 4 pieces: hands +5 h, material +12.50."
    )
    assert pieces_reason(replace(shell_of(small_job), tradeoff=(), recommended=0), UnitSystem.METRIC) == ""


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
    glove = small_job.planned.plan.strategies.of(Strategy.GLOVE)
    assert (own.labor_min, own.material) == (glove.labor_min, glove.material)
    assert shell.recommended == own.used
