"""Mending refuses what it could not finish, tells how far it is, and stops where the caller raises."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest

from moldwright.errors import InputRefused, NoSafePlan
from moldwright.geometry.mesh import Mesh
from moldwright.original.mending.budget import MOST_HOLES, MOST_PARTS
from moldwright.original.mending.solid import stand
from moldwright.original.mending.through_holes import MOST_THROUGH_HOLES, through_holes


def scattered(count: int) -> Mesh:
    corners = np.random.default_rng(1).uniform(0, 100, (3 * count, 3))
    return Mesh(corners, np.arange(3 * count, dtype=np.int32).reshape(-1, 3))


@pytest.mark.parametrize(
    ("count", "code", "limit"), [(100_000, "too-many-parts", MOST_PARTS), (5_000, "too-many-holes", MOST_HOLES)]
)
def test_triangles_at_random_are_refused_with_what_to_do(count: int, code: str, limit: int) -> None:
    with pytest.raises(InputRefused) as refused:
        stand(scattered(count))
    assert (refused.value.code, refused.value.actual, refused.value.limit) == (code, count, limit)
    assert "one closed surface" in refused.value.remedy


def test_large_triangles_in_thousands_are_refused() -> None:
    """One closed body of long slanting needles, whose boxes hold far more points than their surface is near."""
    needle = bodies.mesh(bodies.box(1, 1, 150).rotate((35, 35, 0)))
    at = np.random.default_rng(2).uniform(0, 20, (4_000, 3))
    with pytest.raises(InputRefused) as refused:
        stand(bodies.soup(*(needle.moved(shift) for shift in at)))
    assert refused.value.code == "too-tangled"


class Stopped(Exception):
    """What a caller raises to cancel."""


def test_a_caller_that_raises_from_progress_stops_mending() -> None:
    told: list[str] = []

    def progress(stage: str, fraction: float) -> None:
        assert 0 <= fraction <= 1
        told.append(stage)
        if len(told) == 3:
            raise Stopped

    with pytest.raises(Stopped):
        stand(bodies.mesh(bodies.box(30, 30, 40)), progress)
    assert len(told) == 3


def lattice(rods: int) -> Mesh:
    """Rods along x, y and z at every point of a cube of `rods`^3 points: 3 n^2 (n - 1) - n^3 + 1 holes (Euler)."""
    pitch, width = 6.0, 2.0
    rod = bodies.box(width, width, pitch * (rods - 1) + width)
    places = [(pitch * i, pitch * j) for i in range(rods) for j in range(rods)]
    upright = [rod.translate((x, y, 0)) for x, y in places]
    half = pitch * (rods - 1) / 2
    middle = (-half, -half, -half - width / 2)
    whole = upright[0]
    for way in ((0, 0, 0), (90, 0, 0), (0, 90, 0)):
        for body in upright:
            whole += body.translate(middle).rotate(way).translate((half, half, half + width / 2))
    return bodies.mesh(whole)


def test_a_lattice_of_more_holes_than_a_maker_can_divide_is_refused() -> None:
    """Six rods each way: 3 x 36 x 5 - 216 + 1 = 325 holes."""
    assert bodies.solid(lattice(6)).genus() == 325
    with pytest.raises(NoSafePlan) as refused:
        through_holes(lattice(6), 0.2)
    assert (refused.value.code, refused.value.actual) == ("too-many-through-holes", 325)
    assert refused.value.limit == MOST_THROUGH_HOLES


@pytest.mark.slow
def test_a_small_lattice_has_its_holes_found() -> None:
    """Three rods each way: 3 x 9 x 2 - 27 + 1 = 28 holes."""
    assert len(through_holes(lattice(3), 0.2)) == 28
