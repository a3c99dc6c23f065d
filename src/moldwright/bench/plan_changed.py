"""What a plan that was made anew changes, as values."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.bench.acts import Act
from moldwright.log.run_events import CupRef
from moldwright.plan.ids import CoatId, MixId, StepId
from moldwright.plan.mixes import PartKind, StuffKey


class Altered(StrEnum):
    """What is other about a step."""

    WORDS = "what is said"
    LABOR = "hands' time"
    WAIT = "wait or window"
    CUPS = "cups"
    CAUTIONS = "cautions"
    PLACE = "place in the work"


@dataclass(frozen=True, slots=True)
class StepChange:
    """A step of both plans that is not the same in both."""

    step: StepId
    altered: tuple[Altered, ...]


@dataclass(frozen=True, slots=True)
class PartChange:
    """A part of a cup: its mass before and after, None where it had or has none; of what it is taken."""

    kind: PartKind
    old_g: float | None
    new_g: float | None
    old_stuff: StuffKey | None = None
    new_stuff: StuffKey | None = None


@dataclass(frozen=True, slots=True)
class CupChange:
    """A cup of both plans that is not the same in both; by when it is worked, where that changed."""

    cup: MixId
    parts: tuple[PartChange, ...]
    old_work_by_s: float | None
    new_work_by_s: float | None


@dataclass(frozen=True, slots=True)
class CoatChange:
    """A coat's thickness before and after, None where the plan had or has none."""

    coat: CoatId
    old_mm: float | None
    new_mm: float | None


@dataclass(frozen=True, slots=True)
class PlanChanges:
    """What a new plan changes.

    Parameters
    ----------
    steps_gone, steps_new, steps : by their ids; of those in both what is other.
    cups_gone, cups_new, cups : the same of the cups.
    coats : coats whose thickness is other, new ones and those that are gone.
    rubber, temperature_c : before and after, None where they are the same.
    done_gone : acts that are begun or done and that the new plan has not; they stay in the log.
    weighed_gone : cups that are weighed or poured and that the new plan has not.
    weighed_other : cups that are weighed or poured with other masses than the new plan's; they stay as they are.
    new_before : acts that the new plan has and the old had not, while something that needs them is begun or done.
    """

    steps_gone: tuple[StepId, ...]
    steps_new: tuple[StepId, ...]
    steps: tuple[StepChange, ...]
    cups_gone: tuple[MixId, ...]
    cups_new: tuple[MixId, ...]
    cups: tuple[CupChange, ...]
    coats: tuple[CoatChange, ...]
    rubber: tuple[str, str] | None
    temperature_c: tuple[float, float] | None
    done_gone: tuple[Act, ...]
    weighed_gone: tuple[CupRef, ...]
    weighed_other: tuple[CupRef, ...]
    new_before: tuple[Act, ...]

    @property
    def nothing(self) -> bool:
        """Whether the two plans are the same to a run."""
        told = (self.steps_gone, self.steps_new, self.steps, self.cups_gone, self.cups_new, self.cups, self.coats)
        return not any(told) and self.rubber is None and self.temperature_c is None
