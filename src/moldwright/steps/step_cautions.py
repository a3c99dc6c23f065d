"""Which of the data's cautions stand on each step: in full where a group first needs one, in short after that."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.lines import Line
from moldwright.plan.quantity import Quantity
from moldwright.steps.draft import Draft
from moldwright.steps.flags import holds
from moldwright.steps.lifts import LIFT_FROM_KG
from moldwright.steps.placeholders import quantities_in
from moldwright.steps.sheet import DEFER, CautionSheet

DEFER_LINE = Line(f"caution.{DEFER}")


@dataclass(frozen=True, slots=True)
class StepCautions:
    """The cautions of one step and the tags of sheets about which they say enough."""

    cautions: tuple[Caution, ...]
    covers: frozenset[str]

    @property
    def defers(self) -> bool:
        """Whether the step names what comes before this software's reminder."""
        return any(each.rule == DEFER for each in self.cautions)


def step_cautions(made: Iterable[Draft], dropped: Collection[str] = ()) -> tuple[StepCautions, ...]:
    """The data's cautions of every draft, in the drafts' order; none where the step does not stand.

    Parameters
    ----------
    made : the drafts in the order of the work.
    dropped : ids of steps that the maker leaves out: what they say counts as not said.
    """
    said: set[tuple[str, str]] = set()
    done = []
    for draft in made:
        sheets = _sheets(draft) if draft.stands else ()
        done.append(_standing(draft, sheets, said))
        if draft.id not in dropped:
            said |= {(draft.sheet.group, sheet.full.key) for sheet in sheets}
    return tuple(done)


def _sheets(draft: Draft) -> tuple[CautionSheet, ...]:
    lifted_kg = draft.lift_kg or 0.0
    return tuple(
        sheet
        for sheet in draft.sheet.cautions
        if holds(sheet.when, draft.flags) and not (sheet.lift and lifted_kg < LIFT_FROM_KG)
    )


def _standing(draft: Draft, sheets: tuple[CautionSheet, ...], said: Collection[tuple[str, str]]) -> StepCautions:
    made = [_caution(draft, sheet, (draft.sheet.group, sheet.full.key) in said) for sheet in sheets]
    if any(sheet.hazard for sheet in sheets):
        made.append(caution(draft.id, DEFER, Severity.NOTE, (DEFER_LINE,), "common practice, no source", hazard=True))
    return StepCautions(tuple(made), frozenset(tag for sheet in sheets for tag in sheet.covers))


def _caution(draft: Draft, sheet: CautionSheet, again: bool) -> Caution:
    """In full, or its short form, one grade lower unless the data says that it is as grave each time (`still`)."""
    short = sheet.again if again else None
    sentence = short or sheet.full
    severity = sheet.severity.milder() if short is not None and not sheet.still else sheet.severity
    quoted: tuple[Quantity, ...] = quantities_in((sentence,), draft.quoted)
    says, gear = (Line(sentence.key),), sheet.gear
    return caution(draft.id, sheet.rule, severity, says, sheet.source, quoted, sheet.hazard, gear=gear)
