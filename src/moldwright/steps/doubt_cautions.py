"""Cautions of an original that was not scanned: what its rubber and its cast may take, what no solid shows."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.mixing.rubber import rubber_density_g_ml
from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.ids import StepId, coat_mix_step
from moldwright.plan.lines import Line
from moldwright.plan.original import TWO_COATS
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import Range

SOURCE = "computed: how well outlines, a tape or a bucket of water tell a body, at 90 %"
RECEIVE, SKIN_STEP = StepId("receive"), StepId("skin")


def doubt_cautions(job: Quantities) -> list[Caution]:
    """That rubber and cast are known within bounds only, on their first steps, that holes may be unseen, where the
    original is looked over, and recesses, on the last coat's; none where the original was scanned.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    """
    return [] if job.measures.spread.known else [_holes(job), *_rubber(job), *_cast(job)]


def _holes(job: Quantities) -> Caution:
    narrow = Quantity("doubt.narrow", Dimension.LENGTH, TWO_COATS * job.commission.mold.thickness_mm)
    return _heed(RECEIVE, "doubt-holes", (Line("job.doubt.holes"),), narrow)


def _rubber(job: Quantities) -> Iterable[Caution]:
    first, last = (coat_mix_step(job.rubber.coats[place].id) for place in (0, -1))
    density, by_volume = rubber_density_g_ml(job.basis.chosen.rubber), job.commission.shop.by_volume
    mixed = job.rubber.mixed_g * (1.0 / density if by_volume else 1.0)
    taken = Quantity("doubt.rubber", Dimension.VOLUME if by_volume else Dimension.MASS, mixed)
    yield _heed(first, "doubt-rubber", (Line("job.doubt.rubber"), Line("job.doubt.by-cup")), taken)
    unseen = Quantity("doubt.unseen", Dimension.VOLUME, job.measures.spread.unseen_ml)
    lines = (Line("job.doubt.recesses"), *((Line("job.doubt.unseen"),) if unseen.value else ()))
    yield _heed(last, "doubt-recesses", lines, unseen)


def _cast(job: Quantities) -> Iterable[Caution]:
    cavity = job.cast.cast.volume_ml
    if isinstance(cavity, Range):
        held = Quantity("doubt.cavity", Dimension.VOLUME, cavity)
        yield _heed(SKIN_STEP, "doubt-cast", (Line("job.doubt.cast"), Line("job.doubt.by-cup")), held)


def _heed(step: StepId, rule: str, lines: tuple[Line, ...], *quantities: Quantity) -> Caution:
    return caution(step, rule, Severity.HEED, lines, SOURCE, quantities, particular=True, ruins=True)
