"""The seam drawn again from what the sheets print, and how far the drawn line lies from another (trimesh, pyvista)."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from typing import Any

import numpy as np
import pyvista
import trimesh
from scipy.spatial import cKDTree

from moldwright.geometry.mesh import Mesh

WAY = {"F": (0.0, -1.0), "R": (1.0, 0.0), "B": (0.0, 1.0), "L": (-1.0, 0.0)}
"""From the piece to who stands before the front, right, back and left side of the frame."""
INCH_MM = 25.4


def number(text: str, unit_mm: float) -> float:
    """A printed length, "1 3/16" or "12" [mm]."""
    return float(sum(Fraction(part) for part in text.split())) * unit_mm


def signed(text: str, unit_mm: float) -> float:
    """A printed offset, "8 left" [mm]."""
    length = number(text.removesuffix(" left").removesuffix(" right"), unit_mm)
    return -length if text.endswith("left") else length


def inward(text: str, unit_mm: float) -> float:
    """A printed depth, "21" or "5 out" [mm]."""
    return -number(text.removesuffix(" out"), unit_mm) if text.endswith("out") else number(text, unit_mm)


def place(text: str, unit_mm: float) -> np.ndarray:
    """A printed place of the board, "10 right, 110 back", from the frame's corner [mm]."""
    found = re.fullmatch(r"(.+) right, (.+) back", text)
    assert found, text
    return np.array([number(each, unit_mm) for each in found.groups()])


class Bench:
    """The gloved piece on the board, the frame about it, and a hand with a rule."""

    def __init__(self, gloved: Mesh, size_mm: tuple[float, float], corner_mm: tuple[float, float]) -> None:
        self.size, self.corner = np.array(size_mm), np.array(corner_mm)
        self.peer = trimesh.Trimesh(gloved.vertices, gloved.faces, process=False)
        faces = np.hstack([np.full((len(gloved.faces), 1), 3), gloved.faces]).ravel()
        self.near = pyvista.PolyData(gloved.vertices, faces)

    def station(self, row: list[str], unit_mm: float) -> np.ndarray:
        """Where a row of the table is marked: the first of the surface that is met there from its side; where that is
        out of sight, the surface's point nearest to the place that all three numbers give."""
        _, height, side, aside, depth = row
        out = np.array(WAY[side[0]])
        right = np.array([-out[1], out[0]])
        middle = self.corner + self.size / 2
        foot = middle + out * (self.size / 2 @ np.abs(out))
        flat = foot + signed(aside, unit_mm) * right
        up = number(height, unit_mm)
        told = np.array([*(flat - inward(depth, unit_mm) * out), up])
        if not side.endswith("*"):
            start = np.array([*(flat + 500 * out), up])
            hit, _, _ = self.peer.ray.intersects_location([start], [[*-out, 0.0]], multiple_hits=False)
            if len(hit) and np.linalg.norm(hit[0] - told) < 6.0:
                return hit[0]
        return self.onto([told])[0]

    def met(self, side: str, flat: np.ndarray) -> np.ndarray:
        """The first of the surface behind places right of a side's plumb line and up; what misses is left out."""
        out = np.array(WAY[side])
        right = np.array([-out[1], out[0]])
        ground = self.corner + self.size / 2 + 900 * out + flat[:, :1] * right
        starts = np.column_stack([ground, flat[:, 1]])
        ways = np.tile([*-out, 0.0], (len(flat), 1))
        return np.asarray(self.peer.ray.intersects_location(starts, ways, multiple_hits=False)[0]).reshape(-1, 3)

    def onto(self, points: Any) -> np.ndarray:
        """The nearest points of the surface."""
        return np.asarray(self.near.find_closest_cell(np.asarray(points), return_closest_point=True)[1])

    def drawn(self, marks: list[np.ndarray], closed: bool) -> np.ndarray:
        """A line drawn from mark to mark, straight, laid on the surface; points every millimeter or so."""
        ends = [*marks, marks[0]] if closed else marks
        return self.onto(np.concatenate([joined(a, b) for a, b in pairwise(ends)]))


def joined(a: np.ndarray, b: np.ndarray) -> np.ndarray:
    """Points from one to the other, a millimeter apart or less."""
    count = int(np.ceil(np.linalg.norm(b - a))) + 1
    return a + np.linspace(0, 1, count)[:, None] * (b - a)


def filled(line: np.ndarray, closed: bool) -> np.ndarray:
    """The points of a line, a millimeter apart or less."""
    ends = np.concatenate([line, line[:1]]) if closed else line
    return np.concatenate([joined(a, b) for a, b in pairwise(ends)])


def redrawn(bench: Bench, blocks: Iterable[list[list[str]]], unit_mm: float) -> np.ndarray:
    """All lines of the printed table; a row of one text begins a line."""
    lines: list[tuple[bool, list[np.ndarray]]] = []
    for row in (row for block in blocks for row in block):
        if len(row) == 1:
            lines.append(("Closed loop" in row[0], []))
        else:
            lines[-1][1].append(bench.station(row, unit_mm))
    return np.concatenate([bench.drawn(marks, closed) for closed, marks in lines])


def apart_mm(one: np.ndarray, other: np.ndarray, share: float = 0.95, both: bool = True) -> float:
    """The distance that a share of the points of both lines is within of the other line [mm]: what is missing counts as
    much as what is drawn wrong; `both` false: only how far the first lies from the second."""
    there, back = cKDTree(other).query(one)[0], cKDTree(one).query(other)[0]
    ways = (there, back) if both else (there,)
    return max(float(np.quantile(way, share)) for way in ways)
