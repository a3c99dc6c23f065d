"""Legends, places and lengths of a mold in words, by hand."""

from __future__ import annotations

import numpy as np
import pytest

from moldwright.told.surfaces.legend import legend_of
from moldwright.told.surfaces.lengths import bars, stops_to
from moldwright.told.surfaces.places import between_words, draw_words, place_rows
from moldwright.told.surfaces.quantity import quantities_on_surfaces
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
    assert names == ["thickness", "packed", "undercut", "hold", "seam"]
