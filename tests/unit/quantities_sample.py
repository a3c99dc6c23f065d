"""A commission and the measures of a made-up mold (no solid behind them: round numbers that add up)."""

from dataclasses import dataclass, fields, replace
from typing import Any

from told import ToldCaution, ToldStep, told

from moldwright.commission.orders import CastOrder, Commission, EditionOrder, MoldOrder, OriginalOrder, ShopOrder
from moldwright.materials import Library, library
from moldwright.mold.coats import laid_out
from moldwright.mold.measures import (
    CavityMeasures,
    FillSpot,
    GloveMeasures,
    MoldMeasures,
    PieceMeasures,
    ShellMeasures,
    Skin,
    SpotKind,
)
from moldwright.plan.assumptions import Assumption
from moldwright.plan.cast import CastPlan
from moldwright.plan.coats import CoatPlan
from moldwright.plan.mixes import MixPlan
from moldwright.plan.mold import BandagePlan, PartPlan, SpotPlan
from moldwright.plan.needs import NeedPlan
from moldwright.quantities.quantities import Quantities, basis_of, quantities

VOLUMES = MoldMeasures(
    piece=PieceMeasures(volume_ml=560.0, area_mm2=40_000.0, height_mm=190.0, widest_mm=150.0, handles=1),
    cavity=CavityMeasures(volume_ml=620.0, area_mm2=42_000.0, plinth_ml=60.0, plinth_height_mm=12.0),
    glove=GloveMeasures(
        coat_ml=(24.5, 58.1, 84.0),
        flange_ml=32.0,
        fill_ml=11.0,
        spots=(
            FillSpot((0.0, 0.0, 10.0), 6.0, 7.0, SpotKind.UNDERCUT),
            FillSpot((0.0, 9.0, 30.0), 4.0, 4.0, SpotKind.CREVICE),
        ),
    ),
    shell=ShellMeasures(area_mm2=80_000.0, volume_ml=640.0, seam_mm=620.0, seam_flange_mm=20.0, base_lip_mm=13.0),
    skin=Skin(whole_ml=150.0, kept_ml=136.0),
)


def changed(measures: MoldMeasures, **values: Any) -> MoldMeasures:
    """The measures with others in their places: piece__handles=0, glove__coat_ml=(...)."""
    parts: dict[str, dict[str, Any]] = {field.name: {} for field in fields(measures)}
    for name, value in values.items():
        part, _, field = name.partition("__")
        parts[part][field] = value
    return replace(measures, **{part: replace(getattr(measures, part), **new) for part, new in parts.items() if new})


def volumes(**values: Any) -> MoldMeasures:
    """The made-up mold with other measures."""
    return changed(VOLUMES, **values)


def commission(
    material: str = "plastic",
    count: int = 24,
    mold: MoldOrder | None = None,
    cast: CastOrder | None = None,
    shop: ShopOrder | None = None,
) -> Commission:
    """An order of the demo's kind."""
    return Commission(
        OriginalOrder("otter.stl", height_mm=190.0, material=material),
        EditionOrder(count),
        mold or MoldOrder(),
        cast or CastOrder(),
        shop or ShopOrder(),
        given=("original.file", "original.height", "original.material", "edition.count"),
    )


def job_of(order: Commission, known: Library | None = None, measures: MoldMeasures = VOLUMES) -> Quantities:
    """All quantities of an order on the made-up mold."""
    known = known or library()
    basis = basis_of(order, known, laid_out(order.mold.thickness_mm, order.mold.coats))
    return quantities(order, known, basis, measures)


@dataclass(frozen=True)
class Reckoned:
    """A job's quantities and its work in words."""

    job: Quantities
    coats: tuple[CoatPlan, ...]
    flange: PartPlan
    fill: PartPlan
    spots: tuple[SpotPlan, ...]
    bandage: BandagePlan | None
    cast: CastPlan
    mixes: tuple[MixPlan, ...]
    needs: tuple[NeedPlan, ...]
    assumed: tuple[Assumption, ...]
    steps: tuple[ToldStep, ...]
    cautions: tuple[ToldCaution, ...]


def reckoned(order: Commission, known: Library, measures: MoldMeasures, own: str = "") -> Reckoned:
    """Quantities, steps and cautions of an order on a made-up mold."""
    job = job_of(order, known, measures)
    said, rubber = told(job, own, known), job.rubber
    return Reckoned(
        job, rubber.coats, rubber.flange, rubber.fill, rubber.spots, job.bandage, job.cast.cast, job.mixes, job.needs,
        job.assumed, said.steps, said.cautions,
    )  # fmt: skip
