"""An open scan stands on its open rim; a large hole elsewhere is asked about. Shapes are cut from spheres and boxes."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from original_files import Shape, box, frustum, glb, off, patches, sphere
from original_scans import read, refused, scan_of

from moldwright.original.standing.candidates import candidates
from moldwright.original.standing.direction import rotation_to_z
from moldwright.original.standing.place import place
from moldwright.original.standing.stance import Stance, UpBy
from moldwright.scan import Scan

Points = NDArray[np.float64]
TILTED = np.array([0.48, 0.6, 0.64])


def head(ragged: float = 0.0, sides: int = 48) -> Shape:
    """A sphere of radius 100 cut open 85 below its middle, with a nose whose tip and chin span a large hull facet.

    The rim is a circle of radius sqrt(100^2 - 85^2) = 52.7; its opening takes 8 % of the surface.
    """
    points, faces = sphere(100, sides)
    middle = points[faces].mean(axis=1)
    faces = faces[middle[:, 2] > -85]
    out = np.exp(-(((points - (100, 0, 0)) / 25) ** 2).sum(axis=1))
    points = points + np.outer(60 * out, (1, 0, 0))
    low = points[:, 2] < -80
    points[low, 2] = -85 + ragged * np.sin(7 * np.arctan2(points[low, 1], points[low, 0]))
    return points, faces


def stance(scan: Scan, **given: object) -> Stance:
    return place(scan, **given).stance  # type: ignore[arg-type]


@pytest.mark.parametrize("ragged", [0.0, 3.0])
def test_a_head_stands_on_its_neck(ragged: float) -> None:
    """Not on its nose: the rim, ragged or not, comes before the hull's widest facet."""
    placed = place(scan_of(head(ragged)), height_mm=500)
    assert (placed.stance.up, placed.stance.up_by) == ("+z", UpBy.OPENING)
    assert placed.mesh.vertices[:, 2].max() == pytest.approx(500)
    assert -25 < placed.mesh.vertices[:, 2].min() < 0, "the cut lies just above the rim"


def test_the_neck_is_found_whichever_way_the_file_lies() -> None:
    turned = place(scan_of(head(), turn=rotation_to_z(TILTED)), height_mm=500)
    plain = place(scan_of(head()), height_mm=500)
    np.testing.assert_allclose(turned.mesh.vertices[:, 2], plain.mesh.vertices[:, 2], atol=1.0)


def test_the_whole_surface_inside_out_stands_the_same_way() -> None:
    points, faces = head()
    assert stance(scan_of((points, faces[:, ::-1])), unit="mm").up == "+z"


def test_a_flat_side_as_large_as_the_opening_makes_a_tie() -> None:
    error = refused(scan_of(frustum(30, 30, 80, bottom=False)), unit="mm")
    assert error.code == "up-unclear"
    assert 'up = "+z"' in error.remedy
    assert 'up = "-z"' in error.remedy


def test_an_opening_comes_before_a_smaller_flat_side() -> None:
    assert stance(scan_of(frustum(30, 20, 80, bottom=False)), unit="mm").up == "+z"


def holed(share: float) -> Scan:
    """A block of 100 x 90 x 60, its top 80 deep, a square hole in one side: `share` of what is left of its surface.

    The surface: 9,000 below, 8,000 above, 2 x 5,100 at the ends, 2 x 100 x sqrt(60^2 + 5^2) at the slopes.
    """
    points, faces = box(100, 90, 60)
    points[4:, 1] = 45 + (points[4:, 1] - 45) * 80 / 90
    half = np.sqrt(share * (27_200 + 200 * np.hypot(60, 5)) / (1 + share)) / 2
    ring = np.array([(100, 45 + half * y, 30 + half * z) for y, z in ((-1, -1), (1, -1), (1, 1), (-1, 1))])
    outer, n = [1, 3, 7, 5], [1, 2, 3, 0]
    frame = [f for k in range(4) for f in ((outer[k], outer[n[k]], 8 + n[k]), (outer[k], 8 + n[k], 8 + k))]
    other = [tuple(face) for face in faces if not (points[face][:, 0] == 100).all()]
    return read("a.off", off(np.concatenate([points, ring]), [*other, *frame]))


@pytest.mark.parametrize("share", [0.019, 0.021])
def test_a_large_hole_away_from_the_board_is_asked_about(share: float) -> None:
    """Above 2 % of the surface it is asked about, below it is closed and told. The flat side of 9,000 is larger."""
    scan = holed(share)
    if share < 0.02:
        assert place(scan, unit="mm").mesh.vertices[:, 2].max() == pytest.approx(60)
        return
    error = refused(scan, unit="mm", up=None)
    assert (error.code, error.actual, error.limit, error.unit) == ("large-hole", 2.1, 2.0, "% of the surface")
    assert 'up = "-x" if it stands on the hole' in error.remedy


def test_a_large_hole_is_closed_where_up_is_told() -> None:
    assert stance(holed(0.025), unit="mm", up="+z").up_by is UpBy.COMMISSION


def test_the_formats_up_does_not_close_a_large_hole_in_silence() -> None:
    """A GLB of a bowl's half: y is up, and it is open to the side."""
    points, faces = sphere(0.1, 24)
    faces = faces[points[faces].mean(axis=1)[:, 0] < 0.05]
    scan = read("a.glb", glb(points, faces))
    error = refused(scan)
    assert error.code == "large-hole"
    assert 'up = "+y"' in error.remedy
    assert 'up = "-x"' in error.remedy
    assert place(scan, up="+y").mesh.vertices[:, 2].max() > 0
    assert [way.tolist() for way in candidates(scan)][:2] == [[0, 1, 0], [-1, 0, 0]]


def test_seams_between_patches_are_no_openings() -> None:
    """A frustum in patches that all but meet, leave a narrow gap, or overlap by some triangles at another depth."""
    points, faces = frustum(30, 20, 80, sides=24)
    body = points + np.array((0, 0, 10)), faces
    for scan in (
        scan_of(patches(*body, each=12, gap=1e-6)),
        scan_of(patches(*body, each=12, gap=0.05)),
        scan_of(*((body[0] * (1 + 1e-4 * k), body[1][12 * k : 12 * k + 16]) for k in range(8))),
    ):
        assert not scan.watertight
        assert stance(scan, unit="mm").up == "+z"


def test_candidates_of_a_tie_are_its_ways() -> None:
    found = candidates(scan_of(box(30, 30, 30)))
    assert sorted(map(tuple, np.abs(found).tolist())) == sorted(2 * [(1, 0, 0), (0, 1, 0), (0, 0, 1)])
    assert candidates(scan_of(box(30, 30, 0))) == ()
