"""The made-up job's quantities and its work in words, side by side."""

from __future__ import annotations

from dataclasses import dataclass

from made_up_job import job_of
from told import ToldCaution, ToldStep, done, told

from moldwright.commission.orders import Commission
from moldwright.materials import Library
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.assumptions import Assumption
from moldwright.plan.cast import CastPlan
from moldwright.plan.coats import CoatPlan
from moldwright.plan.mixes import MixPlan
from moldwright.plan.mold import BandagePlan, PartPlan, SpotPlan
from moldwright.plan.needs import NeedPlan
from moldwright.quantities.need_rows import merged
from moldwright.quantities.quantities import Quantities


@dataclass(frozen=True)
class Reckoned:
    """A job's quantities and its work in words."""

    job: Quantities
    coats: tuple[CoatPlan, ...]
    flange: PartPlan
    fill: PartPlan
    spots: tuple[SpotPlan, ...]
    bandage: BandagePlan | None
    cast: CastPlan
    mixes: tuple[MixPlan, ...]
    needs: tuple[NeedPlan, ...]
    assumed: tuple[Assumption, ...]
    steps: tuple[ToldStep, ...]
    cautions: tuple[ToldCaution, ...]


def reckoned(order: Commission, known: Library, measures: MoldMeasures, own: str = "") -> Reckoned:
    """Quantities, steps and cautions of an order on a made-up mold."""
    job = job_of(order, known, measures)
    said, rubber = told(job, own, known), job.rubber
    needs = merged((*job.needs, *done(job, own, known).gear))
    return Reckoned(
        job, rubber.coats, rubber.flange, rubber.fill, rubber.spots, job.bandage, job.cast.cast, job.mixes, needs,
        job.assumed, said.steps, said.cautions,
    )  # fmt: skip
