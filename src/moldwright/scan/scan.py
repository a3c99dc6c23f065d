"""A scan as its file tells it: a mesh in the file's own units, and what was mended on it."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.geometry.mesh import Mesh
from moldwright.scan.repairs import Repair

Vector = tuple[float, float, float]
Said = tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Scan:
    """What a file holds.

    Parameters
    ----------
    mesh : triangles in FILE units, vertices shared, wound outward where the surface tells what is outside.
    unit : the unit that the format itself states ("mm", "cm", "m", "in", "ft", "um"), None where it states none.
    up : the direction that the format calls up, None where it names none.
    bodies : connected surfaces in the file, hollows included.
    format : "stl", "ply", "obj", "off", "glb" or "3mf".
    repairs : what was found and mended.
    watertight : every edge is shared by two triangles that run along it in opposite directions.
    """

    mesh: Mesh
    unit: str | None
    up: Vector | None
    bodies: int
    format: str
    repairs: tuple[Repair, ...]
    watertight: bool


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """A scan in millimeters as it stands: z up, the cut plane at z = 0; nothing is cut or capped yet.

    Parameters
    ----------
    mesh : triangles in mm; they may reach below z = 0.
    said : (key, value, source) of every choice that was made or followed.
    repairs : the scan's repairs and those of placing.
    """

    mesh: Mesh
    said: Said
    repairs: tuple[Repair, ...]
