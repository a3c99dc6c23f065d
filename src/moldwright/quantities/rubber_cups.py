"""The cups of rubber of a job: those of a coat, and the thicker ones that are packed after it."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from moldwright.commission.orders import ShopOrder
from moldwright.cure.lasting import HAND_S
from moldwright.materials import Rubber
from moldwright.materials.kinds import Thixotrope
from moldwright.mixing.cup import CupClock, CupLimit, cup_limit
from moldwright.mixing.recipe import Recipe
from moldwright.mixing.rubber import packing_pct, rubber_recipe
from moldwright.plan.coats import Coat
from moldwright.plan.mixes import MixFor, MixKind, MixPlan, TaskKind
from moldwright.quantities.measured_cups import measured_cups
from moldwright.ranges import Range

SPOT_S = 180.0
"""What the hand takes to pack one place, beside laying its rubber: common practice, no source."""


@dataclass(frozen=True, slots=True)
class RubberBench:
    """What all cups of rubber of a job share."""

    shop: ShopOrder
    rubber: Rubber
    thixotrope: Thixotrope
    pot_life_s: Range

    def coat_cups(self, coat: Coat, need_g: float) -> tuple[MixPlan, ...]:
        """The cups of a coat, its share of the flange counted [g]."""
        recipe = rubber_recipe(self.rubber, coat.pigment, coat.thixotrope_pct, self.thixotrope)
        limit = rubber_cup_limit(self.shop, self.rubber, recipe, self.pot_life_s)
        return measured_cups(self.shop, self.rubber, MixFor(MixKind.COAT, coat.id), need_g, recipe, limit)

    def fill_cups(self, coat: Coat, need_g: float, spots: int) -> tuple[MixPlan, ...]:
        """The thicker cups that are packed after a coat, in its color."""
        if need_g <= 0.0:
            return ()
        recipe = rubber_recipe(self.rubber, coat.pigment, packing_pct(self.thixotrope), self.thixotrope)
        limit = rubber_cup_limit(self.shop, self.rubber, recipe, self.pot_life_s, spots / need_g)
        return measured_cups(self.shop, self.rubber, MixFor(MixKind.FILL, coat.id), need_g, recipe, limit)


def rubber_cup_limit(
    shop: ShopOrder, rubber: Rubber, recipe: Recipe, pot_life_s: Range, spots_per_g: float = 0.0
) -> CupLimit:
    """The most that one cup of rubber may hold; a rubber of one part has no clock, it waits under its lid.

    Parameters
    ----------
    shop : cup, mixing time, laying rate
    rubber : its sheet
    recipe : what is in the cup
    pot_life_s : at the shop's temperature [s]
    spots_per_g : places that a gram of it is packed into; 0: it is laid

    Source: common practice, no source.
    """
    stated_g = rubber.pot_life_mass_g.likely if rubber.chemistry.heats_itself else inf
    life_s = pot_life_s.low if rubber.two_part else inf
    hand_s_per_g = 60.0 / shop.lay_g_per_min + SPOT_S * spots_per_g
    hand = TaskKind.PACK if spots_per_g > 0.0 else TaskKind.LAY
    clock = CupClock(life_s, shop.mix_min * 60.0, hand, hand_s_per_g, stated_g, least_s=HAND_S)
    return cup_limit(clock, shop.cup_ml, recipe.density_g_ml)
