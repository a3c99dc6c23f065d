"""The one place where fuzzed orders meet the quantities: on a made-up mold, no solid behind it."""

from __future__ import annotations

import sys
from pathlib import Path

from moldwright.desk.gather import Order
from moldwright.mold.coats import laid_out
from moldwright.quantities.quantities import basis_of, quantities
from moldwright.steps.written import work

sys.path.insert(0, str(Path(__file__).parents[1] / "unit"))  # where the made-up mold and its helpers lie
from quantities_sample import VOLUMES, volumes
from told import NO_SHAPE


def reckoned(order: Order) -> None:
    """Coats, cups, cast, bandage, shopping list and steps of an order.

    Parameters
    ----------
    order : the commission with its own sheets and steps.
    """
    mold = order.commission.mold
    coats = laid_out(mold.thickness_mm, mold.coats)
    share_ml = sum(VOLUMES.glove.coat_ml) / mold.thickness_mm
    measures = volumes(glove__coat_ml=tuple(share_ml * coat.thickness_mm for coat in coats))
    job = quantities(order.commission, order.library, basis_of(order.commission, order.library, coats), measures)
    work(job, order.library, NO_SHAPE, order.own_steps)
