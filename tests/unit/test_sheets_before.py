"""Where the first sheet sends its reader: to drawings that are there. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace

from sheets_fixture import plan

from moldwright.plan.peel import SlitPlan
from moldwright.plan.seam import SeamPlan
from moldwright.sheets.before_page import before_page

CUT = SlitPlan(182.0, 164.0, 1.2, ((0.0, 20.0, 112.0),), SeamPlan((), (), 10.0, 40.0))


def test_a_shell_in_one_piece_sends_nobody_to_a_seam() -> None:
    made = plan()
    one = replace(made, shell=replace(made.shell, pieces=made.shell.pieces[:1]))
    assert "The seam, the board" in before_page(made)["elsewhere"]
    assert "seam" not in before_page(one)["elsewhere"]
    assert "The board at full size: the templates." in before_page(one)["elsewhere"]


def test_a_slit_is_said_to_be_drawn_among_the_templates() -> None:
    made = plan()
    slit = replace(made, glove=replace(made.glove, slit=CUT))
    assert "slit" not in before_page(made)["elsewhere"]
    assert "The slit, its line and stations: the last page of the templates." in before_page(slit)["elsewhere"]
