"""All numbers of the geometry that a plan shows, kept apart from the solids so that a plan is reckoned without them."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.mold.measures import MoldMeasures
from moldwright.original.standing.stance import Stance
from moldwright.plan.mold import ShellPlan
from moldwright.plan.original import MouthPlan, OriginalPlan
from moldwright.steps.shape_cautions import ShapeFindings


@dataclass(frozen=True, slots=True)
class Sampling:
    """How finely the solids were computed [mm]: step of the original and how far its surface may lie from the scan's,
    step of the shell, its clearance; `exact` where the original keeps the scan's own surface."""

    step_mm: float
    error_mm: float
    exact: bool
    shell_step_mm: float
    clearance_mm: float


@dataclass(frozen=True, slots=True)
class Measured:
    """What was measured, the plan's parts that are nothing but measures, what the shape asks care for, and how it
    was stood and sampled."""

    measures: MoldMeasures
    original: OriginalPlan
    mouth: MouthPlan
    shell: ShellPlan
    shape: ShapeFindings
    stance: Stance
    sampling: Sampling
