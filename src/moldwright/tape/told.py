"""What a tape tells, as the commission's orders hold it; this room reads them by these shapes alone."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from typing import Protocol

from moldwright.geometry.section_shape import Hollows, SectionShape


class TapeLevel(Protocol):
    """One place of the tape: how far up or along, the girth there, and what calipers read."""

    @property
    def at_mm(self) -> float: ...

    @property
    def girth_mm(self) -> float: ...

    @property
    def breadth_mm(self) -> float | None: ...

    @property
    def depth_mm(self) -> float | None: ...

    @property
    def shape(self) -> SectionShape | None: ...


class Limb(Protocol):
    """A limb by its own levels, counted from where it joins."""

    @property
    def name(self) -> str: ...

    @property
    def joins_at_mm(self) -> float: ...

    @property
    def levels(self) -> Sequence[TapeLevel]: ...

    @property
    def ends_at_mm(self) -> float | None: ...

    @property
    def gap_mm(self) -> float | None: ...

    @property
    def side(self) -> StrEnum | None: ...

    @property
    def count(self) -> int: ...

    @property
    def shape(self) -> SectionShape | None: ...

    @property
    def hollows(self) -> Hollows | None: ...


class Tape(Protocol):
    """The body's levels and its limbs."""

    @property
    def levels(self) -> Sequence[TapeLevel]: ...

    @property
    def shape(self) -> SectionShape | None: ...

    @property
    def hollows(self) -> Hollows | None: ...

    @property
    def limbs(self) -> Sequence[Limb]: ...


class Gap(Protocol):
    """A recess or gap that neither tape nor outline shows."""

    @property
    def where(self) -> str: ...

    @property
    def depth_mm(self) -> float: ...

    @property
    def width_mm(self) -> float: ...

    @property
    def length_mm(self) -> float | None: ...

    @property
    def count(self) -> int: ...


def gap_mm3(gap: Gap) -> float:
    """Depth times width times length of all gaps of a row [mm3].

    Parameters
    ----------
    gap : as the maker told it.

    Source: our own.
    """
    return gap.count * gap.depth_mm * gap.width_mm * (gap.width_mm if gap.length_mm is None else gap.length_mm)
