"""What is sure of a mold, and where to measure, in the reader's words and units; the figures are made up here."""

from __future__ import annotations

from dataclasses import replace

from conftest import Job
from made_up_job import VOLUMES, commission, job_of
from told import told

from moldwright.materials import library
from moldwright.plan.cautions import Severity
from moldwright.plan.doubt import Hollow, Matter, MoldDoubt, Settle, Shape, SolidTried
from moldwright.ranges import Range
from moldwright.steps.shape_cautions import ShapeFindings
from moldwright.told.sure_rows import sure_rows
from moldwright.units.system import UnitSystem

SOLIDS = (
    SolidTried(Shape.LEAN, 450.0, 2, 6.0, 0.5, 0.0),
    SolidTried(Shape.HOLLOWED, 450.0, 3, 22.0, 14.0, 0.06),
)
SOME = MoldDoubt(
    solids=SOLIDS,
    packing_ml=Range(5.0, 6.0, 25.0),
    rolls_below_ml=10.0,
    hollows=(Hollow((0.0, -30.0, 140.0), 8.0, 12.0),),
    sure=(Matter.SEAM, Matter.ROLLS),
    unsure=(Matter.PIECES, Matter.PACKING),
    settled_by=(Settle.HOLLOWS, Settle.WATER),
)
NOTHING = replace(SOME, sure=(), unsure=tuple(Matter))


def test_what_is_sure_and_what_is_not_is_said_with_what_would_settle_it(small_job: Job) -> None:
    rows = sure_rows(replace(small_job.planned.plan, doubt=SOME), UnitSystem.METRIC)
    assert rows is not None
    assert rows.sure == (
        "Sure: the seam and the ways off hold on all of them.",
        "Sure: the glove rolls on all of them.",
    )
    assert rows.unsure == (
        "Not sure: how many pieces are best, 2 or 3.",
        "Not sure: how much is packed, 6.0 ml (5.0–25.0); mix it cup by cup.",
        "It would be settled by how deep the hollows are that the first step names.",
        "It would be settled by how much water the original displaces (displaced in the commission).",
    )
    (place,) = rows.measure
    assert place.startswith("On the front, 140 mm up,")
    assert "up to 8.0 mm deeper" in place or "up to 8 mm deeper" in place
    assert "calipers" in place


def test_where_nothing_is_sure_it_is_said_first(small_job: Job) -> None:
    rows = sure_rows(replace(small_job.planned.plan, doubt=NOTHING), UnitSystem.US)
    assert rows is not None
    assert rows.sure == ()
    assert rows.unsure[0].startswith("Nothing of the shell is sure.")
    assert " 5 1/2 in up" in rows.measure[0]


def test_of_a_scan_nothing_is_told(small_job: Job) -> None:
    assert sure_rows(small_job.planned.plan, UnitSystem.METRIC) is None


def test_hollows_are_measured_first_and_the_rest_is_told_where_it_is_packed() -> None:
    made = told(job_of(commission(), library(), VOLUMES), shape=ShapeFindings(0.0, doubt=SOME))
    where = {each.rule: (each.step, each.severity) for each in made.cautions if each.rule.startswith("doubt")}
    assert where == {
        "doubt-hollow-1": ("receive", Severity.HEED),
        "doubt-shell": ("coat-3-mix", Severity.HEED),
    }
    assert "3 solids" in made.on("coat-3-mix")  # the two and the likely one
