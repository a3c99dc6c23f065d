"""The two systems of units that are printed."""

from __future__ import annotations

from enum import StrEnum


class UnitSystem(StrEnum):
    """The units that are printed: mm, g, ml, °C; or in, oz, fl oz, °F."""

    METRIC = "metric"
    US = "us"
