"""One file of solids for the screen: a head in JSON, then whole numbers; and that file read again.

Four bytes "MWS1", the head's length (uint32), the head (JSON, padded by spaces to a multiple of 4), then for each part,
each padded to a multiple of 4: places (uint16 x 3, one axis after the other), normals (int8 x 3, the same), corners of
triangles (int32: each the difference from the one before), and quantities (uint16: 65535 for none). All little-endian.
A place is low + number x step on each axis, a quantity low + number x step.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import ComputationFailed
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.shaded import UNIT, shaded

MAGIC = b"MWS1"
MOST = 65534
"""The greatest number of sixteen bits that stands for a value."""
NONE = 65535
Values = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class ScreenPart:
    """One solid.

    Parameters
    ----------
    id : its name in the file; kind : what it is.
    vertices, normals : (n, 3) places [mm] and outward unit vectors; faces : (m, 3).
    quantities : (n,) lengths by name [mm], NaN for none.
    draw : the unit vector that it draws off along; None where it stays.
    """

    id: str
    kind: str
    vertices: Values
    normals: Values
    faces: NDArray[np.uint32]
    quantities: Mapping[str, Values]
    draw: tuple[float, float, float] | None = None

    @property
    def areas_mm2(self) -> Values:
        """(n,) the share of the surface that each corner stands for: a third of the triangles around it [mm2]."""
        corners = self.vertices[self.faces]
        area = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1) / 2
        shares: Values = np.bincount(self.faces.ravel(), np.repeat(area / 3, 3), len(self.vertices)).astype(np.float64)
        return shares


@dataclass(frozen=True, slots=True, eq=False)
class ScreenMold:
    """All solids of a mold. `off_mm`: how far they are off the full ones at most, as measured."""

    parts: tuple[ScreenPart, ...]
    off_mm: float

    def part(self, id_: str) -> ScreenPart | None:
        """The part of that name, if there is one."""
        return next((each for each in self.parts if each.id == id_), None)

    def known_on(self, quantity: str) -> ScreenPart | None:
        """The part on which something is known of a quantity, by its name."""
        there = (each for each in self.parts if quantity in each.quantities)
        return next((each for each in there if np.isfinite(each.quantities[quantity]).any()), None)


def drawable(id_: str, kind: str, mesh: Mesh, draw: tuple[float, float, float] | None = None) -> ScreenPart:
    """A part without quantities yet.

    Parameters
    ----------
    id_, kind : its name and what it is.
    mesh : triangles [mm].
    draw : along which it draws off.
    """
    ready = shaded(mesh)
    return ScreenPart(id_, kind, ready.vertices, ready.normals / UNIT, ready.faces, {}, draw)


def packed_mold(mold: ScreenMold) -> bytes:
    """The file's bytes.

    Parameters
    ----------
    mold : all parts, each with triangles.
    """
    blocks: list[bytes] = []
    heads = [_packed(part, blocks) for part in mold.parts]
    head = json.dumps({"off_mm": round(mold.off_mm, 4), "parts": heads}, separators=(",", ":")).encode()
    head += b" " * (-len(head) % 4)
    return b"".join((MAGIC, len(head).to_bytes(4, "little"), head, *blocks))


def _packed(part: ScreenPart, blocks: list[bytes]) -> dict[str, Any]:
    low, steps, places = _scaled(part.vertices)
    told: dict[str, Any] = {
        "id": part.id,
        "kind": part.kind,
        "vertices": len(part.vertices),
        "triangles": len(part.faces),
        "draw": part.draw,
        "low": low.tolist(),
        "step": steps.tolist(),
        "place": _added(places.T.astype("<u2"), blocks),
        "normal": _added(np.rint(part.normals * UNIT).T.astype("i1"), blocks),
        "corner": _added(np.diff(part.faces.ravel().astype(np.int64), prepend=0).astype("<i4"), blocks),
    }
    told["quantities"] = {name: _quantity(values, blocks) for name, values in part.quantities.items()}
    return told


def _quantity(values: Values, blocks: list[bytes]) -> dict[str, Any]:
    known = np.isfinite(values)
    numbers = np.full(len(values), NONE, "<u2")
    low, step, scaled = _scaled(values[known][:, None]) if known.any() else (np.zeros(1), np.ones(1), np.zeros((0, 1)))
    numbers[known] = scaled[:, 0]
    return {"low": float(low[0]), "step": float(step[0]), "at": _added(numbers, blocks)}


def _scaled(values: Values) -> tuple[Values, Values, Values]:
    low = values.min(axis=0)
    steps = np.maximum(np.ptp(values, axis=0), 1e-9) / MOST
    return low, steps, np.rint((values - low) / steps)


def _added(numbers: NDArray[Any], blocks: list[bytes]) -> int:
    """Where a block begins behind the head."""
    start = sum(len(block) for block in blocks)
    raw = np.ascontiguousarray(numbers).tobytes()
    blocks.append(raw + b"\0" * (-len(raw) % 4))
    return start


def mold_of_bytes(raw: bytes) -> ScreenMold:
    """The file read again.

    Parameters
    ----------
    raw : its bytes.

    Raises ComputationFailed ("screen-file-torn").
    """
    try:
        if raw[:4] != MAGIC:
            raise ValueError(raw[:4])
        start = 8 + int.from_bytes(raw[4:8], "little")
        head = json.loads(raw[8:start])
        return ScreenMold(tuple(_part(each, raw, start) for each in head["parts"]), head["off_mm"])
    except (ValueError, KeyError, TypeError) as error:
        remedy = "Plan the piece again: its folder is made anew."
        raise ComputationFailed("screen-file-torn", type(error).__name__, None, "", remedy) from None


def _part(told: Mapping[str, Any], raw: bytes, start: int) -> ScreenPart:
    count, corners = told["vertices"], 3 * told["triangles"]

    def block(kind: str, many: int, at: int) -> Values:
        return np.frombuffer(raw, kind, many, start + at).astype(np.float64)

    places = block("<u2", 3 * count, told["place"]).reshape(3, count).T
    normals = block("i1", 3 * count, told["normal"]).reshape(3, count).T
    faces = np.cumsum(np.frombuffer(raw, "<i4", corners, start + told["corner"]), dtype=np.int64)
    quantities = {name: _unscaled(block("<u2", count, each["at"]), each) for name, each in told["quantities"].items()}
    vertices = np.array(told["low"]) + places * np.array(told["step"])
    draw = told["draw"]
    return ScreenPart(
        told["id"], told["kind"], vertices, normals / UNIT, faces.astype(np.uint32).reshape(-1, 3), quantities,
        (draw[0], draw[1], draw[2]) if draw else None,
    )  # fmt: skip


def _unscaled(numbers: Values, told: Mapping[str, Any]) -> Values:
    return np.where(numbers == NONE, np.nan, told["low"] + numbers * told["step"])
