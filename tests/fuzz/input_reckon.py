"""The one place where fuzzed orders meet the quantities: on the tests' made-up mold."""

from __future__ import annotations

from made_up_job import VOLUMES, job_of, volumes

from moldwright.making.order import Order
from moldwright.mold.coats import laid_out
from moldwright.steps.shape_cautions import ShapeFindings
from moldwright.steps.written import work


def reckoned(order: Order) -> None:
    """Coats, cups, cast, bandage, shopping list and steps of an order; each coat has a volume by its thickness.

    Parameters
    ----------
    order : the commission with its own sheets and steps.
    """
    mold = order.commission.mold
    coats = laid_out(mold.thickness_mm, mold.coats, order.library.rubber(mold.rubber))
    coat_ml = tuple(VOLUMES.piece.area_mm2 * coat.thickness_mm / 1000.0 for coat in coats)
    job = job_of(order.commission, order.library, volumes(glove__coat_ml=coat_ml))
    work(job, order.library, ShapeFindings(0.0), order.own_steps)
