"""The made-up job to write steps for: an otter of 190 mm with a tail that makes a through-hole, an edition of 24."""

from __future__ import annotations

from made_up_job import TAILED as VOLUMES
from made_up_job import commission, job_of
from made_up_job import volumes as changed
from told import ToldStep, told

from moldwright.commission.orders import CastOrder, MoldOrder, ShopOrder
from moldwright.materials import Library
from moldwright.materials.compatibility import Finding
from moldwright.materials.rules import Slot, Verdict
from moldwright.mold.measures import MoldMeasures
from moldwright.quantities.quantities import Quantities


def judged(verdict: Verdict = Verdict.CLEAR, patch_test: bool = False) -> Finding:
    """A judgment on original and rubber."""
    return Finding("no-rule", verdict, (Slot.ORIGINAL, Slot.RUBBER), ("plastic", "rubber"), "made up", patch_test)


DOUBT = judged(Verdict.DOUBT, patch_test=True)


def measures(**values: object) -> MoldMeasures:
    """The job's measures with others in their places."""
    return changed(VOLUMES, **values)


def context(
    mold: MoldOrder | None = None,
    cast: CastOrder | None = None,
    shop: ShopOrder | None = None,
    volumes: MoldMeasures = VOLUMES,
    findings: tuple[Finding, ...] = (DOUBT,),
    edition: int = 24,
    known: Library | None = None,
) -> Quantities:
    """The job with other materials, another shop or other measures; judged as `findings` say."""
    order = commission(count=edition, mold=mold, cast=cast, shop=shop)
    return job_of(order, known, measures=volumes, findings=findings)


def work_steps(job: Quantities, own: str = "") -> tuple[ToldStep, ...]:
    """The steps of a job in words."""
    return told(job, own).steps


def step_of(job: Quantities, id_: str) -> ToldStep:
    """One of them."""
    return told(job).step(id_)
