"""Quantities of the plan from given volumes: sums by hand, order and habits by common practice (no source)."""

import re
from math import ceil

import pytest
from made_up_job import VOLUMES, commission, job_of, volumes
from reckoned import Reckoned, reckoned

from moldwright.commission.orders import CastOrder, CoatOrder, Measure, MoldOrder, ShopOrder
from moldwright.errors import ComputationFailed, InputRefused, NoSafePlan
from moldwright.materials import library
from moldwright.materials.words import Fit
from moldwright.plan.mixes import BACK_FILL, RUBBER_KINDS, SKIN, MeasuredBy, MixFor, MixKind, PartKind
from moldwright.plan.needs import NeedGroup
from moldwright.quantities.cast import needed_g
from moldwright.ranges import Range

LIBRARY = library()
PLAN = reckoned(commission(), LIBRARY, VOLUMES)


def rubber_g(plan: Reckoned) -> float:
    return sum(mix.mass_g for mix in plan.mixes if mix.for_.kind in RUBBER_KINDS)


def test_net_is_volume_times_density() -> None:
    """The sheet's 1.08 g/ml for A and for B."""
    assert [coat.net_g for coat in PLAN.coats] == pytest.approx([24.5 * 1.08, 58.1 * 1.08, 84.0 * 1.08], abs=1e-3)
    assert (PLAN.flange.net_g, PLAN.fill.net_g) == (pytest.approx(34.56), pytest.approx(11.88))


def test_cups_sum_to_coats_flange_and_fill() -> None:
    needs = sum(coat.mixed_g.likely for coat in PLAN.coats) + PLAN.flange.mixed_g.likely + PLAN.fill.mixed_g.likely
    assert rubber_g(PLAN) == pytest.approx(needs, abs=1e-6)


def test_what_stays_in_pots_and_brushes_counts_once() -> None:
    """By hand, 8 % waste, 2 % residue, to a step of each of A and B: detail 26.46 g + (0.53 + 4.0 in the brush, more
    than 2.12); stick 90.72 g x 1.08
    (7.26, more than 1.81 + 4.0); flange 34.56 g x 1.08; skin V rho x 1.08 (its tint aside)."""
    mixed = {coat.name: coat.mixed_g.likely for coat in PLAN.coats}
    assert mixed["detail"] == pytest.approx(31.0, abs=0.25)
    assert mixed["stick"] == pytest.approx(98.0, abs=0.25)
    assert PLAN.flange.mixed_g.likely == pytest.approx(37.3, abs=0.051)
    assert needed_g(100.0, 1.1, 0.08) == pytest.approx(118.8)
    assert needed_g(100.0, 1.1, 0.0) == pytest.approx(112.2)  # a cup keeps its 2 % all the same


def test_ranges_are_in_order() -> None:
    for part in (*PLAN.coats, PLAN.flange, PLAN.fill):
        assert part.mixed_g.likely > part.net_g
        assert part.mixed_g.low < part.mixed_g.likely < part.mixed_g.high


def test_a_cup_heavier_than_the_sheets_gels_sooner() -> None:
    """Back-fill cups over 100 g: the low end of the pot life times the cube root of 100 g over the cup's grams."""
    life_s = next(row for row in PLAN.assumed if row.key == "resin.urethane-standard.pot_life").value
    assert isinstance(life_s, Range)
    low_s = life_s.low
    cups = [mix for mix in PLAN.mixes if mix.for_ == BACK_FILL]
    assert all(mix.parts[-1].scale_reads_g > 100.0 for mix in cups)
    for mix in cups:
        assert mix.work_by_s == pytest.approx(low_s * (100.0 / mix.parts[-1].scale_reads_g) ** (1 / 3), rel=0.005)
    assert any("its time is cut" in c.text for c in PLAN.cautions if c.step == "back-fill")


def test_fill_is_packed_after_its_coat() -> None:
    assert [(spot.after, round(spot.net_g, 2)) for spot in PLAN.spots] == [("coat-2", 4.32), ("coat-3", 7.56)]


def test_counts_of_cups_match_the_coats() -> None:
    for coat in PLAN.coats:
        assert coat.cups == sum(mix.for_ == MixFor(MixKind.COAT, coat.id) for mix in PLAN.mixes) > 0


def test_no_cup_is_fuller_than_the_cup_or_later_than_its_pot_life() -> None:
    for mix in PLAN.mixes:
        assert mix.parts[-1].scale_reads_g > 0
        assert sum(part.volume_ml for part in mix.parts if part.kind is not PartKind.POWDER) <= 500.0
    life = next(row for row in PLAN.assumed if row.key == "rubber.addition-cure-a10-slow.pot_life")
    assert isinstance(life.value, Range)
    assert PLAN.mixes[0].work_by_s == pytest.approx(life.value.low, rel=0.01)


def test_a_skin_of_equal_volumes() -> None:
    """By the rule of mixtures: 3 / 5.15 = 58.25 % by weight, (2 + 3 / 8.78) / 3 = 78.06 % of nominal (the sheet's 104.8
    is rounded)."""
    assert PLAN.cast.loading_wt_pct == pytest.approx(58.25, abs=0.02)
    assert PLAN.cast.yield_pct == pytest.approx(78.06, abs=0.02)
    assert PLAN.cast.backfill_ml == pytest.approx(470.0)
    skin = next(mix for mix in PLAN.mixes if mix.for_ == SKIN)
    a, powder, b = (next(p for p in skin.parts if p.kind is kind) for kind in (PartKind.A, PartKind.POWDER, PartKind.B))
    assert a.volume_ml == pytest.approx(powder.volume_ml, rel=0.01)
    assert a.volume_ml == pytest.approx(b.volume_ml, rel=0.01)


def test_casting_needs_are_for_the_whole_edition() -> None:
    one = reckoned(commission(count=1), LIBRARY, VOLUMES)
    powder = [next(n for n in plan.needs if n.id == "bronze").amount.likely for plan in (one, PLAN)]
    spare = sum(
        p.mass_g for m in one.mixes if m.for_.kind is MixKind.SKIN for p in m.parts if p.kind is PartKind.POWDER
    )
    assert powder[1] - spare == pytest.approx(24 * (powder[0] - spare), rel=1e-3)
    rubber = [next(n for n in plan.needs if n.id.endswith("slow-a")).amount for plan in (one, PLAN)]
    assert rubber[0] == rubber[1]


def test_needs_name_what_the_trade_uses() -> None:
    named = {need.id for need in PLAN.needs}
    wanted = "cup stir-stick brush vinyl-gloves steel-wool dark-wax felt isopropanol band board clay talc paste-wax"
    assert {*wanted.split(), "plaster-bandage", "petroleum-jelly", "silicone-thixotrope"} <= named
    assert {need.for_ for need in PLAN.needs} == set(NeedGroup)
    assert all(need.amount.low <= need.amount.likely <= need.amount.high for need in PLAN.needs)
    assert len({(need.id, need.for_, need.size_ml, need.cups_for) for need in PLAN.needs}) == len(PLAN.needs)


def test_every_default_is_told() -> None:
    told = {row.key: (row.value, row.unit) for row in PLAN.assumed if row.source == "default"}
    assert told["mold.thickness"] == (4.0, "mm")
    assert told["shop.temperature"] == (22.0, "°C")
    assert "original.height" not in told
    assert "edition.count" not in told


def test_cautions_stand_on_steps_that_exist() -> None:
    ids = {step.id for step in PLAN.steps}
    assert all(caution.step in ids or caution.step == "" for caution in PLAN.cautions)
    on_steps = {text for step in PLAN.steps for text in step.cautions}
    assert all(caution.text in on_steps for caution in PLAN.cautions if caution.step)


def test_latex_gloves_and_isocyanates_are_cautioned() -> None:
    rubber = " ".join(c.text for c in PLAN.cautions if c.step == "coat-1-mix")
    assert "latex" in rubber.lower()
    assert "isocyanate" in " ".join(c.text for c in PLAN.cautions if c.step == "skin").lower()
    assert any("1 g of water" in c.text or "% of water" in c.text for c in PLAN.cautions if c.step == "powder-dry")


def test_hazard_statements_stand_in_full_once_and_in_short_on_the_step() -> None:
    """H334 (GHS annex 3, from memory): in full where all is laid out, by its meaning where the can is opened."""
    on = {step.id: " ".join(step.cautions) for step in PLAN.steps}
    full = "H334: May cause allergy or asthma symptoms or breathing difficulties if inhaled"
    assert full in on["lay-out"]
    for step in ("skin", "back-fill"):
        assert full not in on[step]
        assert on[step].lower().count("isocyanate:") == 1
        assert "safety data sheet" in on[step]
    assert "asthma, allergy if inhaled" in on["powder-wet"]
    assert not re.search(r"\bH3\d\d\b", " ".join(text for id_, text in on.items() if id_ != "lay-out"))
    assert all(len(set(step.cautions)) == len(step.cautions) for step in PLAN.steps)


def test_sulfur_under_addition_cure_is_never_cleared() -> None:
    plan = reckoned(commission("sulfur clay"), LIBRARY, VOLUMES)
    assert any(c.severity == "stop" and "sulfur" in c.text.lower() for c in plan.cautions if c.step == "patch-test")


def test_a_porous_original_is_sealed() -> None:
    plan = reckoned(commission("plaster"), LIBRARY, VOLUMES)
    assert any(row.key == "mold.sealer" and row.value == "shellac" for row in plan.assumed)
    assert "shellac" in {need.id for need in plan.needs}


def test_a_coarse_scale_makes_a_larger_batch_where_little_is_over() -> None:
    """Steps of 1 g at 1 : 1, running totals, 5 %: 2 sqrt(8/6 + 4/6) / 0.05 = 56.6 g of A and B, by hand, 58 g in whole
    steps of both; the detail coat and its flange take less."""
    resin = CastOrder(powder="none")
    plan = reckoned(commission(shop=ShopOrder(scale_g=1.0, cup_ml=1000.0), cast=resin), LIBRARY, VOLUMES)
    detail = next(mix for mix in plan.mixes if mix.for_.coat == "coat-1")
    assert sum(p.mass_g for p in detail.parts if p.kind in (PartKind.A, PartKind.B)) == pytest.approx(58.0)
    assert detail.surplus_g == pytest.approx(detail.mass_g - 31.0 - 37.3 * 0.6 / 4.0, abs=1.0)
    assert any("more is mixed" in c.text for c in plan.cautions if c.step == "coat-1-mix")
    assert not any("Mix at least" in c.text for c in plan.cautions)


def test_a_scale_too_coarse_for_the_cup_has_no_plan_but_a_remedy() -> None:
    """5 g steps need 5 x 56.6 = 283 g of a silicone: 240 g too much for the detail coat; 1 g does."""
    with pytest.raises(NoSafePlan) as refused:
        reckoned(commission(shop=ShopOrder(scale_g=5.0)), LIBRARY, VOLUMES)
    assert (refused.value.code, refused.value.limit, refused.value.unit) == ("ratio-not-held", 5.0, "%")
    assert "scale that shows" in refused.value.remedy


def test_polyester_gets_its_hardener_by_syringe_and_last() -> None:
    """1.5 % of hardener on a scale of 1 g was 6.5 kg of a batch; a syringe holds it in any cup."""
    cast = CastOrder(resin="polyester", powder="marble", backfill="polyester")
    plan = reckoned(commission(cast=cast, shop=ShopOrder(scale_g=1.0)), LIBRARY, VOLUMES)
    for mix in plan.mixes:
        if mix.for_ in (SKIN, BACK_FILL):
            hardener = mix.parts[-1]
            assert (hardener.kind, hardener.by) == (PartKind.B, MeasuredBy.SYRINGE)
            base_g = next(part.mass_g for part in mix.parts if part.kind is PartKind.A)
            assert hardener.volume_ml * 1.12 == pytest.approx(0.015 * base_g, rel=0.1)
            assert hardener.syringe_ml is not None
            assert hardener.syringe_ml >= hardener.volume_ml


def test_pot_life_shorter_than_mixing_has_no_safe_plan() -> None:
    with pytest.raises(NoSafePlan) as refused:
        reckoned(commission(shop=ShopOrder(mix_min=55.0)), LIBRARY, VOLUMES)
    assert (refused.value.code, refused.value.limit, refused.value.unit) == ("pot-life-too-short", 3360, "s")


def test_a_rubber_too_fast_for_its_mixing_names_slower_ones() -> None:
    """Fast, Shore A 10: 18 min at the low end and 23 degC, less at 30; 20 min of mixing is too long for it."""
    fast = MoldOrder(rubber="addition-cure-a10-fast")
    with pytest.raises(NoSafePlan) as refused:
        reckoned(commission(mold=fast, shop=ShopOrder(mix_min=20.0, temperature_c=26.0)), LIBRARY, VOLUMES)
    assert "addition-cure-a10-slow" in refused.value.remedy
    assert "addition-cure-a10-fast" not in refused.value.remedy


def test_heat_shortens_the_cup() -> None:
    fast = MoldOrder(rubber="addition-cure-a10-fast", thickness_mm=4.0)
    big = volumes(glove__coat_ml=(245.0, 581.0, 840.0))
    cups = [
        sum(coat.cups for coat in reckoned(commission(mold=fast, shop=ShopOrder(temperature_c=t)), LIBRARY, big).coats)
        for t in (18.0, 26.0)
    ]
    assert cups[1] > cups[0]


def test_own_coats() -> None:
    coats = (CoatOrder("first", 1.0), CoatOrder("last", 3.0))
    plan = reckoned(commission(mold=MoldOrder(coats=coats)), LIBRARY, volumes(glove__coat_ml=(40.0, 126.6)))
    assert [coat.name for coat in plan.coats] == ["first", "last"]
    assert {spot.after for spot in plan.spots} == {"coat-2"}
    with pytest.raises(InputRefused):
        reckoned(commission(mold=MoldOrder(coats=coats[:1])), LIBRARY, VOLUMES)
    with pytest.raises(ComputationFailed):
        reckoned(commission(mold=MoldOrder(coats=coats)), LIBRARY, VOLUMES)


def test_unknown_materials_are_refused() -> None:
    with pytest.raises(InputRefused) as refused:
        reckoned(commission(cast=CastOrder(powder="bronz")), LIBRARY, VOLUMES)
    assert refused.value.code == "unknown-material"


@pytest.mark.parametrize("rubber", [sheet.id for sheet in LIBRARY.all("rubber")])
def test_every_rubber_can_be_planned(rubber: str) -> None:
    """A one-part rubber has no ratio to get wrong; latex loses its water, so it is mixed by its solids."""
    plan = reckoned(commission(mold=MoldOrder(rubber=rubber), shop=ShopOrder(mix_min=1.0)), LIBRARY, VOLUMES)
    needs = sum(coat.mixed_g.likely for coat in plan.coats) + plan.flange.mixed_g.likely + plan.fill.mixed_g.likely
    assert rubber_g(plan) == pytest.approx(needs, abs=1e-6)
    assert {p.kind for mix in plan.mixes[:1] for p in mix.parts} & {PartKind.A, PartKind.B}
    solids = LIBRARY.rubber(rubber).solids_pct.likely / 100
    assert plan.flange.mixed_g.likely > plan.flange.net_g / solids


@pytest.mark.parametrize("resin", [sheet.id for sheet in LIBRARY.all("resin")])
def test_every_resin_can_be_planned(resin: str) -> None:
    skin = resin if Fit.SKIN in LIBRARY.resin(resin).fit else "urethane-standard"
    cast = CastOrder(resin=skin, powder="marble", backfill=resin)
    plan = reckoned(commission(cast=cast, count=2), LIBRARY, VOLUMES)
    assert {mix.for_ for mix in plan.mixes} >= {SKIN, BACK_FILL}
    assert plan.cast.mass_g.low < plan.cast.mass_g.likely < plan.cast.mass_g.high


def test_hollow_and_unfilled() -> None:
    plan = reckoned(commission(cast=CastOrder(powder="none", backfill="none")), LIBRARY, VOLUMES)
    assert (plan.cast.loading_wt_pct, plan.cast.yield_pct, plan.cast.backfill_ml) == (0.0, 100.0, 0.0)
    assert {mix.for_ for mix in plan.mixes if mix.for_.kind not in RUBBER_KINDS} == {SKIN}
    assert "bronze" not in {need.id for need in plan.needs}


@pytest.mark.parametrize(("shell", "need"), [("fiber-gypsum", "gypsum-water"), ("printed", "printed")])
def test_shells_without_bandage(shell: str, need: str) -> None:
    plan = reckoned(commission(mold=MoldOrder(shell=shell)), LIBRARY, VOLUMES)
    assert plan.bandage is None
    assert need in {row.id for row in plan.needs}


def test_bandage_covers_shell_and_both_flanges() -> None:
    """(0.08 + 2 x 0.62 x 0.02) m2 x 3 layers x 1.08 of waste over 0.25 x 0.15 x 2/3 m2 a strip."""
    assert PLAN.bandage is not None
    assert PLAN.bandage.strips == ceil(0.1048 * 3 * 1.08 / 0.025)


def test_measuring_by_volume() -> None:
    plan = reckoned(commission(shop=ShopOrder(measure=Measure.VOLUME)), LIBRARY, VOLUMES)
    assert any("eye level" in c.text for c in plan.cautions)
    mix = plan.mixes[-1]
    a, b = (next(p for p in mix.parts if p.kind is kind) for kind in (PartKind.A, PartKind.B))
    assert a.volume_ml == pytest.approx(b.volume_ml, rel=0.01)  # the sheet's 1 : 1 by volume


def test_same_order_same_quantities() -> None:
    assert job_of(commission()) == PLAN.job
