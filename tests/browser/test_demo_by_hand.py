"""The whole job in a browser as its maker does it: from the dropped scan to the cast with its number.

What must come out is told by the job itself: as many presses as the plan has steps at least, one mold in the register,
one cast with the edition's first number. Figures typed in are invented.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import expect
from tests.browser.by_hand import (
    NAME,
    Asked,
    AtBench,
    Paper,
    begin_run,
    go,
    numbered,
    open_edition,
    planned,
    see_mold,
    take_in,
)
from tests.browser.conftest import Opening
from tests.browser.desk_process import DeskProcess
from tests.browser.hands import DryHands, Hands, Knuckle
from tests.browser.screens import DESKTOP, PHONE

from moldwright.geometry.mesh import Mesh
from moldwright.making.demo.original import otter_mesh
from moldwright.sheets.model_files import write_stl

pytestmark = pytest.mark.slow
DEMO_MM, SMALL_MM = 190.0, 40.0
KINDS = {"caution", "weigh", "lay", "done", "write", "ask", "number", "end"}
"""Sorts of screens that a job from the first coat to the numbered cast must show."""

Answers = tuple[tuple[str, str], ...]
SMALL: Answers = (("Flange round the base", "15 mm"),)
"""A narrow flange makes a small mold of a small piece, and its plan short."""
MOST_WAITS = 60
"""So often everything waits at the most: a plan has fewer steps that leave anything to itself."""


def sculpture(folder: Path, step_mm: float, tall_mm: float) -> Path:
    """The demo's sculpture as a scan, in a file that tells no unit.

    Parameters
    ----------
    folder : where.
    step_mm : how coarse it is, at its own size.
    tall_mm : as tall as this.
    """
    mesh = otter_mesh(step_mm)
    write_stl(Mesh(mesh.vertices * (tall_mm / DEMO_MM), mesh.faces), folder / "otter.stl")
    return folder / "otter.stl"


def whole_job(
    hands: Hands, scan: Path, asked: Answers = (), paper_to: str = "", silent: bool = False, opens: bool = False
) -> AtBench:
    """From the scan to the numbered cast.

    Parameters
    ----------
    hands : of whom.
    scan : the file.
    asked : what else is answered than usual, by what stands over its field.
    paper_to : a row of the sheets up to which the mold is made from paper once its first coat is laid; "" for none.
    silent : with the sound switched off.
    opens : its edition is opened with its run.
    """
    take_in(hands, scan, Asked("2", "2099-12-24", asked))
    planned(hands)
    see_mold(hands)
    if opens:
        begin_run(hands, "1", opens="2")
    else:
        open_edition(hands, "2")
        begin_run(hands, "1")
    bench = AtBench(hands)
    if silent:
        bench.silence()
    paper = Paper(hands, bench)
    registered, waits = False, 0
    while bench.go_on() != "ended":
        waits += 1
        assert waits < MOST_WAITS
        paper.earlier()
        if paper_to and bench.kinds.get("lay"):
            paper.ticked(paper_to)
            paper_to = ""
        registered = registered or bench.register_mold()
    bench.leave()
    assert registered
    return bench


def seen(hands: Hands) -> None:
    """What the job has left: its mold in the register, its cast with the first number of the edition."""
    go(hands, "Molds")
    expect(hands.page.locator(".mold-row")).to_have_count(1)
    expect(hands.page.locator(".mold-row")).to_contain_text(NAME)
    numbered(hands)


def test_a_small_sculpture_from_the_dropped_scan_to_its_number(
    open_page: Opening, desk: DeskProcess, tmp_path: Path
) -> None:
    """The shell is made from paper, the rest at the bench."""
    hands = DryHands(open_page(DESKTOP, desk))
    bench = whole_job(hands, sculpture(tmp_path, 4.0, SMALL_MM), SMALL, paper_to="Let the rubber cure fully")
    assert set(bench.kinds) >= KINDS
    seen(hands)


def test_the_demo_from_the_dropped_scan_to_its_number(open_page: Opening, desk: DeskProcess, tmp_path: Path) -> None:
    """Every press of the mold and of one cast at the bench."""
    hands = DryHands(open_page(DESKTOP, desk))
    bench = whole_job(hands, sculpture(tmp_path, 2.0, DEMO_MM))
    assert set(bench.kinds) >= KINDS
    seen(hands)


def test_with_one_knuckle_on_a_phone_and_the_sound_off(open_page: Opening, desk: DeskProcess, tmp_path: Path) -> None:
    """Each tap 60 ms, up to 12 px off: none misses what is meant."""
    page = open_page(PHONE, desk)
    hands = Knuckle(page)
    bench = whole_job(hands, sculpture(tmp_path, 4.0, SMALL_MM), SMALL, silent=True, opens=True)
    assert set(bench.kinds) >= KINDS
    seen(hands)
    assert not hands.struck
