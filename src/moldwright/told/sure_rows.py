"""What of a mold is sure where its original is not known exactly, what is not, and what to measure: in words."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.plan import Plan
from moldwright.sheets.wording import Wording
from moldwright.steps.sure_lines import Said, hollow_lines, sure_lines, unsure_lines
from moldwright.units.system import UnitSystem


@dataclass(frozen=True, slots=True)
class SureRows:
    """Sentences: what is sure, what is not and what would settle it, where to measure."""

    sure: tuple[str, ...]
    unsure: tuple[str, ...]
    measure: tuple[str, ...]


def sure_rows(plan: Plan, units: UnitSystem) -> SureRows | None:
    """What is told; None where the original is known.

    Parameters
    ----------
    plan : the plan.
    units : of who reads.
    """
    if plan.doubt is None:
        return None
    wording = Wording(units, plan.scale_g)
    return SureRows(
        sure=_told(sure_lines(plan.doubt), wording),
        unsure=_told(unsure_lines(plan.doubt), wording),
        measure=tuple(" ".join(_told(hollow_lines(hollow), wording)) for hollow in plan.doubt.hollows),
    )


def _told(said: Said, wording: Wording) -> tuple[str, ...]:
    return tuple(wording.line(line, said.quantities) for line in said.lines)
