"""What is told over all solids that an original could be; the figures are made up, the sums by hand."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from made_up_job import VOLUMES

from moldwright.job.doubting import MORE, SPANNED_SHARE, mold_doubt, on_all, over
from moldwright.job.peel_way import peel_found
from moldwright.job.pieces import Cost
from moldwright.job.searched import KNOWN, Doubted, OnSolid, Searched, Tried
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.doubt import Hollow, Matter, MoldDoubt, Settle, Shape
from moldwright.plan.known import Known
from moldwright.plan.original import Source
from moldwright.plan.peel import PeelFound, PeelShape, PeelWay, SlitPlan, TightPlace
from moldwright.plan.seam import SeamPlan
from moldwright.ranges import Range, Spread
from moldwright.store.stage import Kept

HOUR = Decimal("30.00")
PHOTOS = Known(Source.PHOTOS, (), Spread(Range(0.9, 1.0, 1.05), unseen_ml=2.0))
HOLLOW = Hollow((0.0, -20.0, 90.0), 8.0, 3.0)
COATS_ML = 200.0
"""A twentieth of it may be stiff: 10 ml."""
TAPE = replace(PHOTOS, source=Source.TAPE)


def cost(measures: MoldMeasures) -> Cost:
    """One piece is cheaper than two by 100 min, each milliliter of packing costs 1."""
    return Cost(600.0 + 100.0 * measures.shell.pieces, Decimal(str(measures.glove.fill_ml)))


def measures_of(pieces: int, fill_ml: float) -> MoldMeasures:
    glove = replace(VOLUMES.glove, coat_ml=(COATS_ML,), fill_ml=fill_ml)
    return replace(VOLUMES, glove=glove, shell=replace(VOLUMES.shell, shares=(1.0 / pieces,) * pieces))


def searched(pieces: int, fill_ml: float, stiff_ml: float) -> Searched:
    told = Range.exactly(fill_ml)
    return Searched(pieces, pieces, told, stiff_ml, 0.0, fill_ml, False, measures_of(pieces, fill_ml))


TRIED = Tried((searched(1, 30.0, 5.0), searched(2, 6.0, 0.0)))
NECK = TightPlace((0.0, 0.0, 90.0), 120.0, 60.0, 0.0, 90.0, 1.5)
CUT = SlitPlan(182.0, 164.0, 1.2, (), SeamPlan((), (), 10.0, 40.0))
ROLLED = peel_found(PeelShape(1.6, 200.0, (NECK,), 9.0, 0.5), Kept("slit", lambda: CUT), 2.0)
LIKELY = OnSolid(Shape.LIKELY, 500.0, 0.5, (28.0, 5.0), (5.0, 0.0), (0.0, 0.0), (1.5, 1.2), (NECK, NECK))


def other(shape: Shape, fill_ml: tuple[float, float], stiff_ml: tuple[float, float], caught: float = 0.0) -> OnSolid:
    return replace(LIKELY, shape=shape, volume_ml=450.0, fill_ml=fill_ml, stiff_ml=stiff_ml, caught_share=(0.0, caught))


SAME = Doubted(LIKELY, (replace(LIKELY, shape=Shape.LEAN), replace(LIKELY, shape=Shape.FULL)), ((), ()))


def told(doubted: Doubted, pieces: int, known: Known = PHOTOS, peel: PeelFound = ROLLED) -> MoldDoubt:
    built = measures_of(pieces, TRIED.rows[pieces - 1].fill_ml.likely)
    found = mold_doubt(TRIED, doubted, cost, HOUR, built, peel, known)
    assert found is not None
    return found


def test_a_known_original_changes_nothing() -> None:
    assert on_all(TRIED, KNOWN) is TRIED
    assert mold_doubt(TRIED, KNOWN, cost, HOUR, measures_of(1, 30.0), ROLLED, Known()) is None


def test_rows_hold_what_every_solid_packs_and_the_most_that_is_stiff() -> None:
    lean = other(Shape.LEAN, (38.0, 5.5), (12.0, 0.0))
    one, two = on_all(TRIED, Doubted(LIKELY, (lean,), ((), ()))).rows
    assert one.fill_ml == over(Range.exactly(30.0), [10.0])
    assert one.fill_ml.high >= 30.0 + 10.0 * MORE
    assert (one.stiff_ml, two.stiff_ml) == (12.0, 0.0)


def test_where_all_solids_agree_everything_is_sure() -> None:
    found = told(SAME, 1)
    assert found.sure == tuple(Matter)
    assert found.unsure == found.settled_by == ()
    assert [solid.pieces for solid in found.solids] == [1, 1]


def test_where_one_piece_would_not_roll_on_some_two_are_planned_and_it_is_said() -> None:
    """12 ml of 200 are stiff on the hollowed solid, past a twentieth: there two pieces are best."""
    hollowed = other(Shape.HOLLOWED, (40.0, 7.0), (12.0, 1.0))
    doubted = Doubted(LIKELY, (*SAME.others, hollowed), ((), (HOLLOW,)))
    found = told(doubted, 2)
    assert Matter.PIECES in found.unsure
    assert {Matter.SEAM, Matter.ROLLS, Matter.PACKING} <= set(found.sure)
    assert [solid.pieces for solid in found.solids] == [1, 1, 2]
    assert Settle.WATER in found.settled_by
    assert found.hollows == (HOLLOW,)


def test_a_hollow_that_tells_next_to_nothing_is_not_asked_for() -> None:
    """Beyond the likely 6 ml more than 80: a twentieth of that is 4, and the hollow takes 3."""
    hollowed = other(Shape.HOLLOWED, (40.0, 55.0), (5.0, 0.0))
    found = told(Doubted(LIKELY, (hollowed,), ((), (HOLLOW,))), 2)
    assert found.packing_ml.high - found.packing_ml.likely >= 80.0
    assert found.hollows == ()
    assert Settle.HOLLOWS not in found.settled_by


def test_a_seam_that_catches_is_not_sure() -> None:
    found = told(Doubted(LIKELY, (other(Shape.UNEVEN, (28.0, 5.0), (5.0, 0.0), 0.06),), ((), ())), 2)
    assert Matter.SEAM in found.unsure
    assert Settle.VIEWS in found.settled_by


def test_a_glove_that_some_solid_would_not_let_off_is_settled_by_girths() -> None:
    """1.2 times on the likely solid as it was tried, 1.6 as it is planned: 0.5 more are past the 2 that are allowed."""
    wider = replace(LIKELY, shape=Shape.UNEVEN, stretch=(1.5, 1.7), tight=(NECK, replace(NECK, at=(0.0, 0.0, 70.0))))
    found = told(Doubted(LIKELY, (wider,), ((), ())), 2)
    assert found.unsure == (Matter.PEEL,)
    assert found.stretch == Range(1.6, 1.6, 2.1)
    assert found.solids[0].way is PeelWay.SLIT
    assert found.tight is not None
    assert found.tight.at[2] == 70.0
    assert Settle.GIRTHS in found.settled_by


def test_a_glove_that_is_slit_on_all_of_them_is_sure() -> None:
    slit = peel_found(PeelShape(3.0, 200.0, (NECK,), 9.0, 0.5), Kept("slit", lambda: CUT), 2.0)
    found = told(SAME, 2, peel=slit)
    assert Matter.PEEL in found.sure
    assert Settle.GIRTHS not in found.settled_by


def test_of_a_volume_that_nobody_knows_nothing_is_sure() -> None:
    """Off by more than a quarter: even solids that agree do not stand for it."""
    vague = replace(PHOTOS, spread=replace(PHOTOS.spread, volume=Range(0.6, 1.0, 1.05)))
    found = told(SAME, 1, vague)
    assert found.sure == ()
    assert found.unsure == tuple(Matter)
    assert Settle.WATER in found.settled_by


def test_water_that_was_told_is_not_asked_for_again() -> None:
    lean = other(Shape.LEAN, (28.0, 40.0), (5.0, 0.0))
    wet = replace(PHOTOS, also=(Source.WATER,))
    assert Settle.WATER not in told(Doubted(LIKELY, (lean,), ((), ())), 2, wet).settled_by
    assert told(Doubted(LIKELY, (lean,), ((), ())), 2, wet).settled_by == (Settle.VIEWS,)


def test_what_is_packed_is_a_range_over_all_solids_and_narrow_recesses_besides() -> None:
    """The lean one packs 3 ml more; recesses too narrow for the grid 2 ml."""
    found = told(Doubted(LIKELY, (other(Shape.LEAN, (28.0, 8.0), (5.0, 0.0)),), ((), ())), 2)
    assert found.packing_ml.likely == 6.0
    assert found.packing_ml.high >= 6.0 + 3.0 + 2.0
    assert found.packing_ml.high == pytest.approx(6.0 + MORE * (3.0**2 + (2.0 + 0.02 * COATS_ML) ** 2) ** 0.5)
    assert found.packing_ml.low <= 6.0


def test_by_a_tape_nothing_is_sure_that_hollows_could_change() -> None:
    """All solids agree; by photos all of it is sure."""
    found = told(SAME, 1, TAPE)
    assert found.sure == ()
    assert found.unsure == found.untold == tuple(Matter)
    assert found.settled_by == (Settle.PHOTOS,)
    slit = peel_found(PeelShape(3.0, 200.0, (NECK,), 9.0, 0.5), Kept("slit", lambda: CUT), 2.0)
    assert Matter.PEEL in told(SAME, 2, TAPE, slit).untold


def test_what_solids_show_to_be_unsure_is_told_by_them_and_not_by_the_tape() -> None:
    found = told(Doubted(LIKELY, (other(Shape.UNEVEN, (28.0, 5.0), (5.0, 0.0), 0.06),), ((), ())), 2, TAPE)
    assert Matter.SEAM in found.unsure
    assert Matter.SEAM not in found.untold
    assert Matter.PIECES in found.untold


def test_by_a_tape_what_is_packed_goes_from_nothing_to_what_it_spans() -> None:
    """200 ml of coats; the photos' 2 ml of recesses are in no tape's spread, and would add."""
    found = told(SAME, 2, replace(TAPE, spread=replace(TAPE.spread, unseen_ml=0.0)))
    assert (found.packing_ml.low, found.packing_ml.likely) == (0.0, 6.0)
    assert found.packing_ml.high == pytest.approx(6.0 + MORE * SPANNED_SHARE * COATS_ML)
    assert found.packing_ml.high > told(SAME, 2).packing_ml.high


@pytest.mark.parametrize("more", [[-20.0], [0.0], [5.0, -3.0]])
def test_a_range_never_falls_below_nothing(more: list[float]) -> None:
    told_ml = over(Range(9.0, 10.0, 11.0), more)
    assert 0.0 <= told_ml.low <= 9.0
    assert told_ml.high >= max(11.0, 10.0 + max(more))
