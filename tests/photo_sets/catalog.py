"""The bodies that the reconstruction is tried on, each with its material, sheet and seed; which half is for tuning.

The plain rule: of each of the two lists, every second one from the first is for tuning, the others are unseen.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import trimesh
from tests.photo_sets.bodies import OWN
from tests.photo_sets.materials import Material
from tests.photo_sets.real import PACKAGED, packaged

from moldwright.photos.sheet.layout import photo_sheet
from moldwright.photos.sheet.sizes import METRIC, SheetSize


@dataclass(frozen=True, slots=True)
class Entry:
    """A body by its name, how to make it, what it is made of, and whether it may be tuned on."""

    name: str
    make: Callable[[], trimesh.Trimesh]
    material: Material
    seed: int
    tuning: bool


def catalog() -> tuple[Entry, ...]:
    """All bodies, the packaged ones first."""
    made = [(one.file.partition(".")[0], partial(packaged, one)) for one in PACKAGED] + [(o.name, o.mesh) for o in OWN]
    return tuple(_entry(n, name, make) for n, (name, make) in enumerate(made))


def entry(name: str) -> Entry:
    """One of them."""
    return next(one for one in catalog() if one.name == name)


def fitting(body: trimesh.Trimesh) -> SheetSize:
    """The smallest sheet whose middle holds the body's base and that is at least as long as it is tall."""
    short, long = sorted(body.extents[:2])
    for size in METRIC:
        wide, deep = photo_sheet(size).middle_mm
        if short <= 0.95 * wide and long <= 0.95 * deep and body.extents[2] <= size.length_mm:
            return size
    return METRIC[-1]


def _entry(n: int, name: str, make: Callable[[], trimesh.Trimesh]) -> Entry:
    return Entry(name, make, tuple(Material)[n % len(Material)], 100 + n, n % 2 == 0)
