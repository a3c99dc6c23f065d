"""The finished piece: volumes times densities by hand."""

import pytest

from moldwright.cast.piece import Fill, fill_of, piece_mass_g, shrinkage_mm
from moldwright.cast.resin_limits import resin_cup_limit
from moldwright.cast.resin_recipe import resin_mix
from moldwright.errors import InputRefused
from moldwright.materials import library
from moldwright.plan.mixes import TaskKind
from moldwright.ranges import Range

LIBRARY = library()
FAST = Range(120.0, 180.0, 240.0)
SLOW = Range(2400.0, 3600.0, 5400.0)


def test_back_fill_is_what_the_skin_leaves() -> None:
    """Spheres by hand: 4/3 pi 50^3 = 523.599 ml; less 4/3 pi 44^3, a 6 mm inner skin of 166.78 ml, not A t = 188.50."""
    assert fill_of(523.599, 166.78).backfill_ml == pytest.approx(356.82, abs=0.01)
    assert fill_of(6.0, 5.95, solid=True) == Fill(6.0, 0.0)
    with pytest.raises(InputRefused):
        fill_of(100.0, 120.0)


def test_mass_of_the_trimmed_piece() -> None:
    """What stays: 90 ml at 2.2 + 270 ml at 1.1 = 495 g; a fifth of the skin more or less is 18 ml x 1.1 g/ml."""
    mass = piece_mass_g(Fill(90.0, 270.0), Range.exactly(2.2), Range.exactly(1.1))
    assert mass.likely == pytest.approx(495.0)
    assert mass.low == pytest.approx(495.0 - 18 * 1.1)
    assert mass.high == pytest.approx(495.0 + 18 * 1.1)


def test_a_solid_cast_weighs_its_volume() -> None:
    mass = piece_mass_g(Fill(400.0, 0.0), Range(2.0, 2.2, 2.4), Range.exactly(0.0))
    assert (mass.low, mass.likely, mass.high) == pytest.approx((800.0, 880.0, 960.0))


def test_shrinkage_adds_mold_and_resin() -> None:
    """200 mm: 0.1 % of the rubber and 0.4 % of a resin that is a quarter powder: 0.2 + 0.6 = 0.8 mm."""
    got = shrinkage_mm(200.0, Range(0.2, 0.4, 0.8), Range(0.0, 0.1, 0.1), 25.0)
    assert got.likely == pytest.approx(0.8)


def test_fast_resin_takes_its_powder_before_the_clock_starts() -> None:
    """Common practice, no source: wetted out in the part without isocyanate where the pot life is short."""
    resin, powder = LIBRARY.resin("urethane-fast"), LIBRARY.powder("bronze")
    names = [part.name for part in resin_mix(resin, powder, "brown", 0.001, FAST).recipe.ingredients]
    assert names == ["A", "brown", powder.name, "B"]
    assert names[-1] == resin.isocyanate_part


def test_slow_resin_gets_its_powder_sifted_into_the_stirred_mix() -> None:
    """Common practice, no source; sifting takes part of the pot life."""
    resin, powder = LIBRARY.resin("epoxy-slow"), LIBRARY.powder("marble")
    mix = resin_mix(resin, powder, "", 0.0, SLOW)
    assert [part.kind for part in mix.recipe.ingredients] == ["A", "B", "powder"]
    assert mix.mixing_s > resin.mix_s.likely


def test_gypsum_goes_into_its_water() -> None:
    """Powder into water, never water into powder: common practice, no source."""
    mix = resin_mix(LIBRARY.resin("modified-gypsum"), None, "", 0.0, SLOW)
    assert [(part.kind, part.name) for part in mix.recipe.ingredients] == [("B", "water"), ("A", "gypsum")]


def test_equal_loose_volumes_where_the_resin_allows() -> None:
    """Bronze in fast urethane: 58.25 % by weight: 3.0 / (3.0 + 1.05 + 1.10) by the rule of mixtures (densities of the
    sheets; the sheet's ratio by weight is rounded to 100 : 104.8, so 0.01 %)."""
    mix = resin_mix(LIBRARY.resin("urethane-fast"), LIBRARY.powder("bronze"), "", 0.0, FAST)
    assert mix.filled.loading_wt_pct == pytest.approx(58.25, abs=0.01)
    assert not mix.thinned


def test_a_skin_is_poured_early_and_swirled_after() -> None:
    """(120 - 30) / 3 = 30 s of pouring at 10 g/s: 300 g, on the work 60 s after the parts met."""
    limit = resin_cup_limit(120.0, 30.0, 5000.0, 2.2, skin=True)
    tasks = [(task.kind, task.duration_s) for task in limit.clock.tasks(300.0, 300.0)]
    assert limit.max_g == pytest.approx(300.0)
    assert tasks == [(TaskKind.MIX, 30.0), (TaskKind.POUR, 30.0), (TaskKind.SWIRL, 60.0)]
    assert resin_cup_limit(120.0, 30.0, 5000.0, 1.1, skin=False).max_g == pytest.approx(900.0)
