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
    """All copies in one list of triangles, each its own part; mirrored copies keep their outside out.

    Our own.

    Parameters
    ----------
    shapes : points (n, 3) and triangles (m, 3) of each shape, by its number.
    instances : every use of a shape.
    limits : what reading may take in.
    unit, up : what the format itself states.
    repairs : what was found so far.
    """
    used = Counter(instance.shape for instance in instances)
    total = sum(len(shapes[shape][1]) * times for shape, times in used.items())
    if total == 0:
        raise no_triangles()
    if total > limits.triangles:
        raise too_many(total, limits.triangles)
    for shape in used:
        check_indices(shapes[shape][1].ravel(), len(shapes[shape][0]))
    points, faces, part, at, seen = [], [], [], 0, 0
    for shape in used:
        if not len(shapes[shape][1]):
            continue
        matrices = np.stack([instance.matrix for instance in instances if instance.shape == shape])
        moved, triangles = _copies(shapes[shape], matrices)
        each = moved.shape[1]
        starts = at + each * np.arange(len(matrices))
        points.append(moved.reshape(-1, 3))
        faces.append((triangles + starts[:, None, None]).reshape(-1, 3))
        part.append(np.repeat(seen + np.arange(len(matrices)), each))
        at, seen = at + each * len(matrices), seen + len(matrices)
    return Raw(np.concatenate(points), np.concatenate(faces), np.concatenate(part), unit, up, repairs)


def _copies(shape: Shape, matrices: NDArray[np.float64]) -> Shape:
    """The vertices that a shape's triangles use, moved by each matrix, (k, n, 3), and its triangles, (k, m, 3)."""
    used, faces = np.unique(shape[1], return_inverse=True)
    turns = matrices[:, :3, :3]
    with np.errstate(all="ignore"):
        sizes = np.linalg.det(turns)
        if not np.isfinite(matrices).all() or (sizes == 0).any():
            raise damaged("a transform that flattens or loses the shape")
        moved = shape[0][used].astype(np.float64) @ turns.transpose(0, 2, 1) + matrices[:, None, :3, 3]
    faces = faces.reshape(-1, 3)
    return moved, np.where((sizes < 0)[:, None, None], faces[:, ::-1], faces)
