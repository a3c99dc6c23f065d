"""OFF with its variants (colors, normals, texture): only positions and faces are kept."""

from __future__ import annotations

import re

import numpy as np

from moldwright.scan.limits import Limits
from moldwright.scan.polygons import short_faces, triangulate
from moldwright.scan.raw import Indices, Raw
from moldwright.scan.refuse import damaged, no_triangles, not_supported, too_many, truncated
from moldwright.scan.repairs import Repair, RepairCode
from moldwright.scan.text import Rows, plain_lines, rows, whole

HEADER = re.compile(rb"\s*((?:ST)?C?N?(4?)(n?)OFF)[ \t]*(BINARY)?\s*(-?\d+)\s+(-?\d+)(?:[ \t]+-?\d+)?[ \t]*(?=\s|$)")


def read_off(data: bytes, limits: Limits) -> Raw:
    """Polygons of an OFF file as triangles.

    Parameters
    ----------
    data : the file's bytes.
    limits : what reading may take in.
    """
    if re.match(rb"\s*\w*OFF\s+BINARY", data):
        raise not_supported("binary OFF", "Export OFF as text, or STL or PLY.")
    text = plain_lines(data.removeprefix(b"\xef\xbb\xbf"))
    header = HEADER.match(text)
    if not header:
        raise truncated(len(data), len(data) + 1, "bytes") if len(data) < 24 else damaged("no counts after OFF")
    if header[2] or header[3]:
        raise not_supported("OFF with more than three dimensions", "Export plain OFF.")
    vertices, faces = int(header[5]), int(header[6])
    _check_counts(vertices, faces, len(text), limits)
    return _body(text[header.end() :], vertices, faces, limits)


def _check_counts(vertices: int, faces: int, size: int, limits: Limits) -> None:
    if vertices < 0 or faces < 0:
        raise damaged(f"{min(vertices, faces)} as a count", "0 or more")
    if faces == 0 or vertices == 0:
        raise no_triangles(f"{vertices} vertices and {faces} faces")
    if faces > limits.triangles:
        raise too_many(faces, limits.triangles)
    if 6 * vertices + 2 * faces - 1 > size:
        raise truncated(size, 6 * vertices + 2 * faces, "bytes")


def _body(text: bytes, vertices: int, faces: int, limits: Limits) -> Raw:
    at = _after_lines(text, vertices)
    points = rows(text[:at])
    if len(points.counts) < vertices:
        raise truncated(len(points.counts), vertices, "vertices")
    lists = _lists(text[at:])
    if len(lists.counts) < faces:
        raise truncated(len(lists.counts), faces, "faces")
    spare = len(lists.counts) - faces
    repairs = (Repair(RepairCode.LINES_IGNORED, spare, "lines"),) if spare else ()
    corners, counts = _corners(lists.cut(faces)[0])
    position = points.columns(0, 3)
    triangles = triangulate(position, corners, counts, limits.triangles)
    return Raw(position, triangles, repairs=(*repairs, *short_faces(counts)))


def _after_lines(text: bytes, wanted: int) -> int:
    """Where the text goes on after `wanted` lines that are not empty."""
    chars = np.frombuffer(text, np.uint8)
    dark = np.flatnonzero(chars > 32)
    if not len(dark):
        raise truncated(0, wanted, "vertices")
    ends = np.append(np.flatnonzero(chars == 10), len(chars))
    filled = np.searchsorted(dark, ends)
    used = np.flatnonzero(np.diff(filled, prepend=0) > 0)
    return int(ends[used[min(wanted, len(used)) - 1]])


def _lists(text: bytes) -> Rows:
    """Face lines; their colors may be fractions, so integers are tried first."""
    return rows(text, integers=b"." not in text and b"e" not in text)


def _corners(lists: Rows) -> tuple[Indices, Indices]:
    """The corner indices in one row and their number in each face; what follows (colors) is dropped."""
    counts = whole(lists.values[lists.starts])
    if (counts < 1).any() or (counts + 1 > lists.counts).any():
        worst = int(np.flatnonzero((counts < 1) | (counts + 1 > lists.counts))[0])
        raise damaged(f"face {worst} announces {counts[worst]} corners and lists {lists.counts[worst] - 1}")
    place = np.arange(len(lists.values)) - np.repeat(lists.starts, lists.counts)
    picked = lists.values[(place > 0) & (place <= np.repeat(counts, lists.counts))]
    return whole(picked), counts
