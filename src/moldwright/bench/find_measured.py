"""What was measured and is not as it should be: coats by the gauge, scales by a known weight."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import fsum

from moldwright.bench.findings import Found, RunFinding
from moldwright.log.event import Event
from moldwright.log.run_events import Gauged, ScaleChecked
from moldwright.plan.coats import CoatPlan
from moldwright.plan.plan import Plan
from moldwright.plan.quantity import Dimension, Quantity

THIN, THICK = 0.5, 2.0
"""Shares of a coat's thickness between which a place of it may be: laid by hand it varies; our own, no source."""
SCALE_WITHIN = 0.005
"""By how much a scale may be off a known weight, as a share, where one step is less: a quarter of the closest ratio
tolerance of our classes; our own."""


def find_measured(plan: Plan, events: Iterable[Event]) -> Iterator[RunFinding]:
    """Coats that are thin or thick somewhere, scales that are off.

    Parameters
    ----------
    plan : its coats and the scale's step.
    events : that stand.
    """
    coats = {coat.id: coat for coat in plan.glove.coats}
    for event in events:
        match event.body:
            case Gauged(coat=coat) if coat not in coats:
                yield RunFinding(Found.UNKNOWN_COAT, coat=coat, event=event.id)
            case Gauged() as gauged:
                yield from _thickness(coats[gauged.coat], gauged, event)
            case ScaleChecked() as checked:
                yield from _scale(checked, plan.scale_g, event)


def _thickness(coat: CoatPlan, gauged: Gauged, event: Event) -> Iterator[RunFinding]:
    places = gauged.places_mm
    if not places or (min(places) >= THIN * coat.thickness_mm and max(places) <= THICK * coat.thickness_mm):
        return
    told = {
        "thickness.least": min(places),
        "thickness.most": max(places),
        "thickness.mean": fsum(places) / len(places),
        "coat.thickness": coat.thickness_mm,
    }
    lengths = tuple(Quantity(name, Dimension.LENGTH, value) for name, value in told.items())
    yield RunFinding(Found.THICKNESS_OFF, coat=coat.id, event=event.id, quantities=lengths)


def _scale(checked: ScaleChecked, step_g: float, event: Event) -> Iterator[RunFinding]:
    if not scale_is_off(checked, step_g):
        return
    off = checked.reads_g - checked.weight_g
    told = (
        Quantity("scale.weight", Dimension.SCALED_MASS, checked.weight_g),
        Quantity("scale.reads", Dimension.SCALED_MASS, checked.reads_g),
        Quantity("scale.off", Dimension.PERCENT, 100.0 * off / checked.weight_g if checked.weight_g else 0.0),
    )
    yield RunFinding(Found.SCALE_OFF, scale=checked.scale, event=event.id, quantities=told)


def scale_is_off(checked: ScaleChecked, step_g: float) -> bool:
    """Whether a scale shows a known weight by more than its step, or than a share of it, wrong.

    Parameters
    ----------
    checked : the known weight and what the scale showed.
    step_g : the scale's step [g].
    """
    return abs(checked.reads_g - checked.weight_g) > max(step_g, SCALE_WITHIN * checked.weight_g) + 1e-9
