"""What is refused for a place of the piece: the place is kept, and shown in a picture beside the folder.

Where the ring stands on the picture follows from the projection (level, parallel): heights over the board are to each
other as they are on the piece.
"""

from __future__ import annotations

import io
import json
import pickle
from pathlib import Path

import geometry_bodies as bodies
import impossible_bodies as impossible
import numpy as np
import pytest
from PIL import Image

from moldwright.desk.exits import words
from moldwright.errors import InputRefused, NoSafePlan, refusal_of
from moldwright.found_at import FoundAt
from moldwright.geometry.curved import angle_defects
from moldwright.geometry.on_body import found_on
from moldwright.making.refused import refused_file, shown_where_refused
from moldwright.original.mending.hollows import without_hollows
from moldwright.sheets.place_picture import EDGE_PX, RING, place_picture
from moldwright.units.system import UnitSystem

METRIC = UnitSystem.METRIC


def refused_hollow() -> NoSafePlan:
    with pytest.raises(NoSafePlan) as refused:
        without_hollows(impossible.mesh(impossible.hollow_ball().translate((13.0, -7.0, 0.0))), 1.0)
    return refused.value


def rings(png: bytes) -> np.ndarray:
    """(n, 2) pixels of the rings, right and down."""
    pixels = np.asarray(Image.open(io.BytesIO(png)).convert("RGB"), dtype=int)
    red = np.abs(pixels - np.array(RING)).sum(axis=2) < 40
    return np.argwhere(red)[:, ::-1]


def test_a_closed_hollow_is_told_with_its_place_from_the_middle_of_the_foot() -> None:
    """Of 20 mm radius at 42 mm over the middle of the foot, wherever the scan lies."""
    place = refused_hollow().place
    assert place is not None
    assert place.at_mm == pytest.approx((0.0, 0.0, 42.0), abs=0.3)
    assert place.across_mm == pytest.approx(40.0, abs=0.5)
    assert place.side == ""


def test_the_ring_stands_at_the_height_of_the_place_on_the_cut() -> None:
    """The piece is 75 mm tall and fills the view but for its margins; the ring's middle is at 42 of them."""
    place = refused_hollow().place
    assert place is not None
    png = place_picture(place, METRIC)
    assert png is not None
    picture = Image.open(io.BytesIO(png))
    found = rings(png)
    right = found[found[:, 0] > picture.width / 2]
    top, bottom = EDGE_PX / 2, picture.height - EDGE_PX / 2
    per_mm = (bottom - top) / (75.0 * 1.06)
    middle = (right[:, 1].min() + right[:, 1].max()) / 2
    assert (bottom - middle) / per_mm - 75.0 * 0.03 == pytest.approx(42.0, abs=1.0)
    assert np.ptp(right[:, 1]) / per_mm == pytest.approx(44.0, abs=2.0)


def test_the_cut_shows_the_hollow_and_the_outside_does_not() -> None:
    """The middle of the ring is the far wall of the hollow; round it is what was cut."""
    place = refused_hollow().place
    assert place is not None
    picture = Image.open(io.BytesIO(place_picture(place, METRIC) or b"")).convert("RGB")
    found = rings(place_picture(place, METRIC) or b"")
    right = found[found[:, 0] > picture.width / 2]
    x, y = (int((right[:, k].min() + right[:, k].max()) / 2) for k in (0, 1))
    inside, beside = picture.getpixel((x, y)), picture.getpixel((int(right[:, 0].max()) + 6, y - 8))
    assert inside[0] < inside[2] + 20, "gray: the wall behind"
    assert beside[0] > beside[2] + 40, "the color of a cut"


def test_the_same_place_gives_the_same_bytes() -> None:
    place = refused_hollow().place
    assert place is not None
    assert place_picture(place, METRIC) == place_picture(place, METRIC)


def test_a_place_whose_body_is_not_known_has_no_picture() -> None:
    assert place_picture(FoundAt((0.0, 0.0, 10.0), 5.0), METRIC) is None


@pytest.mark.parametrize(("x", "y", "side"), [(0, -20, "front"), (20, 0, "right"), (0, 20, "back"), (-20, 0, "left")])
def test_sides_are_those_that_one_stands_before(x: float, y: float, side: str) -> None:
    """The front looks to -y, the right is at +x (DESIGN of the views; a closed form)."""
    body = bodies.mesh(bodies.box(60, 60, 40))
    assert found_on(body, np.array([x, y, 20.0]), 4.0).side == side


def test_a_refusal_is_kept_with_its_place_and_without_its_body() -> None:
    refusal = refused_hollow()
    refusal.picture = "there.png"
    again = refusal_of(json.loads(json.dumps(refusal.as_kept())))
    assert (again.place, again.picture) == (refusal.place, "there.png")
    assert again.place is not None
    assert again.place.body is None
    assert pickle.loads(pickle.dumps(refusal)).place == refusal.place


def test_one_without_a_place_is_told_as_before() -> None:
    plain = InputRefused("lot-unknown", "7", None, "", "Look which there are.")
    assert set(plain.as_dict()) == {"family", "code", "actual", "limit", "unit", "remedy"}
    assert "place" not in words(plain)


def test_the_command_tells_the_place_and_the_picture() -> None:
    refusal = NoSafePlan("some", 2.0, 1.0, "mm", "Do this.", place=FoundAt((3.0, 1.0, 42.5), 12.0, "right"))
    refusal.picture = "plan-refused.png"
    told = words(refusal).splitlines()
    assert "  place   42.5 mm over the board, on the right, 12 mm across" in told
    assert told[-1] == "  picture plan-refused.png"


def test_the_picture_lies_beside_the_folder_until_that_is_made(tmp_path: Path) -> None:
    out = tmp_path / "new" / "plan"
    with pytest.raises(NoSafePlan) as refused, shown_where_refused(out, METRIC):
        raise refused_hollow()
    assert Path(refused.value.picture) == refused_file(out) == out.with_name("plan-refused.png")
    with Image.open(refused_file(out)) as picture:
        assert picture.size[0] > 400
    with shown_where_refused(out, METRIC):
        pass
    assert not refused_file(out).exists()


def test_a_file_of_that_name_that_is_not_ours_stays_as_it_is(tmp_path: Path) -> None:
    out = tmp_path / "plan"
    refused_file(out).write_bytes(b"mine")
    with pytest.raises(NoSafePlan) as refused, shown_where_refused(out, METRIC):
        raise refused_hollow()
    assert refused.value.picture == ""
    with shown_where_refused(out, METRIC):
        pass
    assert refused_file(out).read_bytes() == b"mine"


def test_a_refusal_without_a_place_writes_nothing(tmp_path: Path) -> None:
    with pytest.raises(NoSafePlan), shown_where_refused(tmp_path / "plan", METRIC):
        raise NoSafePlan("too-soon", 1.0, 2.0, "s", "Wait.")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(("solid", "holes"), [(bodies.ball(20), 0), (bodies.torus(20, 6), 1)])
def test_what_the_corners_leave_of_a_full_turn_tells_the_through_holes(solid: object, holes: int) -> None:
    """4 pi (1 - g): the theorem of Gauss and Bonnet."""
    assert angle_defects(bodies.mesh(solid)).sum() == pytest.approx(4 * np.pi * (1 - holes), abs=1e-6)  # type: ignore[arg-type]
