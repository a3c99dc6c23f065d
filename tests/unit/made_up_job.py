"""The made-up job of the tests: an order of the demo's kind on a mold with no solid behind it.

Every use varies it by parameters; the two named molds are those whose figures tests reckon by hand.
"""

from dataclasses import fields, replace
from typing import Any

from moldwright.commission.orders import CastOrder, Commission, EditionOrder, MoldOrder, OriginalOrder, ShopOrder
from moldwright.geometry.seam_kind import Seam
from moldwright.materials import Library, library
from moldwright.materials.compatibility import Finding
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
from moldwright.plan.flange import FlangePlan, Frame, KeyCut
from moldwright.plan.original import Hole, treat_of
from moldwright.quantities.quantities import Quantities, basis_of, quantities

FLANGE = FlangePlan(
    width_mm=40.0,
    keep_mm=15.0,
    frame=Frame(-95.0, -75.0, 95.0, 75.0),
    foot=((-55.0, -35.0), (55.0, -35.0), (55.0, 35.0), (-55.0, 35.0)),
    outline=((-95.0, -75.0), (65.0, -75.0), (95.0, -45.0), (95.0, 60.0), (80.0, 75.0), (-95.0, 75.0)),
    keys=(KeyCut((65.0, -75.0), (95.0, -45.0), 42.43), KeyCut((95.0, 60.0), (80.0, 75.0), 21.21)),
    area_mm2=27_937.5,
    edge_mm=633.6,
)
"""A rectangle with two corners cut: 190 x 150 less 450 and 112.5 mm2."""


def holes(*widths_mm: float, glove_mm: float = 4.0) -> tuple[Hole, ...]:
    """Through-holes of these widths under a glove of 4 mm."""
    rows = enumerate(widths_mm, start=1)
    return tuple(Hole(n, (0.0, 0.0, 20.0 * n), wide, treat_of(wide, glove_mm), (1.5 * wide, wide)) for n, wide in rows)


VOLUMES = MoldMeasures(
    piece=PieceMeasures(volume_ml=560.0, area_mm2=40_000.0, height_mm=190.0, widest_mm=150.0, holes=holes(12.0)),
    cavity=CavityMeasures(
        volume_ml=620.0,
        area_mm2=42_000.0,
        plinth_ml=60.0,
        plinth_height_mm=12.0,
        plinth_length_mm=90.0,
        plinth_breadth_mm=60.0,
    ),
    flange=FLANGE,
    glove=GloveMeasures(
        coat_ml=(24.5, 58.1, 84.0),
        flange_ml=32.0,
        fill_ml=11.0,
        spots=(
            FillSpot((0.0, 0.0, 10.0), 6.0, 7.0, SpotKind.UNDERCUT),
            FillSpot((0.0, 9.0, 30.0), 4.0, 4.0, SpotKind.CREVICE),
        ),
        crevice_ml=4.0,
    ),
    shell=ShellMeasures(
        area_mm2=80_000.0,
        volume_ml=640.0,
        seam=Seam.WALL,
        edges_mm=(0.0, 620.0),
        seam_flange_mm=20.0,
        lap_mm=0.0,
        base_lip_mm=13.0,
    ),
    skin=Skin(whole_ml=150.0, core_kept_ml=424.0),
)
"""Round numbers that add up."""


def volumes(of: MoldMeasures = VOLUMES, /, **values: Any) -> MoldMeasures:
    """A made-up mold with other measures in their places: piece__holes=(), glove__coat_ml=(...)."""
    parts: dict[str, dict[str, Any]] = {field.name: {} for field in fields(of)}
    for name, value in values.items():
        part, _, field = name.partition("__")
        parts[part][field] = value
    return replace(of, **{part: replace(getattr(of, part), **new) for part, new in parts.items() if new})


TAILED = volumes(
    piece__volume_ml=900.0,
    piece__area_mm2=70_000.0,
    piece__widest_mm=120.0,
    cavity__volume_ml=1050.0,
    cavity__area_mm2=75_000.0,
    cavity__plinth_ml=150.0,
    cavity__plinth_height_mm=20.0,
    glove__coat_ml=(40.0, 95.0, 140.0),
    glove__flange_ml=60.0,
    glove__fill_ml=21.0,
    glove__spots=(
        FillSpot((0.0, 0.0, 60.0), 6.0, 6.0, SpotKind.CREVICE),
        FillSpot((0.0, 20.0, 90.0), 11.0, 10.0, SpotKind.UNDERCUT),
        FillSpot((20.0, 0.0, 30.0), 8.0, 5.0, SpotKind.UNDERCUT),
    ),
    glove__crevice_ml=6.0,
    shell__area_mm2=110_000.0,
    shell__volume_ml=900.0,
    shell__edges_mm=(0.0, 520.0),
    skin__whole_ml=260.0,
    skin__core_kept_ml=664.0,
)
"""A larger one, with a tail that makes the through-hole, and fill after each coat but the first."""


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


def job_of(
    order: Commission,
    known: Library | None = None,
    measures: MoldMeasures = VOLUMES,
    findings: tuple[Finding, ...] | None = None,
) -> Quantities:
    """All quantities of an order on a made-up mold; its materials judged as `findings` say, where they are given."""
    known = known or library()
    basis = basis_of(order, known)
    judged = basis if findings is None else replace(basis, findings=findings)
    return quantities(order, known, judged, measures)
