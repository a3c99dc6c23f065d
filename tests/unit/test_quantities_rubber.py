"""What the cups of each coat carry, what is lost on the way, and where the fill goes: by hand."""

from dataclasses import replace
from math import inf

import pytest
from made_up_job import VOLUMES, commission, job_of, volumes

from moldwright.commission.orders import CoatOrder, ShopOrder
from moldwright.errors import ComputationFailed
from moldwright.materials import Rubber, library
from moldwright.mixing.rubber import packing_pct, rubber_recipe
from moldwright.mold.coats import laid_out
from moldwright.mold.measures import FillSpot, GloveMeasures, SpotKind
from moldwright.plan.coats import Gesture
from moldwright.plan.ids import coat_id
from moldwright.plan.mixes import MixFor, MixKind, PartKind, TaskKind
from moldwright.plan.mold import PartPlan
from moldwright.quantities.mixed import POT_RESIDUE, TOOL_LOSS_G, mixed_g
from moldwright.quantities.rubber import RubberQuantities, build_index, flange_shares, rubber_quantities
from moldwright.quantities.rubber_cups import rubber_cup_limit
from moldwright.ranges import Range

LIBRARY = library()
SILICONE, LATEX = LIBRARY.rubber("addition-cure-a10-slow"), LIBRARY.rubber("latex")
FOUR = [CoatOrder(f"coat {n}", thick_mm) for n, thick_mm in enumerate((1.0, 1.0, 2.0, 4.0))]
AGENT = library().thixotrope("silicone-thixotrope")
LONG = Range(2000.0, 2700.0, 3500.0)
BARE, WASTEFUL = ShopOrder(waste=0.0), ShopOrder(waste=0.08)


def mixed(made: RubberQuantities, for_: MixFor) -> float:
    return sum(mix.mass_g for mix in made.mixes if mix.for_ == for_)


def part(grams: float) -> PartPlan:
    return PartPlan(grams, grams, Range.exactly(grams))


def packed(count: int, crevice_ml: float = 30.0, rubber: Rubber = SILICONE) -> RubberQuantities:
    """100 ml of fill on so many coats, 3 mm in all, `crevice_ml` of it a crevice, the rest in two undercuts."""
    coats = [CoatOrder(f"coat {n}", 3.0 / count) for n in range(count)]
    spots = (
        FillSpot((0.0, 0.0, 5.0), 3.0, crevice_ml, SpotKind.CREVICE),
        *(FillSpot((9.0 * n, 0.0, 5.0), 3.0, (100.0 - crevice_ml) / 2, SpotKind.UNDERCUT) for n in (1, 2)),
    )
    glove = GloveMeasures((20.0,) * count, 10.0, 100.0, spots, crevice_ml)
    return rubber_quantities(BARE, rubber, AGENT, laid_out(3.0, coats, rubber), glove, LONG)


def test_crevices_follow_the_second_coat_and_undercuts_the_last() -> None:
    """Of 100 ml of fill three tenths are crevices: cups of their own, in these shares."""
    made = packed(4)
    cups = {mix.for_ for mix in made.mixes if mix.for_.kind is MixKind.FILL}
    assert cups == {MixFor(MixKind.FILL, coat_id(2)), MixFor(MixKind.FILL, coat_id(4))}
    grams = [mixed(made, MixFor(MixKind.FILL, coat_id(n))) for n in (2, 4)]
    assert grams == pytest.approx([0.3 * 108 * 1.02, 0.7 * 108 * 1.02], rel=0.01)
    assert {mix.for_ for mix in packed(1).mixes} == {MixFor(kind, coat_id(1)) for kind in (MixKind.COAT, MixKind.FILL)}


def test_what_is_packed_is_thicker_than_any_coat() -> None:
    """The sheet's dose at its high end, no more than its most: 3 % of a silicone's."""
    made = packed(3)
    for mix in made.mixes:
        agent = sum(part.mass_g for part in mix.parts if part.kind is PartKind.THIXOTROPE) / mix.mass_g
        usual = 0.03 if mix.for_.kind is MixKind.FILL else made.coats[int(mix.for_.stem[-1]) - 1].thixotrope_pct / 100
        assert agent == pytest.approx(usual, rel=0.06)
    assert packing_pct(replace(AGENT, dose_max_pct=replace(AGENT.dose_max_pct, range=Range.exactly(2.5)))) == 2.5


def test_packing_takes_its_time_by_place_and_gram() -> None:
    """Two undercuts of 70 ml in all: 3 min a place beside 25 g/min; with the mixing inside the pot life."""
    made = packed(3)
    cups = [mix for mix in made.mixes if mix.for_ == MixFor(MixKind.FILL, coat_id(3))]
    tasks = [task for mix in cups for task in mix.tasks if task.kind is TaskKind.PACK]
    grams = sum(mix.mass_g for mix in cups)
    assert sum(task.duration_s for task in tasks) == pytest.approx(2 * 180 + grams / 25 * 60, rel=0.01)
    assert all(sum(task.duration_s for task in mix.tasks) <= (mix.work_by_s or inf) for mix in made.mixes)


def test_many_places_need_more_cups_than_their_rubber() -> None:
    """Forty places of half a milliliter, 22 g: 120 min and 53 s of packing; 33 min leave 30 min 20 s beside mixing."""
    spots = tuple(FillSpot((1.0 * n, 0.0, 5.0), 3.0, 0.5, SpotKind.UNDERCUT) for n in range(40))
    glove = GloveMeasures((20.0, 20.0, 20.0), 10.0, 20.0, spots, 0.0)
    made = rubber_quantities(BARE, SILICONE, AGENT, laid_out(6.0, (), SILICONE), glove, LONG)
    cups = [mix for mix in made.mixes if mix.for_.kind is MixKind.FILL]
    assert len(cups) == 4
    assert sum(task.duration_s for mix in cups for task in mix.tasks if task.kind is TaskKind.PACK) > 7200
    assert all(sum(task.duration_s for task in mix.tasks) <= 2000.0 for mix in cups)


def test_the_flange_is_laid_with_every_coat_by_its_thickness() -> None:
    """80 g of flange on coats of 1, 1, 2 and 4 mm: 10, 10, 20 and 40 g."""
    assert flange_shares(laid_out(8.0, FOUR, SILICONE), part(80.0), 1.0) == (10, 10, 20, 40)


def test_the_first_build_coat() -> None:
    assert [build_index(count) for count in (1, 2, 3, 8)] == [0, 1, 1, 1]


def by_ends(net_g: float, tool: Range, shop: ShopOrder, rubber: Rubber = SILICONE) -> tuple[float, float, float]:
    found = mixed_g(net_g, shop, rubber, tool)
    return found.low, found.likely, found.high


NONE, BRUSHFUL = Range.exactly(0.0), Range(3.0, 6.0, 12.0)


def test_what_is_mixed_for_a_hundred_grams() -> None:
    """By hand it comes out 5 % short to 12 % over. Lost: the shop's 8 % give or take half, or, where more, the cup's
    1, 2, 4 % and what the tool holds."""
    assert by_ends(100.0, NONE, BARE) == pytest.approx((95 + 1, 100 + 2, 112 + 4))
    assert by_ends(100.0, NONE, WASTEFUL) == pytest.approx((95 + 4, 100 + 8, 112 + 12), abs=0.11)
    assert by_ends(100.0, BRUSHFUL, BARE) == pytest.approx((95 + 1 + 3, 100 + 2 + 6, 112 + 4 + 12))
    assert by_ends(100.0, BRUSHFUL, WASTEFUL) == pytest.approx((95 + 4, 100 + 8, 112 + 16))


def test_a_latex_is_mixed_by_its_solids() -> None:
    """100 g that dry to 60 %, 50 to 70 %: 96 / 0.7, 102 / 0.6 and 116 / 0.5, the ends
    on the scale's steps outward; of 51 g on a scale of 1 g 69.9, 86.7 and 118.3."""
    half_dry = replace(LATEX, solids_pct=replace(LATEX.solids_pct, range=Range(50.0, 60.0, 70.0)))
    assert by_ends(100.0, NONE, BARE, half_dry) == pytest.approx((137.1, 170.0, 232.0))
    assert by_ends(51.0, NONE, ShopOrder(waste=0.0, scale_g=1.0), half_dry) == (69.0, 87.0, 119.0)


def test_nothing_for_nothing_and_a_step_for_a_trace() -> None:
    assert by_ends(0.0, BRUSHFUL, WASTEFUL) == (0.0, 0.0, 0.0)
    assert by_ends(-1.0, BRUSHFUL, WASTEFUL) == (0.0, 0.0, 0.0)
    assert by_ends(0.01, NONE, ShopOrder(scale_g=1.0)) == (0.0, 1.0, 1.0)
    assert by_ends(0.5, NONE, BARE) == pytest.approx((0.4, 0.5, 0.6))


def test_what_a_tool_holds_is_known_within_a_factor_of_two() -> None:
    """And a brush full of build coat holds more than a stippling brush or a stick: common practice, no source."""
    for held in (*TOOL_LOSS_G.values(), POT_RESIDUE):
        assert (held.low, held.high) == (held.likely / 2, held.likely * 2)
    assert TOOL_LOSS_G[Gesture.BRUSH].likely > TOOL_LOSS_G[Gesture.STIPPLE].likely >= TOOL_LOSS_G[Gesture.STICK].likely


def test_a_coat_count_that_differs_is_a_fault_of_ours() -> None:
    with pytest.raises(ComputationFailed) as refused:
        rubber_quantities(
            ShopOrder(), SILICONE, AGENT, laid_out(4.0, (), SILICONE), volumes(glove__coat_ml=(1.0, 2.0)).glove, LONG
        )
    assert (refused.value.code, refused.value.actual, refused.value.limit) == ("coat-count", 2, 3)


def test_a_rubber_cup_has_the_shops_time() -> None:
    """2000 s less 3 min at 25 g/min is 758 g; a cup of 500 ml filled to three quarters is 375 ml of about 1.08 g/ml."""
    mix = rubber_recipe(SILICONE, None, 0.3, AGENT)
    assert rubber_cup_limit(ShopOrder(), SILICONE, mix, LONG).max_g == pytest.approx(375 * 1.08, rel=0.002)
    large = rubber_cup_limit(ShopOrder(cup_ml=5000.0), SILICONE, mix, LONG)
    assert large.max_g == pytest.approx((2000 - 180) / 60 * 25)
    assert large.clock.work_by_s(large.max_g) == pytest.approx(2000)


def test_a_rubber_that_heats_itself_has_less_time_in_a_heavy_cup() -> None:
    """Urethane, stated for so many grams: eight times as much has half the life, silicone in such a cup all of it."""
    urethane = LIBRARY.rubber("urethane-a30")
    mix = rubber_recipe(urethane, None, 0.3, AGENT)
    limit = rubber_cup_limit(ShopOrder(lay_g_per_min=1e6, cup_ml=1e6), urethane, mix, LONG)
    stated = urethane.pot_life_mass_g.likely
    assert limit.clock.work_by_s(8 * stated) == pytest.approx(180 + (1000 - 180))
    other = rubber_cup_limit(ShopOrder(lay_g_per_min=1e6, cup_ml=1e6), SILICONE, mix, LONG)
    assert other.clock.work_by_s(8000.0) == pytest.approx(2000)


def test_a_flange_is_laid_without_a_brush_of_its_own() -> None:
    """32 ml at 1.08 g/ml and the cup's 2 %: 35.25 g; a fill of nothing takes nothing."""
    glove = volumes(glove__fill_ml=0.0, glove__spots=(), glove__crevice_ml=0.0).glove
    made = rubber_quantities(BARE, SILICONE, AGENT, laid_out(4.0, (), SILICONE), glove, LONG)
    assert made.flange.mixed_g.likely == pytest.approx(32 * 1.08 * 1.02, abs=0.051)
    assert (made.fill.mixed_g, made.fill.net_g) == (Range.exactly(0.0), 0.0)


def test_sums_of_the_rubber() -> None:
    """(24.5 + 58.1 + 84 + 32 + 11) ml at 1.08 g/ml is what the glove weighs, 5 % less to 12 % more."""
    rubber = job_of(commission()).rubber
    whole_g = (24.5 + 58.1 + 84 + 32 + 11) * 1.08
    assert (rubber.glove_g.low, rubber.glove_g.likely, rubber.glove_g.high) == pytest.approx(
        (0.95 * whole_g, whole_g, 1.12 * whole_g), rel=1e-5
    )
    every = [*(coat.mixed_g.likely for coat in rubber.coats), rubber.flange.mixed_g.likely, rubber.fill.mixed_g.likely]
    assert rubber.mixed_g.likely == pytest.approx(sum(every))
    assert sum(mix.mass_g for mix in rubber.mixes) == pytest.approx(sum(every))
    assert (rubber.coats[1].volume_ml, rubber.coats[1].net_g) == (58.1, pytest.approx(62.748))


def test_spots_are_told_in_order_with_their_grams() -> None:
    spots = job_of(commission()).rubber.spots
    assert [spot.id for spot in spots] == ["spot-1", "spot-2"]
    assert [(spot.depth_mm, spot.volume_ml, spot.net_g) for spot in spots] == [(4.0, 4.0, 4.32), (6.0, 7.0, 7.56)]
    assert VOLUMES.glove.volume_ml == pytest.approx(24.5 + 58.1 + 84 + 32 + 11)
