"""Whatever bytes come, a scan is read or refused: nothing else. And what is read does not depend on how it is told."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parent.parent / "unit"))

from original_files import box, every_format, frustum, off, stl

from moldwright.errors import InputRefused
from moldwright.original.standing.place import place
from moldwright.scan import Limits
from moldwright.scan.parse import parse

FILES = every_format()
SMALL = Limits(triangles=100_000, archive_bytes=1 << 24)


def read_or_refuse(name: str, data: bytes) -> None:
    refused: InputRefused | None = None
    try:
        scan = parse(name, data, SMALL)
        assert np.isfinite(scan.mesh.vertices).all()
        assert scan.mesh.faces.max() < len(scan.mesh.vertices)
        assert scan.bodies >= 1
        place(scan, height_mm=100.0, up="+z")
    except InputRefused as error:
        refused = error
    assert refused is None or (refused.code and refused.remedy)


@pytest.mark.parametrize("name", FILES)
@settings(max_examples=40, deadline=None, derandomize=True)
@given(share=st.floats(0, 1))
def test_any_truncation_is_read_or_refused(name: str, share: float) -> None:
    read_or_refuse(name, FILES[name][: int(share * len(FILES[name]))])


@pytest.mark.parametrize("name", FILES)
@settings(max_examples=80, deadline=None, derandomize=True)
@given(flips=st.lists(st.tuples(st.integers(0, 1 << 20), st.integers(0, 255)), min_size=1, max_size=6))
def test_any_flipped_bytes_are_read_or_refused(name: str, flips: list[tuple[int, int]]) -> None:
    data = bytearray(FILES[name])
    for at, value in flips:
        data[at % len(data)] = value
    read_or_refuse(name, bytes(data))


@pytest.mark.parametrize("name", [name for name in FILES if not name.endswith(("stl", "3mf"))])
@settings(max_examples=40, deadline=None, derandomize=True)
@given(at=st.integers(0, 1 << 20), piece=st.sampled_from([b"-1", b"99999999999", b"nan", b" ", b"\n", b"1e999", b"/"]))
def test_any_pasted_word_is_read_or_refused(name: str, at: int, piece: bytes) -> None:
    data = FILES[name]
    cut = at % len(data)
    read_or_refuse(name, data[:cut] + piece + data[cut + len(piece) :])


@settings(max_examples=30, deadline=None, derandomize=True)
@given(data=st.binary(max_size=300), name=st.sampled_from(sorted(FILES)))
def test_any_bytes_are_read_or_refused(data: bytes, name: str) -> None:
    read_or_refuse(name, data)


@settings(max_examples=25, deadline=None, derandomize=True)
@given(seed=st.integers(0, 10_000))
def test_order_and_turn_of_triangles_change_nothing(seed: int) -> None:
    rng = np.random.default_rng(seed)
    points, faces = frustum(30, 20, 80, sides=12)
    shuffled = np.array([np.roll(face, rng.integers(3)) for face in rng.permutation(faces)])
    scan = parse("a.off", off(points, np.concatenate([shuffled, shuffled[: rng.integers(len(faces))]])), SMALL)
    assert len(scan.mesh.faces) == len(faces)
    assert scan.mesh.volume_mm3 == pytest.approx(parse("a.off", off(points, faces), SMALL).mesh.volume_mm3)


@settings(max_examples=25, deadline=None, derandomize=True)
@given(seed=st.integers(0, 10_000), share=st.floats(0, 1))
def test_any_set_of_turned_triangles_is_mended(seed: int, share: float) -> None:
    """Volume of a frustum of a 12-gon pyramid: h/3 (A1 + A2 + sqrt(A1 A2)), A = 6 r^2 sin 30 (exact)."""
    rng = np.random.default_rng(seed)
    points, faces = frustum(30, 20, 80, sides=12)
    wrong = rng.random(len(faces)) < share
    faces = np.where(wrong[:, None], faces[:, ::-1], faces)
    scan = parse("a.off", off(points, faces), SMALL)
    low, high = 3 * 30**2, 3 * 20**2
    assert scan.mesh.volume_mm3 == pytest.approx(80 / 3 * (low + high + (low * high) ** 0.5))
    assert scan.mesh.why_invalid() == ""


@settings(max_examples=25, deadline=None, derandomize=True)
@given(scale=st.floats(0.2, 20), turn=st.floats(0, 6.28), shift=st.tuples(*[st.floats(-500, 500)] * 3))
def test_scaling_shifting_and_turning_the_file_change_nothing(
    scale: float, turn: float, shift: tuple[float, ...]
) -> None:
    points, faces = box()
    around = np.array([[np.cos(turn), -np.sin(turn), 0], [np.sin(turn), np.cos(turn), 0], [0, 0, 1]])
    data = stl((points @ around.T) * scale + np.array(shift), faces)
    placed = place(parse("a.stl", data, SMALL), height_mm=80.0, up="+z")
    assert placed.mesh.volume_mm3 == pytest.approx(8 * 24_000, rel=1e-3)
    assert placed.mesh.vertices[:, 2].max() == pytest.approx(80)
    assert (placed.mesh.vertices.min(axis=0) + placed.mesh.vertices.max(axis=0))[:2] == pytest.approx([0, 0], abs=1e-6)
