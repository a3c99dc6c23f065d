"""A HEIC without what a camera writes beside its pixels: overwritten, so that all else stays in its place.

Source: ISO/IEC 14496-12, 4.2 (boxes), 8.11.3 (item locations), 8.11.6 (items), ISO/IEC 23008-12, annex A (EXIF and XMP
as items); from memory, tried on files of a general encoder.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from moldwright.records.files.camera import TornPhoto, camera_exif, camera_told

TOLD = {b"Exif", b"mime", b"uri "}
"""Items that tell of a picture and are none: EXIF, XMP, and whatever a link calls."""
KEPT_BOXES = {b"ftyp", b"meta"}
KEPT_META = {b"hdlr", b"dinf", b"pitm", b"iloc", b"iinf", b"iref", b"iprp", b"idat", b"grpl", b"ipro"}
IN_FILE, IN_IDAT = 0, 1
MOST = 4096
"""Boxes beside each other, and pieces of items: far more than a photo has."""


@dataclass(frozen=True, slots=True)
class HeicBox:
    """A box: its type, where it begins, where its contents begin, and where it ends."""

    kind: bytes
    at: int
    inner: int
    end: int


@dataclass(frozen=True, slots=True)
class HeicExtent:
    """Some bytes of an item: in the file or in the metadata's own data, from where to where."""

    item: int
    within: int
    start: int
    end: int


def bare_heic(data: bytes) -> bytes:
    """The same picture: its pixels' bytes, how they are to be shown, the zoom, and nothing else; as long as before.

    Parameters
    ----------
    data : the file; `TornPhoto` where its parts do not hang together.
    """
    top = list(_boxes(data, 0, len(data)))
    meta = _one(top, b"meta")
    inside = list(_boxes(data, meta.inner + 4, meta.end))
    kinds = dict(_items(data, _one(inside, b"iinf")))
    extents = list(islice(_extents(data, _one(inside, b"iloc")), MOST))
    pictures = sorted(
        (each for each in extents if kinds.get(each.item, b"Exif") not in TOLD), key=lambda each: each.start
    )
    bare = bytearray(data)
    for box in top:
        if box.kind not in KEPT_BOXES:
            _clear(bare, box, [each for each in pictures if each.within == IN_FILE], 0)
    for box in inside:
        if box.kind == b"idat":
            _clear(bare, box, [each for each in pictures if each.within == IN_IDAT], box.inner)
        elif box.kind not in KEPT_META:
            _clear(bare, box, [], 0)
    idat = next((box.inner for box in inside if box.kind == b"idat"), 0)
    exif = next((item for item, kind in kinds.items() if kind == b"Exif"), None)
    _write_camera(bare, data, [_placed(each, idat) for each in extents if each.item == exif])
    return bytes(bare)


def _placed(extent: HeicExtent, idat: int) -> tuple[int, int]:
    base = idat if extent.within == IN_IDAT else 0
    return base + extent.start, base + extent.end


def _write_camera(bare: bytearray, data: bytes, places: list[tuple[int, int]]) -> None:
    """What is kept of the EXIF, in its place; there is room where it stood before."""
    item = b"".join(data[start:end] for start, end in places)
    skip = int.from_bytes(item[:4], "big") + 4
    told = b"\0\0\0\0" + camera_exif(camera_told(item[skip:]))
    if len(told) == 4 or len(told) > len(item):
        return
    for start, end in places:
        part, told = told[: end - start], told[end - start :]
        bare[start : start + len(part)] = part


def _clear(bare: bytearray, box: HeicBox, kept: list[HeicExtent], base: int) -> None:
    """Nothing stays of a box but what is kept; what holds no data of pictures is called free space."""
    if box.kind not in (b"mdat", b"idat"):
        bare[box.at + 4 : box.at + 8] = b"free"
    at = box.inner
    for start, end in ((base + each.start, base + each.end) for each in kept):
        if start < box.end and end > at:
            begin = max(start, at)
            bare[at:begin] = bytes(begin - at)
            at = min(end, box.end)
    bare[at : box.end] = bytes(box.end - at)


def _boxes(data: bytes, at: int, end: int) -> Iterator[HeicBox]:
    for _ in range(MOST):
        if at == end:
            return
        size, kind, inner = _number(data, at, 4), data[at + 4 : at + 8], at + 8
        if size == 1:
            size, inner = _number(data, at + 8, 8), at + 16
        stop = end if size == 0 else at + size
        if not inner <= stop <= end:
            raise TornPhoto("a box runs past its end")
        yield HeicBox(kind, at, inner, stop)
        at = stop
    raise TornPhoto("too many boxes")


def _one(boxes: list[HeicBox], kind: bytes) -> HeicBox:
    found = [box for box in boxes if box.kind == kind]
    if len(found) != 1:
        raise TornPhoto(f"{len(found)} boxes of a kind that there is one of")
    return found[0]


def _items(data: bytes, box: HeicBox) -> Iterator[tuple[int, bytes]]:
    """Each item's number and type."""
    wide = data[box.inner] > 0
    for entry in _boxes(data, box.inner + (8 if wide else 6), box.end):
        version = data[entry.inner]
        if version < 2:
            raise TornPhoto("an item of an old kind")
        size = 2 if version == 2 else 4
        at = entry.inner + 4
        yield _number(data, at, size), data[at + size + 2 : at + size + 6]


def _extents(data: bytes, box: HeicBox) -> Iterator[HeicExtent]:
    version = data[box.inner]
    sizes = _number(data, box.inner + 4, 2)
    offset, length, base, index = (sizes >> shift & 0xF for shift in (12, 8, 4, 0))
    reader = _Fields(data, box.inner + 6, box.end)
    for _ in range(reader.take(4 if version == 2 else 2)):
        item = reader.take(4 if version == 2 else 2)
        within = reader.take(2) & 0xF if version else IN_FILE
        reader.take(2)
        start = reader.take(base)
        for _ in range(reader.take(2)):
            reader.take(index if version else 0)
            begin = start + reader.take(offset)
            yield HeicExtent(item, within, begin, begin + reader.take(length))


class _Fields:
    def __init__(self, data: bytes, at: int, end: int) -> None:
        self._data, self._at, self._end = data, at, end

    def take(self, size: int) -> int:
        if self._at + size > self._end:
            raise TornPhoto("a table runs past its end")
        self._at += size
        return _number(self._data, self._at - size, size)


def _number(data: bytes, at: int, size: int) -> int:
    if at + size > len(data):
        raise TornPhoto("cut off")
    return int.from_bytes(data[at : at + size], "big")
