"""Meshes measured as a person would, with tape and calipers, against their true volume and area (trimesh, reference
library). Packaged meshes and bodies of our own; what is asked of the ranges holds on those that nothing was tuned on.

`python -m tests.validation.test_tape_meshes` prints every one, with readings of three persons.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
import trimesh
from tests.tape_bodies import Measured, bodies
from tests.tape_measuring import Reader, tape_of, with_levels

from moldwright.errors import InputRefused
from moldwright.job.sources import by_tape
from moldwright.original.evidence.measured import displaced
from moldwright.original.evidence.narrow import together
from moldwright.ranges import NINETY, Range
from moldwright.tape.narrower import SMALL_MM, Wanted
from moldwright.tape.taped import Taped, taped
from moldwright.tape.told import gap_mm3
from moldwright.units.read_off import ReadOff

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
def body_of(name: str) -> tuple[Measured, trimesh.Trimesh]:
    one = next(body for body in bodies() if body.name == name)
    return one, one.body()


@cache
def found_of(name: str, seed: int, levels: int) -> Found:
    """At so many heights, and at those besides that the tool then asks for, twice at most."""
    one, body = body_of(name)
    told_mm3 = GAP_FULL * sum(gap_mm3(gap) for gap in one.gaps)
    reader = Reader(seed, levels)
    tape = tape_of(body, one.limbs, reader, told_mm3)
    found = taped(tape, round(body.extents[2]), one.gaps)
    for _ in range(2):
        at_mm = [more.about_mm for more in found.narrower if more.ask is Wanted.LEVEL]
        if at_mm:
            tape = with_levels(tape, at_mm, body, one.limbs, reader)
            found = taped(tape, round(body.extents[2]), one.gaps)
    return Found(body.volume / 1000, body.area / 100, found)


def all_of(tuning: bool) -> list[Measured]:
    return [one for one in bodies() if one.tuning is tuning]


def check(names: list[str], volumes: int, areas: int) -> None:
    """So many may be missed by their volume, and by their area.

    Half the range is 12 % of the volume and 15 % of the area at most, for pieces of 90 mm and more. Readings are off by
    millimeters: on a smaller one its range is as much wider, and the tool asks for water.
    """
    found = all_found(names)
    hits = [one.hit for one in found]
    assert sum(volume for volume, _ in hits) >= len(names) - volumes, list(zip(names, hits, strict=True))
    assert sum(area for _, area in hits) >= len(names) - areas, list(zip(names, hits, strict=True))
    for name, one in zip(names, found, strict=True):
        small = one.taped.height_mm < SMALL_MM
        assert small is (Wanted.SMALL in [more.ask for more in one.taped.narrower]), name
        assert half(one.taped.volume_ml) <= (0.20 if small else 0.12), name
        assert half(one.taped.area_cm2) <= (0.165 if small else 0.15), name


def all_found(names: list[str]) -> list[Found]:
    try:
        return [found_of(name, 22, 8) for name in names]
    except FileNotFoundError:
        pytest.skip("the meshes of libcgal-demo are not here; set MOLDWRIGHT_MESHES")


@pytest.mark.slow
def test_the_ranges_of_unseen_bodies_hold_what_is_true() -> None:
    """Ten bodies; one may be missed by its volume, one by its area."""
    names = [one.name for one in all_of(False)]
    assert len(names) == 10
    check(names, 1, 1)


@pytest.mark.slow
def test_the_ranges_of_tuned_bodies_hold_what_is_true() -> None:
    """Of nine: a spiral and the demo's sculpture have more folds than the range of areas knows."""
    check([one.name for one in all_of(True)], 1, 2)


@pytest.mark.slow
def test_water_narrows_the_range_to_a_few_percent() -> None:
    """Every unseen body sunk in a full bucket: what runs over is caught and read in a jug, off by 2 % in nine of ten
    (common practice, no source) and to the jug's mark. A tape that the water contradicts is a stop, never a range."""
    chance = np.random.default_rng(22)
    names = [one.name for one in all_of(False)]
    held, stopped = 0, []
    for name, one in zip(names, all_found(names), strict=True):
        water = displaced(poured(one.volume_ml * (1.0 + 0.02 / NINETY * chance.normal())))
        try:
            told = together([by_tape(one.taped), water]).volume_ml
        except InputRefused as refused:
            if refused.code != "sources-disagree":
                raise
            stopped.append(name)
            continue
        assert half(told) <= 0.04, name
        held += told.low <= one.volume_ml <= told.high
    assert held >= 8
    assert len(stopped) <= 1, stopped


def poured(true_ml: float) -> ReadOff:
    """A jug's marks: 1 ml apart up to 100 ml, 10 ml up to a liter, else 50 ml."""
    mark_ml = 1.0 if true_ml < 100.0 else 10.0 if true_ml < 1000.0 else 50.0
    return ReadOff(round(true_ml / mark_ml) * mark_ml, mark_ml)


def told(name: str) -> str:
    """One line of the report."""
    row = []
    for seed, levels in zip((401, 402, 403), LEVELS, strict=True):
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
