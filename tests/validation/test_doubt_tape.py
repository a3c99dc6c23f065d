"""Packaged meshes known by a tape only: does what is planned of the shell hold on the true mesh?

Each mesh is measured as a person would, with tape and calipers (tests/tape_measuring.py). The shell is planned on the
solid that stands for it, then laid on the true mesh and proven as in `tests.validation.test_doubt_meshes`.

How much a tape may span (`moldwright.job.doubting.SPANNED_SHARE`) is set on the ten bodies of our own
(tests/photo_sets/bodies.py), none of which is here, as split conformal prediction sets it.

`python -m tests.validation.test_doubt_tape` prints every mesh, with `own` every body of our own.
"""

from __future__ import annotations

import sys
from functools import cache

import pytest
from tests.doubt_rows import Row, row_of, score_needed
from tests.held_truth import Guessed
from tests.photo_sets.bodies import OWN
from tests.validation.test_tape_meshes import body_of, found_of

from moldwright.job.doubting import MORE
from moldwright.plan.original import Source

SOURCE = (
    "Packaged meshes of libcgal-demo and pyvista, measured by tape; booleans by manifold3d, rays by Embree",
    "Split conformal prediction: Lei and others 2018, J. Am. Stat. Assoc. 113, 1094 (from memory)",
    "What is packed on the true mesh, built with the planned draws and seam; computed, no table of others",
)
pytestmark = pytest.mark.slow
OWN_NAMES = tuple(each.name for each in OWN)
PACKAGED_NAMES = ("bear", "nut", "hand", "mask_cone", "bull", "triceratops")
READER, LEVELS = 22, 8


@cache
def row(name: str) -> Row:
    """What came of a body by one person's tape."""
    taped, (_, body) = found_of(name, READER, LEVELS).taped, body_of(name)
    return row_of(name, Guessed(body, taped.mesh, taped.spread, Source.TAPE))


@cache
def proven() -> tuple[Row, ...]:
    """What held of each packaged mesh."""
    try:
        rows = tuple(map(row, PACKAGED_NAMES))
    except FileNotFoundError:
        pytest.skip("the meshes of libcgal-demo are not here; set MOLDWRIGHT_MESHES")
    print(*rows, sep="\n")
    return rows


def test_the_ranges_by_tape_go_as_far_as_our_own_bodies_ask() -> None:
    rows = tuple(map(row, OWN_NAMES))
    print(*rows, sep="\n")
    assert score_needed(rows) <= MORE


def test_the_shell_planned_by_tape_comes_off_the_true_mesh() -> None:
    assert all(each.comes_off for each in proven())


def test_what_is_packed_on_the_true_mesh_lies_in_the_range_by_tape() -> None:
    assert all(each.holds for each in proven())


def main(names: list[str]) -> None:
    """Those named; all packaged ones where none is."""
    for name in OWN_NAMES if names == ["own"] else names or PACKAGED_NAMES:
        print(row(name), flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
