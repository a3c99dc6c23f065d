"""Scans changed by chance: bytes, words, numbers, pieces moved, and broken geometry in sound files."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Callable
from io import BytesIO

import numpy as np
import original_files as files
from numpy.random import Generator
from numpy.typing import NDArray
from original_files import Shape

WORDS = (
    *(b"-1", b"0", b"1e308", b"-1e-320", b"nan", b"inf", b"99999999999999999999", b"2147483648", b"-0.0", b"1e999"),
    *(b"/", b"\\", b"#", b"\r", b"\0", b"\xff\xfe", "٣".encode(), b"vertex", b"endsolid", b"f 1 2 3", b"{}", b"null"),
    *(b"<x/>", b"&a;", b'"', b"1_000"),
)
NUMBER = re.compile(rb"-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")


def boxed(shape: Shape) -> bytes:
    return files.threemf(files.model(f'<object id="1" type="model">{files.mesh_xml(*shape)}</object>'))


WRITERS: dict[str, Callable[[Shape], bytes]] = {
    "ascii.stl": lambda shape: files.ascii_stl(*shape),
    "binary.stl": lambda shape: files.stl(*shape),
    "a.ply": lambda shape: files.ply(*shape, "ascii"),
    "b.ply": lambda shape: files.ply(*shape, "binary_little_endian"),
    "c.ply": lambda shape: files.ply(*shape, "binary_big_endian"),
    "a.obj": lambda shape: files.obj(*shape),
    "a.off": lambda shape: files.off(*shape),
    "a.glb": lambda shape: files.glb(*shape),
    "a.3mf": boxed,
}
FORMATS = (("ascii.stl",), ("binary.stl",), ("a.ply", "b.ply", "c.ply"), ("a.obj",), ("a.off",), ("a.glb",), ("a.3mf",))


def shape_of(rng: Generator) -> Shape:
    """A small body, sound or broken as scans are."""
    bodies = (files.box(), files.frustum(30, 20, 60, sides=9), files.frustum(30, 10, 60, 9, bottom=False))
    points, faces = (*bodies, files.sphere(30, 12))[rng.integers(4)]
    for _ in range(rng.integers(0, 4)):
        points, faces = BREAKS[rng.integers(len(BREAKS))](points.copy(), faces.copy(), rng)
    return points, faces


def _holes(points: NDArray[np.float64], faces: NDArray[np.int64], rng: Generator) -> Shape:
    return points, faces[rng.random(len(faces)) > rng.choice([0.05, 0.3, 0.9])]


def _turned(points: NDArray[np.float64], faces: NDArray[np.int64], rng: Generator) -> Shape:
    wrong = rng.random(len(faces)) < rng.choice([0.1, 0.5, 1.0])
    return points, np.where(wrong[:, None], faces[:, ::-1], faces)


def _moved(points: NDArray[np.float64], faces: NDArray[np.int64], rng: Generator) -> Shape:
    return points + rng.normal(0, rng.choice([1e-7, 0.1, 20.0]), points.shape), faces


def _scaled(points: NDArray[np.float64], faces: NDArray[np.int64], rng: Generator) -> Shape:
    factor = rng.choice([0.0, 1e-30, 1e-9, 1e-3, 1e3, 1e8, 1e30], 3, p=[0.1, 0.1, 0.1, 0.3, 0.2, 0.1, 0.1])
    return points * (factor if rng.random() < 0.5 else factor[0]) + rng.choice([0.0, 1e6, -1e12]), faces


def _twice(points: NDArray[np.float64], faces: NDArray[np.int64], rng: Generator) -> Shape:
    shift = rng.choice([0.0, 1e-6, 1.0, 40.0, 1e5])
    return files.together((points, faces), (points * rng.choice([1.0, 0.999, 0.01, -1.0]) + shift, faces))


def _crumbs(points: NDArray[np.float64], faces: NDArray[np.int64], rng: Generator) -> Shape:
    crumb, triangles = files.frustum(1, 0.5, 2, sides=5)
    spots = rng.normal(0, 60, (rng.integers(1, 30), 3))
    return files.together((points, faces), *((crumb * rng.random() + spot, triangles) for spot in spots))


def _apart(points: NDArray[np.float64], faces: NDArray[np.int64], rng: Generator) -> Shape:
    if not len(faces):
        return points, faces
    return files.patches(points, faces, int(rng.integers(1, 9)), float(rng.choice([0.0, 1e-6, 0.2, -3.0])))


def _mixed(points: NDArray[np.float64], faces: NDArray[np.int64], rng: Generator) -> Shape:
    if not len(faces):
        return points, faces
    wrong = rng.integers(0, len(faces), 4), rng.integers(0, 3, 4)
    faces[wrong] = rng.integers(0, len(points), 4)
    return points, faces


BREAKS = (_holes, _turned, _moved, _scaled, _twice, _crumbs, _apart, _mixed)


def mutated(seed: int) -> tuple[str, bytes]:
    """The name and the bytes of one scan; the same seed, the same scan."""
    rng = np.random.default_rng(seed)
    names = FORMATS[seed % len(FORMATS)]
    name = names[rng.integers(len(names))]
    with np.errstate(all="ignore"):
        data = WRITERS[name](shape_of(rng))
    if name == "a.3mf" and rng.random() < 0.6:
        return name, _inside_archive(data, rng)
    for _ in range(rng.integers(0, 4)):
        data = CHANGES[rng.integers(len(CHANGES))](data, rng)
    return name, data


def _inside_archive(data: bytes, rng: Generator) -> bytes:
    """The model's text is changed and packed again."""
    with zipfile.ZipFile(BytesIO(data)) as archive:
        parts = {entry: archive.read(entry) for entry in archive.namelist()}
    name = sorted(parts)[rng.integers(len(parts))]
    for _ in range(rng.integers(1, 4)):
        parts[name] = CHANGES[rng.integers(len(CHANGES))](parts[name], rng)
    target = BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        for entry, content in parts.items():
            archive.writestr(zipfile.ZipInfo(entry), content)
    return target.getvalue()


def _place(data: bytes, rng: Generator) -> int:
    """Heads are hit as often as bodies."""
    most = len(data) if rng.random() < 0.5 else min(len(data), 200)
    return int(rng.integers(0, most + 1))


def _flip(data: bytes, rng: Generator) -> bytes:
    changed = bytearray(data)
    for _ in range(rng.integers(1, 9)):
        if changed:
            changed[_place(data, rng) % len(changed)] = rng.integers(256)
    return bytes(changed)


def _cut(data: bytes, rng: Generator) -> bytes:
    return data[: _place(data, rng)]


def _paste(data: bytes, rng: Generator) -> bytes:
    at, word = _place(data, rng), WORDS[rng.integers(len(WORDS))]
    return data[:at] + word + data[at + (len(word) if rng.random() < 0.5 else 0) :]


def _drop(data: bytes, rng: Generator) -> bytes:
    at = _place(data, rng)
    return data[:at] + data[at + int(rng.integers(1, 60)) :]


def _repeat(data: bytes, rng: Generator) -> bytes:
    start = _place(data, rng)
    piece = data[start : start + int(rng.integers(1, 400))]
    at = _place(data, rng)
    return data[:at] + piece * int(rng.integers(1, 20)) + data[at:]


def _number(data: bytes, rng: Generator) -> bytes:
    found = list(NUMBER.finditer(data[:100_000]))
    if not found:
        return _flip(data, rng)
    hit = found[rng.integers(len(found))]
    return data[: hit.start()] + WORDS[rng.integers(10)] + data[hit.end() :]


def _count(data: bytes, rng: Generator) -> bytes:
    """Four bytes anywhere become a number that counts or points somewhere else."""
    at = 4 * (_place(data, rng) // 4)
    return data[:at] + int(rng.choice([0, 1, 255, 65535, 2**31 - 1, 2**32 - 1])).to_bytes(4, "little") + data[at + 4 :]


CHANGES = (_flip, _cut, _paste, _drop, _repeat, _number, _count)
