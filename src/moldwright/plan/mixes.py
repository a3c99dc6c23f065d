"""A cup: what it is for, its parts in their order, its clock."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.plan.ids import CoatId, MixId


class MixKind(StrEnum):
    """What a cup is for."""

    COAT = "coat"
    FILL = "fill"
    SKIN = "skin"
    BACK_FILL = "back-fill"


RUBBER_KINDS = frozenset((MixKind.COAT, MixKind.FILL))
"""Cups of rubber; the others are of resin."""


@dataclass(frozen=True, slots=True)
class MixFor:
    """What a cup is for; `coat`: which one, where it is for a coat."""

    kind: MixKind
    coat: CoatId | None = None

    @property
    def stem(self) -> str:
        """The start of its cups' ids: the coat's id, or the kind.

        >>> MixFor(MixKind.SKIN).stem
        'skin'
        """
        return self.kind.value if self.coat is None else self.coat


SKIN, BACK_FILL, FILL = MixFor(MixKind.SKIN), MixFor(MixKind.BACK_FILL), MixFor(MixKind.FILL)


class PartKind(StrEnum):
    """What a part of a mix is."""

    A = "A"
    B = "B"
    PIGMENT = "pigment"
    THIXOTROPE = "thixotropic agent"
    TINT = "tint"
    POWDER = "powder"


@dataclass(frozen=True, slots=True)
class MixPart:
    """One part of a cup in its order; `scale_reads_g` is the running total with the empty cup zeroed once.

    `kind` is what it is; `name` only a label: a color, the powder's name.
    """

    kind: PartKind
    name: str
    mass_g: float
    volume_ml: float
    scale_reads_g: float


@dataclass(frozen=True, slots=True)
class MixPlan:
    """One cup; `cup` counts from 1 within what it is for. `for_` is "for" in JSON."""

    id: MixId
    for_: MixFor
    cup: int
    parts: tuple[MixPart, ...]
    work_by_s: float
    tolerance_pct: float
    smallest_batch_g: float

    @property
    def mass_g(self) -> float:
        """All that is in the cup [g]: the last running total."""
        return self.parts[-1].scale_reads_g


def mix_id(for_: MixFor, cup: int) -> MixId:
    """The id of a cup.

    Parameters
    ----------
    for_ : what it is for.
    cup : from 1 within it.

    >>> mix_id(SKIN, 2)
    'skin.cup-2'
    """
    return MixId(f"{for_.stem}.cup-{cup}")
