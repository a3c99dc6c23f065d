"""What must be mixed so that enough ends on the work: what a hand, a pot and a brush take of it."""

from __future__ import annotations

from math import ceil, floor

from moldwright.commission.orders import ShopOrder
from moldwright.materials import Rubber
from moldwright.mixing.scale_steps import grams, steps_of
from moldwright.plan.coats import Gesture
from moldwright.ranges import SURELY, Range

HAND = Range(0.95, 1.0, 1.12)
"""How a coat laid by hand comes out against its plan: common practice, no source."""
POT_RESIDUE = Range(0.01, 0.02, 0.04)
"""Share of a mix that stays in cup and stick: common practice, no source."""
TOOL_LOSS_G = {
    Gesture.STIPPLE: Range(2.0, 4.0, 8.0),
    Gesture.BRUSH: Range(3.0, 6.0, 12.0),
    Gesture.STICK: Range(2.0, 4.0, 8.0),
}
"""What one coat leaves in its brush or on its stick [g]: common practice, no source."""
WASTE_SPREAD = Range(0.5, 1.0, 1.5)
"""How the shop's waste varies about its own figure: common practice, no source."""


def mixed_g(net_g: float, shop: ShopOrder, rubber: Rubber, tool_loss_g: Range, doubt: Range = SURELY) -> Range:
    """What must be mixed so that `net_g` ends on the work [g], on the scale's steps.

    `(net hand + lost) / solids`, `lost = max(net waste, net residue + tool loss)`; nothing where nothing is needed.
    The shop's waste is what stays in pots and on brushes. Only where a pot and a brush hold more than that, in small
    coats, is their own figure taken instead; the two are never added.

    Parameters
    ----------
    net_g : rubber on the work, cured [g], >= 0
    shop : its waste and its scale
    rubber : its sheet (solids: what stays when a latex dries)
    tool_loss_g : what stays in the brush [g]
    doubt : factor on `net_g`, 1 where the original was scanned

    Source: common practice, no source.
    """
    if net_g <= 0:
        return Range.exactly(0.0)
    share, kept = shop.waste * WASTE_SPREAD, POT_RESIDUE * net_g + tool_loss_g
    lost = Range(
        *(max(net_g * a, b) for a, b in ((share.low, kept.low), (share.likely, kept.likely), (share.high, kept.high)))
    )
    solids = rubber.solids_pct.range
    laid = (HAND * net_g).doubted(doubt)
    low = (laid.low + lost.low) / solids.high * 100
    likely = (laid.likely + lost.likely) / solids.likely * 100
    high = (laid.high + lost.high) / solids.low * 100
    step = shop.scale_g
    middle = max(steps_of(likely, step), 1)
    return Range(
        grams(min(floor(low / step), middle), step), grams(middle, step), grams(max(ceil(high / step), middle), step)
    )
