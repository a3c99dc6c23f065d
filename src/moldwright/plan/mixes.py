"""A cup: what it is for, its parts in their order and how each is measured, what is done with it before it gels."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import fsum

from moldwright.plan.ids import CoatId, MixId


class MixKind(StrEnum):
    """What a cup is for."""

    COAT = "coat"
    FILL = "fill"
    SKIN = "skin"
    BACK_FILL = "back-fill"
    SHELL = "shell"


RUBBER_KINDS = frozenset((MixKind.COAT, MixKind.FILL))
"""Cups of rubber."""
CAST_KINDS = frozenset((MixKind.SKIN, MixKind.BACK_FILL))
"""Cups of casting resin, mixed again for every cast."""


@dataclass(frozen=True, slots=True)
class MixFor:
    """What a cup is for; `coat`: which one it is, or which one its fill follows; `piece`: of the shell, from 1,
    first off first."""

    kind: MixKind
    coat: CoatId | None = None
    piece: int | None = None

    @property
    def stem(self) -> str:
        """The start of its cups' ids: a coat's own id, else the kind and where it goes.

        >>> MixFor(MixKind.SKIN).stem, MixFor(MixKind.FILL, CoatId("coat-2")).stem, MixFor(MixKind.SHELL, piece=1).stem
        ('skin', 'fill-after-coat-2', 'shell-1')
        """
        if self.piece is not None:
            return f"{self.kind}-{self.piece}"
        if self.coat is None:
            return self.kind.value
        return self.coat if self.kind is MixKind.COAT else f"{self.kind}-after-{self.coat}"


SKIN, BACK_FILL = MixFor(MixKind.SKIN), MixFor(MixKind.BACK_FILL)


class PartKind(StrEnum):
    """What a part of a mix is."""

    A = "A"
    B = "B"
    PIGMENT = "pigment"
    THIXOTROPE = "thixotropic agent"
    TINT = "tint"
    POWDER = "powder"
    WATER = "water"
    GYPSUM = "gypsum"
    FIBER = "fiber"


REACTING = frozenset((PartKind.A, PartKind.B, PartKind.WATER, PartKind.GYPSUM))
"""What reacts: two of them make a mix whose ratio decides the cure, and the later one starts its clock."""
DRY = frozenset((PartKind.POWDER, PartKind.GYPSUM, PartKind.FIBER))
"""What no syringe draws and no mark in a wet cup shows."""
TRACES = frozenset((PartKind.PIGMENT, PartKind.TINT))
"""What is a trace on a stick, or a few drops."""


class MeasuredBy(StrEnum):
    """How a part gets its amount: on the scale, in a syringe, to the cup's marks, or a trace on a stick or in drops."""

    SCALE = "scale"
    SYRINGE = "syringe"
    MARKS = "marks"
    STICK = "stick"


@dataclass(frozen=True, slots=True)
class StuffKey:
    """Of what a thing is: `kind` and `id` of its row on the list of needs; a lot on the shelf is of one."""

    kind: str = ""
    id: str = ""


@dataclass(frozen=True, slots=True)
class MixPart:
    """One part of a cup in its order.

    `kind` is what it is; `name` only a label: a color, the powder's name, what the trade calls A. `volume_ml` is as
    it is measured, a powder's loose. `scale_reads_g` is what the scale shows once it is in, the empty cup zeroed
    once: for a part that is not weighed a check. `reads_ml` is the mix's volume once it is stirred in. `syringe_ml`:
    the size of the syringe, where it is measured by one. `stuff`: what it is taken from.
    """

    kind: PartKind
    name: str
    mass_g: float
    volume_ml: float
    scale_reads_g: float
    by: MeasuredBy
    reads_ml: float
    syringe_ml: float | None = None
    stuff: StuffKey = StuffKey()


class TaskKind(StrEnum):
    """What is done with a cup."""

    MIX = "mix"
    LAY = "lay"
    PACK = "pack"
    POUR = "pour"
    SWIRL = "swirl"


@dataclass(frozen=True, slots=True)
class CupTask:
    """One thing that is done with a cup, from the moment its parts meet on, and how long it takes."""

    kind: TaskKind
    duration_s: float


@dataclass(frozen=True, slots=True)
class MixPlan:
    """One cup; `cup` counts from 1 within what it is for. `for_` is "for" in JSON.

    Its tasks, one after the other, are done by `work_by_s` after the parts met; None: no clock of two parts runs.
    `tolerance_pct`: how far off the ratio (of one part alone its mass) may be as it is measured. `surplus_g`: what it
    holds beyond the work's need, only so that the ratio can be measured. `ratio`: grams (of a cup that is filled to
    marks milliliters) of the later of the two parts that react for one of the earlier, as the sheet tells it, not as it
    was rounded; None for a mix of one part. `ratio_within_pct`: how far off the ratio may be before the cure suffers.
    `most_g`: the heaviest cup that can be stirred, and of which the work's need is laid or poured in time.
    """

    id: MixId
    for_: MixFor
    cup: int
    parts: tuple[MixPart, ...]
    tasks: tuple[CupTask, ...]
    work_by_s: float | None
    tolerance_pct: float
    smallest_batch_g: float
    surplus_g: float = 0.0
    ratio: float | None = None
    ratio_within_pct: float = 0.0
    most_g: float = 0.0

    @property
    def mass_g(self) -> float:
        """All that is in the cup [g]."""
        return round(fsum(part.mass_g for part in self.parts), 9)

    @property
    def marked(self) -> bool:
        """Whether it is measured without a scale, to marks and by syringe."""
        return all(part.by is not MeasuredBy.SCALE for part in self.parts)

    @property
    def volume_ml(self) -> float:
        """Where the stirred mix stands [ml]."""
        return self.parts[-1].reads_ml

    @property
    def out_by_s(self) -> float | None:
        """When the cup must be empty [s]: what is swirled in the mold comes after."""
        if self.work_by_s is None:
            return None
        return round(self.work_by_s - fsum(task.duration_s for task in self.tasks if task.kind is TaskKind.SWIRL), 1)

    @property
    def starter(self) -> PartKind | None:
        """The part that starts the clock: the later one of those that react; None for a mix of one part."""
        pair = [part.kind for part in self.parts if part.kind in REACTING]
        return pair[1] if len(pair) > 1 else None


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
