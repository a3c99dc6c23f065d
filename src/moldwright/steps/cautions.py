"""Which cautions stand on each step: in full where a group of steps first needs one, in short where it comes again."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace

from moldwright.steps.context import StepContext
from moldwright.steps.draft import Draft
from moldwright.steps.flags import holds
from moldwright.steps.masses import lift_kg
from moldwright.steps.sheet import SEVERITIES, CautionLine

LIFT_FROM_KG = 3.0
"""From here on a lift is cautioned; lighter, its weight alone is told. The lowest figure, for any place and person, of
the guideline filter in the British HSE's guidance on manual handling, L23 (from memory)."""


def caution_lines(
    made: Iterable[Draft], context: StepContext, dropped: Collection[str] = ()
) -> tuple[tuple[CautionLine, ...], ...]:
    """The cautions of every draft, in the drafts' order; none where the step does not stand.

    Parameters
    ----------
    made : the drafts in the order of the work.
    context : what the weights lifted are reckoned from.
    dropped : ids of steps that the maker leaves out: what they say counts as not said.
    """
    said: set[tuple[str, str]] = set()
    done = []
    for draft in made:
        lines = _lines(draft, lift_kg(draft.sheet.lift, context) or 0.0) if draft.stands else ()
        done.append(tuple(_again(line) if (draft.sheet.group, line.text) in said else line for line in lines))
        if draft.id not in dropped:
            said |= {(draft.sheet.group, line.text) for line in lines}
    return tuple(done)


def _lines(draft: Draft, lifted_kg: float) -> tuple[CautionLine, ...]:
    lines = (line for line in draft.sheet.cautions if holds(line.when, draft.words))
    return tuple(line for line in lines if "{lift}" not in line.text or lifted_kg >= LIFT_FROM_KG)


def _again(line: CautionLine) -> CautionLine:
    """The short form, one grade lower; unless the data says that the caution is as grave each time (`still`)."""
    if not line.again:
        return line
    lower = SEVERITIES[max(SEVERITIES.index(line.severity) - 1, 0)]
    return replace(line, text=line.again, severity=line.severity if line.still else lower)
