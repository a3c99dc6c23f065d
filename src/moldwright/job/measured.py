"""All numbers of the geometry that a plan shows, kept apart from the solids so that a plan is reckoned without them."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.mold.volumes import MoldVolumes
from moldwright.plan.plan import Caution, MouthPlan, OriginalPlan, ShellPlan
from moldwright.scan.scan import Said


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
    """Volumes, the original, its mouth, the shell, what the shape warns of, and what was said and sampled."""

    volumes: MoldVolumes
    original: OriginalPlan
    mouth: MouthPlan
    shell: ShellPlan
    cautions: tuple[Caution, ...]
    said: Said
    sampling: Sampling
