"""The plan that a mold is seen by: a piece's latest, or any by its id."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from moldwright.log.ids import PlanId
from moldwright.making.plan_folders import planned_folder
from moldwright.making.plans import plans_in
from moldwright.plan.plan import Plan
from moldwright.units.system import UnitSystem
from moldwright.web.settings import Settings


@dataclass(frozen=True, slots=True)
class FoundPlan:
    """A plan, its id and its folder; in the units of who reads."""

    id: PlanId
    folder: Path
    plan: Plan


def found_plan(settings: Settings, id_: str, units: UnitSystem) -> FoundPlan:
    """A plan by its id.

    Parameters
    ----------
    settings : where plans' folders are.
    id_ : as it was asked for.
    units : of who reads.

    Raises InputRefused ("not-kept").
    """
    folder = planned_folder(settings.data, PlanId(id_))
    (plan,) = plans_in([folder])
    return FoundPlan(PlanId(id_), folder, replace(plan, units=units))
