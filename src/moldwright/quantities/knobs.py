"""Knobs that a maker may set on the glove by hand: no solid has them, so they have a cup of their own when wanted."""

from __future__ import annotations

from math import pi

from moldwright.commission.orders import ShopOrder
from moldwright.errors import NoSafePlan
from moldwright.materials import Rubber
from moldwright.materials.kinds import Thixotrope
from moldwright.mixing.rubber import packing_pct, rubber_density_g_ml, rubber_recipe
from moldwright.plan.mixes import MixFor, MixKind, MixPlan
from moldwright.quantities.measured_cups import measured_cups
from moldwright.quantities.mixed import mixed_g
from moldwright.quantities.need_parts import spared
from moldwright.quantities.quantities import Quantities
from moldwright.quantities.rubber_cups import rubber_cup_limit
from moldwright.ranges import Range

FOOT_MM, TIP_MM, HIGH_MM = 20.0, 12.0, 10.0
"""A knob: a thumb wide at its foot, narrower to its tip: common practice, no source."""
KNOBS = 3
"""What one cup makes: as many as stand on a broad wall; common practice, no source."""


def knob_ml() -> float:
    """Volume of one knob [ml]: `pi h (D2 + D d + d2) / 12`, a cone without its tip.

    Source: solid geometry.

    >>> round(knob_ml(), 2)
    2.05
    """
    return pi * HIGH_MM * (FOOT_MM**2 + FOOT_MM * TIP_MM + TIP_MM**2) / 12.0 / 1000.0


def knob_cup(shop: ShopOrder, rubber: Rubber, thixotrope: Thixotrope, pot_life_s: Range) -> MixPlan | None:
    """A cup of rubber thickened as what is packed, for `KNOBS`; None where so small a cup does not hold the ratio.

    Parameters
    ----------
    shop : scale or marks, cup, laying rate, waste
    rubber : its sheet
    thixotrope : the sheet of what thickens it
    pot_life_s : at the shop's temperature [s], longer than mixing

    Source: common practice, no source.
    """
    recipe = rubber_recipe(rubber, None, packing_pct(thixotrope), thixotrope)
    net_g = KNOBS * knob_ml() * rubber_density_g_ml(rubber)
    need_g = mixed_g(net_g, shop, rubber, Range.exactly(0.0)).likely
    try:
        limit = rubber_cup_limit(shop, rubber, recipe, pot_life_s, KNOBS / need_g)
        cups = measured_cups(shop, rubber, MixFor(MixKind.FILL), need_g, recipe, limit)
    except NoSafePlan:
        return None
    return cups[0] if len(cups) == 1 else None


def knob_cup_of(job: Quantities) -> MixPlan | None:
    """The cup of this job's knobs, where the list's spare cup covers it; none of a rubber that dries, whose knobs are
    cut from dry scrap.

    Parameters
    ----------
    job : the shop and its materials

    Source: common practice, no source.
    """
    chosen = job.basis.chosen
    if chosen.rubber.pass_mm is not None:
        return None
    cup = knob_cup(job.commission.shop, chosen.rubber, chosen.thixotrope, job.basis.lives.rubber.pot_life_s)
    spare = spared(mix for mix in job.rubber.mixes if mix.for_.kind is MixKind.COAT)
    return cup if cup is not None and spare is not None and cup.mass_g <= spare.mass_g else None
