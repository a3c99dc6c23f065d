"""Rubber: what each coat, the flange and the fill need, and the cups that carry it.

The flange is laid with every coat and the fill is packed between coats, so neither has cups of its own: a coat's cups
carry its own rubber, a share of the flange in proportion to the coats' thickness, and the fill that follows it
(crevices with the first build coat, undercuts with the last coat). Over all rubber mixes the masses sum exactly to
coats + flange + fill, each as the likely value of `mixed_g`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, fsum, inf

from moldwright.commission.orders import ShopOrder
from moldwright.errors import ComputationFailed, NoSafePlan
from moldwright.materials import Rubber
from moldwright.materials.kinds import Thixotrope
from moldwright.mixing.cup import CupClock, CupLimit, cup_limit
from moldwright.mixing.cups import cups_of
from moldwright.mixing.rubber import coat_recipe, rubber_density_g_ml
from moldwright.mixing.scale_steps import apportion, grams, steps_of
from moldwright.mold.measures import GloveMeasures, SpotKind
from moldwright.plan.coats import Coat, CoatPlan
from moldwright.plan.ids import spot_id
from moldwright.plan.mixes import MixFor, MixKind, MixPlan, TaskKind
from moldwright.plan.mold import PartPlan, SpotPlan
from moldwright.quantities.mixed import HAND, TOOL_LOSS_G, mixed_g
from moldwright.ranges import Range

MOST_PACKED_LAYERS = 12
"""More layers of fill than this, each a day's drying, nobody lays: common practice, no source."""


@dataclass(frozen=True, slots=True)
class RubberQuantities:
    """What the coats, the flange and the fill take, and the cups that carry them."""

    coats: tuple[CoatPlan, ...]
    flange: PartPlan
    fill: PartPlan
    spots: tuple[SpotPlan, ...]
    mixes: tuple[MixPlan, ...]

    @property
    def glove_g(self) -> Range:
        """Predicted weight of the peeled, trimmed glove [g]."""
        return HAND * (fsum(coat.net_g for coat in self.coats) + self.flange.net_g + self.fill.net_g)

    @property
    def mixed_g(self) -> Range:
        """All that is mixed: coats, flange and fill [g]."""
        return sum((coat.mixed_g for coat in self.coats), self.flange.mixed_g + self.fill.mixed_g)


def rubber_quantities(
    shop: ShopOrder,
    rubber: Rubber,
    thixotrope: Thixotrope,
    coats: Sequence[Coat],
    glove: GloveMeasures,
    pot_life_s: Range,
) -> RubberQuantities:
    """Coats, flange, fill and all rubber cups.

    `net_g = V rho`; `mixed_g = (net_g hand + lost) / solids`, lost as `quantities.mixed` tells.

    Parameters
    ----------
    shop : scale, cup, mixing time, laying rate, waste
    rubber : its sheet
    thixotrope : the sheet of what thickens it
    coats : the coats, first coat first; as many as `glove.coat_ml`
    glove : the solids' measures
    pot_life_s : at the shop's temperature [s], longer than mixing

    Source: common practice, no source.
    """
    if len(coats) != len(glove.coat_ml):
        raise ComputationFailed(
            "coat-count", len(glove.coat_ml), len(coats), "coats", "Plan the glove again with the same coats."
        )
    density = rubber_density_g_ml(rubber)
    needs = tuple(
        mixed_g(volume_ml * density, shop, rubber, TOOL_LOSS_G[coat.gesture])
        for coat, volume_ml in zip(coats, glove.coat_ml, strict=True)
    )
    flange, fill = (_part(volume_ml, density, shop, rubber) for volume_ml in (glove.flange_ml, glove.fill_ml))
    carried = carried_steps(coats, needs, flange, fill, glove.crevice_share, shop.scale_g)
    mixes = tuple(
        cup
        for coat, steps in zip(coats, carried, strict=True)
        for cup in _cups(shop, rubber, thixotrope, coat, steps, pot_life_s)
    )
    planned = tuple(
        _planned(coat, volume_ml, density, need, mixes)
        for coat, volume_ml, need in zip(coats, glove.coat_ml, needs, strict=True)
    )
    spots = tuple(_spots(glove, coats, density))
    _refuse_what_never_dries(rubber, spots)
    return RubberQuantities(planned, flange, fill, spots, mixes)


def carried_steps(
    coats: Sequence[Coat],
    needs: Sequence[Range],
    flange: PartPlan,
    fill: PartPlan,
    crevice_share: float,
    step_g: float,
) -> tuple[int, ...]:
    """Scale steps that the cups of each coat hold: its own, its share of the flange, the fill that follows it.

    Parameters
    ----------
    coats : the coats
    needs : their `mixed_g`
    flange : the flange's needs
    fill : the fill's needs
    crevice_share : share of the fill that is crevices, 0 to 1
    step_g : the scale's step [g]

    Source: arithmetic; nothing is lost between the rows.
    """
    own = [steps_of(need.likely, step_g) for need in needs]
    rim = apportion(steps_of(flange.mixed_g.likely, step_g), [coat.thickness_mm for coat in coats])
    crevice, undercut = apportion(steps_of(fill.mixed_g.likely, step_g), (crevice_share, 1.0 - crevice_share))
    carried = [mine + share for mine, share in zip(own, rim, strict=True)]
    carried[build_index(len(coats))] += crevice
    carried[-1] += undercut
    return tuple(carried)


def build_index(coats: int) -> int:
    """Which coat is the first build coat: the second, or the only one.

    Parameters
    ----------
    coats : how many coats, >= 1

    Source: common practice, no source.
    """
    return min(1, coats - 1)


def rubber_cup_limit(
    shop: ShopOrder, rubber: Rubber, thixotrope: Thixotrope, coat: Coat, pot_life_s: Range
) -> CupLimit:
    """The most that one cup of a coat may hold; a rubber of one part has no clock, it waits under its lid.

    Parameters
    ----------
    shop : cup, mixing time, laying rate
    rubber : its sheet
    thixotrope : the sheet of what thickens it
    coat : which coat
    pot_life_s : at the shop's temperature [s]

    Source: common practice, no source.
    """
    stated_g = rubber.pot_life_mass_g.likely if rubber.chemistry.heats_itself else inf
    life_s = pot_life_s.low if rubber.two_part else inf
    clock = CupClock(life_s, shop.mix_min * 60.0, TaskKind.LAY, 60.0 / shop.lay_g_per_min, stated_g)
    recipe = coat_recipe(rubber, coat.pigment, coat.thixotrope_pct, thixotrope)
    return cup_limit(clock, shop.cup_ml, recipe.density_g_ml)


def _cups(
    shop: ShopOrder, rubber: Rubber, thixotrope: Thixotrope, coat: Coat, steps: int, pot_life_s: Range
) -> tuple[MixPlan, ...]:
    recipe = coat_recipe(rubber, coat.pigment, coat.thixotrope_pct, thixotrope)
    limit = rubber_cup_limit(shop, rubber, thixotrope, coat, pot_life_s)
    return cups_of(MixFor(MixKind.COAT, coat.id), grams(steps, shop.scale_g), recipe, limit, shop.scale_g)


def packed_layers(rubber: Rubber, depth_mm: float) -> int:
    """Layers of fill that are dried one after the other: `ceil(depth / pack)`; none where the rubber cures in depth.

    Parameters
    ----------
    rubber : its sheet
    depth_mm : how deep the place is [mm], >= 0

    Source: the sheet's `pack_mm`.
    """
    return 0 if rubber.pack_mm is None else ceil(depth_mm / rubber.pack_mm.likely - 1e-6)


def _refuse_what_never_dries(rubber: Rubber, spots: Sequence[SpotPlan]) -> None:
    deepest_mm = max((spot.depth_mm for spot in spots), default=0.0)
    if rubber.pack_mm is None or packed_layers(rubber, deepest_mm) <= MOST_PACKED_LAYERS:
        return
    raise NoSafePlan(
        "too-deep-to-dry",
        round(deepest_mm, 1),
        MOST_PACKED_LAYERS * rubber.pack_mm.likely,
        "mm",
        f"An undercut is deeper than {rubber.name} can be packed, it dries only in thin layers: take a silicone or a "
        "urethane rubber (mold.rubber), or stand the original another way (original.up).",
    )


def _part(volume_ml: float, density_g_ml: float, shop: ShopOrder, rubber: Rubber) -> PartPlan:
    net_g = volume_ml * density_g_ml
    return PartPlan(volume_ml, round(net_g, 4), mixed_g(net_g, shop, rubber, Range.exactly(0.0)))


def _spots(glove: GloveMeasures, coats: Sequence[Coat], density_g_ml: float) -> list[SpotPlan]:
    after = {SpotKind.CREVICE: coats[build_index(len(coats))].id, SpotKind.UNDERCUT: coats[-1].id}
    return [
        SpotPlan(
            spot_id(number),
            spot.at,
            spot.depth_mm,
            spot.volume_ml,
            round(spot.volume_ml * density_g_ml, 3),
            after[spot.kind],
        )
        for number, spot in enumerate(glove.spots, start=1)
    ]


def _planned(coat: Coat, volume_ml: float, density_g_ml: float, need: Range, mixes: Sequence[MixPlan]) -> CoatPlan:
    return CoatPlan(
        coat.id,
        coat.name,
        coat.thickness_mm,
        coat.thixotrope_pct,
        coat.pigment,
        coat.gesture,
        coat.passes,
        volume_ml=volume_ml,
        net_g=round(volume_ml * density_g_ml, 4),
        mixed_g=need,
        cups=sum(mix.for_.coat == coat.id for mix in mixes),
    )
