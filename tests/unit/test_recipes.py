"""Recipes: kept, scaled, with the sheet's ratio; masses by hand."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from math import sqrt
from threading import Barrier

import pytest
from lots_by_hand import RUN, bench, ms, receipt, received, weighed
from shelf_plan import RESIN, plan

from moldwright.errors import InputRefused
from moldwright.log.event import About
from moldwright.log.lot_events import Stuff
from moldwright.log.recipe_events import RecipeKept, RecipeKind, RecipePart
from moldwright.log.run_events import CupRef, Divided, Started, Weighed
from moldwright.materials import library
from moldwright.materials.hazards import deference
from moldwright.mixing.weighing import mass_tolerance, smallest_weighed_g
from moldwright.plan.ids import MixId
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.mixes import PartKind
from moldwright.records.clock import BenchClock
from moldwright.records.recipes.cautions import NOT_KNOWN, cautions_of
from moldwright.records.recipes.keep import (
    cup_parts,
    drop_recipe,
    from_cup,
    keep_recipe,
    mixes_of,
    recipe_meant,
    recipes,
)
from moldwright.records.recipes.scale import pairs_in, scaled
from moldwright.records.shop import Shop
from moldwright.records.strike import strike_out

HARDENER = Stuff("resin", "urethane-standard-b", "standard casting urethane, part B")
METAL = Stuff("powder", "bronze", "bronze powder")
UMBER = Stuff("", "umber", "umber from the hills")
BRONZE = (RecipePart(RESIN, 100.0), RecipePart(METAL, 150.0), RecipePart(HARDENER, 104.8), RecipePart(UMBER, 0.5))
SKIN_CUP = CupRef(MixId("skin.cup-1"), 2)


def kept(name: str = "museum bronze", parts: tuple[RecipePart, ...] = BRONZE) -> RecipeKept:
    return RecipeKept(name, RecipeKind.METAL, parts)


def test_twice_the_recipe_is_twice_of_each_with_running_totals() -> None:
    """355.3 g as mixed, 710.6 g wanted: 200, 300, 209.6, 1 g; the sheet's ratio is 1 : 1.048, as it was mixed."""
    made = scaled(BRONZE, 710.6, 0.1, pairs_in(BRONZE, library()))
    assert [part.mass_g for part in made.parts] == [200.0, 300.0, 209.6, 1.0]
    assert [part.reads_g for part in made.parts] == [200.0, 500.0, 709.6, 710.6]
    assert [ratio.held for ratio in made.ratios] == [True]
    assert not made.ratios[0].was_off


def test_parts_that_react_take_the_sheets_ratio_and_not_the_recipes() -> None:
    """100 and 120 g of A and B, mixed 1 : 1.2. The sheet: 100 to 104.8 by weight, so of 220 g
    220 / 2.048 = 107.42 g are of A, 112.58 g of B; the metal keeps its share."""
    parts = (RecipePart(RESIN, 100.0), RecipePart(METAL, 80.0), RecipePart(HARDENER, 120.0))
    pairs = pairs_in(parts, library())
    made = scaled(parts, 300.0, 0.1, pairs)
    assert made.parts[0].mass_g == 107.4
    assert made.parts[2].mass_g == 112.6
    assert made.parts[1].mass_g == 80.0
    assert made.ratios[0].was_off
    assert made.ratios[0].recipe == pytest.approx(1.2)
    assert made.ratios[0].held


def test_rounding_is_told_of_each_part_and_the_total_is_what_the_scale_shows() -> None:
    """On a scale of 1 g: 33.4 g are 33 (-1.2 %), twice; 33.2 are 33 (-0.6 %): 99 g in all."""
    parts = (RecipePart(METAL, 33.4), RecipePart(Stuff("powder", "iron"), 33.4), RecipePart(UMBER, 33.2))
    made = scaled(parts, 100.0, 1.0, ())
    assert [part.mass_g for part in made.parts] == [33.0, 33.0, 33.0]
    assert made.mass_g == 99.0
    assert [round(part.off, 4) for part in made.parts] == [-0.012, -0.012, -0.006]


def test_a_trace_that_the_scale_does_not_tell_says_from_which_batch_on_it_would() -> None:
    """A part is told to 10 % from 2 d / (sqrt 6 x 0.1) on: 0.816 g at 0.1 g. 0.5 of 355.3 g: from 580 g on."""
    least = 2.0 * 0.1 / (sqrt(6.0) * 0.1)
    assert smallest_weighed_g(0.1, 0.1) == pytest.approx(least)
    assert mass_tolerance(0.1, least) == pytest.approx(0.1)
    made = scaled(BRONZE, 355.3, 0.1, ())
    assert [part.least_g for part in made.parts[:3]] == [0.0, 0.0, 0.0]
    assert made.parts[3].least_g == pytest.approx(355.3 * least / 0.5)
    assert scaled(BRONZE, 3553.0, 0.1, ()).parts[3].least_g == 0.0


def test_a_ratio_that_a_coarse_scale_cannot_hold_is_told_with_the_batch_that_it_could() -> None:
    """100 g on a scale of 5 g: A and B of 28 and 29 g become 30 and 30; the sheet bears 2 %."""
    pairs = pairs_in(BRONZE, library())
    ratio = scaled(BRONZE, 100.0, 5.0, pairs).ratios[0]
    assert not ratio.held
    assert scaled(BRONZE, ratio.least_g * 3.0, 5.0, pairs).ratios[0].held


@pytest.mark.parametrize("total", [0.0, -1.0, float("nan"), float("inf")])
def test_no_recipe_for_nothing(total: float) -> None:
    with pytest.raises(InputRefused, match="amount-out-of-range"):
        scaled(BRONZE, total, 0.1, ())


def test_kept_again_it_has_a_new_state_and_the_old_one_stays(shop: Shop) -> None:
    clock = bench()
    first = keep_recipe(shop, clock, kept())
    second = keep_recipe(shop, clock, kept("Museum Bronze", BRONZE[:3]))
    assert (second.id, len(second.states)) == (first.id, 2)
    assert second.now.kept.parts == BRONZE[:3]
    assert second.states[0].kept.parts == BRONZE
    assert recipe_meant(shop, "museum bronze") == second
    strike_out(shop, clock, About.RECIPE, second.now.event)
    assert recipe_meant(shop, first.id).now.kept.parts == BRONZE


def test_dropped_it_is_readable_and_kept_again_it_is_used_again(shop: Shop) -> None:
    clock = bench()
    found = keep_recipe(shop, clock, kept())
    assert drop_recipe(shop, clock, found.id, "too red").dropped == "too red"
    assert [each.dropped for each in recipes(shop)] == ["too red"]
    assert keep_recipe(shop, clock, kept()).dropped is None


def test_a_recipe_of_a_cup_has_the_masses_that_were_weighed_and_their_lots(shop: Shop) -> None:
    """180 g in two pours, 60.5 g of metal without a lot; another cast's cup counts for nothing."""
    clock = bench()
    run_plan = shop.keep_plan(plan_to_json(plan()))
    lot = received(shop, clock, receipt(RESIN))
    shop.append(
        [
            clock.event(About.RUN, RUN, Started(run_plan, "otter", 2), ms("2026-02-01")),
            weighed(clock, lot, 100.0, ms("2026-02-02", 9), cup=SKIN_CUP),
            clock.event(About.RUN, RUN, Weighed(SKIN_CUP, PartKind.POWDER, 60.0, 60.5), ms("2026-02-02", 10)),
            weighed(clock, lot, 80.0, ms("2026-02-02", 11), cup=SKIN_CUP),
            weighed(clock, lot, 999.0, ms("2026-02-02"), cup=CupRef(MixId("skin.cup-1"), 1)),
        ]
    )
    told = cup_parts(shop, RUN, SKIN_CUP)
    assert [(part.stuff.id, part.mass_g, part.lot) for part in told.parts] == [
        (RESIN.id, 180.0, lot),
        ("powder", 60.5, None),
    ]
    found = keep_recipe(shop, clock, from_cup("as last time", RecipeKind.COLOR, told, RUN, SKIN_CUP))
    assert found.now.kept.cup == SKIN_CUP
    assert [mix.id for mix in mixes_of(shop, found.now.kept)] == ["skin.cup-1"]
    with pytest.raises(InputRefused, match="cup-not-weighed"):
        cup_parts(shop, RUN, CupRef(MixId("skin.cup-1"), 9))


def test_a_divided_cup_is_kept_by_what_is_in_it(shop: Shop) -> None:
    """100 g before it was parted into two, 25 g after it: 75 g stand in the first, and 50 g in the clean one."""
    clock = bench()
    run_plan = shop.keep_plan(plan_to_json(plan()))
    lot = received(shop, clock, receipt(RESIN))
    clean = CupRef(SKIN_CUP.mix, SKIN_CUP.turn, 2)
    shop.append(
        [
            clock.event(About.RUN, RUN, Started(run_plan, "otter", 2), ms("2026-02-01")),
            weighed(clock, lot, 100.0, ms("2026-02-02", 9), cup=SKIN_CUP),
            clock.event(About.RUN, RUN, Divided(SKIN_CUP, (2,)), ms("2026-02-02", 10)),
            weighed(clock, lot, 25.0, ms("2026-02-02", 11), cup=SKIN_CUP),
        ]
    )
    assert [part.mass_g for part in cup_parts(shop, RUN, SKIN_CUP).parts] == [75.0]
    assert [part.mass_g for part in cup_parts(shop, RUN, clean).parts] == [50.0]


def test_a_recipe_has_parts_of_some_mass(shop: Shop) -> None:
    for parts in ((), (RecipePart(METAL, 0.0),), (RecipePart(METAL, float("nan")),)):
        with pytest.raises(InputRefused, match=r"recipe-empty|amount-out-of-range"):
            keep_recipe(shop, bench(), kept(parts=parts))
    assert recipes(shop) == ()


def test_each_caution_is_told_once_and_what_is_not_known_is_said() -> None:
    """Both parts of the urethane have one sheet: its cautions are told with the first; nobody knows the umber."""
    found = cautions_of(BRONZE, library())
    texts = [text for each in found for text in each.texts]
    assert len(texts) == len(set(texts))
    assert [each.name for each in found] == [
        "standard casting urethane",
        "bronze powder, atomized, 90/10",
        "umber from the hills",
    ]
    assert found[-1].texts == (NOT_KNOWN,)
    assert deference() not in texts
    assert not any("safe to" in text for text in texts)


def test_one_name_is_one_recipe_though_many_keep_it_at_once(shop: Shop) -> None:
    """Eight benches keep one name at the same moment: one recipe with eight states."""
    start = Barrier(8)

    def kept(number: int) -> str:
        clock = BenchClock(f"tablet {number}")
        start.wait(10.0)
        return keep_recipe(shop, clock, RecipeKept("old bronze", RecipeKind.METAL, BRONZE)).id

    with ThreadPoolExecutor(8) as hands:
        ids = set(hands.map(kept, range(8)))
    assert len(ids) == 1
    assert [each.id for each in recipes(shop)] == [*ids]
    assert len(shop.events_about(About.RECIPE)) == 8
