"""A commission and the measures of a made-up mold (no solid behind them: round numbers that add up)."""

from dataclasses import replace
from typing import Any

from moldwright.commission.orders import CastOrder, Commission, EditionOrder, MoldOrder, OriginalOrder, ShopOrder
from moldwright.mold.volumes import FillSpot, MoldVolumes

VOLUMES = MoldVolumes(
    coat_ml=(24.5, 58.1, 84.0),
    flange_ml=32.0,
    fill_ml=11.0,
    glove_ml=209.6,
    spots=(FillSpot((0.0, 0.0, 10.0), 6.0, 7.0, "undercut"), FillSpot((0.0, 9.0, 30.0), 4.0, 4.0, "crevice")),
    original_ml=560.0,
    original_area_mm2=40_000.0,
    plinth_ml=60.0,
    plinth_height_mm=12.0,
    cavity_ml=620.0,
    cavity_area_mm2=42_000.0,
    mouth_area_mm2=3_000.0,
    flange_area_mm2=16_000.0,
    shell_area_mm2=80_000.0,
    shell_ml=640.0,
    seam_mm=620.0,
    seam_flange_mm=20.0,
    base_lip_mm=13.0,
    height_mm=190.0,
    widest_mm=150.0,
    handles=1,
    skin_ml=150.0,
    skin_kept_ml=136.0,
)


def volumes(**changed: Any) -> MoldVolumes:
    """The made-up mold with other measures."""
    return replace(VOLUMES, **changed)


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
