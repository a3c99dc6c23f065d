"""Every cup of 200 random commissions, on molds without solids: what is done with it fits its clock, its parts go in as
the trade does it, their ratio is held by what measures them; or the plan is refused with a remedy.

The order is the trade's: common practice, no source. Readings: JCGM 100:2008, 5.2.2 and F.2.2.1 (from memory), k = 2.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from functools import cache
from math import sqrt
from random import Random

import pytest
from made_up_job import commission, job_of, volumes

from moldwright.commission.orders import CastOrder, Commission, MoldOrder, ShopOrder
from moldwright.errors import NoSafePlan
from moldwright.materials import library
from moldwright.materials.words import Fit
from moldwright.mold.measures import FillSpot, MoldMeasures, SpotKind
from moldwright.plan.mixes import CAST_KINDS, MeasuredBy, MixKind, MixPlan, PartKind
from moldwright.quantities.quantities import Quantities

LIBRARY = library()
JOBS = 200
SYRINGE_STEP_ML = {1.0: 0.01, 3.0: 0.1, 10.0: 0.2, 20.0: 1.0, 50.0: 1.0}
OFF = {  # by how much the trade lets a ratio be off: from memory
    "addition-cure silicone": 0.05, "condensation-cure silicone": 0.05, "urethane rubber": 0.02, "urethane": 0.02,
    "clear urethane": 0.02, "epoxy": 0.02, "polyester": 0.10, "gypsum": 0.05,
}  # fmt: skip
COLOR = {PartKind.PIGMENT, PartKind.TINT}
A, B, POWDER, AGENT = PartKind.A, PartKind.B, PartKind.POWDER, PartKind.THIXOTROPE


def order_of_the_trade(chemistry: str, kinds: list[PartKind]) -> bool:  # noqa: PLR0911
    """Whether the parts stand in an order that the trade would pour them in."""
    at = {kind: place for place, kind in enumerate(kinds)}
    color = next((at[kind] for kind in COLOR if kind in at), None)
    if AGENT in at and at[AGENT] != len(kinds) - 1:
        return False  # it thickens within a minute: the last thing
    match chemistry:
        case "polyester":  # resin, tint, powder; the hardener last of all
            return kinds[0] is A and kinds[-1] is B
        case "gypsum":  # into the water, and nothing into what sets
            return kinds[0] is B and kinds[-1] is A
        case "condensation-cure silicone":  # base, pigment, catalyst
            return at[A] == 0 and color == 1 and at[B] == 2
        case "latex":
            return kinds[0] is A and B not in at
        case "addition-cure silicone":  # pigment into B before the parts meet
            return at[B] < at[A] and color == at[B] + 1
        case "clear urethane":  # isocyanate is part A: tint and powder into B
            return kinds[0] is B and (color is None or color < at[A])
        case _:  # polyol or resin first, what colors and fills it, then hardener; powder sifted in where there is time
            return kinds[0] is A and (color is None or color < at[B]) and (POWDER not in at or at[POWDER] != 0)


def may_be_off(mix: MixPlan, ratio: tuple[float, float], step_g: float) -> float:
    """Reading at k = 2 and rounding together: the share by which A : B may be off the sheet's."""
    parts = {part.kind: part for part in mix.parts}
    a, b = parts[A], parts[B]
    shares, scaled = [], []
    for part in (a, b):
        if part.by is MeasuredBy.SYRINGE:
            assert part.syringe_ml is not None
            assert part.volume_ml <= part.syringe_ml
            marks = part.volume_ml / SYRINGE_STEP_ML[part.syringe_ml]
            assert marks == pytest.approx(round(marks), abs=1e-6)
            shares.append(SYRINGE_STEP_ML[part.syringe_ml] / sqrt(12) / part.volume_ml)
        else:
            assert part.by is MeasuredBy.SCALE
            assert part.mass_g / step_g == pytest.approx(round(part.mass_g / step_g), abs=1e-6)
            shares.append(step_g / sqrt(6) / part.mass_g)
            scaled.append(part.mass_g)
    shared = step_g**2 / (6 * scaled[0] * scaled[1]) if len(scaled) == 2 else 0.0
    rounding = abs(a.mass_g / b.mass_g * ratio[1] / ratio[0] - 1)
    return rounding + 2 * sqrt(sum(share**2 for share in shares) + shared)


def random_job(seed: int) -> tuple[Commission, MoldMeasures]:
    """A commission of any materials, shop and size, and a mold of its size."""
    dice = Random(seed)
    size = 10 ** dice.uniform(-1.0, 1.0)
    spots = tuple(
        FillSpot((1.0 * n, 0.0, 9.0), 4.0, dice.uniform(0.2, 3.0) * size, dice.choice(list(SpotKind)))
        for n in range(dice.randrange(0, 30))
    )
    rubber = dice.choice([sheet.id for sheet in LIBRARY.all("rubber")])
    resins, powders = ([sheet.id for sheet in LIBRARY.all(kind)] for kind in ("resin", "powder"))
    usual = [id_ for id_ in resins if Fit.SKIN in LIBRARY.resin(id_).fit]
    thick_mm = 3.0 if rubber == "latex" else 4.0
    order = commission(
        mold=MoldOrder(rubber=rubber, thickness_mm=thick_mm),
        cast=CastOrder(
            dice.choice(usual * 2 + resins), dice.choice([*powders, "none"]), 4.0, dice.choice([*resins, "none"])
        ),
        shop=ShopOrder(
            temperature_c=dice.uniform(15.0, 29.0),
            scale_g=dice.choice([0.01, 0.1, 0.1, 0.1, 0.5, 1.0, 5.0]),
            cup_ml=dice.choice([100.0, 250.0, 500.0, 1000.0, 5000.0]),
            mix_min=dice.uniform(1.0, 5.0),
            lay_g_per_min=dice.uniform(10.0, 60.0),
        ),
    )
    molded = volumes(
        glove__coat_ml=tuple(ml * size for ml in (24.5, 58.1, 84.0)),
        glove__flange_ml=32.0 * sqrt(size),
        glove__fill_ml=sum(spot.volume_ml for spot in spots),
        glove__spots=spots,
        piece__volume_ml=560.0 * size,
        cavity__volume_ml=620.0 * size,
        skin__whole_ml=150.0 * size,
        skin__core_kept_ml=400.0 * size,
    )
    return order, molded


@cache
def planned(seed: int) -> Quantities | NoSafePlan:
    return tried(*random_job(seed))


def tried(order: Commission, molded: MoldMeasures) -> Quantities | NoSafePlan:
    try:
        return job_of(order, LIBRARY, molded)
    except NoSafePlan as refused:
        return refused


def sheet_of(job: Quantities, mix: MixPlan) -> object:
    chosen = job.basis.chosen
    if mix.for_.kind not in CAST_KINDS:
        return chosen.rubber
    return chosen.resin if mix.for_.kind is MixKind.SKIN else chosen.backfill


@pytest.mark.parametrize("seed", range(JOBS))
def test_every_cup_can_be_made_and_used(seed: int) -> None:
    job = planned(seed)
    if isinstance(job, NoSafePlan):
        assert job.remedy
        assert any(word in job.remedy for word in ("Use", "Take", "take", "Choose", "cool", "warm"))
        return
    step_g = job.commission.shop.scale_g
    for mix in (*job.rubber.mixes, *job.cast.mixes):
        sheet = sheet_of(job, mix)
        assert order_of_the_trade(sheet.chemistry, [part.kind for part in mix.parts]), mix
        if mix.work_by_s is not None:
            assert sum(task.duration_s for task in mix.tasks) <= mix.work_by_s + 0.3, mix
            life_s = job.basis.lives
            low_s = life_s.rubber if sheet is job.basis.chosen.rubber else life_s.resin
            low_s = life_s.backfill if mix.for_.kind is MixKind.BACK_FILL else low_s
            assert mix.work_by_s <= low_s.pot_life_s.low + 0.1
        if mix.starter is not None:
            off = may_be_off(mix, sheet.ratio_weight, step_g)
            assert off <= OFF[sheet.chemistry] + 1e-4, mix
            assert 100 * off == pytest.approx(mix.tolerance_pct, abs=0.02)
        for part in mix.parts:
            assert (part.by is MeasuredBy.STICK) == (part.kind in COLOR)


def test_the_rubbers_cups_hold_what_the_plan_says_is_mixed() -> None:
    for seed in range(JOBS):
        job = planned(seed)
        if not isinstance(job, NoSafePlan):
            whole_g = sum(mix.mass_g for mix in job.rubber.mixes)
            rows = [coat.mixed_g.likely for coat in job.rubber.coats]
            rows += [job.rubber.flange.mixed_g.likely, job.rubber.fill.mixed_g.likely]
            assert whole_g == pytest.approx(sum(rows), abs=1e-4)


def test_the_scale_that_a_refusal_names_does() -> None:
    """Followed as it is told, again where another cup asks for a finer one still."""
    followed = 0
    for seed in range(JOBS):
        made, (order, molded) = planned(seed), random_job(seed)
        while isinstance(made, NoSafePlan) and (named := re.search(r"a scale that shows ([0-9.]+) g", made.remedy)):
            finer_g = float(named[1])
            assert finer_g < order.shop.scale_g
            order = replace(order, shop=replace(order.shop, scale_g=finer_g))
            followed += 1
            made = tried(order, molded)
        assert not isinstance(made, NoSafePlan) or made.code != "ratio-not-held", made
    assert followed >= 5


def test_enough_of_them_are_planned_to_show_it() -> None:
    """Half at least have a plan; the refused ones are of several kinds."""
    jobs = [planned(seed) for seed in range(JOBS)]
    codes = Counter(job.code for job in jobs if isinstance(job, NoSafePlan))
    assert sum(codes.values()) <= JOBS / 2, codes
    assert len(codes) >= 3, codes
