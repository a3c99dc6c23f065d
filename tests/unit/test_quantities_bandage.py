"""Plaster bandage: counted by hand from areas. Plies, strips, overlap: common practice, no source."""

import pytest

from moldwright.errors import InputRefused
from moldwright.quantities.bandage import Roll, ShellSurface, bandage, dry_shell_g
from moldwright.ranges import Range

ROLL = Roll(150.0, 2750.0, 450.0)


def test_strips_by_hand() -> None:
    """0.1 m2 + two flanges of 0.5 m x 0.02 m = 0.12 m2, two layers 0.24 m2; a strip covers 0.25 x 0.15 x 2/3 = 0.025
    m2: 9.6."""
    laid = bandage(ShellSurface(100_000, 500, 20, 0, 200), ROLL)
    assert (laid.layers, laid.plies, laid.strips) == (2, 4, 10)
    assert laid.dry_g == pytest.approx(10 * 4 * 0.25 * 0.15 * 450)
    assert laid.rolls == 4  # 40 plies of 0.25 m, eleven to a roll of 2.75 m: 3.6


@pytest.mark.parametrize(("area_mm2", "rolls"), [(375_000, 11), (130_000, 4), (140_000, 5)])
def test_rolls_are_counted_from_single_plies(area_mm2: float, rolls: int) -> None:
    """Of 2.75 m: 30 strips are 120 plies, 10.9 rolls, though only two whole strips of 1 m go on each (15 rolls); 11
    strips are 44 plies, just four rolls; one strip more begins the fifth."""
    assert bandage(ShellSurface(area_mm2, 0, 0, 0, 200), ROLL).rolls == rolls


def test_a_large_piece_takes_a_third_layer() -> None:
    assert bandage(ShellSurface(100_000, 500, 20, 0, 400), ROLL).layers == 3


@pytest.mark.parametrize(("flange_mm", "lap_mm", "layers", "strips"), [(0, 0, 2, 8), (50, 0, 2, 16), (0, 50, 2, 10),
                                                                      (50, 0, 3, 24), (0, 50, 3, 14)])  # fmt: skip
def test_two_flanges_in_every_layer_or_one_lap(flange_mm: float, lap_mm: float, layers: int, strips: int) -> None:
    """0.1 m2 and a seam of 1 m: two flanges 50 mm wide are another 0.1 m2 a layer, a lap as wide 0.05 m2 once. A strip
    covers 0.025 m2."""
    surface = ShellSurface(99_999, 1000, flange_mm, lap_mm, 200)
    assert bandage(surface, ROLL, layers=layers).strips == strips


def test_a_strip_longer_than_the_roll_is_pieced() -> None:
    assert bandage(ShellSurface(100_000, 500, 20, 0, 200), Roll(150.0, 500.0, 450.0)).rolls == 20


def test_dipping_water_is_three_times_the_dry_bandage() -> None:
    """A bowl for each piece, 1.5 l at least: common practice, no source. 1.0 m2 x 3 layers over 0.025 m2: 120 strips of
    4 x 0.25 x 0.15 m x 450 g/m2 = 8100 g, two bowls of 12.15 l by hand, each to 100 ml up."""
    laid = bandage(ShellSurface(1_000_000, 0, 0, 0, 400), ROLL)
    assert (laid.strips, laid.dry_g) == (120, pytest.approx(8100))
    assert laid.water_ml == pytest.approx(24_400)
    assert bandage(ShellSurface(10_000, 0, 0, 0, 100), ROLL).water_ml == pytest.approx(3000)


def test_refused() -> None:
    with pytest.raises(InputRefused):
        bandage(ShellSurface(100_000, 500, 20, 0, 200), Roll(150.0, 2750.0, 0.0))
    with pytest.raises(InputRefused):
        bandage(ShellSurface(100_000, 500, 20, 0, 200), ROLL, plies=40)


@pytest.mark.parametrize("plies", [0, 13])
def test_folds_that_nobody_lays_are_refused(plies: int) -> None:
    with pytest.raises(InputRefused) as refused:
        bandage(ShellSurface(100_000, 500, 20, 0, 200), ROLL, plies=plies)
    assert (refused.value.code, refused.value.actual) == ("bandage-plies", plies)
    assert bandage(ShellSurface(100_000, 500, 20, 0, 200), ROLL, plies=1).plies == 1
    assert bandage(ShellSurface(100_000, 500, 20, 0, 200), ROLL, plies=12).plies == 12


@pytest.mark.parametrize("nothing", [0.0, -0.5])
def test_sizes_of_nothing_are_refused(nothing: float) -> None:
    good = ShellSurface(100_000, 500, 20, 0, 200)
    for surface, roll, strip_mm in (
        (ShellSurface(nothing, 500, 20, 0, 200), ROLL, 250.0),
        (good, Roll(nothing, 2750.0, 450.0), 250.0),
        (good, Roll(150.0, nothing, 450.0), 250.0),
        (good, ROLL, nothing),
    ):
        with pytest.raises(InputRefused) as refused:
            bandage(surface, roll, strip_length_mm=strip_mm)
        assert (refused.value.code, refused.value.actual) == ("bandage-size", nothing)
    assert bandage(ShellSurface(0.5, 0, 0, 0, 0.5), Roll(0.5, 0.5, 0.5), strip_length_mm=0.5).layers == 2


def test_waste_and_layers_are_laid_too() -> None:
    """0.12 m2: three layers and a fifth lost 0.432 m2 over 0.025 m2, 17.28: 18 strips."""
    assert bandage(ShellSurface(100_000, 500, 20, 0, 200), ROLL, layers=3, waste=0.2).strips == 18
    assert bandage(ShellSurface(100_000, 500, 20, 0, 250), ROLL).layers == 2
    assert bandage(ShellSurface(100_000, 500, 20, 0, 250.5), ROLL).layers == 3


def test_what_is_told_is_rounded_to_what_can_be_measured() -> None:
    """Water to 100 ml, up; masses to 0.1 g. 0.34567 m2, two layers: 27.65, so 28 strips of 0.15 m2 x 431 g/m2;
    3 x 1810.2 = 5430.6, 2715.3 in each of two bowls."""
    laid = bandage(ShellSurface(345_670, 0, 0, 0, 200), Roll(150.0, 2750.0, 431.0))
    assert (laid.strips, laid.dry_g) == (28, 1810.2)
    assert [piece.water_ml for piece in laid.pieces] == [2800.0, 2800.0]
    assert laid.water_ml == 5600.0


def test_the_set_shell_weighs_its_gauze_and_its_gypsum() -> None:
    """Gauze and binder are 5 to 12 % of a dry bandage (from memory); the plaster gains 18.62 % (stoichiometry)."""
    for share, more in ((0.12, True), (0.05, False)):
        bound = 8100 * (share + (1 - share) * 1.1862)
        assert (dry_shell_g(8100) > bound) == more


def test_the_shell_is_what_is_laid_without_what_is_lost() -> None:
    """120 strips of 67.5 g, a fifth of them lost, and a cloth that may be a quarter lighter or heavier."""
    roll = Roll(150.0, 2750.0, 450.0, Range(0.75, 1.0, 1.25))
    laid = bandage(ShellSurface(1_000_000, 0, 0, 0, 400), roll, waste=0.2)
    kept_g = dry_shell_g(laid.strips * 4 * 0.25 * 0.15 * 450) / 1.2
    assert (laid.set_g.low, laid.set_g.likely, laid.set_g.high) == pytest.approx((0.75 * kept_g, kept_g, 1.25 * kept_g))
    assert laid.strips == 144
