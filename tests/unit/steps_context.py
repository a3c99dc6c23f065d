"""A job to write steps for: an otter of 190 mm with a tail that makes a through-hole, an edition of 24."""

from __future__ import annotations

from dataclasses import dataclass, replace

from moldwright.commission.orders import CastOrder, Commission, EditionOrder, MoldOrder, OriginalOrder, ShopOrder
from moldwright.cure.potlife import pot_life_s
from moldwright.materials import library
from moldwright.mold.coats import coat_layers
from moldwright.mold.volumes import FillSpot, MoldVolumes
from moldwright.plan.plan import BandagePlan
from moldwright.quantities.cast import cast_quantities
from moldwright.quantities.chosen import chosen
from moldwright.quantities.rubber import rubber_quantities
from moldwright.ranges import Range
from moldwright.steps.context import StepContext


@dataclass(frozen=True)
class Judged:
    """A judgment of compatibility, as far as the steps look at it."""

    severity: str = "clear"
    between: str = ""
    reason: str = ""
    remedy: str = ""
    source: str = ""
    patch_test: bool = False


VOLUMES = MoldVolumes(
    coat_ml=(40.0, 95.0, 140.0),
    flange_ml=60.0,
    fill_ml=21.0,
    glove_ml=356.0,
    spots=(
        FillSpot((0.0, 0.0, 60.0), 6.0, 6.0, "crevice"),
        FillSpot((0.0, 20.0, 90.0), 11.0, 10.0, "undercut"),
        FillSpot((20.0, 0.0, 30.0), 8.0, 5.0, "undercut"),
    ),
    original_ml=900.0,
    original_area_mm2=70_000.0,
    plinth_ml=150.0,
    plinth_height_mm=20.0,
    cavity_ml=1050.0,
    cavity_area_mm2=75_000.0,
    mouth_area_mm2=5_000.0,
    flange_area_mm2=15_000.0,
    shell_area_mm2=110_000.0,
    shell_ml=900.0,
    seam_mm=520.0,
    seam_flange_mm=20.0,
    base_lip_mm=13.0,
    height_mm=190.0,
    widest_mm=120.0,
    handles=1,
    skin_ml=260.0,
    skin_kept_ml=229.0,
)
BANDAGE = BandagePlan(4, 3, 48, 250.0, 150.0, 5, 900.0, 600.0, 40.0, 15.0, 300.0)
ORDER = Commission(OriginalOrder("otter.stl", height_mm=190.0, material="plastic"), EditionOrder(24))


def context(
    mold: MoldOrder | None = None,
    cast: CastOrder | None = None,
    shop: ShopOrder | None = None,
    volumes: MoldVolumes = VOLUMES,
    findings: tuple[Judged, ...] = (Judged("doubt", patch_test=True),),
) -> StepContext:
    """The job with other materials, another shop or other volumes."""
    order = replace(ORDER, mold=mold or MoldOrder(), cast=cast or CastOrder(), shop=shop or ShopOrder())
    sheets, temperature = chosen(order, library()), order.shop.temperature_c
    rubber_life = pot_life_s(sheets.rubber, temperature)
    lives = pot_life_s(sheets.resin, temperature), pot_life_s(sheets.backfill, temperature) if sheets.backfill else None
    layers = coat_layers(order.mold.thickness_mm, order.mold.coats)
    rubber = rubber_quantities(order.shop, sheets.rubber, layers, volumes, rubber_life)
    made = cast_quantities(order.cast, order.shop, sheets, volumes, lives)
    net_g = sum(coat.net_g for coat in rubber.coats) + rubber.flange.net_g + rubber.fill.net_g
    return StepContext(
        commission=order,
        rubber=sheets.rubber,
        resin=sheets.resin,
        backfill=sheets.backfill,
        powder=sheets.powder,
        shell=sheets.shell,
        release=sheets.release,
        sealer=sheets.sealer,
        coats=rubber.coats,
        flange=rubber.flange,
        fill=rubber.fill,
        spots=rubber.spots,
        bandage=BANDAGE if "bandage" in sheets.shell.id else None,
        cast=made.cast,
        mixes=rubber.mixes + made.mixes,
        needs=(),
        findings=findings,  # type: ignore[arg-type]
        volumes=volumes,
        rubber_pot_life_s=rubber_life,
        resin_pot_life_s=lives[0],
        backfill_pot_life_s=lives[1],
        glove_g=Range(net_g * 0.95, net_g, net_g * 1.12),
        shell_g=Range(900.0, 1050.0, 1200.0),
        carries_g=rubber.carries_g,
    )
