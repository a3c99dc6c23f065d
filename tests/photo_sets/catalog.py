"""The bodies that the reconstruction is tried on, each with its material, sheet and seed; which half is for tuning.

The plain rule: of each of the two lists, every second one from the first is for tuning, the others are unseen.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import trimesh
from tests.photo_sets.bodies import OWN
from tests.photo_sets.materials import Material
from tests.photo_sets.real import PACKAGED, packaged
from tests.photo_sets.shoot import Shoot, shoot
from tests.photo_sets.truth import Truth, read_truth

from moldwright.photos.sheet.choice import PieceSize, sheet_for
from moldwright.photos.sheet.sizes import SheetSize

DONE = "done"
MADE_OF = (*(one for one in Material if one is not Material.GREENISH), Material.GRAY)
"""Not the sheet's own green: such a piece is to be refused (tests/validation/test_photos_spoiled.py)."""


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


def photographed_set(entry: Entry, sets: Path, wide: int = 1600) -> Truth:
    """The photos of a body of the catalog; rendered once, then kept in their folder."""
    folder = sets / entry.name
    if not (folder / DONE).exists():
        body = entry.make()
        how = Shoot(seed=entry.seed, material=entry.material, width_px=wide, height_px=wide * 3 // 4)
        shoot(body, fitting(body), folder, how)
        (folder / DONE).touch()
    return read_truth(folder)


def fitting(body: trimesh.Trimesh) -> SheetSize:
    """The sheet that the maker is told to print for it."""
    return sheet_for(PieceSize(body.extents[2], *body.extents[:2]), SheetSize.A4)


def _entry(n: int, name: str, make: Callable[[], trimesh.Trimesh]) -> Entry:
    return Entry(name, make, MADE_OF[n % len(MADE_OF)], 100 + n, n % 2 == 0)
