"""STL, ASCII and binary: triangles without shared vertices and without a unit."""

from __future__ import annotations

import re

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.limits import Limits
from moldwright.scan.raw import Raw
from moldwright.scan.refuse import damaged, no_triangles, too_many, truncated
from moldwright.scan.repairs import Repair, RepairCode
from moldwright.scan.sniff import is_binary_stl
from moldwright.scan.text import blocks, cut_out, first_letters, numbers

RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
VERTEX = re.compile(rb"\bvertex\s+(\S+)\s+(\S+)\s+(\S+)")


def read_stl(data: bytes, limits: Limits) -> Raw:
    """Triangles of an STL file of either kind.

    Parameters
    ----------
    data : the file's bytes.
    limits : what reading may take in.
    """
    text = re.match(rb"\s*solid\b", data[:512], re.IGNORECASE) and b"\0" not in data[:512]
    if text and not is_binary_stl(data[:84], len(data)):
        return _ascii(data, limits)
    return _binary(data, limits)


def _binary(data: bytes, limits: Limits) -> Raw:
    if len(data) < 84:
        raise truncated(len(data), 84, "bytes")
    count = int.from_bytes(data[80:84], "little")
    needed, spare = 84 + 50 * count, len(data) - 84 - 50 * count
    if count == 0 and spare < 50:
        raise no_triangles()
    if count > limits.triangles and spare >= 0:
        raise too_many(count, limits.triangles)
    if spare < 0:
        raise truncated(len(data), needed, "bytes")
    if spare >= 50:
        raise damaged(f"{spare} bytes after the {count} triangles announced", "0 bytes")
    corners = np.frombuffer(data, RECORD, count, 84)["corners"]
    repairs = (Repair(RepairCode.BYTES_IGNORED, spare, "bytes"),) if spare else ()
    return Raw(np.ascontiguousarray(corners).reshape(-1, 3), None, repairs=repairs)


def _ascii(data: bytes, limits: Limits) -> Raw:
    found, facets, opened, ends = [], 0, 0, 0
    for block in blocks(data):
        lower = block.lower()
        closed = lower.count(b"endfacet")
        facets, opened = facets + closed, opened + lower.count(b"facet") - closed
        ends += lower.count(b"endsolid")
        if facets > limits.triangles:
            raise too_many(facets, limits.triangles)
        found.append(_coordinates(lower))
    if opened == 0 and ends:
        raise no_triangles()
    if opened != facets or not ends:
        raise truncated(facets, max(opened, facets + 1), "facets")
    coordinates = np.concatenate(found)
    if len(coordinates) != 9 * facets:
        raise damaged(f"{len(coordinates) // 3} vertices in {facets} facets", "3 vertices in each facet")
    return Raw(coordinates.reshape(-1, 3), None)


def _coordinates(text: bytes) -> NDArray[np.float64]:
    """The numbers of all lines that begin with "vertex"; statement by statement where lines hold several."""
    chars = np.frombuffer(text, np.uint8)
    starts = first_letters(chars)
    words = starts[(starts + 6 < len(chars)) & (chars[starts] == ord("v"))]
    if len(words) != text.count(b"vertex") or not all((chars[words + k] == c).all() for k, c in enumerate(b"vertex")):
        spread = [number for triple in VERTEX.findall(text) for number in triple]
        return numbers(b" ".join(spread), len(spread)).astype(np.float64)
    return numbers(cut_out(chars, words + 6), 3 * len(words)).astype(np.float64)
