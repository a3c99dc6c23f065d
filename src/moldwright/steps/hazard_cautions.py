"""What the chosen materials can do: in full where they are laid out, in short on the step that opens them."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from moldwright.materials import Sheet
from moldwright.materials.gear import gear_for
from moldwright.materials.hazards import hazard_tags
from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.ids import CoatId, StepId, coat_mix_step
from moldwright.plan.lines import Line, own_line
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.quantities.quantities import Quantities
from moldwright.steps.step_cautions import StepCautions

GHS_SOURCE = "GHS statements usual for the class; the supplier's safety data sheet overrides"
LAY_OUT = StepId("lay-out")


def hazard_cautions(job: Quantities, first_coat: CoatId, standing: Mapping[StepId, StepCautions]) -> list[Caution]:
    """Every chosen material's hazards.

    Parameters
    ----------
    job : the sheets, and how the powder goes in.
    first_coat : the coat whose cup opens the rubber.
    standing : by step of this job, the cautions that stand there already; what they cover is not said twice.

    Source: the sheets' H codes (GHS); the supplier's safety data sheet overrides.
    """
    opened = _opened(job, first_coat, standing)
    short = [_short(each, standing[each.step]) for each in opened]
    return [*_full(opened), *(each for each in short if each is not None)]


@dataclass(frozen=True, slots=True)
class _Opened:
    """A material, a step that opens it, and what it is chosen as: ids are unique only within a kind."""

    chosen_as: str
    step: StepId
    sheet: Sheet


def _opened(job: Quantities, first_coat: CoatId, standing: Collection[StepId]) -> list[_Opened]:
    """Each material and the first step of this job that opens it, of the resin also the trials before; nothing for one
    that none does."""
    chosen = job.basis.chosen
    shell = f"shell-{job.measures.shell.pieces}" if chosen.shell.making.by_hand else "shell-print"
    opened: tuple[tuple[str, tuple[str, ...], Sheet | None], ...] = (
        ("sealer", ("patch-test", "seal"), chosen.sealer),
        ("release", ("patch-test", "release"), chosen.release),
        ("rubber", ("patch-test", coat_mix_step(first_coat)), chosen.rubber),
        ("thixotrope", (coat_mix_step(first_coat),), chosen.thixotrope),
        ("shell", (shell,), chosen.shell),
        ("cast-release", ("resin-test",), chosen.cast_release),
        ("cast-release", ("release-mold",), chosen.cast_release),
        ("resin", ("resin-test", "powder-test"), chosen.resin),
        ("powder", ("resin-test", "powder-test"), chosen.powder),
        ("powder", ("powder-dry",), chosen.powder),
        ("resin", ("powder-wet", "skin"), chosen.resin),
        ("backfill", ("back-fill",), chosen.backfill),
    )
    found = [
        _Opened(chosen_as, step, sheet)
        for chosen_as, steps, sheet in opened
        for step in [StepId(each) for each in steps if StepId(each) in standing][:1]
        if sheet is not None
    ]
    first: dict[Sheet, _Opened] = {}
    for each in found:
        first.setdefault(each.sheet, each)
    return list(first.values())


def _full(opened: list[_Opened]) -> list[Caution]:
    """On the laying-out, the full statements; materials with the same ones in one caution."""
    alike: dict[tuple[str, ...], dict[Sheet, str]] = {}
    for each in opened:
        if each.sheet.hazards:
            alike.setdefault(each.sheet.hazards, {}).setdefault(each.sheet, each.chosen_as)
    return [
        caution(
            LAY_OUT,
            f"hazards-in-full.{next(iter(together.values()))}",
            Severity.HEED,
            (Line("hazard.full"),),
            GHS_SOURCE,
            (
                Quantity("materials", Dimension.WORD, ", ".join(sheet.name for sheet in together)),
                Quantity("statements", Dimension.CODES_IN_FULL, " ".join(codes)),
            ),
            hazard=True,
        )
        for codes, together in alike.items()
    ]


def _short(opened: _Opened, standing: StepCautions) -> Caution | None:
    """The sheet's own cautions, what its tags ask for, and its codes; None where the step has said it all."""
    sheet = opened.sheet
    tags = [tag for tag in hazard_tags(sheet) if tag not in standing.covers]
    lines = [*map(own_line, sheet.cautions), *(Line(f"hazard.tag.{tag}") for tag in tags)]
    if sheet.hazards:
        lines.append(Line("hazard.codes"))
    if not lines:
        return None
    if not standing.defers:
        lines.append(Line("hazard.defer"))
    quantities = (
        Quantity("material", Dimension.WORD, sheet.name),
        Quantity("statements", Dimension.CODES, " ".join(sheet.hazards)),
    )
    every = (Line("hazard.material"), *lines)
    return caution(
        opened.step,
        f"hazards.{opened.chosen_as}",
        Severity.HEED,
        every,
        GHS_SOURCE,
        quantities,
        hazard=True,
        gear=gear_for(tags),
    )
