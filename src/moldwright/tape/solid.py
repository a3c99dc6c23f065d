"""The likely solid: body and limbs lofted, set together, closed, on the board, with the likely volume."""

from __future__ import annotations

from collections.abc import Sequence

import manifold3d as m3
import numpy as np

from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import Solid, exportable, largest_body, solid_of
from moldwright.tape import section
from moldwright.tape.parts import Part
from moldwright.tape.section import Floats
from moldwright.tape.ways import Along, frames
from moldwright.text.shown import shown

SIDES, LIMB_SIDES = 96, 48
LEAST_BREADTH_MM = 0.2
SUNK_MM = 3.0
"""How deep a limb that is set on another one sits in it."""


def round_solid(parts: Sequence[Part]) -> Mesh:
    """The closed solid as the tape goes round it, its hollows filled; z up, the board at z = 0.

    Parameters
    ----------
    parts : the body first, then its limbs; the first draw of each is laid.

    Raises InputRefused where a limb does not meet the body. Source: our own.
    """
    whole = solid_of(_body(parts[0]))
    for part in parts[1:]:
        for way in frames(part, parts[0]):
            limb = _limb(part, way)
            whole = _with(whole, _set_on(whole, limb, way, part, parts[0]), part)
    whole = largest_body(whole.trim_by_plane((0.0, 0.0, 1.0), 0.0))
    return exportable(whole)


def stretched(mesh: Mesh, volume_mm3: float) -> Mesh:
    """The solid with another volume: as high as before, in breadth and depth larger or smaller.

    Parameters
    ----------
    mesh : closed, z up [mm].
    volume_mm3 : what it shall hold [mm3], > 0.

    Source: our own; a stretch across by a factor each way multiplies the volume by its square.
    """
    factor = float(np.sqrt(volume_mm3 / mesh.volume_mm3))
    return Mesh(mesh.vertices * [factor, factor, 1.0], mesh.faces)


def rings(part: Part, sides: int) -> Floats:
    """The sections of the likely draw, each flat in its own plane: across and deep (n, sides, 2) [mm].

    Parameters
    ----------
    part : body or limb.
    sides : points of a section.

    Source: our own.
    """
    loft = part.lofts
    x, y = section.outline(loft.square[0], sides)
    wide, deep = (np.maximum(v[0], LEAST_BREADTH_MM)[:, None] / 2.0 for v in (loft.breadth_mm, loft.depth_mm))
    return np.stack([x * wide, y * deep], axis=2)


def _body(part: Part) -> Mesh:
    flat = rings(part, SIDES)
    level = np.broadcast_to(part.lofts.at_mm[:, None, None], (*flat.shape[:2], 1))
    return lofted(np.concatenate([flat, level], axis=2))


def lofted(points: Floats) -> Mesh:
    """A closed mesh through rings that follow each other upward, closed flat at both ends.

    Parameters
    ----------
    points : (n, sides, 3), each ring counterclockwise seen from where they go [mm].

    Source: our own.
    """
    count, sides = points.shape[:2]
    ends = points[[0, -1]].mean(axis=1)
    here = np.arange(sides)
    there = np.roll(here, -1)
    faces = []
    for n in range(count - 1):
        a, b, c, d = (n * sides + here, n * sides + there, (n + 1) * sides + here, (n + 1) * sides + there)
        faces += [np.stack([a, b, d], axis=1), np.stack([a, d, c], axis=1)]
    low, high, top = count * sides, count * sides + 1, (count - 1) * sides
    faces.append(np.stack([there, here, np.full(sides, low)], axis=1))
    faces.append(np.stack([top + here, top + there, np.full(sides, high)], axis=1))
    vertices = np.concatenate([points.reshape(-1, 3), ends])
    return Mesh(vertices, np.concatenate(faces).astype(np.int32))


def _limb(part: Part, way: Along) -> Solid:
    """A limb along its way: the hulls of every two sections that follow each other, joined; so it may bend."""
    flat = rings(part, LIMB_SIDES)
    across, deep = way.across[:, None, :], way.deep[:, None, :]
    placed = way.at[:, None, :] + flat[..., :1] * across + flat[..., 1:] * deep
    links = [m3.Manifold.hull_points(np.concatenate(placed[n : n + 2])) for n in range(len(placed) - 1)]
    return m3.Manifold.batch_boolean(links, m3.OpType.Add)


def _set_on(whole: Solid, limb: Solid, way: Along, part: Part, body: Part) -> Solid:
    """A limb that joins above the body's top, a head on a neck, is moved to what is nearest of the limbs before it."""
    if part.limb is None or part.limb.joins_at_mm <= body.ends.high_mm or (whole ^ limb).volume() > 0.0:
        return limb
    away = np.asarray(whole.to_mesh().vert_properties, float)[:, :3] - way.at[0]
    far = np.linalg.norm(away, axis=1)
    nearest = int(np.argmin(far))
    moved = away[nearest] * (1.0 + SUNK_MM / max(far[nearest], SUNK_MM))
    return limb.translate(tuple(float(v) for v in moved))


def _with(whole: Solid, limb: Solid, part: Part) -> Solid:
    if (whole ^ limb).volume() <= 0.0:
        name = shown(part.limb.name) if part.limb is not None else ""
        remedy = "Mend joins_at: at that height the body has no section that the limb could leave from."
        raise InputRefused("tape-limb-apart", f"limb {name} does not meet the body", "one closed body", "", remedy)
    return whole + limb
