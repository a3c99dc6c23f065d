"""OBJ: positions and faces; materials, normals, texture, groups, lines and points are ignored."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.limits import Limits
from moldwright.scan.polygons import triangulate
from moldwright.scan.raw import Indices, Raw
from moldwright.scan.refuse import damaged, index_out_of_range, no_triangles
from moldwright.scan.repairs import Repair, RepairCode
from moldwright.scan.text import SLASH, SPACE, blocks, cut_out, first_letters, plain_lines, rows

KNOWN = frozenset(
    b"v vt vn vp f fo l p o g s mg usemtl mtllib usemap maplib shadow_obj trace_obj bevel c_interp d_interp lod "
    b"deg bmat step cstype curv curv2 surf parm trim hole scrv sp end con call csh ctech stech".split()
)


def read_obj(data: bytes, limits: Limits) -> Raw:
    """Polygons of an OBJ file as triangles.

    Parameters
    ----------
    data : the file's bytes.
    limits : what reading may take in.
    """
    text = data.removeprefix(b"\xef\xbb\xbf")
    if b"\\" in text:
        text = text.replace(b"\\\r\n", b" ").replace(b"\\\n", b" ")
    points, corners, counts, seen = [], [], [], 0
    for block in blocks(text):
        position, named, lengths = _block(plain_lines(block), seen)
        points.append(position)
        corners.append(named)
        counts.append(lengths)
        seen += len(position)
    if not sum(len(lengths) for lengths in counts):
        raise no_triangles(f"{seen} vertices and no faces")
    vertices = np.concatenate(points)
    faces = triangulate(vertices, np.concatenate(corners), np.concatenate(counts), limits.triangles)
    library = Repair(RepairCode.MATERIALS_IGNORED, 1, "files")
    return Raw(vertices, faces, repairs=(library,) if b"mtllib" in data else ())


def _block(text: bytes, seen: int) -> tuple[NDArray[np.float64], Indices, Indices]:
    """Positions, corners and their number in each face, of some lines that come after `seen` vertices."""
    chars = np.frombuffer(text, np.uint8)
    starts = first_letters(chars)
    is_vertex, is_face = _keyword(chars, starts, b"v"), _keyword(chars, starts, b"f")
    _check_words(text, chars, starts[~(is_vertex | is_face)])
    points = rows(cut_out(chars, starts[is_vertex] + 1))
    found = rows(_without_slashes(cut_out(chars, starts[is_face] + 1)), integers=True)
    if len(found.counts) != int(is_face.sum()) or len(points.counts) != int(is_vertex.sum()):
        raise damaged("a vertex or face without numbers")
    if (found.counts < 3).any():
        raise damaged(f"a face with {int(found.counts.min())} corners", "at least 3")
    corners = found.values.astype(np.int64)
    if (corners == 0).any():
        raise index_out_of_range(0, seen)
    before = np.repeat(np.cumsum(is_vertex)[is_face], found.counts) + seen
    return points.columns(0, 3), np.where(corners < 0, corners + before, corners - 1), found.counts


def _keyword(chars: NDArray[np.uint8], starts: Indices, word: bytes) -> NDArray[np.bool_]:
    after = np.minimum(starts + 1, len(chars) - 1)
    found: NDArray[np.bool_] = (chars[starts] == word[0]) & (chars[after] <= SPACE)
    return found


def _check_words(text: bytes, chars: NDArray[np.uint8], starts: Indices) -> None:
    """Refuse a line that is no statement of the format; the many vn and vt lines are known by two letters."""
    after = np.minimum(starts + 1, len(chars) - 1)
    usual = (chars[starts] == ord("v")) & np.isin(chars[after], np.frombuffer(b"ntp", np.uint8))
    for at in starts[~usual].tolist():
        word = text[at : at + 40].split()[0]
        if word not in KNOWN:
            raise damaged(f"a line that begins with {word[:20].decode('ascii', 'replace')}", "a statement of OBJ")


def _without_slashes(text: bytes) -> bytes:
    """`1/2/3` -> `1    `: what stands between a slash and the next blank is blanked."""
    if b"/" not in text:
        return text
    chars = np.frombuffer(text, np.uint8)
    place = np.arange(len(chars), dtype=np.int32)
    slash = np.maximum.accumulate(np.where(chars == SLASH, place, -1))
    white = np.maximum.accumulate(np.where(chars <= SPACE, place, -1))
    return np.where(slash > white, np.uint8(SPACE), chars).astype(np.uint8).tobytes()
