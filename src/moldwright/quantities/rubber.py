"""Rubber: what each coat, the flange and the fill need, and the cups that carry it.

The flange is laid with every coat, so it has no cups of its own: a coat's cups carry its own rubber and a share of the
flange in proportion to the coats' thickness. What is packed has cups of its own, thicker: crevices follow the first
build coat, undercuts the last coat. What is mixed is what the cups hold: over all rubber cups the masses sum exactly to
coats + flange + fill, each as the likely value of `mixed_g`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, fsum

from moldwright.commission.orders import ShopOrder
from moldwright.errors import ComputationFailed, NoSafePlan
from moldwright.materials import Rubber
from moldwright.materials.kinds import Thixotrope
from moldwright.mixing.rubber import rubber_density_g_ml
from moldwright.mixing.scale_steps import apportion, grams, steps_of
from moldwright.mold.measures import GloveMeasures, SpotKind
from moldwright.plan.coats import Coat, CoatPlan
from moldwright.plan.ids import CoatId
from moldwright.plan.mixes import MixKind, MixPlan
from moldwright.plan.mold import PartPlan, SmallSpots, SpotPlan
from moldwright.quantities.mixed import HAND, TOOL_LOSS_G, mixed_g
from moldwright.quantities.rubber_cups import RubberBench
from moldwright.quantities.spots import spot_plans
from moldwright.ranges import NO_SPREAD, SURELY, Range, Spread
from moldwright.ways import Change, word

MOST_PACKED_LAYERS = 12
"""More layers of fill than this, each a day's drying, nobody lays: common practice, no source."""


@dataclass(frozen=True, slots=True)
class RubberQuantities:
    """What the coats, the flange and the fill take, and the cups that carry them. `laid`: how the glove comes out
    against its solid, as a factor."""

    coats: tuple[CoatPlan, ...]
    flange: PartPlan
    fill: PartPlan
    spots: tuple[SpotPlan, ...]
    small_spots: tuple[SmallSpots, ...]
    laid: Range
    mixes: tuple[MixPlan, ...]

    def small_g(self, after: CoatId) -> float:
        """What is packed after a coat in places without a number [g].

        Parameters
        ----------
        after : the coat's id.
        """
        return fsum(small.net_g for small in self.small_spots if small.after == after)

    def packed_before(self, coat: CoatId) -> bool:
        """Whether something was packed already when what follows a coat is.

        Parameters
        ----------
        coat : the coat's id.
        """
        order = [each.id for each in self.coats]
        packed = {mix.for_.coat for mix in self.mixes if mix.for_.kind is MixKind.FILL}
        return any(each in packed for each in order[: order.index(coat)])

    @property
    def glove_g(self) -> Range:
        """Predicted weight of the peeled, trimmed glove [g]."""
        return self.laid * (fsum(coat.net_g for coat in self.coats) + self.flange.net_g + self.fill.net_g)

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
    spread: Spread = NO_SPREAD,
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
    spread : how well the solids stand for the original

    Source: common practice, no source.
    """
    if len(coats) != len(glove.coat_ml):
        raise ComputationFailed(
            "coat-count", len(glove.coat_ml), len(coats), "coats", "Plan the glove again with the same coats."
        )
    bench = RubberBench(shop, rubber, thixotrope, pot_life_s)
    density = rubber_density_g_ml(rubber)
    needs = tuple(
        mixed_g(volume_ml * density, shop, rubber, TOOL_LOSS_G[coat.gesture], spread.rubber)
        for coat, volume_ml in zip(coats, glove.coat_ml, strict=True)
    )
    flange = _part(glove.flange_ml, density, shop, rubber, SURELY)
    fill = _part(glove.fill_ml, density, shop, rubber, _packing_doubt(glove.fill_ml, spread))
    rims = flange_shares(coats, flange, shop.scale_g)
    laid = [bench.coat_cups(coat, need.likely + rim_g) for coat, need, rim_g in zip(coats, needs, rims, strict=True)]
    spots, small = spot_plans(glove, fill, _follows(coats), shop.scale_g)
    packed = _packed(bench, coats, glove, fill, spots)
    filling = [cup for cups in packed for cup in cups]
    planned = tuple(
        _planned(coat, volume_ml, density, _by_cups(need, cups, rim_g), len(cups))
        for coat, volume_ml, need, cups, rim_g in zip(coats, glove.coat_ml, needs, laid, rims, strict=True)
    )
    fill = replace(fill, mixed_g=_by_cups(fill.mixed_g, filling, 0.0))
    mixes = tuple(cup for pair in zip(laid, packed, strict=True) for cups in pair for cup in cups)
    _refuse_what_never_dries(rubber, spots)
    factor = HAND.doubted(_doubt(glove.volume_ml, _unseen_ml(glove.fill_ml, spread), spread))
    return RubberQuantities(planned, flange, fill, spots, small, factor, mixes)


def flange_shares(coats: Sequence[Coat], flange: PartPlan, step_g: float) -> tuple[float, ...]:
    """What the cups of each coat hold for the flange [g], in proportion to its thickness.

    Parameters
    ----------
    coats : the coats
    flange : the flange's needs
    step_g : the scale's step [g]

    Source: arithmetic; nothing is lost between the rows.
    """
    steps = apportion(steps_of(flange.mixed_g.likely, step_g), [coat.thickness_mm for coat in coats])
    return tuple(grams(each, step_g) for each in steps)


def build_index(coats: int) -> int:
    """Which coat is the first build coat: the second, or the only one.

    Parameters
    ----------
    coats : how many coats, >= 1

    Source: common practice, no source.
    """
    return min(1, coats - 1)


def _packed(
    bench: RubberBench, coats: Sequence[Coat], glove: GloveMeasures, fill: PartPlan, spots: Sequence[SpotPlan]
) -> list[tuple[MixPlan, ...]]:
    """The cups that are packed after each coat; a place at least for what takes any."""
    step_g, share, follows = bench.shop.scale_g, glove.crevice_share, _follows(coats)
    steps = apportion(steps_of(fill.mixed_g.likely, step_g), (share, 1.0 - share))
    needs = dict(zip((SpotKind.CREVICE, SpotKind.UNDERCUT), steps, strict=True))
    packed = []
    for coat in coats:
        here = [kind for kind, after in follows.items() if after == coat.id]
        places = max(sum(spot.after == coat.id for spot in spots), 1)
        packed.append(bench.fill_cups(coat, grams(sum(needs[kind] for kind in here), step_g), places))
    return packed


def _follows(coats: Sequence[Coat]) -> dict[SpotKind, CoatId]:
    """Which coat each kind of place is packed after."""
    return {SpotKind.CREVICE: coats[build_index(len(coats))].id, SpotKind.UNDERCUT: coats[-1].id}


def _by_cups(need: Range, cups: Sequence[MixPlan], rim_g: float) -> Range:
    """What is mixed, `rim_g` of the cups left to the flange [g]: the cups' sum, its bounds as far from it as the
    need's."""
    over_g = fsum(cup.mass_g for cup in cups) - rim_g - need.likely if cups else 0.0
    return Range(*(round(each + over_g, 6) for each in (need.low, need.likely, need.high)))


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
        f"An undercut is deeper than {word(rubber.name)} can be packed, it dries only in thin layers: stand the "
        "original another way, or take a silicone or a urethane rubber",
        Change("mold.rubber"),
    )


def _part(volume_ml: float, density_g_ml: float, shop: ShopOrder, rubber: Rubber, doubt: Range) -> PartPlan:
    net_g = volume_ml * density_g_ml
    return PartPlan(volume_ml, round(net_g, 4), mixed_g(net_g, shop, rubber, Range.exactly(0.0), doubt))


def _packing_doubt(fill_ml: float, spread: Spread) -> Range:
    """Factor on what is packed: over the solids that the original could be, where they were tried."""
    told = spread.packing_ml
    if told is None or fill_ml <= 0:
        return _doubt(fill_ml, spread.unseen_ml, spread)
    return Range(min(told.low / fill_ml, 1.0), 1.0, max(told.high / fill_ml, 1.0))


def _unseen_ml(fill_ml: float, spread: Spread) -> float:
    """What may be packed beyond the plan [ml]."""
    return spread.unseen_ml if spread.packing_ml is None else max(spread.packing_ml.high - fill_ml, 0.0)


def _doubt(volume_ml: float, unseen_ml: float, spread: Spread) -> Range:
    """Factor on a part that holds the fill: as the rubber's, and what unseen recesses may take beyond."""
    if volume_ml <= 0:
        return SURELY
    return Range(spread.rubber.low, 1.0, spread.rubber.high + unseen_ml / volume_ml)


def _planned(coat: Coat, volume_ml: float, density_g_ml: float, mixed: Range, cups: int) -> CoatPlan:
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
        mixed_g=mixed,
        cups=cups,
    )
