"""Bolt holes looked at on the finished meshes by another library's rays."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import trimesh
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.mold.bolt_seat import BOLT_MM, BoltPlace

WASHER_MM, NUT_MM = 10.0, 5.7
"""M5: ISO 7089 washer, ISO 4032 nut of 4.7 mm on a washer of 1 mm (from memory)."""
UNSURE = 1
"""So many of the lines may graze an edge."""
ROUND = np.linspace(0.0, 2 * np.pi, 24, endpoint=False)


def wrong_at(place: BoltPlace, pieces: Sequence[Mesh], gloved: Mesh, bolt_mm: float) -> str:
    """What is wrong with a bored place, "" where a bolt so long goes through, sits, comes in and ends in the open."""
    solids = [_read(piece) for piece in pieces]
    outer_mm = max(place.gap_mm, 0.0) / 2 + 1.5 * place.thick_mm
    if any(_hits(solid, place, 0.46 * BOLT_MM, -outer_mm - NUT_MM, outer_mm + NUT_MM).any() for solid in solids):
        return "the hole is not free right through"
    washer = [_hits(solid, place, 0.47 * WASHER_MM, -outer_mm - NUT_MM, outer_mm + NUT_MM) for solid in solids]
    if any(sum(washer[number] != 2) > UNSURE for number in (place.first, place.second)):
        return "a washer does not sit on a flange and nothing else"
    everything = [*solids, _read(gloved)]
    half_mm = place.grip_mm / 2
    ways = ((half_mm - bolt_mm, half_mm + bolt_mm), (-half_mm - bolt_mm, bolt_mm - half_mm))
    if all(any(_hits(solid, place, 2.5, *way).any() for solid in everything) for way in ways):
        return "no bolt comes in, or its end meets something"
    return ""


def _read(mesh: Mesh) -> trimesh.Trimesh:
    return trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)


def _hits(mesh: trimesh.Trimesh, place: BoltPlace, off_mm: float, low_mm: float, high_mm: float) -> NDArray[np.int64]:
    """How often lines round a bolt's axis, so far off it, cross a mesh between two heights along it."""
    across = np.cross(place.way, np.eye(3)[int(np.argmin(np.abs(place.way)))])
    across /= np.linalg.norm(across)
    beside = np.cross(place.way, across)
    feet = place.at + off_mm * (np.outer(np.cos(ROUND), across) + np.outer(np.sin(ROUND), beside))
    starts, ways = feet + low_mm * place.way, np.tile(place.way, (len(feet), 1))
    points, rays, _ = mesh.ray.intersects_location(starts, ways, multiple_hits=True)
    near = (points - starts[rays]) @ place.way < high_mm - low_mm
    return np.bincount(rays[near], minlength=len(feet))
