"""The one place where fuzzed orders meet the quantities: on a made-up mold, no solid behind it."""

from __future__ import annotations

from collections.abc import Sequence

from moldwright.desk.gather import Order
from moldwright.mold.coats import Coat, laid_out
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
from moldwright.quantities.quantities import basis_of, quantities
from moldwright.steps.shape_cautions import ShapeFindings
from moldwright.steps.written import work

AREA_DM2 = 4.0
SPOTS = (
    FillSpot((0.0, 0.0, 10.0), 6.0, 7.0, SpotKind.UNDERCUT),
    FillSpot((0.0, 9.0, 30.0), 4.0, 4.0, SpotKind.CREVICE),
)


def reckoned(order: Order) -> None:
    """Coats, cups, cast, bandage, shopping list and steps of an order.

    Parameters
    ----------
    order : the commission with its own sheets and steps.
    """
    mold = order.commission.mold
    coats = laid_out(mold.thickness_mm, mold.coats)
    basis = basis_of(order.commission, order.library, coats)
    job = quantities(order.commission, order.library, basis, measures(coats))
    work(job, order.library, ShapeFindings(None, 1, 0.0), order.own_steps)


def measures(coats: Sequence[Coat]) -> MoldMeasures:
    """A figure of 190 mm on a plinth: round numbers that add up.

    Parameters
    ----------
    coats : the coats, each with a volume by its thickness.
    """
    coat_ml = tuple(10.0 * AREA_DM2 * coat.thickness_mm for coat in coats)
    return MoldMeasures(
        piece=PieceMeasures(volume_ml=560.0, area_mm2=AREA_DM2 * 1e4, height_mm=190.0, widest_mm=150.0, handles=1),
        cavity=CavityMeasures(volume_ml=620.0, area_mm2=42_000.0, plinth_ml=60.0, plinth_height_mm=12.0),
        glove=GloveMeasures(coat_ml=coat_ml, flange_ml=32.0, fill_ml=11.0, spots=SPOTS),
        shell=ShellMeasures(area_mm2=80_000.0, volume_ml=640.0, seam_mm=620.0, seam_flange_mm=20.0, base_lip_mm=13.0),
        skin=Skin(whole_ml=150.0, kept_ml=136.0),
    )
