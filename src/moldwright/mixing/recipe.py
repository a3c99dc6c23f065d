"""What goes into a cup, in which order."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import fsum

from moldwright.materials.mixture import mixture_density_g_ml
from moldwright.mixing.tolerance import RATIO_TOLERANCE
from moldwright.plan.mixes import REACTING, PartKind


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

    @property
    def liquid(self) -> bool:
        """Whether it can be drawn into a syringe."""
        return self.kind not in (PartKind.POWDER, PartKind.GYPSUM, PartKind.FIBER)


@dataclass(frozen=True, slots=True)
class Recipe:
    """Ingredients in the order in which they go into the cup. Where A and B are both there, their ratio decides the
    cure; `tolerance` is the share by which it may be off."""

    ingredients: tuple[Ingredient, ...]
    tolerance: float = RATIO_TOLERANCE

    @property
    def two_part(self) -> bool:
        """Whether two parts react."""
        return len(self.pair) > 1

    @property
    def ratio(self) -> float | None:
        """Mass of the later of the two parts that react for one gram of the earlier; None for a mix of one part."""
        return self.pair[1].share / self.pair[0].share if self.two_part else None

    @property
    def pair(self) -> tuple[Ingredient, ...]:
        """The two that react, A and B, in the order in which they go in; one where the other is not there."""
        return tuple(part for part in self.ingredients if part.kind in REACTING)

    @property
    def whole(self) -> float:
        return fsum(part.share for part in self.ingredients)

    @property
    def density_g_ml(self) -> float:
        """Density of the stirred mix without air [g/ml]."""
        return mixture_density_g_ml(
            [part.share for part in self.ingredients], [part.true_density_g_ml for part in self.ingredients]
        )


def liquid(kind: PartKind, share: float, density_g_ml: float, name: str = "") -> Ingredient:
    """An ingredient that is measured as dense as it is.

    Parameters
    ----------
    kind : what it is
    share : its mass per gram of mix, on any common scale
    density_g_ml : its density [g/ml]
    name : what is on its pot: a color, "base"

    Source: house rule.
    """
    return Ingredient(kind, share, density_g_ml, density_g_ml, name or kind.value)


def in_order(parts: Iterable[Ingredient | None], order: Sequence[PartKind]) -> tuple[Ingredient, ...]:
    """The ingredients that are there, as they go in.

    Parameters
    ----------
    parts : in any order; None for one that is not there
    order : from `mixing.order`

    Source: house rule.

    >>> in_order((liquid(PartKind.A, 1, 1.0), None, liquid(PartKind.B, 1, 1.0)), (PartKind.B, PartKind.A))[0].name
    'B'
    """
    there = [part for part in parts if part is not None and part.share > 0]
    return tuple(sorted(there, key=lambda part: order.index(part.kind)))
