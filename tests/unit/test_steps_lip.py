"""A lip that is narrower than the trade's half an inch (13 mm; common practice, no source) is told, with its place from
the frame's corner, in the step where a hand can still do something about it."""

from __future__ import annotations

import pytest
from steps_context import context, measures
from told import ToldCaution, told

from moldwright.commission.orders import MoldOrder
from moldwright.mold.measures import PrintMeasures
from moldwright.plan.cautions import Severity
from moldwright.plan.mold import LipPlan

LEAST_MM, SHORT_MM, RIGHT_MM, BACK_MM, WANTED_MM = 7.0, 42.0, 31.0, 12.0, 13.0


def lip(short_mm: float = SHORT_MM) -> LipPlan:
    frame = measures().flange.frame
    return LipPlan(LEAST_MM, (frame.left_mm + RIGHT_MM, frame.front_mm + BACK_MM, 0.0), short_mm, WANTED_MM)


def short_lips(shell: str, found: LipPlan | None) -> list[ToldCaution]:
    laid_out = PrintMeasures((((1, 1),), ((2, 1),)), 0, 180.0) if shell == "printed" else None
    volumes = measures(shell__lip=found, shell__printed=laid_out)
    done = told(context(mold=MoldOrder(shell=shell), volumes=volumes))
    return [caution for caution in done.cautions if caution.rule == "short-lip"]


@pytest.mark.parametrize(
    ("shell", "step", "says"),
    [("plaster-bandage", "shell-2", "thicker instead of wider"), ("printed", "print-parts", "another number")],
)
def test_a_short_lip_is_told_with_its_place_where_it_is_made(shell: str, step: str, says: str) -> None:
    """Laid: in the step of the piece that is laid first, which is the last off."""
    (caution,) = short_lips(shell, lip())
    assert (caution.step, caution.severity) == (step, Severity.HEED)
    assert "less than 13 mm beyond the rubber's edge along 42 mm of it, 7 mm where it is least" in caution.text
    assert "31 mm right, 12 mm back" in caution.text
    assert says in caution.text


@pytest.mark.parametrize("found", [None, lip(0.0)], ids=["not known", "wide enough"])
def test_where_no_lip_is_short_nothing_is_told(found: LipPlan | None) -> None:
    assert short_lips("plaster-bandage", found) == []
