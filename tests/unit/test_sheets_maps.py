"""Maps of a surface on paper: closed forms on a ball, what is marked where, and the printed page."""

from __future__ import annotations

import io
import re
from pathlib import Path

import numpy as np
import pypdf
import pytest
from sheets_fixture import ball, pictures, pixels, plan

from moldwright.plan.thickness import LengthAt
from moldwright.sheets.leaf_views import MappedSurface, leaf_views
from moldwright.sheets.map_page import ShownLeaf, ShownMap, map_pages
from moldwright.sheets.palettes import LEAF_COLORS, Palette
from moldwright.sheets.picture import MarkKind, Picture
from moldwright.sheets.writing import write_sheets

RADIUS_MM = 40.0
LIMITS = tuple(range(0, 90, 10))
COLORS = LEAF_COLORS[Palette.HOLD]


def mapped(needed_mm: float | None = None, allowed_mm: float | None = None, none_below: float = -1.0) -> MappedSurface:
    """A ball on the board whose value is its height: leaves of 10 mm from foot to top."""
    mesh = ball(RADIUS_MM, 5).moved((0.0, 0.0, RADIUS_MM))
    values = np.where(mesh.vertices[:, 2] > none_below, mesh.vertices[:, 2], np.nan)
    right, left = LengthAt(40.0, (RADIUS_MM, 0.0, 40.0)), LengthAt(55.0, (-37.1, 0.0, 55.0))
    return MappedSurface(mesh, values, LIMITS, COLORS, needed_mm, allowed_mm, right, left)


@pytest.fixture(scope="module")
def views() -> tuple[Picture, ...]:
    return leaf_views(mapped())


def rows_of(picture: Picture, color: str) -> np.ndarray:
    """Heights over the board at which a color stands in the middle column, shaded at most by its light [mm]."""
    image = pixels(picture.png)
    column = image[:, image.shape[1] // 2].astype(float)
    own = np.array([int(color[at : at + 2], 16) for at in (1, 3, 5)], dtype=float)
    shade = (column @ own) / (own @ own)
    near = (np.abs(column - shade[:, None] * own).max(axis=1) < 6) & (shade > 0.7) & (shade < 1.02)
    rows = np.flatnonzero(near)
    return picture.bottom_mm + picture.height_mm * (1 - (rows + 0.5) / len(column))


@pytest.mark.parametrize("leaf", [2, 3, 4, 5])
def test_each_leaf_lies_between_its_limits(views: tuple[Picture, ...], leaf: int) -> None:
    """By hand: the value is the height, so leaf k of a level view is the band from 10 (k - 1) to 10 k mm up."""
    heights = rows_of(views[0], COLORS[leaf])
    assert heights.min() == pytest.approx(LIMITS[leaf], abs=1.0)
    assert heights.max() == pytest.approx(LIMITS[leaf + 1], abs=1.0)


def test_leaves_bear_their_numbers_from_the_foot_up(views: tuple[Picture, ...]) -> None:
    marks = [mark for mark in views[0].marks if mark.kind is MarkKind.LEAF]
    assert [mark.text for mark in sorted(marks, key=lambda mark: -mark.y)] == [mark.text for mark in marks]
    assert {"3", "4", "5", "6"} <= {mark.text for mark in marks}


def test_places_are_marked_once_on_the_side_that_shows_them(views: tuple[Picture, ...]) -> None:
    """The ball's rightmost point is in the middle of the right view, half way up."""
    found = {mark.kind: (k, mark) for k, view in enumerate(views) for mark in view.marks if mark.kind != MarkKind.LEAF}
    (right, least), (left, most) = found[MarkKind.LEAST], found[MarkKind.MOST]
    assert (views[right].name, views[left].name) == ("Right", "Left")
    assert least.x == pytest.approx(0.5, abs=0.02)
    assert views[right].bottom_mm + views[right].height_mm * (1 - least.y) == pytest.approx(40.0, abs=0.5)
    assert views[left].bottom_mm + views[left].height_mm * (1 - most.y) == pytest.approx(55.0, abs=0.5)


def dark_at(picture: Picture, height_mm: float) -> float:
    """Share of ink across the middle half of a level line."""
    image = pixels(picture.png)
    row = round((1 - (height_mm - picture.bottom_mm) / picture.height_mm) * image.shape[0])
    band = image[row - 2 : row + 3, image.shape[1] * 3 // 8 : image.shape[1] * 5 // 8]
    return float((band.sum(axis=2) < 200).mean())


def test_what_is_short_and_what_is_past_is_hatched() -> None:
    """Strokes of 3 in 11 pixels, two by two made one: about 3/11 of a hatched place is ink, none of another."""
    view = leaf_views(mapped(needed_mm=24.0, allowed_mm=56.0))[0]
    for height_mm, hatched in ((15.0, True), (22.0, True), (35.0, False), (45.0, False)):
        ink = dark_at(view, height_mm)
        assert (ink > 0.08) if hatched else (ink < 0.02), height_mm
    plain = leaf_views(mapped())[0]
    assert dark_at(plain, 15.0) < 0.02
    assert not np.array_equal(pixels(view.png)[:60], pixels(plain.png)[:60]), "past what is allowed, light on dark"


def test_a_place_without_a_value_has_no_leaf() -> None:
    image = pixels(leaf_views(mapped(none_below=30.0))[0].png)
    foot = image[int(image.shape[0] * 0.8), image.shape[1] // 2]
    assert np.ptp(foot) <= 2, "gray: only its light"


def test_same_surface_same_bytes(views: tuple[Picture, ...]) -> None:
    assert leaf_views(mapped()) == views


def shown(name: str, views: tuple[Picture, ...]) -> ShownMap:
    leaves = tuple(ShownLeaf(color, f"{10 * k}–{10 * k + 10}", f"{k} %") for k, color in enumerate(COLORS))
    return ShownMap(
        name, f"Map of {name}", "What it tells.", "What to do by it.", leaves, "mm", "least 1 mm", "", views
    )


def test_two_maps_stand_on_a_page_and_their_views_fit(views: tuple[Picture, ...]) -> None:
    files: dict[str, bytes] = {}
    made = map_pages([shown(name, views) for name in "abc"], 240.0, files)
    assert [len(page) for page in made] == [2, 1]
    assert len(files) == 12
    assert all(each["wide_mm"] <= 42.0 for page in made for each in page)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_bench_sheets_print_them_and_say_where(views: tuple[Picture, ...], paper: str, tmp_path: Path) -> None:
    write_sheets(plan(), pictures(), (shown("one", views), shown("two", views), shown("three", views)), tmp_path)
    reader = pypdf.PdfReader(io.BytesIO((tmp_path / "sheets" / f"bench-{paper}.pdf").read_bytes()))
    texts = [re.sub(r"\s+", " ", page.extract_text()) for page in reader.pages]
    on = [number for number, text in enumerate(texts, start=1) if "Drawings: maps of the glove" in text]
    assert len(on) == 2
    assert on[1] == on[0] + 1
    assert "Map of one" in texts[on[0] - 1]
    assert "Map of two" in texts[on[0] - 1]
    assert "Map of three" in texts[on[1] - 1]
    assert "What to do by it." in texts[on[0] - 1]
    assert f"Map of one, map of two and map of three: from sheet {on[0]}." in texts[0]
    assert len(reader.pages[on[0] - 1].images) > 0
