"""Cautions on coats that a part of the surface does not hold, wet: in how many layers, with how much agent, a test."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.coats import CoatHold
from moldwright.plan.ids import coat_mix_step
from moldwright.plan.lines import Line
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.quantities.coat_hold import SLUMP_SHARE
from moldwright.quantities.quantities import Quantities

SOURCE = "computed: Bingham's layer on this surface's slopes; the yield stress by the sheet or the hang test"


def hold_cautions(job: Quantities) -> Iterable[Caution]:
    """What slides or drips: on the mixing of each such coat; where only the low end of what is known says so, on the
    first of them a hang test. A thin first coat that runs a little is caught by the next: it is a note, and of it no
    doubt is told.

    Parameters
    ----------
    job : the quantities.
    """
    tested = job.commission.mold.hangs_mm is not None
    slumping = [hold for hold in job.holds if hold.slumps > SLUMP_SHARE]
    yield from (_slumps(hold, hold is job.holds[0], tested) for hold in slumping)
    doubted = [hold for hold in job.holds[1:] if hold not in slumping and hold.may_slump > SLUMP_SHARE]
    if doubted and not slumping and not tested:
        yield _may_slump(doubted[0])


def _slumps(hold: CoatHold, first: bool, tested: bool) -> Caution:
    lines = [Line("job.slumps"), Line("job.slumps-layers")]
    quantities = [*_quoted(hold, hold.slumps), Quantity("hold.layers", Dimension.COUNT, hold.layers)]
    if hold.enough_pct is not None:
        lines.append(Line("job.slumps-dose"))
        quantities.append(Quantity("hold.dose", Dimension.FINE_SHARE, hold.enough_pct / 100.0))
    lines += [] if tested else [Line("job.hang-test")]
    step = coat_mix_step(hold.coat)
    severity = Severity.NOTE if first else Severity.HEED
    return caution(step, "slumps", severity, tuple(lines), SOURCE, tuple(quantities), particular=True)


def _may_slump(hold: CoatHold) -> Caution:
    lines = (Line("job.may-slump"), Line("job.hang-test"))
    quantities = _quoted(hold, hold.may_slump)
    step = coat_mix_step(hold.coat)
    return caution(step, "may-slump", Severity.NOTE, lines, SOURCE, quantities, particular=True)


def _quoted(hold: CoatHold, share: float) -> tuple[Quantity, ...]:
    return (
        Quantity("hold.layer", Dimension.LENGTH, hold.layer_mm),
        Quantity("hold.wall", Dimension.LENGTH, hold.wall_mm),
        Quantity("hold.share", Dimension.SHARE, share),
    )
