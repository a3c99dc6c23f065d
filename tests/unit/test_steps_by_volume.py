"""A shop without a scale: every part to a mark or by syringe, and no step that weighs. Common practice, no source."""

from __future__ import annotations

import re

import pytest
from steps_context import context, measures, step_of
from told import NO_SHAPE, told

from moldwright.commission.orders import CastOrder, Measure, MoldOrder, ShopOrder
from moldwright.errors import InputRefused
from moldwright.materials import library
from moldwright.materials.words import Fit
from moldwright.plan.mixes import MeasuredBy, PartKind
from moldwright.plan.quantity import Dimension
from moldwright.quantities.quantities import Quantities
from moldwright.steps.written import work

SHOP = ShopOrder(measure=Measure.VOLUME)
SCALED = re.compile(r"\bscales?\b|\b[Ww]eigh(ed|ing)?\b|\bweight\b")
RUBBERS = [sheet.id for sheet in library().all("rubber")]
RESINS = [sheet.id for sheet in library().all("resin") if not sheet.weight_only and Fit.SKIN in sheet.fit]


def job(rubber: str = "addition-cure-a10-slow", resin: str = "urethane-standard", **mold: str) -> Quantities:
    return context(mold=MoldOrder(rubber=rubber, **mold), cast=CastOrder(resin=resin), shop=SHOP)


@pytest.mark.parametrize("rubber", RUBBERS)
def test_no_step_of_a_mold_weighs(rubber: str) -> None:
    for shell in ("plaster-bandage", "fiber-gypsum", "printed"):
        said = told(job(rubber, shell=shell))
        found = [(step.id, text) for step in said.steps for text in step.texts if SCALED.search(text)]
        assert not found


@pytest.mark.parametrize("resin", RESINS)
def test_no_step_of_a_cast_weighs(resin: str) -> None:
    said = told(job(resin=resin))
    found = [(step.id, text) for step in said.steps for text in step.texts if SCALED.search(text)]
    assert not found


def test_weighing_shops_still_weigh() -> None:
    said = told(context())
    for id_ in ("lay-out", "coat-1-mix", "coat-1-look", "powder-dry", "weigh-glove", "weigh-cast", "shell-dry"):
        assert any(SCALED.search(text) for text in said.step(id_).texts), id_


@pytest.mark.parametrize("rubber", RUBBERS)
def test_every_part_is_to_a_mark_a_syringe_or_a_trace(rubber: str) -> None:
    made = job(rubber, shell="fiber-gypsum")
    for part in (part for mix in made.mixes for part in mix.parts):
        assert part.by is not MeasuredBy.SCALE
        if part.by is MeasuredBy.MARKS:
            assert part.volume_ml % 2.0 == pytest.approx(0.0, abs=1e-6)
    weighed = context().mixes
    assert all(part.by is not MeasuredBy.MARKS for mix in weighed for part in mix.parts)


def test_a_small_gypsum_shell_is_planned_without_a_scale() -> None:
    """Gypsum by the cup is a guide, it is sifted till dry islands stay: 10 ml marks do for 100 ml of shell."""
    made = context(mold=MoldOrder(shell="fiber-gypsum"), shop=SHOP, volumes=measures(shell__volume_ml=100.0))
    assert made.shell_mixes
    assert any("islands stay" in text for text in step_of(made, "shell-2").do)


def test_the_ratio_is_the_sheets_by_volume() -> None:
    """Urethane rubber is 1 : 1 by volume and 100 : 102 by weight: two equal levels."""
    for mix in job("urethane-a30").rubber.mixes:
        a, b = (next(part for part in mix.parts if part.kind is kind) for kind in (PartKind.A, PartKind.B))
        assert a.volume_ml == b.volume_ml


def test_what_is_mixed_is_told_in_milliliters() -> None:
    made = work(job(), library(), NO_SHAPE)
    told_of = {quantity.name: quantity for step in made.steps for quantity in step.quantities}
    for name in ("coat.mixed", "skin.mixed", "backfill.mixed", "rubber.mixed", "powder.loose", "glove.volume"):
        assert told_of[name].measure is Dimension.VOLUME, name
    assert {"powder.mass", "glove.mass", "cast.mass", "scale"} & set(told_of) == set()
    assert any(re.search(r"marked every 2(\.0+)? ml", text) for text in step_of(job(), "lay-out").needs)


def test_the_glove_is_checked_by_what_runs_over() -> None:
    """40 + 95 + 140 + 60 + 21 ml of rubber, 5 % less to 12 % more."""
    said = " ".join(step_of(job(), "weigh-glove").do)
    assert "356 ml" in said or "360 ml" in said
    assert "338 ml" in said or "340 ml" in said


def test_what_must_be_weighed_is_refused_with_what_to_do() -> None:
    for cast in (CastOrder(resin="modified-gypsum"), CastOrder(backfill="modified-gypsum")):
        with pytest.raises(InputRefused, match="weighed-only") as refused:
            context(cast=cast, shop=SHOP)
        assert "shop.measure" in refused.value.remedy
        assert context(cast=cast)
