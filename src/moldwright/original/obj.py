"""OBJ: positions and faces; materials, normals, texture, groups, lines and points are ignored."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.original.limits import Limits
from moldwright.original.polygons import triangulate
from moldwright.original.raw import Indices, Raw
from moldwright.original.refuse import damaged, index_out_of_range, no_triangles
from moldwright.original.scan import Finding
from moldwright.original.text import NEWLINE, SLASH, SPACE, line_starts, plain_lines, rows

CHUNK = 1 << 24
KNOWN = frozenset(
    b"v vt vn vp f fo l p o g s mg usemtl mtllib usemap maplib shadow_obj trace_obj bevel c_interp d_interp lod "
    b"deg bmat step cstype curv curv2 surf parm trim hole scrv sp end con call csh ctech stech".split()
)


def read_obj(data: bytes, limits: Limits) -> Raw:
    """Polygons of an OBJ file as triangles."""
    text = plain_lines(data.removeprefix(b"\xef\xbb\xbf").replace(b"\\\r\n", b" ").replace(b"\\\n", b" "))
    chars = np.frombuffer(text + b"\n", np.uint8)
    starts = line_starts(chars)
    starts = starts + _lead(chars, starts)
    is_vertex, is_face = _keyword(chars, starts, b"v"), _keyword(chars, starts, b"f")
    _check_words(text, chars, starts, is_vertex | is_face)
    if not is_face.any():
        raise no_triangles(f"{int(is_vertex.sum())} vertices and no faces")
    points = rows(_pick(chars, starts, is_vertex)).columns(0, 3)
    corners, counts = _corners(chars, starts, is_vertex, is_face)
    faces = triangulate(points, corners, counts, limits.triangles)
    named = len(data) and b"mtllib" in data
    return Raw(points, faces, findings=(Finding("material library ignored", 1, "files"),) if named else ())


def _lead(chars: NDArray[np.uint8], starts: Indices) -> Indices:
    """How many blanks each line begins with (0 for an empty line)."""
    seen = np.append(np.flatnonzero((chars > SPACE) | (chars == NEWLINE)), len(chars) - 1)
    lead: Indices = seen[np.searchsorted(seen, starts)] - starts
    return lead


def _keyword(chars: NDArray[np.uint8], starts: Indices, word: bytes) -> NDArray[np.bool_]:
    after = np.minimum(starts + 1, len(chars) - 1)
    found: NDArray[np.bool_] = (chars[starts] == word[0]) & (chars[after] <= SPACE) & (chars[after] != NEWLINE)
    return found


def _check_words(text: bytes, chars: NDArray[np.uint8], starts: Indices, known: NDArray[np.bool_]) -> None:
    """Refuse a line that is no statement of the format; the many vn and vt lines are known by two letters."""
    after = np.minimum(starts + 1, len(chars) - 1)
    usual = (chars[starts] == ord("v")) & np.isin(chars[after], np.frombuffer(b"ntp", np.uint8))
    usual |= chars[starts] == NEWLINE
    for at in starts[~(known | usual)].tolist():
        word = text[at : at + 40].split()[:1]
        if word and word[0] not in KNOWN:
            raise damaged(f"a line that begins with {word[0][:20].decode('ascii', 'replace')}", "a statement of OBJ")


def _pick(chars: NDArray[np.uint8], starts: Indices, chosen: NDArray[np.bool_]) -> bytes:
    """The chosen lines without their keyword."""
    ends = np.append(starts[1:], len(chars))
    keep = np.zeros(len(chars) + 1, np.int8)
    keep[starts[chosen]] += 1
    keep[ends[chosen]] -= 1
    picked = chars[np.cumsum(keep[:-1], dtype=np.int8).view(np.bool_)].copy()
    at = np.cumsum((ends - starts)[chosen]) - (ends - starts)[chosen]
    picked[at] = SPACE
    return picked.tobytes()


def _corners(
    chars: NDArray[np.uint8], starts: Indices, is_vertex: NDArray[np.bool_], is_face: NDArray[np.bool_]
) -> tuple[Indices, Indices]:
    found = rows(_without_slashes(_pick(chars, starts, is_face)), whole=True)
    if len(found.counts) != int(is_face.sum()):
        raise damaged("a face without corners")
    seen = np.cumsum(is_vertex)[is_face]
    corners = found.values.astype(np.int64)
    if (corners == 0).any():
        raise index_out_of_range(0, int(is_vertex.sum()))
    corners = np.where(corners < 0, corners + np.repeat(seen, found.counts), corners - 1)
    return corners, found.counts


def _without_slashes(text: bytes) -> bytes:
    """`1/2/3` -> `1    `, block by block of whole lines."""
    if b"/" not in text:
        return text
    blocks, at = [], 0
    while at < len(text):
        end = text.find(b"\n", min(at + CHUNK, len(text) - 1)) + 1 or len(text)
        blocks.append(_blank(np.frombuffer(text[at:end], np.uint8)))
        at = end
    return b"".join(blocks)


def _blank(chars: NDArray[np.uint8]) -> bytes:
    place = np.arange(len(chars), dtype=np.int32)
    slash = np.maximum.accumulate(np.where(chars == SLASH, place, -1))
    white = np.maximum.accumulate(np.where(chars <= SPACE, place, -1))
    return np.where(slash > white, np.uint8(SPACE), chars).astype(np.uint8).tobytes()
