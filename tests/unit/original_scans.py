"""Scans as the readers give them, what they tell of repairs, and how their placing is refused."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from original_files import Shape, off, together

from moldwright.errors import InputRefused
from moldwright.original.mending.solid import Standing
from moldwright.original.standing.place import place
from moldwright.scan import Limits, Scan
from moldwright.scan.parse import parse
from moldwright.scan.repairs import RepairCode


def read(name: str, data: bytes) -> Scan:
    return parse(name, data, Limits())


def scan_of(*shapes: Shape, turn: NDArray[np.float64] | None = None) -> Scan:
    """Shapes in one file, turned as a rotation says."""
    points, faces = together(*shapes)
    return read("piece.off", off(points if turn is None else points @ turn, faces))


def repairs_of(found: Scan | Standing) -> dict[RepairCode, float]:
    """The size of each repair by its code."""
    return {repair.code: repair.size for repair in found.repairs}


def refused(scan: Scan, **given: object) -> InputRefused:
    """The refusal to place a scan, which always says what to do."""
    with pytest.raises(InputRefused) as caught:
        place(scan, **given)  # type: ignore[arg-type]
    assert caught.value.remedy
    return caught.value
