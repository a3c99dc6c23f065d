"""Accessors of a GLB file: columns of numbers inside its one binary chunk."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.refuse import truncated

KINDS = {5120: "<i1", 5121: "<u1", 5122: "<i2", 5123: "<u2", 5125: "<u4", 5126: "<f4"}
WIDTHS = {"SCALAR": 1, "VEC3": 3}


class Buffers:
    """Reads accessors; the binary chunk is the only buffer."""

    def __init__(self, scene: dict[str, Any], binary: bytes) -> None:
        self._accessors = scene.get("accessors", [])
        self._views = scene.get("bufferViews", [])
        self._binary = binary
        announced = int(scene["buffers"][0]["byteLength"]) if scene.get("buffers") else 0
        if announced > len(binary):
            raise truncated(len(binary), announced, "bytes of geometry")

    def accessor(self, index: int, width: int) -> NDArray[np.generic]:
        """(count, width) values of one accessor, sparse changes and normalization applied.

        Parameters
        ----------
        index : of the accessor.
        width : numbers in each value, 1 or 3.
        """
        accessor = self._accessors[_index(index)]
        if WIDTHS[accessor["type"]] != width:
            raise ValueError("an accessor of another width")
        kind, count = np.dtype(KINDS[accessor["componentType"]]), _index(accessor["count"])
        if "bufferView" in accessor:
            found = self._view(accessor["bufferView"], accessor.get("byteOffset", 0), kind, count, width)
        else:
            if count > 60_000_000:
                raise truncated(0, count, "values")
            found = np.zeros((count, width), kind)
        if "sparse" in accessor:
            found = self._sparse(accessor["sparse"], found.copy())
        if accessor.get("normalized") and kind.kind in "iu":
            found = np.maximum(found.astype(np.float64) / np.iinfo(kind).max, -1.0)
        return found

    def _sparse(self, sparse: dict[str, Any], found: NDArray[np.generic]) -> NDArray[np.generic]:
        where, what, count = sparse["indices"], sparse["values"], _index(sparse["count"])
        kind = np.dtype(KINDS[where["componentType"]])
        places = self._view(where["bufferView"], where.get("byteOffset", 0), kind, count, 1)
        width = found.shape[1]
        found[places.ravel()] = self._view(what["bufferView"], what.get("byteOffset", 0), found.dtype, count, width)
        return found

    def _view(self, index: int, offset: int, kind: np.dtype[Any], count: int, width: int) -> NDArray[np.generic]:
        view = self._views[_index(index)]
        if _index(view.get("buffer", 0)) != 0:
            raise ValueError("a second buffer")
        start = _index(view.get("byteOffset", 0))
        size = kind.itemsize * width
        stride = _index(view.get("byteStride", 0)) or size
        end = start + _index(view["byteLength"])
        first = start + _index(offset)
        needed = first + stride * (count - 1) + size if count else first
        if end > len(self._binary) or needed > end:
            raise truncated(min(end, len(self._binary)), max(needed, end), "bytes of geometry")
        return np.ndarray((count, width), kind, self._binary, first, (stride, kind.itemsize))


def _index(value: Any) -> int:
    """A whole number that is not negative."""
    number = int(value)
    if number < 0 or number != value:
        raise ValueError("a negative or broken number")
    return number
