"""The mix of a skin and of a back-fill: what is in it, in which order and how long it is stirred; by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from moldwright.cast.resin_recipe import BACKFILL_TINT, SKIN_TINT, mixing_s, resin_mix, sifted
from moldwright.materials import library
from moldwright.plan.mixes import PartKind
from moldwright.ranges import Range

LIBRARY = library()
SLOW = LIBRARY.resin("epoxy-slow")
FAST, BRONZE = LIBRARY.resin("urethane-fast"), LIBRARY.powder("bronze")
SHORT = Range(120.0, 180.0, 240.0)


def lasting(likely_s: float) -> Range:
    return Range(likely_s / 2, likely_s, 2 * likely_s)


def test_ten_minutes_of_pot_life_leave_the_time_to_sift() -> None:
    """Common practice, no source: two minutes of sifting and stirring, from ten minutes of pot life."""
    assert sifted(SLOW, BRONZE, lasting(600.0))
    assert not sifted(SLOW, BRONZE, lasting(599.9))
    assert not sifted(SLOW, None, lasting(6000.0))
    assert mixing_s(FAST, BRONZE, lasting(600.0)) - mixing_s(FAST, BRONZE, lasting(599.9)) == 120.0
    assert mixing_s(FAST, None, lasting(6000.0)) == FAST.mix_s.likely


@pytest.mark.parametrize(("tint", "least", "most"), [(SKIN_TINT, 1, 3), (BACKFILL_TINT, 3, 8)])
def test_tint_is_a_few_drops(tint: float, least: float, most: float) -> None:
    """A few drops (common practice) in 100 g of resin, more for a dark back-fill; a drop is 0.05 ml (20 to the
    milliliter, the pharmacists' measure, from memory)."""
    parts = {part.kind: part for part in resin_mix(FAST, None, "brown", tint, SHORT).recipe.ingredients}
    resin = parts[PartKind.A].share + parts[PartKind.B].share
    drops = 100 * parts[PartKind.TINT].share / resin / parts[PartKind.TINT].density_g_ml / 0.05
    assert least <= drops <= most
    assert parts[PartKind.TINT].share == pytest.approx(tint * resin)


def test_no_tint_no_part() -> None:
    mix = resin_mix(FAST, None, "", 0.5, SHORT)
    assert [part.kind for part in mix.recipe.ingredients] == [PartKind.A, PartKind.B]
    assert mix.filled.yield_pct == pytest.approx(100.0)
    assert (mix.filled.loading_vol_pct, mix.thinned) == (0.0, False)


def test_powder_is_held_back_where_the_resin_would_grow_too_thick() -> None:
    """The sheet's most, by true volume; as loose volumes it is less than a third of the cup."""
    powder = LIBRARY.powder("marble")
    thick = replace(FAST, powder_max_vol_pct=replace(FAST.powder_max_vol_pct, range=Range.exactly(5.0)))
    assert resin_mix(thick, powder, "", 0.0, SHORT).thinned
    for sheet in (FAST, thick, LIBRARY.resin("epoxy-slow")):
        mix = resin_mix(sheet, powder, "", 0.0, SHORT)
        most = sheet.powder_max_vol_pct.likely
        parts = {part.kind: part for part in mix.recipe.ingredients}
        liquids = [parts[kind].share / parts[kind].density_g_ml for kind in (PartKind.A, PartKind.B)]
        loose = parts[PartKind.POWDER].share / parts[PartKind.POWDER].density_g_ml
        assert mix.thinned == (loose < 0.499 * sum(liquids))
        assert mix.filled.loading_vol_pct == pytest.approx(most) if mix.thinned else mix.filled.loading_vol_pct < most
        grains = parts[PartKind.POWDER].share / powder.true_density_g_ml.likely
        assert mix.filled.loading_vol_pct == pytest.approx(100 * grains / (grains + sum(liquids)))
