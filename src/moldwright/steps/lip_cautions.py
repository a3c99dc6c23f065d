"""Cautions where the shell as built stands less far beyond the rubber's edge than it should."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.materials.words import Making
from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.ids import StepId
from moldwright.plan.lines import Line
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.quantities.quantities import Quantities
from moldwright.steps.thin_cautions import placed

SOURCE = "computed: level section of the shell's solids beyond the rubber's edge"


def lip_cautions(job: Quantities) -> Iterable[Caution]:
    """Where the lip is short, if anywhere; with a shell that is laid, in the step of its first piece.

    Parameters
    ----------
    job : the quantities, with the lip as measured.
    """
    shell = job.measures.shell
    if shell.lip is None or shell.lip.short_mm == 0.0:
        return
    quantities = (
        Quantity("lip.wanted", Dimension.LENGTH, shell.lip.wanted_mm),
        Quantity("lip.least", Dimension.LENGTH, shell.lip.least_mm),
        Quantity("lip.short", Dimension.LENGTH, shell.lip.short_mm),
        *placed("lip", shell.lip.at, job.measures.flange.frame),
    )
    printed = job.basis.chosen.shell.making is Making.PRINTED
    step, second = ("print-parts", "shape.lip-printed") if printed else (f"shell-{shell.pieces}", "shape.lip-lay")
    lines = (Line("shape.lip"), Line(second))
    yield caution(StepId(step), "short-lip", Severity.HEED, lines, SOURCE, quantities, particular=True)
