"""One step of the work, as values: sentences by their keys, quantities, waits, cups and cautions by their ids."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.plan.clocks import Curing
from moldwright.plan.ids import NOWHERE, CautionId, CoatId, MixId, StepId
from moldwright.plan.lines import Line
from moldwright.plan.quantity import Quantity
from moldwright.ranges import Range


class Per(StrEnum):
    """How often a step is done: once a mold, for every batch of casts, for every cast, once at the edition's end."""

    MOLD = "mold"
    BATCH = "batch"
    CAST = "cast"
    EDITION = "edition"


class Shows(StrEnum):
    """The table that stands under a step's lines: what is cut for a laid shell, strips of bandage or squares of
    matting, of one piece of it or of all, with the rolls that they are cut from."""

    CUTS = "cuts"


EACH_CAST = (Per.BATCH, Per.CAST)
"""What may come as often as a cast: a batch may be for one."""


class Phase(StrEnum):
    """Where in the work a step stands: what is drawn as built, and the heading that it is printed under."""

    BEFORE_RUBBER = "before-rubber"
    COAT = "coat"
    GLOVE = "glove"
    BEFORE_SHELL = "before-shell"
    SHELL_1 = "shell-1"
    SHELL_2 = "shell-2"
    SHELL_3 = "shell-3"
    SHELL_4 = "shell-4"
    SHELL = "shell"
    OFF_ORIGINAL = "off-original"
    MOLD_READY = "mold-ready"
    SKIN = "skin"
    BACK_FILL = "back-fill"
    SETTING = "setting"
    OUT_OF_MOLD = "out-of-mold"
    DRESSING = "dressing"
    WAXING = "waxing"
    LAST = "last"


LAID_IN = (Phase.SHELL_1, Phase.SHELL_2, Phase.SHELL_3, Phase.SHELL_4)
"""In which phase each piece of the shell is laid, piece 1 at first."""


@dataclass(frozen=True, slots=True)
class StepPlan:
    """One step of the work.

    Parameters
    ----------
    id : stable; a coat's steps begin with the coat's id.
    phase : where in the work it stands.
    coat : the coat that it is about, None for none.
    per : how often it is done.
    title, needs, do, before, write : what is said; needs are things to have at hand, before what must be true, write
        what is written down.
    labor_min : hands at work [min].
    wait_min : what the material asks to wait [min], None for no wait.
    waits_within : the waits lie between its cups or layers, not behind it.
    cautions : ids of what stands on it.
    mixes : ids of its cups.
    lift_kg : what is lifted, None for nothing.
    quantities : what its lines quote.
    people : how many it takes at the least.
    cures : what its wait is the cure of; none: something dries or sets, whatever the temperature, or the maker's own
        time.
    closes_min : counted as the wait is, when `closes_for` must have been begun at the latest [min].
    closes_for : the step whose work goes on only while this one's is tacky.
    shows : the table under its lines, None for none.
    """

    id: StepId
    phase: Phase
    coat: CoatId | None
    per: Per
    title: Line
    labor_min: float
    wait_min: Range | None
    needs: tuple[Line, ...]
    do: tuple[Line, ...]
    before: tuple[Line, ...]
    write: tuple[Line, ...]
    cautions: tuple[CautionId, ...]
    mixes: tuple[MixId, ...]
    lift_kg: float | None
    quantities: tuple[Quantity, ...]
    waits_within: bool = False
    people: int = 1
    cures: tuple[Curing, ...] = ()
    closes_min: Range | None = None
    closes_for: StepId = NOWHERE
    shows: Shows | None = None

    @property
    def laid_piece(self) -> int | None:
        """The piece of the shell that is laid in its phase, from 1; None where it is of none or of all."""
        return LAID_IN.index(self.phase) + 1 if self.phase in LAID_IN else None
