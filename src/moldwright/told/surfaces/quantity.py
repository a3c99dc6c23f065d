"""What a quantity on a surface is, and how they are found: a module here that holds QUANTITY adds one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from typing import TYPE_CHECKING, cast

from moldwright.plan.plan import Plan
from moldwright.plan.thickness import LengthAt
from moldwright.sheets.palettes import Palette
from moldwright.told import surfaces
from moldwright.told.surfaces.scale import LENGTH, SurfaceScale
from moldwright.units.system import UnitSystem
from moldwright.words.marked import Words

if TYPE_CHECKING:
    from moldwright.mold.seen import Points, SeenMold


class Solid(StrEnum):
    """The solids that are looked at."""

    ORIGINAL = "original"
    MOUNT = "mount"
    COAT = "coat"
    RUBBER = "rubber"
    SHELL = "shell"


def _none(plan: Plan) -> None:
    return None


@dataclass(frozen=True, slots=True)
class SurfaceQuantity:
    """What every place of a surface has: a length, or so many times one as `scale` says; all its values are in that.

    Parameters
    ----------
    name : of it in files and addresses.
    rank : the least is offered first.
    title, row : what it is called over its legend, and beside one number.
    told : what its legend says of it, for a plan in the reader's units; the allowed value among it.
    colors : of its leaves.
    on : the solid that it is seen on: the last coat, or the packed rubber.
    at : "moldwright.room.module:function" of the lengths at points with their normals, NaN where there is none [mm];
        its module, which computes, is imported when it must.
    common_mm : what most places have, which no limit of the legend parts; None for none such.
    allowed_mm, needed_mm : past the one, and short of the other, it is hatched; None where nothing is.
    places : where it is least and most, where the plan tells, None: not marked; else both are found.
    scale : what it is measured in.
    at_bench : what a hand does by it: it is printed on the bench sheets then; None, or nothing told: it is not.
    """

    name: str
    rank: int
    title: Words
    row: Words
    told: Callable[[Plan, UnitSystem], str]
    colors: Palette
    on: Solid
    at: str
    common_mm: Callable[[Plan], float | None] = _none
    allowed_mm: Callable[[Plan], float | None] = _none
    needed_mm: Callable[[Plan], float | None] = _none
    places: Callable[[Plan], tuple[LengthAt | None, LengthAt | None] | None] = _none
    at_bench: Callable[[Plan, UnitSystem], str] | None = None
    scale: SurfaceScale = LENGTH

    def values_mm(self, mold: SeenMold, points: Points, normals: Points) -> Points:
        """(n,) what it is at places of its solid, NaN where there is none [mm].

        Parameters
        ----------
        mold : the mold.
        points, normals : (n, 3) on the solid [mm], and its outward unit vectors there.
        """
        module, _, name = self.at.partition(":")
        function = cast("Callable[[SeenMold, Points, Points], Points]", getattr(import_module(module), name))
        return function(mold, points, normals)


@cache
def quantities_on_surfaces() -> tuple[SurfaceQuantity, ...]:
    """Every one there is, in their order."""
    return tuple(sorted(_found(), key=lambda each: each.rank))


def _found() -> Iterator[SurfaceQuantity]:
    for module in iter_modules(surfaces.__path__):
        found = getattr(import_module(f"{surfaces.__name__}.{module.name}"), "QUANTITY", None)
        if found is not None:
            yield found
