"""Rubber to mix, told as the shop measures: by weight, or by volume where it has no scale."""

from __future__ import annotations

from math import fsum

from moldwright.plan.mixes import RUBBER_KINDS
from moldwright.plan.plan import Plan
from moldwright.ranges import Range
from moldwright.units import show_range


def to_mix(mixed_g: Range, plan: Plan) -> str:
    """What is mixed for a part of the glove.

    Parameters
    ----------
    mixed_g : its weight [g].
    plan : whose cups hold it; their own volume and weight give the density of the mix.
    """
    if plan.marks_ml is None:
        return show_range(mixed_g, "mass", plan.units, plan.scale_g)
    cups = [mix for mix in plan.mixes if mix.for_.kind in RUBBER_KINDS]
    per_g = fsum(mix.volume_ml for mix in cups) / fsum(mix.mass_g for mix in cups)
    return show_range(mixed_g * per_g, "volume", plan.units)
