"""PLY, text and binary of either byte order: positions and faces; every other property is stepped over."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.limits import Limits
from moldwright.scan.ply_body import Columns, binary_tables, text_tables
from moldwright.scan.ply_header import Header, read_header
from moldwright.scan.polygons import short_faces, triangulate
from moldwright.scan.raw import Raw
from moldwright.scan.refuse import damaged, no_triangles, not_supported, too_many
from moldwright.scan.repairs import Repair, RepairCode
from moldwright.scan.text import whole

CORNERS = ("vertex_indices", "vertex_index")


def read_ply(data: bytes, limits: Limits) -> Raw:
    """Polygons of a PLY file as triangles.

    Parameters
    ----------
    data : the file's bytes.
    limits : what reading may take in.
    """
    header, at = read_header(data)
    _check(header, limits)
    tables, spare = (text_tables if header.order == "" else binary_tables)(data[at:], header)
    vertices = _positions(tables["vertex"])
    corners, counts = _corners(tables["face"])
    repairs = (Repair(RepairCode.BYTES_IGNORED, spare, "bytes"),) if spare else ()
    faces = triangulate(vertices, corners, counts, limits.triangles)
    return Raw(vertices, faces, repairs=(*repairs, *short_faces(counts)))


def _check(header: Header, limits: Limits) -> None:
    counts = {element.name: element.count for element in header.elements}
    if counts.get("tristrips"):
        raise not_supported("PLY with triangle strips", "Export PLY with faces.")
    if not counts.get("vertex") or not counts.get("face"):
        what = f"a point cloud of {counts.get('vertex', 0)} points without faces"
        raise no_triangles(what if counts.get("vertex") else "no vertices")
    if counts["face"] > limits.triangles:
        raise too_many(counts["face"], limits.triangles)


def _positions(table: Columns) -> NDArray[np.floating]:
    missing = [name for name in "xyz" if name not in table.columns]
    if missing:
        raise damaged(f"vertices without the property {missing[0]}", "x, y and z")
    columns = [table.columns[name] for name in "xyz"]
    small = all(column.dtype.itemsize <= 4 and column.dtype.kind == "f" for column in columns)
    return np.stack(columns, axis=1).astype(np.float32 if small else np.float64, copy=False)


def _corners(table: Columns) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    for name in CORNERS:
        if name in table.lists:
            corners, counts = table.lists[name]
            return whole(corners), counts
    raise damaged("faces without a list of corners", CORNERS[0])
