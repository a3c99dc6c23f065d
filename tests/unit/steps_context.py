"""A job to write steps for: an otter of 190 mm with a tail that makes a through-hole, an edition of 24."""

from __future__ import annotations

from dataclasses import replace

from quantities_sample import changed
from told import ToldStep, told

from moldwright.commission.orders import CastOrder, Commission, EditionOrder, MoldOrder, OriginalOrder, ShopOrder
from moldwright.materials import library
from moldwright.materials.compatibility import Finding, Slot, Verdict
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
from moldwright.quantities.quantities import Quantities, basis_of, quantities

VOLUMES = MoldMeasures(
    piece=PieceMeasures(volume_ml=900.0, area_mm2=70_000.0, height_mm=190.0, widest_mm=120.0, handles=1),
    cavity=CavityMeasures(volume_ml=1050.0, area_mm2=75_000.0, plinth_ml=150.0, plinth_height_mm=20.0),
    glove=GloveMeasures(
        coat_ml=(40.0, 95.0, 140.0),
        flange_ml=60.0,
        fill_ml=21.0,
        spots=(
            FillSpot((0.0, 0.0, 60.0), 6.0, 6.0, SpotKind.CREVICE),
            FillSpot((0.0, 20.0, 90.0), 11.0, 10.0, SpotKind.UNDERCUT),
            FillSpot((20.0, 0.0, 30.0), 8.0, 5.0, SpotKind.UNDERCUT),
        ),
    ),
    shell=ShellMeasures(area_mm2=110_000.0, volume_ml=900.0, seam_mm=520.0, seam_flange_mm=20.0, base_lip_mm=13.0),
    skin=Skin(whole_ml=260.0, kept_ml=236.0),
)
ORDER = Commission(OriginalOrder("otter.stl", height_mm=190.0, material="plastic"), EditionOrder(24))


def judged(verdict: Verdict = Verdict.CLEAR, patch_test: bool = False) -> Finding:
    """A judgment on original and rubber."""
    return Finding("no-rule", verdict, (Slot.ORIGINAL, Slot.RUBBER), ("plastic", "rubber"), "made up", patch_test)


DOUBT = judged(Verdict.DOUBT, patch_test=True)


def measures(**values: object) -> MoldMeasures:
    """The job's measures with others in their places."""
    return changed(VOLUMES, **values)


def context(
    mold: MoldOrder | None = None,
    cast: CastOrder | None = None,
    shop: ShopOrder | None = None,
    volumes: MoldMeasures = VOLUMES,
    findings: tuple[Finding, ...] = (DOUBT,),
    edition: int = 24,
) -> Quantities:
    """The job with other materials, another shop or other measures; judged as `findings` say."""
    order = replace(
        ORDER,
        mold=mold or MoldOrder(),
        cast=cast or CastOrder(),
        shop=shop or ShopOrder(),
        edition=EditionOrder(edition),
    )
    basis = basis_of(order, library(), laid_out(order.mold.thickness_mm, order.mold.coats))
    return quantities(order, library(), replace(basis, findings=findings), volumes)


def work_steps(job: Quantities, own: str = "") -> tuple[ToldStep, ...]:
    """The steps of a job in words."""
    return told(job, own).steps
