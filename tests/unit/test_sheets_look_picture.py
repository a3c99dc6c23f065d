"""The picture of how a scan will stand, against what is known of a box seen along parallel rays."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from original_files import box, frustum
from sheets_fixture import pixels

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.look_picture import INK, Stood, look_picture, round_length


def stood(shape: tuple, title: str = "", sized: bool = True) -> Stood:  # type: ignore[type-arg]
    points, faces = shape
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    return Stood(Mesh(points - (middle[0], middle[1], 0), faces.astype(np.int32)), title, sized)


def ink(png: bytes) -> NDArray[np.bool_]:
    return np.asarray(np.abs(pixels(png) - INK).max(axis=2) < 12)


def longest_run(line: NDArray[np.bool_]) -> int:
    edges = np.flatnonzero(np.diff(np.concatenate([[False], line, [False]]).astype(int)))
    return int((edges[1::2] - edges[::2]).max(initial=0))


def bar_px(png: bytes) -> int:
    """Length of the scale bar: the longest run of ink in the rows below the picture."""
    dark = ink(png)
    return max(longest_run(row) for row in dark[-len(dark) // 6 :])


def height_px(png: bytes) -> int:
    """Length of the measuring line: the longest run of ink in a column right of the piece."""
    dark = ink(png)
    return max(longest_run(column) for column in dark.T[int(0.8 * dark.shape[1]) :])


@pytest.mark.parametrize("height", [50.0, 100.0, 160.0])
def test_height_and_scale_bar_are_true_to_each_other(height: float) -> None:
    """By the cosine of the camera's 18 degrees above the board (parallel projection)."""
    png = look_picture([stood(box(80, 60, height))])
    bar_mm = round_length(0.35 * max(80.0, height))
    seen = height_px(png) / np.cos(np.radians(18)) * bar_mm / bar_px(png)
    assert seen == pytest.approx(height, rel=0.04)


def test_what_lies_below_the_board_is_no_height() -> None:
    points, faces = box(80, 60, 100)
    whole = look_picture([stood((points, faces))])
    sunk = look_picture([stood((points - (0, 0, 50), faces))])
    assert bar_px(sunk) / height_px(sunk) > 1.3 * bar_px(whole) / height_px(whole)


def test_without_a_known_size_there_is_no_scale_bar() -> None:
    assert bar_px(look_picture([stood(box(80, 60, 100), sized=True)])) > 30
    assert bar_px(look_picture([stood(box(80, 60, 100), sized=False)])) < 10


@pytest.mark.parametrize(("count", "abreast"), [(1, 1), (2, 2), (3, 3), (4, 2), (6, 3)])
def test_ways_stand_side_by_side(count: int, abreast: int) -> None:
    one = pixels(look_picture([stood(frustum(30, 20, 80)), stood(frustum(30, 20, 80))]))
    many = pixels(look_picture([stood(frustum(30, 20, 80), f"up = {k}") for k in range(count)]))
    if count > 1:
        assert many.shape[1] == pytest.approx(one.shape[1] / 2 * abreast, abs=2)
        assert many.shape[0] == pytest.approx(one.shape[0] * -(-count // abreast), abs=2)
    board = np.abs(many - (217, 199, 165)).max(axis=2) < 25
    half = board[:, : board.shape[1] // abreast]
    assert half.any()


def test_the_same_piece_gives_the_same_bytes() -> None:
    assert look_picture([stood(box())]) == look_picture([stood(box())])
    assert look_picture([stood(box(), "a")]) != look_picture([stood(box(), "b")])


def test_round_lengths() -> None:
    """1, 2 and 5 times powers of ten, as on any drawing's scale."""
    found = {round_length(float(mm)) for mm in np.geomspace(0.011, 2900, 500)}
    assert found == {k * 10.0**p for p in range(-2, 4) for k in (1, 2, 5)} - {2000.0, 5000.0} | {2000.0}
