"""The files of a plan's solids."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SolidFiles:
    """The bytes of each file by its name in the plan's folder."""

    contents: dict[str, bytes]
