"""The plan that a mold is seen by: a piece's latest, or any by its id."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from moldwright.log.ids import PieceId, PlanId
from moldwright.making.plan_folders import planned_folder
from moldwright.making.plans import plans_in
from moldwright.plan.plan import Plan
from moldwright.records.pieces.listing import piece_meant
from moldwright.records.pieces.piece import TakenPiece
from moldwright.records.pieces.write import piece_known
from moldwright.records.shop import Shop
from moldwright.units.system import UnitSystem
from moldwright.web.settings import Settings


@dataclass(frozen=True, slots=True)
class FoundPlan:
    """A plan, its id and its folder; in the units of who reads."""

    id: PlanId
    folder: Path
    plan: Plan


def found_piece(shop: Shop, written: str) -> tuple[PieceId, TakenPiece]:
    """The piece that an address means.

    Parameters
    ----------
    shop : the store.
    written : its code or id.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    id_ = piece_meant(shop, written)
    return id_, piece_known(shop, id_)


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
