"""The cautions of quantities alone: of materials, their pairs and the work with them, none that hangs on form."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from moldwright.plan.cautions import Caution
from moldwright.plan.ids import CautionId, StepId
from moldwright.plan.lines import Line
from moldwright.plan.needs import NeedGroup
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.rough import RoughCaution
from moldwright.plan.steps import Phase
from moldwright.quantities.quantities import Quantities
from moldwright.steps.lifts import LIFT_FROM_KG, Lift, lift_kg
from moldwright.steps.sheet import DEFER, CautionSheet, caution_sheet, read_data
from moldwright.steps.written import Work

PART = {
    Phase.BEFORE_RUBBER: NeedGroup.RUBBER,
    Phase.COAT: NeedGroup.RUBBER,
    Phase.GLOVE: NeedGroup.RUBBER,
    Phase.BEFORE_SHELL: NeedGroup.SHELL,
    Phase.SHELL_1: NeedGroup.SHELL,
    Phase.SHELL_2: NeedGroup.SHELL,
    Phase.SHELL_3: NeedGroup.SHELL,
    Phase.SHELL_4: NeedGroup.SHELL,
    Phase.SHELL: NeedGroup.SHELL,
    Phase.OFF_ORIGINAL: NeedGroup.SHELL,
    Phase.MOLD_READY: NeedGroup.CASTING,
    Phase.SKIN: NeedGroup.CASTING,
    Phase.BACK_FILL: NeedGroup.CASTING,
    Phase.SETTING: NeedGroup.CASTING,
    Phase.OUT_OF_MOLD: NeedGroup.CASTING,
    Phase.DRESSING: NeedGroup.FINISHING,
    Phase.WAXING: NeedGroup.FINISHING,
    Phase.LAST: NeedGroup.FINISHING,
}
"""The part of the list that a phase of the work buys its materials from."""
LAY_OUT = StepId("lay-out")
"""Where all materials are opened for the first time: what stands there is about all of them."""
ORDER = (NeedGroup.PROTECTION, *(group for group in NeedGroup if group is not NeedGroup.PROTECTION))
"""What is about all materials first, then the parts in the order of the work."""
LIFT = "lift"
OF_MATERIALS = frozenset((
    "ran-short", "inhibiting-traces", "cleaner-harms", "gloves-latex", "porous-unsealed", "silicone-bonds",
    "latex-grips", "urethane-bonds", "sulfur-clay", "damp-shell", "damp-powder", "open-can",
    "steel-wool-fire", "over-poured", "gelling-cup", "past-work-by", "gelling-fill", "heavy-cup", "by-volume",
    "powder-held-back", "thick-mix",
))  # fmt: skip
"""Rules of what hurts nobody and yet belongs to a material or to any cup of it, whatever the form."""
OWN_SHEET = "own-sheet"


def rough_cautions(works: Sequence[tuple[Quantities, Work]]) -> tuple[RoughCaution, ...]:
    """What concerns materials and the work with them, each once for each part of the list: in full in the first part
    that it belongs to, in short after that.

    Parameters
    ----------
    works : quantities and steps, the likely ones first, then those of every corner that may come true.
    """
    kept: dict[tuple[NeedGroup, str], Caution] = {}
    for _, work in works:
        for part, each in _kept(work):
            kept.setdefault((part, each.rule), each)
    said: set[str] = set()
    told = []
    for part, rule in sorted(kept, key=lambda key: ORDER.index(key[0])):
        told.append(_rough(part, kept[part, rule], rule in said))
        said.add(rule)
    lifted = _lifted(works)
    together = [*told, *([lifted] if lifted else [])]
    return tuple(sorted(together, key=lambda each: (ORDER.index(each.for_), -each.severity.rank)))


def _kept(work: Work) -> Iterator[tuple[NeedGroup, Caution]]:
    """Cautions with the part that they belong to; that which defers stands once, before all."""
    phases: Mapping[StepId, Phase] = {step.id: step.phase for step in work.steps}
    for each in work.cautions:
        if each.rule == LIFT or not _concerns(each):
            continue
        general = each.step == LAY_OUT or each.rule == DEFER or each.step not in phases
        yield NeedGroup.PROTECTION if general else PART[phases[each.step]], each


def _concerns(each: Caution) -> bool:
    return each.hazard or bool(each.between) or each.rule in OF_MATERIALS or each.rule.startswith(f"{OWN_SHEET}.")


def _rough(part: NeedGroup, each: Caution, again: bool) -> RoughCaution:
    sheet = _shared().get(each.rule)
    severity, lines = each.severity, each.lines
    if sheet is not None:
        short = sheet.again if again else None
        severity = sheet.severity.milder() if short is not None and not sheet.still else sheet.severity
        lines = (Line((short or sheet.full).key),)
    return RoughCaution(
        id=CautionId(f"{part}.{each.rule}"),
        for_=part,
        rule=each.rule,
        severity=severity,
        lines=lines,
        quantities=each.quantities,
        source=each.source,
        hazard=each.hazard,
        between=each.between,
        gear=each.gear,
    )


def _shared() -> Mapping[str, CautionSheet]:
    """The usual cautions in full, by their rules: steps that come later say them in short."""
    return {rule: caution_sheet(rule, "caution", base, {}) for rule, base in read_data("cautions")["caution"].items()}


def _lifted(works: Iterable[tuple[Quantities, Work]]) -> RoughCaution | None:
    """The heaviest that may have to be lifted, where it is heavy enough to be told."""
    kg = max(lift_kg(lift, job) for job, _ in works for lift in Lift)
    if kg < LIFT_FROM_KG:
        return None
    sheet = _shared()[LIFT]
    heaviest = Quantity("lift", Dimension.LIFT, kg)
    id_ = CautionId(f"{NeedGroup.PROTECTION}.{LIFT}")
    return RoughCaution(
        id_, NeedGroup.PROTECTION, LIFT, sheet.severity, (Line("rough.lift"), Line(sheet.full.key)), (heaviest,),
        sheet.source, True, (), sheet.gear,
    )  # fmt: skip
