"""Copies of shapes laid out in one file's space."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.limits import Limits
from moldwright.scan.polygons import check_indices
from moldwright.scan.raw import Indices, Raw
from moldwright.scan.refuse import damaged, no_triangles, too_many
from moldwright.scan.repairs import Repair
from moldwright.scan.scan import Vector

Shape = tuple[NDArray[np.floating], Indices]


@dataclass(frozen=True, slots=True, eq=False)
class Instance:
    """One use of a shape; `matrix` is (4, 4) and acts on columns."""

    shape: int
    matrix: NDArray[np.float64]


def assemble(
    shapes: Mapping[int, Shape],
    instances: Sequence[Instance],
    limits: Limits,
    unit: str,
    up: Vector,
    repairs: tuple[Repair, ...],
) -> Raw:
    """All copies in one list of triangles, each its own part; mirrored copies keep their outside out."""
    used = Counter(instance.shape for instance in instances)
    total = sum(len(shapes[shape][1]) * times for shape, times in used.items())
    if total == 0:
        raise no_triangles()
    if total > limits.triangles:
        raise too_many(total, limits.triangles)
    for shape in used:
        check_indices(shapes[shape][1].ravel(), len(shapes[shape][0]))
    points, faces, part, at = [], [], [], 0
    for number, instance in enumerate(i for i in instances if len(shapes[i.shape][1])):
        moved, triangles = _copy(shapes[instance.shape], instance.matrix)
        points.append(moved)
        faces.append(triangles + at)
        part.append(np.full(len(moved), number, np.int64))
        at += len(moved)
    return Raw(np.concatenate(points), np.concatenate(faces), np.concatenate(part), unit, up, repairs)


def _copy(shape: Shape, matrix: NDArray[np.float64]) -> Shape:
    """Only the vertices that its triangles use, moved."""
    used, faces = np.unique(shape[1], return_inverse=True)
    turn, size = matrix[:3, :3], float(np.linalg.det(matrix[:3, :3]))
    if not np.isfinite(matrix).all() or size == 0:
        raise damaged("a transform that flattens or loses the shape")
    with np.errstate(all="ignore"):
        moved = shape[0][used].astype(np.float64) @ turn.T + matrix[:3, 3]
    faces = faces.reshape(-1, 3)
    return moved, faces[:, ::-1] if size < 0 else faces
