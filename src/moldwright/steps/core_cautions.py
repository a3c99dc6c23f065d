"""Cautions about the core of a cast: that all is cast solid, and what no back-fill reaches."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.mold.measures import PASSES_MM
from moldwright.plan.cast import CLOSED_FROM_ML
from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.ids import StepId
from moldwright.plan.lines import Line
from moldwright.plan.mixes import SKIN
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.quantities.quantities import Quantities
from moldwright.steps.lifts import mixed_g

SOURCE = f"computed: what a ball of {PASSES_MM:g} mm reaches from the mouth, deeper than the skin: our own"
SKIN_STEP = StepId("skin")


def core_cautions(job: Quantities) -> list[Caution]:
    """That a cast is solid, why, how much and what heat to look for; what of another lies behind closed necks.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    """
    return [*_solid(job), *_closed(job)]


def _solid(job: Quantities) -> Iterable[Caution]:
    cast = job.cast.cast
    if cast.solid_why is None:
        return
    lines = [Line(f"job.solid.{cast.solid_why}"), Line("job.solid.grams")]
    if job.basis.chosen.resin.chemistry.heats_itself:
        lines.append(Line("job.solid.heat-filled" if job.basis.chosen.powder else "job.solid.heat"))
    quantities = (
        Quantity("solid.mass", Dimension.MASS, mixed_g(job.mixes_for(SKIN))),
        Quantity("solid.volume", Dimension.VOLUME, cast.volume_ml),
        Quantity("skin.thickness", Dimension.LENGTH, cast.skin.thickness_mm),
        Quantity("passes", Dimension.LENGTH, PASSES_MM),
    )
    yield caution(SKIN_STEP, "solid", Severity.HEED, tuple(lines), SOURCE, quantities, particular=True)


def _closed(job: Quantities) -> Iterable[Caution]:
    cast = job.cast.cast
    if cast.closed_ml < CLOSED_FROM_ML:
        return
    quantities = (
        Quantity("closed.volume", Dimension.VOLUME, cast.closed_ml),
        Quantity("passes", Dimension.LENGTH, PASSES_MM),
    )
    lines = (Line("job.closed-core"),)
    yield caution(SKIN_STEP, "closed-core", Severity.NOTE, lines, SOURCE, quantities, particular=True)
