"""Where rubber is packed: the point that the maker pushes it in at, volume and greatest depth of each place."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import Rays
from moldwright.mold.measures import FillSpot, SpotKind
from moldwright.mold.packed import Packed, deepest_of, nearest

OFF_MM = 0.02
COVERED_SHARE = 0.5
"""A crevice of which an undercut's packing hides more than this is packed with it, in one go: our choice."""

Ints = NDArray[np.int64]
NONE = -1


def spots_of(crevices: Sequence[Packed], undercuts: Sequence[Packed]) -> tuple[FillSpot, ...]:
    """All packed places in the order of the work: crevices, then undercuts, the largest of each first.

    A crevice that lies under an undercut's packing is of that place; of one that is hidden in part only the open part
    says where it is and how deep.

    Parameters
    ----------
    crevices, undercuts : each place as its own solid.

    Source: our own.
    """
    packed, left = list(undercuts), []
    for place, by in zip(crevices, _covered(crevices, undercuts), strict=True):
        size = _sizes(place.outer)
        if size[by != NONE].sum() > COVERED_SHARE * size.sum():
            whose = int(np.bincount(by[by != NONE], size[by != NONE]).argmax())
            packed[whose] = _joined(packed[whose], place, by == NONE)
        else:
            left.append(_open_part(place, by == NONE))
    return tuple(
        _spot(place, kind)
        for places, kind in ((left, SpotKind.CREVICE), (packed, SpotKind.UNDERCUT))
        for place in sorted(places, key=lambda each: -each.volume_mm3)
    )


def _spot(place: Packed, kind: SpotKind) -> FillSpot:
    at, depth_mm = deepest_of(place)
    return FillSpot((float(at[0]), float(at[1]), float(at[2])), depth_mm, place.volume_ml, kind)


def _across(mesh: Mesh) -> NDArray[np.float64]:
    """(m, 3) outward at right angles to every triangle, twice as long as its area."""
    corners = mesh.corners
    return np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])


def _sizes(mesh: Mesh) -> NDArray[np.float64]:
    sizes: NDArray[np.float64] = np.linalg.norm(_across(mesh), axis=1) / 2
    return sizes


def _covered(crevices: Sequence[Packed], undercuts: Sequence[Packed]) -> list[Ints]:
    """For every outer triangle of every crevice the undercut that is packed over it, -1: none.

    A ray outward that leaves a packing before it enters one began inside it.
    """
    if not undercuts:
        return [np.full(len(place.outer.faces), NONE) for place in crevices]
    sides = [side for place in undercuts for side in (place.outer, place.inner)]
    rays, outward = Rays(sides), [_across(side) for side in sides]
    return [_covering(place.outer, rays, outward) for place in crevices]


def _covering(bridge: Mesh, rays: Rays, outward: Sequence[NDArray[np.float64]]) -> Ints:
    across = _across(bridge)
    along = across / np.maximum(np.linalg.norm(across, axis=1), 1e-12)[:, None]
    hits = rays.first_hits(bridge.corners.mean(axis=1) + OFF_MM * along, along)
    by = np.full(len(along), NONE)
    for number, normals in enumerate(outward):
        met = np.flatnonzero(hits.solid == number)
        leaving = np.einsum("ij,ij->i", normals[hits.face[met]], along[met]) > 0
        by[met[leaving]] = number // 2
    return by


def _joined(place: Packed, under: Packed, bare: NDArray[np.bool_]) -> Packed:
    """A packing with a crevice under it; what it does not cover of the crevice is open as well."""
    return Packed(
        _together(place.outer, _some(under.outer, bare)),
        _together(place.inner, under.inner),
        place.volume_mm3 + under.volume_mm3,
    )


def _open_part(place: Packed, bare: NDArray[np.bool_]) -> Packed:
    """A place with its open triangles and what is beneath them; the volume stays that of all of it."""
    if bare.all():
        return place
    over = nearest(place.outer.corners.mean(axis=1), place.inner.corners.mean(axis=1))[1]
    if not bare[over].any():
        return Packed(_some(place.outer, bare), place.inner, place.volume_mm3)
    return Packed(_some(place.outer, bare), _some(place.inner, bare[over]), place.volume_mm3)


def _some(mesh: Mesh, faces: NDArray[np.bool_]) -> Mesh:
    return Mesh(mesh.vertices, mesh.faces[faces])


def _together(first: Mesh, second: Mesh) -> Mesh:
    faces = second.faces + np.int32(len(first.vertices))
    return Mesh(np.concatenate([first.vertices, second.vertices]), np.concatenate([first.faces, faces]))
