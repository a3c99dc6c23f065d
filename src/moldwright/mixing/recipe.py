"""What goes into a cup, in which order."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum

from moldwright.materials.mixture import mixture_density_g_ml


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One part of a mix.

    `share`: its mass per gram of mix (any common scale); `density_g_ml`: as it is measured in a cup (a powder's
    apparent density, loose); `true_density_g_ml`: what it takes up in the mix.
    """

    name: str
    share: float
    density_g_ml: float
    true_density_g_ml: float


@dataclass(frozen=True, slots=True)
class Recipe:
    """Ingredients in the order in which they go into the cup; `pair`: the two whose ratio decides the cure."""

    ingredients: tuple[Ingredient, ...]
    pair: tuple[str, str] | None

    @property
    def whole(self) -> float:
        return fsum(part.share for part in self.ingredients)

    @property
    def density_g_ml(self) -> float:
        """Density of the stirred mix without air [g/ml]."""
        return mixture_density_g_ml(
            [part.share for part in self.ingredients], [part.true_density_g_ml for part in self.ingredients]
        )

    def fraction(self, name: str) -> float:
        """Mass of one ingredient per gram of mix."""
        return fsum(part.share for part in self.ingredients if part.name == name) / self.whole


def liquid(name: str, share: float, density_g_ml: float) -> Ingredient:
    """An ingredient that is measured as dense as it is.

    Parameters
    ----------
    name : what is on its pot
    share : its mass per gram of mix, on any common scale
    density_g_ml : its density [g/ml]

    Source: house rule.
    """
    return Ingredient(name, share, density_g_ml, density_g_ml)


def rubber_recipe(
    a: Ingredient,
    b: Ingredient | None,
    pigment: Ingredient | None,
    thixotrope: Ingredient | None,
    pigment_part: str = "B",
) -> Recipe:
    """A coat's mix: one part, its pigment stirred in, then the other (the clock starts), then the thixotropic agent.

    Parameters
    ----------
    a : the first part
    b : the second part; None for a rubber of one part
    pigment : the coat's color, share per gram of the mix; None for none
    thixotrope : thixotropic agent, share per gram of the mix; None for none
    pigment_part : "A" or "B", the part that takes the pigment

    Source: common practice, no source (pigment into one part, B is usual, before the parts meet).

    >>> rubber_recipe(liquid("A", 1, 1.08), liquid("B", 1, 1.08), liquid("pigment, yellow", 0.01, 1.1), None).pair
    ('A', 'B')
    """
    first, last = (a, ()) if b is None else (b, (a,)) if pigment_part == "B" else (a, (b,))
    extras = tuple(part for part in (thixotrope,) if part is not None and part.share > 0)
    color = () if pigment is None else (pigment,)
    return Recipe((first, *color, *last, *extras), None if b is None else (a.name, b.name))
