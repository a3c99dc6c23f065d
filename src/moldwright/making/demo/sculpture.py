"""The sculpture as a list of shapes in `otter.toml`, and the distance field that they make together."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

import numpy as np
from numpy.typing import NDArray

from moldwright.making.demo.fur import Spine, fur_depth, noise, spine_through
from moldwright.making.demo.shapes import Ellipsoid, Floats, Shape, Tube, melt, smooth_path

TEXTURE_BAND_MM = 2.0


@dataclass(frozen=True, slots=True, eq=False)
class Lump:
    """One shape, how it joins or carves what came before it (down to a depth), how furry and how stony it is (0..1)."""

    shape: Shape
    carve: bool
    depth_mm: float
    blend_mm: float
    fur: float
    stone: float


@dataclass(frozen=True, slots=True, eq=False)
class Sculpture:
    """All pieces in order, the spine that the fur follows, and the depths of fur and stone texture."""

    pieces: tuple[Lump, ...]
    spine: Spine
    fur_mm: float
    stone_mm: float
    low_mm: Floats
    high_mm: Floats

    def distance_mm(self, points_mm: Floats, band_mm: float) -> Floats:
        """Distances that are right within band_mm of the surface; far ones are only of the right sign."""
        field = np.full(len(points_mm), 1e3, dtype=np.float32)
        fur = np.zeros_like(field)
        stone = np.zeros_like(field)
        box = points_mm.min(axis=0), points_mm.max(axis=0)
        for piece in self.pieces:
            chosen = near_box(points_mm, box, piece, band_mm)
            if len(chosen) == 0:
                continue
            distance = piece.shape.distance_mm(points_mm[chosen], band_mm + piece.blend_mm + 1)
            if piece.carve:
                distance = np.maximum(distance, -(field[chosen] + np.float32(piece.depth_mm)))
                cut, weight = melt(-field[chosen], distance, piece.blend_mm)
                field[chosen] = -cut
                fur[chosen] *= 1 - weight
                continue
            field[chosen], weight = melt(field[chosen], distance, piece.blend_mm)
            fur[chosen] += weight * (piece.fur - fur[chosen])
            stone[chosen] += weight * (piece.stone - stone[chosen])
        return self.textured(points_mm, field, fur, stone)

    def textured(self, points_mm: Floats, field: Floats, fur: Floats, stone: Floats) -> Floats:
        """Grooves are added to the distance, so they only ever take material away."""
        close = np.flatnonzero((np.abs(field) < TEXTURE_BAND_MM) & (fur > 0.02))
        field[close] += self.fur_mm * fur[close] * fur_depth(points_mm[close], self.spine)
        worn = np.flatnonzero((np.abs(field) < 12) & (stone > 0.02))
        at = points_mm[worn].astype(np.float64)
        rough = 0.65 * noise(at / 26.0 + 0.4) + 0.25 * noise(at / 11.0)
        field[worn] += (self.stone_mm * stone[worn] * rough).astype(np.float32)
        return field


def near_box(points_mm: Floats, box: tuple[Floats, Floats], piece: Lump, band_mm: float) -> NDArray[np.int_]:
    """Which points the piece can touch: those in its own box, widened by its reach."""
    reach = np.float32(band_mm + piece.blend_mm + 1)
    low, high = piece.shape.box_mm()
    low, high = low - reach, high + reach
    if (box[1] < low).any() or (box[0] > high).any():
        return np.empty(0, dtype=int)
    if (box[0] > low).all() and (box[1] < high).all():
        return np.arange(len(points_mm))
    return np.flatnonzero(((points_mm > low) & (points_mm < high)).all(axis=1))


def load_sculpture(file: str = "otter.toml") -> Sculpture:
    data = tomllib.loads(files("moldwright.making.demo").joinpath(file).read_text(encoding="utf-8"))
    frames = {name: (row(f["at"]), turning(f["turn"])) for name, f in data["parts"].items()}
    pieces = tuple(piece for entry in data["piece"] for piece in pieces_of(entry, frames))
    spine = spine_through(smooth_path(np.array(data["spine"], dtype=np.float32), 24))
    return Sculpture(pieces, spine, data["fur_mm"], data["stone_mm"], row(data["low_mm"]), row(data["high_mm"]))


def pieces_of(entry: Mapping[str, Any], frames: Mapping[str, tuple[Floats, Floats]]) -> list[Lump]:
    """One piece, or two where the entry is mirrored in its part's x."""
    at, turn = frames[entry["part"]]
    sides = (1.0, -1.0) if entry.get("mirror") else (1.0,)
    shapes = [tube_of(entry, at, turn, s) if "path" in entry else ellipsoid_of(entry, at, turn, s) for s in sides]
    carve, blend = entry.get("carve", False), entry.get("blend", 4)
    depth, fur, stone = entry.get("depth", 100), entry.get("fur", 0), entry.get("stone", 0)
    return [Lump(shape, carve, depth, blend, fur, stone) for shape in shapes]


def ellipsoid_of(entry: Mapping[str, Any], at: Floats, turn: Floats, side: float) -> Ellipsoid:
    flip = np.diag([side, 1, 1]).astype(np.float32)
    own = flip @ turning(entry.get("turn", [0, 0, 0])) @ flip
    center = at + turn @ (flip @ row(entry["at"]))
    return Ellipsoid(center, row(entry["radii"]), (turn @ own).astype(np.float32), float(entry.get("power", 2)))


def tube_of(entry: Mapping[str, Any], at: Floats, turn: Floats, side: float) -> Tube:
    knots = np.array(entry["path"], dtype=np.float32) * np.array([side, 1, 1, 1], dtype=np.float32)
    curve = smooth_path(knots)
    return Tube((at + curve[:, :3] @ turn.T).astype(np.float32), curve[:, 3])


def turning(degrees: list[float]) -> Floats:
    """Rotation about x, then y, then z."""
    a, b, c = np.radians(degrees)
    x = np.array([[1, 0, 0], [0, np.cos(a), -np.sin(a)], [0, np.sin(a), np.cos(a)]])
    y = np.array([[np.cos(b), 0, np.sin(b)], [0, 1, 0], [-np.sin(b), 0, np.cos(b)]])
    z = np.array([[np.cos(c), -np.sin(c), 0], [np.sin(c), np.cos(c), 0], [0, 0, 1]])
    return np.asarray(z @ y @ x, dtype=np.float32)


def row(values: list[float]) -> Floats:
    return np.array(values, dtype=np.float32)
