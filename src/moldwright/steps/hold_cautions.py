"""Cautions on coats that a part of the surface does not hold, wet: in how many layers, with how much agent, a test."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.coats import CoatHold
from moldwright.plan.ids import StepId, coat_mix_step
from moldwright.plan.lines import Line
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.quantities.coat_hold import SLUMP_SHARE
from moldwright.quantities.quantities import Quantities

SOURCE = "computed: Bingham's layer on this surface's slopes; the yield stress by the sheet or the hang test"
LAY_OUT = StepId("lay-out")
THICKEST_STRIP_MM = 6.0
"""The thickest strip of a hang test: our own."""


def hold_cautions(job: Quantities) -> Iterable[Caution]:
    """What slides or drips, on the mixing of each such coat; and a hang test before any coat, where none was made and
    the low end of what is known says that one may. A thin first coat that runs a little is caught by the next: it is a
    note, and it alone asks for no test.

    Parameters
    ----------
    job : the quantities.
    """
    running = [hold for hold in job.holds if hold.slumps > SLUMP_SHARE]
    yield from (_slumps(hold, hold is job.holds[0], hold is job.holds[-1]) for hold in running)
    doubted = [hold for hold in job.holds[1:] if hold.may_slump > SLUMP_SHARE]
    if doubted and job.commission.mold.hangs_mm is None:
        yield _test(max(doubted, key=lambda hold: hold.may_slump))


def _slumps(hold: CoatHold, first: bool, last: bool) -> Caution:
    """`last`: it is the coat that the map of hold is of."""
    lines = [Line("job.slumps"), Line("job.slumps-layers")]
    quantities = [*_quoted(hold, hold.slumps), Quantity("hold.layers", Dimension.COUNT, hold.layers)]
    if hold.enough_pct is not None:
        lines.append(Line("job.slumps-dose"))
        quantities.append(Quantity("hold.dose", Dimension.FINE_SHARE, hold.enough_pct / 100.0))
    if last:
        lines.append(Line("job.slumps-where"))
    severity = Severity.NOTE if first else Severity.HEED
    step = coat_mix_step(hold.coat)
    return caution(step, "slumps", severity, tuple(lines), SOURCE, tuple(quantities), particular=True)


def _test(hold: CoatHold) -> Caution:
    lines = Line("job.may-slump"), Line("job.hang-test")
    quantities = *_quoted(hold, hold.may_slump), Quantity("hang.thickest", Dimension.LENGTH, THICKEST_STRIP_MM)
    return caution(LAY_OUT, "hang-test", Severity.NOTE, lines, SOURCE, quantities, particular=True)


def _quoted(hold: CoatHold, share: float) -> tuple[Quantity, ...]:
    return (
        Quantity("hold.layer", Dimension.LENGTH, hold.layer_mm),
        Quantity("hold.wall", Dimension.LENGTH, hold.wall_mm),
        Quantity("hold.share", Dimension.SHARE, share),
    )
