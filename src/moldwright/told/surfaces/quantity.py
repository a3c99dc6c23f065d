"""What a quantity on a surface is, and how they are found: a module here that holds QUANTITY adds one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from moldwright.mold.seen import Points, SeenMold
from moldwright.plan.plan import Plan
from moldwright.told import surfaces
from moldwright.units.system import UnitSystem


class Solid(StrEnum):
    """The solids that are looked at."""

    ORIGINAL = "original"
    MOUNT = "mount"
    COAT = "coat"
    RUBBER = "rubber"
    SHELL = "shell"


@dataclass(frozen=True, slots=True)
class SurfaceQuantity:
    """A length that every place of a surface has.

    Parameters
    ----------
    name : of it in files and addresses.
    rank : the least is offered first.
    title, row : what it is called over its legend, and beside one number.
    told : what its legend says of it, for a plan in the reader's units; the allowed value among it.
    colors : the map of the design tokens, "thickness" for --thickness1 to --thickness8.
    on : the solid that it is seen on: the last coat, or the packed rubber.
    at : the lengths at points with their normals, NaN where there is none [mm].
    common_mm : what most places have, which no limit of the legend parts; None for none such.
    allowed_mm : past this it is hatched; None where nothing is allowed or forbidden.
    """

    name: str
    rank: int
    title: str
    row: str
    told: Callable[[Plan, UnitSystem], str]
    colors: str
    on: Solid
    at: Callable[[SeenMold, Points, Points], Points]
    common_mm: Callable[[Plan], float | None]
    allowed_mm: Callable[[Plan], float | None]


@cache
def quantities_on_surfaces() -> tuple[SurfaceQuantity, ...]:
    """Every one there is, in their order."""
    return tuple(sorted(_found(), key=lambda each: each.rank))


def _found() -> Iterator[SurfaceQuantity]:
    for module in iter_modules(surfaces.__path__):
        found = getattr(import_module(f"{surfaces.__name__}.{module.name}"), "QUANTITY", None)
        if found is not None:
            yield found
