"""From what a file lists to a mesh that says what was mended."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.scan.edges import Edges, edges_of
from moldwright.scan.limits import Limits
from moldwright.scan.polygons import check_indices
from moldwright.scan.raw import Raw
from moldwright.scan.refuse import no_triangles, too_many
from moldwright.scan.repairs import Repair, RepairCode
from moldwright.scan.scan import Scan
from moldwright.scan.weld import all_differ, merge_equal
from moldwright.scan.winding import make_outward

SLIVER = 1e-12
LARGEST = 1e9
Faces = NDArray[np.int64]


def tidy(raw: Raw, kind: str, limits: Limits) -> Scan:
    """Merge, drop, orient and count; each mend is a repair.

    Our own.

    Parameters
    ----------
    raw : the triangles as the file lists them.
    kind : the format's name.
    limits : what reading may take in.
    """
    _check(raw, limits)
    vertices, faces, repairs = _merged(raw)
    faces, dropped = _drop(vertices, faces)
    faces, edges, count, turned = make_outward(vertices, faces)
    vertices, faces = _used(vertices, faces)
    repairs = (*raw.repairs, *repairs, *dropped, *turned, *_edges(edges))
    if count > 1:
        repairs = (*repairs, Repair(RepairCode.SEPARATE_BODIES, count, "bodies"))
    closed = len(edges.open) == 0 and edges.crowded == 0 and not edges.same.any()
    mesh = Mesh(vertices, faces.astype(np.int32))
    return Scan(mesh, raw.unit, raw.up, count, kind, repairs, closed)


def _check(raw: Raw, limits: Limits) -> None:
    count = len(raw.vertices) // 3 if raw.faces is None else len(raw.faces)
    if count == 0:
        raise no_triangles()
    if count > limits.triangles:
        raise too_many(count, limits.triangles)
    if raw.faces is not None:
        check_indices(raw.faces.ravel(), len(raw.vertices))
    bad = int((~np.isfinite(raw.vertices).all(axis=1)).sum())
    if bad:
        raise InputRefused("not-finite", bad, 0, "vertices", "Coordinates are not numbers: export the scan again.")
    largest = float(np.abs(raw.vertices).max())
    if largest > LARGEST:
        raise InputRefused("coordinates-too-large", largest, LARGEST, "", "Move the scan to the origin, export again.")


def _merged(raw: Raw) -> tuple[NDArray[np.float64], Faces, tuple[Repair, ...]]:
    """Equal vertices of one part become one; parts that do not close alone are joined with all others."""
    plain = raw.vertices + raw.vertices.dtype.type(0)
    first, place = merge_equal(plain)
    faces = place.reshape(-1, 3) if raw.faces is None else place[raw.faces]
    vertices = plain[first].astype(np.float64)
    if raw.part is not None and raw.faces is not None and raw.part.max() > 0:
        split = merge_equal(np.stack([place, raw.part], axis=1))
        apart = split[1][raw.faces]
        if len(edges_of(apart, len(split[0])).open) == 0:
            return plain[split[0]].astype(np.float64), apart, ()
    return vertices, faces, ()


def _drop(vertices: NDArray[np.float64], faces: Faces) -> tuple[Faces, tuple[Repair, ...]]:
    """Leave out triangles without area and triangles that are there twice."""
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    normal = np.cross(b - a, c - a)
    size = np.einsum("ij,ij->i", normal, normal)
    long = np.maximum(((b - a) ** 2).sum(axis=1), np.maximum(((c - b) ** 2).sum(axis=1), ((a - c) ** 2).sum(axis=1)))
    flat = size <= (SLIVER * long) ** 2
    repairs = []
    if flat.any():
        repairs.append(Repair(RepairCode.FLAT_TRIANGLES_DROPPED, int(flat.sum()), "triangles"))
        faces = faces[~flat]
    if not len(faces):
        raise no_triangles(f"{int(flat.sum())} triangles, none with an area")
    kept = _once(faces)
    if len(kept) < len(faces):
        repairs.append(Repair(RepairCode.DOUBLE_TRIANGLES_DROPPED, len(faces) - len(kept), "triangles"))
    if not len(kept):
        raise no_triangles("a sheet without thickness")
    return kept, tuple(repairs)


def _once(faces: Faces) -> Faces:
    """Each triangle once; two back to back cancel, unless the whole surface is drawn from both sides."""
    ordered = np.sort(faces, axis=1)
    if all_differ(ordered):
        return faces
    first, place = merge_equal(ordered)
    turn = np.where(_even(faces), 1, -1)
    ahead, back = np.bincount(place, turn > 0, len(first)) > 0, np.bincount(place, turn < 0, len(first)) > 0
    both = ahead & back
    if both.sum() > len(first) / 2:
        return faces[first]
    return faces[first[~both]]


def _even(faces: Faces) -> NDArray[np.bool_]:
    """Whether the corners run in rising order but for a rotation."""
    a, b, c = faces.T
    even: NDArray[np.bool_] = ((a < b) & (b < c)) | ((b < c) & (c < a)) | ((c < a) & (a < b))
    return even


def _used(vertices: NDArray[np.float64], faces: Faces) -> tuple[NDArray[np.float64], Faces]:
    """Only the vertices that triangles use, in their order."""
    used = np.zeros(len(vertices), bool)
    used[faces.ravel()] = True
    if used.all():
        return vertices, faces
    place = np.cumsum(used) - 1
    return vertices[used], place[faces]


def _edges(edges: Edges) -> tuple[Repair, ...]:
    found = []
    if len(edges.open):
        found.append(Repair(RepairCode.OPEN_EDGES, len(edges.open), "edges"))
    if edges.crowded:
        found.append(Repair(RepairCode.CROWDED_EDGES, edges.crowded, "edges"))
    return tuple(found)
