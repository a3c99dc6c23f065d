"""A scan as its file tells it: a mesh in the file's own units, and what was mended on it."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.geometry.mesh import Mesh
from moldwright.scan.repairs import Repair

Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True, eq=False)
class Scan:
    """What a file holds.

    Parameters
    ----------
    mesh : triangles in FILE units, vertices shared, wound outward where the surface tells what is outside.
    unit : the unit that the format itself states ("mm", "cm", "m", "in", "ft", "um"), None where it states none.
    up : the direction that the format calls up, None where it names none.
    bodies : connected surfaces in the file, hollows included.
    format : "stl", "ply", "obj", "off", "glb" or "3mf"; "solid" for one of ours that was read from no file.
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
