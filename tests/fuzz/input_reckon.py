"""The one place where fuzzed orders meet the quantities: on a made-up mold, no solid behind it."""

from __future__ import annotations

from dataclasses import replace

from tests.unit.quantities_sample import VOLUMES

from moldwright.desk.gather import Order
from moldwright.job.reckoning import quantities
from moldwright.mold.coats import coat_layers


def reckoned(order: Order) -> None:
    """Coats, cups, cast, bandage, shopping list and steps of an order.

    Parameters
    ----------
    order : the commission with its own sheets and steps.
    """
    mold = order.commission.mold
    layers = coat_layers(mold.thickness_mm, mold.coats)
    share_ml = sum(VOLUMES.coat_ml) / mold.thickness_mm
    volumes = replace(VOLUMES, coat_ml=tuple(share_ml * layer.thickness_mm for layer in layers))
    quantities(order.commission, order.library, volumes, order.own_steps)
