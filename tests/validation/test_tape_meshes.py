"""Meshes measured as a person would, with tape and calipers, against their true volume and area (trimesh, reference
library). Packaged meshes and bodies of our own; what is asked of the ranges holds on those that nothing was tuned on.

`python -m tests.validation.test_tape_meshes` prints every one, with readings of three persons.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from functools import cache

import pytest
from tests.tape_bodies import Measured, bodies
from tests.tape_measuring import Reader, tape_of

from moldwright.ranges import Range
from moldwright.tape.sums import gap_mm3
from moldwright.tape.taped import Taped, taped

SOURCE = ("Volume and area of packaged meshes by reference library trimesh; measured as a person would, by hand",)
LEVELS = (6, 8, 10)
GAP_FULL = 0.75


@dataclass(frozen=True, slots=True)
class Found:
    """What the tape told of a body, and what the body is [ml, cm2]."""

    volume_ml: float
    area_cm2: float
    taped: Taped

    @property
    def hit(self) -> tuple[bool, bool]:
        """Whether volume and area lie in their ranges."""
        volume, area = self.taped.volume_ml, self.taped.area_cm2
        return volume.low <= self.volume_ml <= volume.high, area.low <= self.area_cm2 <= area.high


def half(found: Range) -> float:
    return (found.high - found.low) / 2 / found.likely


@cache
def found_of(name: str, seed: int, levels: int) -> Found:
    one = next(body for body in bodies() if body.name == name)
    body = one.body()
    told_mm3 = GAP_FULL * sum(gap_mm3(gap) for gap in one.gaps)
    tape = tape_of(body, one.limbs, Reader(seed, levels), told_mm3)
    return Found(body.volume / 1000, body.area / 100, taped(tape, round(body.extents[2]), one.gaps))


def all_of(tuning: bool) -> list[Measured]:
    return [one for one in bodies() if one.tuning is tuning]


SMALL_MM = 90.0
"""Three millimeters of height are much on a piece that is lower: its range is wider."""


def check(names: list[str], volumes: int, areas: int) -> None:
    """So many may be missed by their volume, and by their area."""
    try:
        found = [found_of(name, 22, 8) for name in names]
    except FileNotFoundError:
        pytest.skip("the meshes of libcgal-demo are not here; set MOLDWRIGHT_MESHES")
    hits = [one.hit for one in found]
    assert sum(volume for volume, _ in hits) >= len(names) - volumes, list(zip(names, hits, strict=True))
    assert sum(area for _, area in hits) >= len(names) - areas, list(zip(names, hits, strict=True))
    for one in found:
        small = one.taped.height_mm < SMALL_MM
        assert half(one.taped.volume_ml) <= (0.16 if small else 0.122)
        assert half(one.taped.area_cm2) <= 0.153


@pytest.mark.slow
def test_the_ranges_of_unseen_bodies_hold_what_is_true() -> None:
    """Nine bodies; one may be missed by its volume, one by its area."""
    check([one.name for one in all_of(False)], 1, 1)


@pytest.mark.slow
def test_the_ranges_of_tuned_bodies_hold_what_is_true() -> None:
    """Of nine: a spiral and the demo's sculpture have more folds than the range of areas knows."""
    check([one.name for one in all_of(True)], 1, 2)


def told(name: str) -> str:
    """One line of the report."""
    row = []
    for seed, levels in zip((21, 22, 23), LEVELS, strict=True):
        found = found_of(name, seed, levels)
        for true, range_, hit in zip(
            (found.volume_ml, found.area_cm2), (found.taped.volume_ml, found.taped.area_cm2), found.hit, strict=True
        ):
            row.append(f"{' ' if hit else '!'}{true / range_.likely:.2f} ±{half(range_):.3f}")
    return f"{name:12}" + "  ".join(row)


if __name__ == "__main__":
    for one in bodies():
        if len(sys.argv) == 1 or one.name in sys.argv[1:]:
            print("tuned " if one.tuning else "unseen", told(one.name), flush=True)
