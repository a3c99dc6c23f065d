"""What is sure of a mold, and where to measure, in the reader's words and units; the figures are made up here."""

from __future__ import annotations

from dataclasses import replace

from conftest import Job
from made_up_job import VOLUMES, commission, job_of
from told import told

from moldwright.materials import library
from moldwright.plan.cautions import Severity
from moldwright.plan.doubt import Hollow, Matter, MoldDoubt, Settle, Shape, SolidTried
from moldwright.plan.ids import StepId
from moldwright.plan.peel import PeelWay, TightPlace
from moldwright.ranges import Range
from moldwright.sheets.wording import MANY_LINES, Wording
from moldwright.steps.shape_cautions import ShapeFindings
from moldwright.steps.sure_lines import sure_cautions
from moldwright.told.sure_rows import sure_rows
from moldwright.units.system import UnitSystem

SOLIDS = (
    SolidTried(Shape.LEAN, 450.0, 2, 6.0, 0.5, 0.0, 1.3, PeelWay.ROLL),
    SolidTried(Shape.HOLLOWED, 450.0, 3, 22.0, 14.0, 0.06, 2.4, PeelWay.SLIT),
)
SOME = MoldDoubt(
    solids=SOLIDS,
    packing_ml=Range(5.0, 6.0, 25.0),
    rolls_below_ml=10.0,
    stretch=Range(1.3, 1.5, 2.4),
    unslit_below=2.0,
    tight=TightPlace((0.0, 0.0, 110.0), 120.0, 60.0, 0.0, 90.0, 2.4),
    hollows=(Hollow((0.0, -30.0, 140.0), 8.0, 12.0),),
    sure=(Matter.SEAM, Matter.ROLLS),
    unsure=(Matter.PIECES, Matter.PEEL, Matter.PACKING),
    untold=(),
    settled_by=(Settle.HOLLOWS, Settle.GIRTHS, Settle.WATER),
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
        "Not sure: whether the glove comes off without a slit. Unslit it is stretched 1.3 to 2.4 times at its "
        "tightest; its rubber's sheet allows 2.0 times.",
        "Not sure: how much is packed, 6.0 ml (5.0–25.0); mix it cup by cup.",
        "It would be settled by how deep the hollows are that the first step names.",
        "It would be settled by a tape, 110 mm up, where the glove is tightest: once round the original there, once "
        "round the widest place beyond. Up to 2.0 times as far round, it needs no slit.",
        "It would be settled by how much water the original displaces (displaced in the commission).",
    )
    (place,) = rows.measure
    assert place.startswith("On the front, 140 mm up,")
    assert "up to 8.0 mm deeper" in place or "up to 8 mm deeper" in place
    assert "calipers" in place


def test_a_glove_that_comes_off_unslit_on_all_is_said_with_its_greatest_stretch(small_job: Job) -> None:
    rolled = tuple(replace(solid, way=PeelWay.ROLL, stretch=1.3) for solid in SOLIDS)
    sure = replace(SOME, solids=rolled, stretch=Range(1.3, 1.4, 1.7), sure=(Matter.PEEL,))
    rows = sure_rows(replace(small_job.planned.plan, doubt=sure), UnitSystem.METRIC)
    assert rows is not None
    assert rows.sure == ("Sure: the glove comes off without a slit on all of them, stretched 1.7 times at the most.",)


def test_where_nothing_is_sure_it_is_said_first(small_job: Job) -> None:
    rows = sure_rows(replace(small_job.planned.plan, doubt=NOTHING), UnitSystem.US)
    assert rows is not None
    assert rows.sure == ()
    assert rows.unsure[0].startswith("Nothing of the shell is sure.")
    assert " 5 1/2 in up" in rows.measure[0]


def test_what_a_tape_cannot_tell_is_said_without_figures_of_solids(small_job: Job) -> None:
    taped = replace(NOTHING, untold=(Matter.SEAM, Matter.PEEL), settled_by=(Settle.PHOTOS,))
    rows = sure_rows(replace(small_job.planned.plan, doubt=taped), UnitSystem.METRIC)
    assert rows is not None
    _, spans, pieces, seam, _, peel, packing, photos = rows.unsure
    assert spans.startswith("A tape spans hollows, shows none between its levels, and no limb just as it stands.")
    assert pieces == "Not sure: how many pieces are best, 2 or 3."
    assert seam.startswith("Not sure by a tape: that the seam and the ways off hold. Before a piece is laid, look")
    assert "stretched" not in peel
    assert "up to 2.0 times as far round" in peel
    assert "6.0 ml (5.0–25.0)" in packing
    assert photos.startswith("Photos from all sides show what a tape spans")


def test_of_a_scan_nothing_is_told(small_job: Job) -> None:
    assert sure_rows(small_job.planned.plan, UnitSystem.METRIC) is None


def test_hollows_are_measured_first_and_the_rest_is_told_where_it_is_packed() -> None:
    made = told(job_of(commission(), library(), VOLUMES), shape=ShapeFindings(0.0, doubt=SOME))
    where = {each.rule: (each.step, each.severity) for each in made.cautions if each.rule.startswith("doubt")}
    assert where == {
        "doubt-hollow-1": ("receive", Severity.HEED),
        "doubt-mold": ("receive", Severity.HEED),
        "doubt-shell": ("coat-3-mix", Severity.HEED),
    }
    assert "3 solids" in made.on("receive")  # the two and the likely one


def test_nothing_asks_for_a_measure_of_the_original_once_it_is_under_rubber() -> None:
    """No tape reaches it there; what is looked at along a way off, or mixed by the cup, comes with the last coat."""
    taped = replace(NOTHING, untold=(Matter.PIECES, Matter.SEAM, Matter.PEEL))
    made = told(job_of(commission(), library(), VOLUMES), shape=ShapeFindings(0.0, doubt=taped))
    first, packed = made.on("receive"), made.on("coat-3-mix")
    for measured in ("Measure before you mix", "Go round the narrowest place", "would be settled", "by a tape"):
        assert measured in first, measured
    for measured in ("Measure", "Go round", "would be settled"):
        assert measured not in packed, measured
    assert "look along its way off" in packed
    assert "mix it cup by cup" in packed


def test_where_all_is_sure_the_last_coat_has_nothing_to_heed() -> None:
    sure = replace(SOME, sure=tuple(Matter), unsure=(), settled_by=(), hollows=())
    made = told(job_of(commission(), library(), VOLUMES), shape=ShapeFindings(0.0, doubt=sure))
    assert [each.rule for each in made.cautions if each.rule.startswith("doubt")] == ["doubt-mold"]


def test_nothing_is_said_of_peeling_what_nobody_peeled(small_job: Job) -> None:
    known = replace(SOME, sure=(Matter.PEEL,), solids=(replace(SOLIDS[0], way=PeelWay.ROLL),) * 2)
    unknown = replace(known, solids=(SOLIDS[0], replace(SOLIDS[1], way=PeelWay.UNKNOWN)))
    told = [sure_rows(replace(small_job.planned.plan, doubt=doubt), UnitSystem.METRIC) for doubt in (known, unknown)]
    assert [len(rows.sure) for rows in told if rows is not None] == [1, 0]


def test_many_sentences_of_a_caution_stand_one_under_another_on_its_step() -> None:
    """Eight sentences in one block were not found by an eye with a tape in its hands: our own."""
    made = {each.rule: each for each in sure_cautions(NOTHING, StepId("coat-3-mix"))}
    many, few = made["doubt-mold"], made["doubt-hollow-1"]
    wording = Wording(UnitSystem.METRIC, 0.1)
    assert len(wording.caution_set(many).split("\n")) == len(many.lines) >= MANY_LINES
    assert "\n" not in wording.caution_set(few)
    assert wording.caution_set(many).replace("\n", " ") == wording.caution(many)
