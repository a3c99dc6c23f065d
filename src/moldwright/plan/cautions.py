"""A warning as a value: the step it stands on, what it is about, how grave it is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from moldwright.materials.gear import Gear
from moldwright.plan.ids import NOWHERE, CautionId, StepId, caution_id
from moldwright.plan.lines import Line
from moldwright.plan.quantity import Quantity


class Severity(StrEnum):
    """How grave a caution is: stop hurts a person or cannot be mended, heed costs work, note is good to know."""

    NOTE = "note"
    HEED = "heed"
    STOP = "stop"

    @property
    def rank(self) -> int:
        """0 for a note, 2 for a stop."""
        return GRADES.index(self)

    def milder(self) -> Severity:
        """One grade less grave.

        >>> Severity.STOP.milder(), Severity.NOTE.milder()
        (<Severity.HEED: 'heed'>, <Severity.NOTE: 'note'>)
        """
        return GRADES[max(self.rank - 1, 0)]


GRADES = tuple(Severity)


@dataclass(frozen=True, slots=True)
class Caution:
    """One warning. It stands on one step, once.

    Parameters
    ----------
    id : made of the step and the rule.
    step : where it stands, "" on no step of this job.
    rule : what it is about: the name of one of our cautions, of a rule of compatibility, of a computed warning.
    severity : how grave.
    lines : what it says, sentence by sentence.
    quantities : what its lines quote.
    source : where it comes from.
    hazard : it is about what can hurt a person.
    between : the slots of the two things that it is about, where it is about two.
    moved_from : the step that the maker left out and this caution came from, "" for none.
    particular : it belongs to this job (what was found of its materials, its figures, its shape), not to every job.
    ruins : what it warns of can cost the original, the mold or the casts, not only work.
    gear : what it asks to wear.
    """

    IN_WORDS: ClassVar[str] = "text"
    """The key under which plan.json tells it in words."""
    id: CautionId
    step: StepId
    rule: str
    severity: Severity
    lines: tuple[Line, ...]
    quantities: tuple[Quantity, ...]
    source: str
    hazard: bool = False
    between: tuple[str, ...] = ()
    moved_from: StepId = NOWHERE
    particular: bool = False
    ruins: bool = False
    gear: tuple[Gear, ...] = ()


def caution(
    step: StepId,
    rule: str,
    severity: Severity,
    lines: tuple[Line, ...],
    source: str,
    quantities: tuple[Quantity, ...] = (),
    hazard: bool = False,
    between: tuple[str, ...] = (),
    particular: bool = False,
    ruins: bool = False,
    gear: tuple[Gear, ...] = (),
) -> Caution:
    """A caution with its id.

    Parameters
    ----------
    step, rule, severity, lines, source, quantities, hazard, between, particular, ruins, gear : as in `Caution`.
    """
    return Caution(
        caution_id(step, rule),
        step,
        rule,
        severity,
        lines,
        quantities,
        source,
        hazard,
        between,
        particular=particular,
        ruins=ruins,
        gear=gear,
    )
