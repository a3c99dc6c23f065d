"""Plaster bandage: counted by hand from areas. Plies, strips, overlap: common practice, no source."""

import pytest

from moldwright.errors import InputRefused
from moldwright.mold.bandage import Roll, ShellSurface, bandage

ROLL = Roll(150.0, 2750.0, 450.0)


def test_strips_by_hand() -> None:
    """0.1 m2 + seam 0.5 m x 0.02 m = 0.11 m2, two layers 0.22 m2; a strip covers 0.25 x 0.15 x 2/3 = 0.025 m2: 8.8."""
    laid = bandage(ShellSurface(100_000, 500, 20, 200), ROLL)
    assert (laid.layers, laid.plies, laid.strips) == (2, 4, 9)
    assert laid.dry_g == pytest.approx(9 * 4 * 0.25 * 0.15 * 450)
    assert laid.rolls == 5  # a roll of 2.75 m holds two strips of 4 x 0.25 m
    assert laid.clay_g == pytest.approx(50 * 2 * 1 * 1.7)  # a wall 50 cm long, 2 cm high, 1 cm thick


def test_a_large_piece_takes_a_third_layer() -> None:
    assert bandage(ShellSurface(100_000, 500, 20, 400), ROLL).layers == 3


def test_the_overlap_of_the_halves_costs_bandage() -> None:
    narrow = bandage(ShellSurface(400_000, 1500, 0, 200), ROLL)
    assert bandage(ShellSurface(400_000, 1500, 40, 200), ROLL).strips > narrow.strips


def test_a_strip_longer_than_the_roll_is_pieced() -> None:
    assert bandage(ShellSurface(100_000, 500, 20, 200), Roll(150.0, 500.0, 450.0)).rolls == 18


def test_dipping_water_is_three_times_the_dry_bandage() -> None:
    """Two bowls for both halves, at least 3 l: common practice, no source. 1.0 m2 x 3 layers over 0.025 m2: 120 strips
    of 4 x 0.25 x 0.15 m x 450 g/m2 = 8100 g, 24.3 l by hand."""
    laid = bandage(ShellSurface(1_000_000, 0, 0, 400), ROLL)
    assert (laid.strips, laid.dry_g) == (120, pytest.approx(8100))
    assert laid.water_ml == pytest.approx(24_300)
    assert bandage(ShellSurface(10_000, 0, 0, 100), ROLL).water_ml == pytest.approx(3000)


def test_wax_covers_the_rubber_and_the_first_halfs_edge() -> None:
    """50 g/m2 (common practice, no source) on 0.1 m2 and on a seam of 2 m x 0.05 m, another 0.1 m2: 10 g, not 5; talc
    goes on the rubber alone, 40 g/m2 x 0.1 m2."""
    laid = bandage(ShellSurface(100_000, 2000, 50, 200), ROLL)
    assert laid.wax_g == pytest.approx(10.0)
    assert laid.talc_g == pytest.approx(4.0)


def test_refused() -> None:
    with pytest.raises(InputRefused):
        bandage(ShellSurface(100_000, 500, 20, 200), Roll(150.0, 2750.0, 0.0))
    with pytest.raises(InputRefused):
        bandage(ShellSurface(100_000, 500, 20, 200), ROLL, plies=40)
