"""What goes into a cup, in which order."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum

from moldwright.materials.mixture import mixture_density_g_ml
from moldwright.plan.mixes import PartKind


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One part of a mix; `name` is a label: a color, the powder's name.

    `share`: its mass per gram of mix (any common scale); `density_g_ml`: as it is measured in a cup (a powder's
    apparent density, loose); `true_density_g_ml`: what it takes up in the mix.
    """

    kind: PartKind
    share: float
    density_g_ml: float
    true_density_g_ml: float
    name: str


@dataclass(frozen=True, slots=True)
class Recipe:
    """Ingredients in the order in which they go into the cup. Where A and B are both there, their ratio decides the
    cure."""

    ingredients: tuple[Ingredient, ...]

    @property
    def two_part(self) -> bool:
        """Whether A and B are both there."""
        return {part.kind for part in self.ingredients} >= {PartKind.A, PartKind.B}

    @property
    def whole(self) -> float:
        return fsum(part.share for part in self.ingredients)

    @property
    def density_g_ml(self) -> float:
        """Density of the stirred mix without air [g/ml]."""
        return mixture_density_g_ml(
            [part.share for part in self.ingredients], [part.true_density_g_ml for part in self.ingredients]
        )

    def fraction(self, kind: PartKind) -> float:
        """Mass of one kind of part per gram of mix."""
        return fsum(part.share for part in self.ingredients if part.kind is kind) / self.whole


def liquid(kind: PartKind, share: float, density_g_ml: float, name: str = "") -> Ingredient:
    """An ingredient that is measured as dense as it is.

    Parameters
    ----------
    kind : what it is
    share : its mass per gram of mix, on any common scale
    density_g_ml : its density [g/ml]
    name : what is on its pot, a color

    Source: house rule.
    """
    return Ingredient(kind, share, density_g_ml, density_g_ml, name or kind.value)


def rubber_recipe(
    a: Ingredient,
    b: Ingredient | None,
    pigment: Ingredient | None,
    thixotrope: Ingredient | None,
    pigment_part: PartKind = PartKind.B,
) -> Recipe:
    """A coat's mix: one part, its pigment stirred in, then the other (the clock starts), then the thixotropic agent.

    Parameters
    ----------
    a : the first part
    b : the second part; None for a rubber of one part
    pigment : the coat's color, share per gram of the mix; None for none
    thixotrope : thixotropic agent, share per gram of the mix; None for none
    pigment_part : A or B, the part that takes the pigment

    Source: common practice, no source (pigment into one part, B is usual, before the parts meet).

    >>> a, b = liquid(PartKind.A, 1, 1.08), liquid(PartKind.B, 1, 1.08)
    >>> [part.kind.value for part in rubber_recipe(a, b, liquid(PartKind.PIGMENT, 0.01, 1.1), None).ingredients]
    ['B', 'pigment', 'A']
    """
    first, last = (a, ()) if b is None else (b, (a,)) if pigment_part is PartKind.B else (a, (b,))
    extras = tuple(part for part in (thixotrope,) if part is not None and part.share > 0)
    color = () if pigment is None else (pigment,)
    return Recipe((first, *color, *last, *extras))
