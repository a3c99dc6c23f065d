"""Rubber: what each coat, the flange and the fill need, and the cups that carry it.

The flange is laid with every coat and the fill is packed between coats, so neither has cups of its own: a coat's cups
carry its own rubber, a share of the flange in proportion to the coats' thickness, and the fill that follows it
(crevices with the first build coat, undercuts with the last coat). Over all rubber mixes the masses sum exactly to
coats + flange + fill, each as the likely value of `mixed_g`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, inf

from moldwright.commission.orders import ShopOrder
from moldwright.errors import ComputationFailed
from moldwright.materials import Rubber
from moldwright.mixing.cup import CupLimit, cup_limit
from moldwright.mixing.rubber import coat_recipe, rubber_density_g_ml
from moldwright.mixing.scale_steps import apportion, grams, steps_of
from moldwright.mold.coats import CoatLayer
from moldwright.mold.volumes import MoldVolumes
from moldwright.plan.plan import CoatPlan, FillSpot, MixPlan, PartPlan
from moldwright.quantities.cups import mix_plans
from moldwright.ranges import Range

HAND = Range(0.95, 1.0, 1.12)
"""How a coat laid by hand comes out against its plan: common practice, no source."""
POT_RESIDUE = Range(0.01, 0.02, 0.04)
"""Share of a mix that stays in cup and stick: common practice, no source."""
TOOL_LOSS_G = {"stipple": Range(2.0, 4.0, 8.0), "brush": Range(3.0, 6.0, 12.0), "stick": Range(2.0, 4.0, 8.0)}
"""What one coat leaves in its brush or on its stick [g]: common practice, no source."""
WASTE_SPREAD = Range(0.5, 1.0, 1.5)
"""How the shop's waste varies about its own figure: common practice, no source."""


@dataclass(frozen=True, slots=True)
class RubberQuantities:
    """`carries_g`: what the cups of each coat hold together, flange and fill included."""

    coats: tuple[CoatPlan, ...]
    flange: PartPlan
    fill: PartPlan
    spots: tuple[FillSpot, ...]
    mixes: tuple[MixPlan, ...]
    carries_g: tuple[float, ...]
    limits: tuple[CupLimit, ...]


def rubber_quantities(
    shop: ShopOrder, rubber: Rubber, layers: Sequence[CoatLayer], volumes: MoldVolumes, pot_life_s: Range
) -> RubberQuantities:
    """Coats, flange, fill and all rubber cups.

    `net_g = V rho`; `mixed_g = (net_g hand + lost) / solids`, lost as `mixed_g` tells.

    Parameters
    ----------
    shop : scale, cup, mixing time, laying rate, waste
    rubber : its sheet
    layers : the coats, first coat first; as many as `volumes.coat_ml`
    volumes : the solids' measures
    pot_life_s : at the shop's temperature [s]

    Raises NoSafePlan where no cup can be laid before it gels. Source: common practice, no source.
    """
    if len(layers) != len(volumes.coat_ml):
        raise ComputationFailed("coat-count", len(volumes.coat_ml), len(layers), "coats",
                                "Plan the glove again with the same coats.")  # fmt: skip
    density = rubber_density_g_ml(rubber)
    needs = tuple(
        mixed_g(volume_ml * density, shop, rubber, TOOL_LOSS_G[layer.gesture])
        for layer, volume_ml in zip(layers, volumes.coat_ml, strict=True)
    )
    flange = _part(volumes.flange_ml, density, shop, rubber)
    fill = _part(volumes.fill_ml, density, shop, rubber)
    carried = carried_steps(layers, needs, flange, fill, _crevice_share(volumes), shop.scale_g)
    mixes, limits = _mixes(shop, rubber, layers, carried, pot_life_s)
    coats = tuple(
        _coat(layer, volume_ml, density, need, mixes)
        for layer, volume_ml, need in zip(layers, volumes.coat_ml, needs, strict=True)
    )
    spots = tuple(_spots(volumes, layers, density))
    return RubberQuantities(coats, flange, fill, spots, mixes, tuple(grams(c, shop.scale_g) for c in carried), limits)


def mixed_g(net_g: float, shop: ShopOrder, rubber: Rubber, tool_loss_g: Range) -> Range:
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

    Source: common practice, no source.
    """
    if net_g <= 0:
        return Range.exactly(0.0)
    share, kept = shop.waste * WASTE_SPREAD, POT_RESIDUE * net_g + tool_loss_g
    lost = Range(
        *(max(net_g * a, b) for a, b in ((share.low, kept.low), (share.likely, kept.likely), (share.high, kept.high)))
    )
    solids = rubber.solids_pct.range
    low = (net_g * HAND.low + lost.low) / solids.high * 100
    likely = (net_g * HAND.likely + lost.likely) / solids.likely * 100
    high = (net_g * HAND.high + lost.high) / solids.low * 100
    step = shop.scale_g
    middle = max(steps_of(likely, step), 1)
    return Range(
        grams(min(floor(low / step), middle), step), grams(middle, step), grams(max(ceil(high / step), middle), step)
    )


def carried_steps(
    layers: Sequence[CoatLayer],
    needs: Sequence[Range],
    flange: PartPlan,
    fill: PartPlan,
    crevice_share: float,
    step_g: float,
) -> tuple[int, ...]:
    """Scale steps that the cups of each coat hold: its own, its share of the flange, the fill that follows it.

    Parameters
    ----------
    layers : the coats
    needs : their `mixed_g`
    flange : the flange's needs
    fill : the fill's needs
    crevice_share : share of the fill that is crevices, 0 to 1
    step_g : the scale's step [g]

    Source: arithmetic; nothing is lost between the rows.
    """
    own = [steps_of(need.likely, step_g) for need in needs]
    rim = apportion(steps_of(flange.mixed_g.likely, step_g), [layer.thickness_mm for layer in layers])
    crevice, undercut = apportion(steps_of(fill.mixed_g.likely, step_g), (crevice_share, 1.0 - crevice_share))
    carried = [mine + share for mine, share in zip(own, rim, strict=True)]
    carried[build_index(len(layers))] += crevice
    carried[-1] += undercut
    return tuple(carried)


def heats_itself(rubber: Rubber) -> bool:
    """Whether a large cup of it gels sooner: a urethane does, silicone and latex hardly.

    Parameters
    ----------
    rubber : its sheet

    Source: common practice, no source.
    """
    return "silicone" not in rubber.chemistry and "latex" not in rubber.chemistry


def build_index(coats: int) -> int:
    """Which coat is the first build coat: the second, or the only one.

    Parameters
    ----------
    coats : how many coats, >= 1

    Source: common practice, no source.
    """
    return min(1, coats - 1)


def _part(volume_ml: float, density_g_ml: float, shop: ShopOrder, rubber: Rubber) -> PartPlan:
    net_g = volume_ml * density_g_ml
    return PartPlan(volume_ml, round(net_g, 4), mixed_g(net_g, shop, rubber, Range.exactly(0.0)))


def _crevice_share(volumes: MoldVolumes) -> float:
    crevice_ml = sum(spot.volume_ml for spot in volumes.spots if spot.kind == "crevice")
    return min(max(crevice_ml / volumes.fill_ml, 0.0), 1.0) if volumes.fill_ml > 0 else 0.0


def _spots(volumes: MoldVolumes, layers: Sequence[CoatLayer], density_g_ml: float) -> list[FillSpot]:
    after = {"crevice": layers[build_index(len(layers))].name}
    return [
        FillSpot(
            spot.at,
            spot.depth_mm,
            spot.volume_ml,
            round(spot.volume_ml * density_g_ml, 3),
            after.get(spot.kind, layers[-1].name),
        )
        for spot in volumes.spots
    ]


def _coat(layer: CoatLayer, volume_ml: float, density_g_ml: float, need: Range, mixes: Sequence[MixPlan]) -> CoatPlan:
    return CoatPlan(
        name=layer.name,
        thickness_mm=layer.thickness_mm,
        volume_ml=volume_ml,
        net_g=round(volume_ml * density_g_ml, 4),
        mixed_g=need,
        thixotrope_pct=layer.thixotrope_pct,
        pigment=layer.pigment,
        cups=sum(mix.for_ == layer.name for mix in mixes),
        gesture=layer.gesture,
    )


def _mixes(
    shop: ShopOrder, rubber: Rubber, layers: Sequence[CoatLayer], carried: Sequence[int], pot_life_s: Range
) -> tuple[tuple[MixPlan, ...], tuple[CupLimit, ...]]:
    mixes: list[MixPlan] = []
    limits = []
    for layer, steps in zip(layers, carried, strict=True):
        recipe = coat_recipe(rubber, layer.pigment, layer.thixotrope_pct)
        limit = cup_limit(
            rubber.name,
            pot_life_s.low,
            shop.mix_min * 60.0,
            shop.lay_g_per_min,
            shop.cup_ml,
            recipe.density_g_ml,
            stated_g=rubber.pot_life_mass_g.likely if heats_itself(rubber) else inf,
        )
        mixes += mix_plans(layer.name, grams(steps, shop.scale_g), recipe, limit, shop.scale_g)
        limits.append(limit)
    return tuple(mixes), tuple(limits)
