"""Legends, places and lengths of a mold in words, by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from sheets_fixture import plan

from moldwright.plan.coats import CoatHold
from moldwright.plan.peel import PeelPlan
from moldwright.plan.plan import Plan
from moldwright.plan.strain import PeelEffort, StrainedPlace, StrainPlan
from moldwright.plan.thickness import FootPlan, LengthAt, ThicknessPlan
from moldwright.ranges import Range
from moldwright.sheets.picture import Picture
from moldwright.told.surfaces.legend import legend_of
from moldwright.told.surfaces.lengths import bars, stops_to
from moldwright.told.surfaces.mapped import SurfaceMap, SurfaceMaps, asked_of, on_paper, shown_maps
from moldwright.told.surfaces.places import between_words, draw_words, place_rows
from moldwright.told.surfaces.quantity import quantities_on_surfaces
from moldwright.told.surfaces.scale import TIMES
from moldwright.told.surfaces.thickness import QUANTITY
from moldwright.units.system import UnitSystem

METRIC, US = UnitSystem.METRIC, UnitSystem.US


def test_leaves_are_as_thin_as_hold_nearly_all_of_it() -> None:
    """0 to 16 mm, evenly: eight leaves of 2 mm with an eighth each."""
    told = legend_of(np.linspace(0.0, 16.0, 1601), np.ones(1601), METRIC)
    assert told.limits == ("0", "2", "4", "6", "8", "10", "12", "14", "16")
    assert told.unit == "mm"
    np.testing.assert_allclose(told.shares, 0.125, atol=0.002)


def test_shares_are_of_the_surface_and_not_of_its_corners() -> None:
    told = legend_of(np.array([0.5, 15.5]), np.array([3.0, 1.0]), METRIC)
    assert (told.shares[0], told.shares[-1]) == (0.75, 0.25)
    assert (told.shares_told[0], told.shares_told[-1]) == ("75 %", "25 %")


def test_no_limit_parts_what_is_common() -> None:
    """Coats of 4 mm are 3.99 to 4.01 mm thick: a limit at 4 would draw lines all over them."""
    values = np.concatenate([np.full(900, 3.99), np.full(900, 4.01), np.linspace(4.0, 9.0, 200)])
    told = legend_of(values, np.ones(2000), METRIC, 4.0)
    assert 4.0 not in told.limits_mm
    assert told.limits[:2] == ("3.5", "4.5")
    assert told.shares[0] > 0.9


@pytest.mark.parametrize("low_mm", [1.0, 1.26, 10.0, 12.2, 101.0, 400.0])
@pytest.mark.parametrize("wide_mm", [0.5, 1.5, 1.9, 15.0])
@pytest.mark.parametrize("common", [False, True])
def test_limits_are_printed_as_what_they_are(low_mm: float, wide_mm: float, common: bool) -> None:
    """Leaves of 0.25 mm were printed as 1.2, 1.5, 1.8: numbers of other leaves."""
    told = legend_of(np.linspace(low_mm, low_mm + wide_mm, 500), np.ones(500), METRIC, low_mm if common else None)
    np.testing.assert_allclose([float(limit.replace("−", "-")) for limit in told.limits], told.limits_mm, atol=1e-9)


def test_limits_of_inches_are_fractions_as_a_rule_has_them() -> None:
    told = legend_of(np.linspace(0.0, 12.0, 100), np.ones(100), US)
    assert told.unit == "in"
    assert told.limits[:3] == ("0", "1/16", "1/8")


def test_how_many_times_something_is_stretched_has_leaves_of_its_own() -> None:
    """1 to 3 times in eight leaves of a quarter, in every system."""
    for units in UnitSystem:
        told = legend_of(np.linspace(1.0, 3.0, 500), np.ones(500), units, scale=TIMES)
        assert told.limits == ("1", "1.25", "1.5", "1.75", "2", "2.25", "2.5", "2.75", "3")
        assert told.unit == "×"
    rows = dict(place_rows("Packed", "Shell 2", (1.0, 2.0, 108.2), {"stretch": 1.254}, METRIC))
    assert rows["Stretched in peeling"] == "1.25 ×"


def test_what_is_nowhere_has_leaves_all_the_same() -> None:
    told = legend_of(np.full(3, np.nan), np.ones(3), METRIC)
    assert len(told.limits) == 9
    assert not any(told.shares)


def test_a_place_tells_all_that_is_known_of_it_in_the_reader_s_units() -> None:
    rows = dict(place_rows("Packed", "Shell 2", (1.0, 2.0, 108.2), {"thickness": 4.1, "seam": float("nan")}, METRIC))
    assert rows == {"On": "Packed", "Over the board": "108 mm", "Rubber here": "4.1 mm", "Under": "Shell 2"}


def test_between_two_places_straight_level_and_upright() -> None:
    """3, 4, 12: 5 level, 13 straight."""
    rows = dict(between_words((0.0, 0.0, 0.0), (3.0, 4.0, -12.0), METRIC))
    assert rows == {"Straight": "13 mm", "Level": "5 mm", "Upright": "12 mm"}


@pytest.mark.parametrize(
    ("draw", "told"),
    [((0.0, 1.0, 0.0), "draws level"), ((0.0, np.cos(0.2), -np.sin(0.2)), "draws 11° below level")],
)
def test_a_draw_is_told_against_level(draw: tuple[float, float, float], told: str) -> None:
    assert draw_words(draw) == told


def test_stops_reach_as_far_as_asked() -> None:
    assert stops_to(100.0, US).mm[-1] >= 100.0
    assert stops_to(100.0, METRIC).told[-1] == "100 mm"
    assert bars(US).told[4] == "1 in"


def test_quantities_are_found_by_their_files_in_one_order() -> None:
    names = [each.name for each in quantities_on_surfaces()]
    assert names == ["thickness", "packed", "undercut", "hold", "stretch", "strain", "seam"]


def test_the_thinnest_place_is_told_with_why_it_is_less_than_ordered() -> None:
    its = plan()
    ordered_mm = sum(coat.thickness_mm for coat in its.glove.coats)
    for least_mm, told in (
        (ordered_mm, "4 mm at least, right, back, up: 66, 55, 44 mm."),
        (3.9, "an edge is rounded."),
    ):
        at = (1.0, -5.0, 44.0)
        thick = ThicknessPlan(ordered_mm, 0.1, LengthAt(least_mm, at), LengthAt(9.0, at), FootPlan(1.5, at, 20.0))
        text = QUANTITY.told(replace(its, glove=replace(its.glove, thickness=thick)), METRIC)
        assert told in text
        assert "Under the foot it runs out to an edge, up to 1.5 mm in." in text
    assert QUANTITY.told(its, METRIC).endswith("4 mm thick.")


def slack(its: Plan) -> PeelPlan:
    """How its glove would come off if it were tight nowhere."""
    return replace(its.glove.peel, shape=replace(its.glove.peel.shape, places=()))


def test_what_a_hand_does_by_a_map_puts_it_on_paper() -> None:
    """A quantity without it, or of which this plan knows nothing, is seen on the screen alone."""
    tight = plan()
    assert [each.name for each in on_paper(tight)] == ["thickness", "stretch"]
    its = replace(tight, glove=replace(tight.glove, peel=slack(tight)))
    assert [each.name for each in on_paper(its)] == ["thickness"]
    hold = CoatHold(its.glove.coats[-1].id, 2.0, Range(1.0, 1.5, 2.0), Range(0.5, 1.0, 1.5), 0.3, 0.5, 2, None)
    held = replace(its, glove=replace(its.glove, holds=(hold,)))
    assert [each.name for each in on_paper(held)] == ["thickness", "hold"]
    (asked,) = [each for each in asked_of(held) if each.name == "hold"]
    assert asked.needed_mm == 2.0
    shown = {each.name: each.at_bench(held, METRIC) for each in on_paper(held) if each.at_bench}
    assert shown["hold"].startswith("Hatched, 30 % of it: lay the last coat there in 2 layers")


def test_the_map_s_mark_of_the_stretch_says_what_is_told_of_the_tightest_loop() -> None:
    tight = plan()
    shape = tight.glove.peel.shape
    marked = {each.name: each.places for each in asked_of(tight)}
    assert marked["stretch"] == (None, LengthAt(shape.stretch, shape.places[0].at))
    (stretch,) = [each for each in quantities_on_surfaces() if each.name == "stretch"]
    its = replace(tight, glove=replace(tight.glove, peel=slack(tight)))
    assert stretch.places(its) == (None, None)
    assert TIMES.show(shape.stretch, METRIC) in stretch.told(tight, METRIC)


def test_the_sheet_s_strain_is_mapped_with_its_places_the_most_first() -> None:
    tight = plan()
    places = tuple(StrainedPlace((0.0, 0.0, up), pct) for up, pct in ((88.0, 62.0), (20.0, 35.0)))
    strain = StrainPlan(PeelEffort.EASY, True, None, 40.0, 55.0, places, None)
    its = replace(tight, glove=replace(tight.glove, strain=strain))
    mapped = {each.name: each for each in on_paper(its)}
    assert list(mapped) == ["thickness", "stretch", "strain"]
    done = mapped["strain"].at_bench
    assert done is not None
    said = done(its, METRIC)
    assert said.index("62 % (") < said.index(" 88)") < said.index("35 % (") < said.index(" 20)")
    assert "55 % or less" in mapped["strain"].told(its, METRIC)
    assert mapped["strain"].allowed_mm(its) == pytest.approx(227.0)


def test_ends_of_a_legend_that_hold_more_say_so() -> None:
    its = plan()
    legend = legend_of(np.linspace(0.0, 100.0, 20001) ** 2 / 100.0, np.ones(20001), METRIC)
    view = Picture("Front", b"", 10.0, 10.0)
    maps = SurfaceMaps((SurfaceMap("thickness", replace(legend, below=True, above=True), (view,) * 4, None, None),))
    (shown,) = shown_maps(replace(its, glove=replace(its.glove, peel=slack(its))), maps)
    assert shown.leaves[0].limits == f"up to {legend.limits[1]}"
    assert shown.leaves[-1].limits == f"from {legend.limits[-2]}"
    assert shown.leaves[3].limits == f"{legend.limits[3]}–{legend.limits[4]}"
    assert (shown.least, shown.most) == ("", "")
