"""STL, ASCII and binary: triangles without shared vertices and without a unit."""

from __future__ import annotations

import re

import numpy as np
from numpy.typing import NDArray

from moldwright.original.limits import Limits
from moldwright.original.raw import Indices, Raw
from moldwright.original.refuse import damaged, no_triangles, too_many, truncated
from moldwright.original.scan import Finding
from moldwright.original.sniff import is_binary_stl
from moldwright.original.text import line_starts, numbers, plain_lines

RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
VERTEX = re.compile(rb"(?i)\bvertex\s+(\S+)\s+(\S+)\s+(\S+)")


def read_stl(data: bytes, limits: Limits) -> Raw:
    """Triangles of an STL file of either kind."""
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
    findings = (Finding("bytes after the last triangle ignored", spare, "bytes"),) if spare else ()
    return Raw(np.ascontiguousarray(corners).reshape(-1, 3), None, findings=findings)


def _ascii(data: bytes, limits: Limits) -> Raw:
    text = plain_lines(data, b"")
    lower = text.lower()
    facets, ends = lower.count(b"endfacet"), lower.count(b"endsolid")
    opened = lower.count(b"facet") - facets
    if opened == 0 and ends:
        raise no_triangles()
    if opened != facets or not ends:
        raise truncated(facets, max(opened, facets + 1), "facets")
    if facets > limits.triangles:
        raise too_many(facets, limits.triangles)
    coordinates = _coordinates(text, lower)
    if len(coordinates) != 9 * facets:
        raise damaged(f"{len(coordinates) // 3} vertices in {facets} facets", "3 vertices in each facet")
    return Raw(coordinates.reshape(-1, 3), None)


def _coordinates(text: bytes, lower: bytes) -> NDArray[np.float64]:
    """The numbers of all lines that begin with "vertex"; statement by statement where lines hold several."""
    chars = np.frombuffer(text, np.uint8)
    starts = line_starts(chars)
    dark = chars > 32
    first = starts + _lead(dark, starts)
    letters = np.frombuffer(lower, np.uint8)
    words = first[first + 6 < len(chars)]
    is_vertex = np.ones(len(words), bool)
    for k, letter in enumerate(b"vertex"):
        is_vertex &= letters[words + k] == letter
    words = words[is_vertex]
    if len(words) != lower.count(b"vertex"):
        found = [number for triple in VERTEX.findall(text) for number in triple]
        return numbers(b" ".join(found), len(found)).astype(np.float64)
    keep = np.zeros(len(chars) + 1, np.int8)
    ends = np.concatenate([starts[1:], [len(chars)]])[np.searchsorted(starts, words, side="right") - 1]
    np.add.at(keep, words + 6, 1)
    np.add.at(keep, ends, -1)
    picked = chars[np.cumsum(keep[:-1], dtype=np.int8).view(bool)].tobytes()
    return numbers(picked, 3 * len(words)).astype(np.float64)


def _lead(dark: NDArray[np.bool_], starts: Indices) -> Indices:
    """How many blanks each line begins with."""
    seen = np.flatnonzero(dark)
    if not len(seen):
        return np.zeros(len(starts), np.int64)
    at = np.minimum(np.searchsorted(seen, starts), len(seen) - 1)
    lead: Indices = np.maximum(seen[at] - starts, 0)
    return lead
