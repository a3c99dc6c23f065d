"""Cautions where the finished glove is thinner than ordered: in under the foot, and where its solid was rounded off."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.flange import Frame
from moldwright.plan.ids import StepId
from moldwright.plan.lines import Line
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.thickness import Point, ThicknessPlan
from moldwright.quantities.quantities import Quantities

GAPS, LAY_OUT = StepId("gaps"), StepId("lay-out")
FOOT_SOURCE = "computed: room between the solid's underside and the board"
THIN_SOURCE = "computed: least way through the glove's solid"


def thin_cautions(job: Quantities) -> Iterable[Caution]:
    """Where the glove is thin, if anywhere.

    Parameters
    ----------
    job : the quantities, with the thickness as measured.
    """
    thickness, frame = job.measures.glove.thickness, job.measures.flange.frame
    if thickness is not None:
        yield from _foot(thickness, frame)
        yield from _thin(thickness, frame)


def _foot(thickness: ThicknessPlan, frame: Frame) -> Iterable[Caution]:
    if thickness.foot is None or not thickness.runs_out:
        return
    quantities = (
        Quantity("foot.ordered", Dimension.LENGTH, thickness.ordered_mm),
        Quantity("foot.reach", Dimension.LENGTH, thickness.foot.reach_mm),
        *placed("foot", thickness.foot.at, frame),
    )
    lines = (Line("shape.foot"), Line("shape.foot-clay"))
    yield caution(GAPS, "thin-foot", Severity.HEED, lines, FOOT_SOURCE, quantities, particular=True, ruins=True)


def _thin(thickness: ThicknessPlan, frame: Frame) -> Iterable[Caution]:
    if not thickness.thin:
        return
    quantities = (
        Quantity("thin.ordered", Dimension.LENGTH, thickness.ordered_mm),
        Quantity("thin.least", Dimension.LENGTH, thickness.least.mm),
        *placed("thin", thickness.least.at, frame),
        Quantity("thin.up", Dimension.LENGTH, thickness.least.at[2]),
    )
    lines = (Line("shape.thin"), Line("shape.thin-lay"))
    yield caution(LAY_OUT, "thin-glove", Severity.HEED, lines, THIN_SOURCE, quantities, particular=True)


def placed(name: str, at: Point, frame: Frame) -> Iterable[Quantity]:
    """Where a point is, as it is measured from the frame's front left corner.

    Parameters
    ----------
    name : of what is there.
    at : the point [mm].
    frame : about the flange.
    """
    right_mm, back_mm = frame.measured(at[:2])
    yield Quantity(f"{name}.right", Dimension.LENGTH, right_mm)
    yield Quantity(f"{name}.back", Dimension.LENGTH, back_mm)
