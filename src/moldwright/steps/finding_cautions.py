"""Judgments of compatibility as cautions, each on the step where the two things meet."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from moldwright.materials.compatibility import UNNAMED, Finding, Trial
from moldwright.materials.rules import Slot, Verdict
from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.ids import CoatId, StepId, coat_mix_step
from moldwright.plan.lines import Line
from moldwright.plan.quantity import Dimension, Quantity

EVERY_JOBS = frozenset((Slot.CUPS, Slot.GLOVES, Slot.TOOLS, Slot.ISOPROPANOL))
"""What lies in every shop: a finding that is about one of these belongs to every job of its material."""
SEVERITY = {Verdict.DOUBT: Severity.HEED, Verdict.STOP: Severity.STOP}
LAY_OUT = StepId("lay-out")
TRIALS = {
    Trial.ORIGINAL: StepId("patch-test"),
    Trial.RESIN: StepId("resin-test"),
    Trial.POWDER: StepId("powder-test"),
    Trial.SHELL: StepId("shell-test"),
}
"""The step that tries a pair."""
PLACES = (
    (Slot.ISOPROPANOL, "solvent-wipe"),
    (Slot.CAST_RELEASE, "release-mold"),
    (Slot.POWDER, "powder-dry"),
    (Slot.RELEASE, "release"),
    (Slot.RELEASE, "gaps"),
    (Slot.SEALER, "seal"),
    (Slot.SEALER, "clean"),
)
"""On which step a thing meets another, the first that is about it and that this job has: where no release or sealer is
chosen, the step before it would be put on."""


def finding_cautions(
    findings: Iterable[Finding], first_coat: CoatId, told: Collection[str], standing: Collection[StepId]
) -> list[Caution]:
    """Every judgment that is not clear, on the test that tries the two or on the step where the two things meet.

    Parameters
    ----------
    findings : judgments of compatibility.
    first_coat : the coat that meets the original.
    told : rules of the cautions that stand on the steps already; a finding that one of them tells is not said twice.
    standing : the steps that this job has.

    Source: the findings' own.
    """
    return [
        _caution(finding, first_coat, standing)
        for finding in findings
        if finding.verdict in SEVERITY and (finding.patch_test or finding.told_by not in told)
    ]


def _caution(finding: Finding, first_coat: CoatId, standing: Collection[StepId]) -> Caution:
    lines = [Line("finding.original" if finding.rule == UNNAMED else "finding.pair")]
    lines += [Line(f"rule.{finding.rule}.{part}") for part in ("reason", "remedy")]
    one, two = finding.names
    quantities = [Quantity("one", Dimension.WORD, one), Quantity("two", Dimension.WORD, two)]
    if finding.near:
        lines.append(Line("finding.near"))
        quantities.append(Quantity("near", Dimension.WORD, ", ".join(finding.near)))
    return caution(
        step_of(finding, first_coat, standing),
        f"{finding.rule}.{finding.slots[0]}-{finding.slots[1]}",
        SEVERITY[finding.verdict],
        tuple(lines),
        finding.source,
        tuple(quantities),
        between=tuple(str(slot) for slot in finding.slots),
        particular=not EVERY_JOBS & set(finding.slots),
        ruins=finding.patch_test or finding.verdict is Verdict.STOP,
    )


def step_of(finding: Finding, first_coat: CoatId, standing: Collection[StepId]) -> StepId:
    """The step on which a finding stands.

    Parameters
    ----------
    finding : a judgment of compatibility.
    first_coat : the coat that meets the original.
    standing : the steps that this job has.
    """
    if finding.trial is not None:
        return TRIALS[finding.trial]
    slots = finding.slots
    place = next((step for slot, step in PLACES if slot in slots and StepId(step) in standing), None)
    if place is not None:
        return StepId(place)
    if Slot.RESIN in slots:
        return StepId("rubber-full-cure") if Slot.SHELL in slots else LAY_OUT
    if Slot.SHELL in slots:
        return StepId("wax-rubber")
    return coat_mix_step(first_coat) if Slot.RUBBER in slots else LAY_OUT
