"""What a mold's reckoning needs of a plan: a few figures of a long text, read without building the whole plan.

A register of some hundred molds reads as many plans; a whole one takes 40 ms, this 4.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from moldwright.errors import MoldwrightError
from moldwright.log.ids import PlanId
from moldwright.materials.words import Kind
from moldwright.plan.ids import MixId, StepId
from moldwright.plan.mixes import RUBBER_KINDS, MixKind, StuffKey
from moldwright.plan.plan import OLDEST_READ, SCHEMA_VERSION
from moldwright.plan.steps import EACH_CAST, Per, Phase
from moldwright.ranges import Range
from moldwright.records.shop import Shop

CAST = (Kind.POWDER, Kind.RESIN)
"""Kinds of sheets of what a cast is of."""
CLASS_LIFE = (1.0, 1.0, 1.0)
"""A glove that lasts as its class does."""


@dataclass(frozen=True, slots=True)
class MoldPlan:
    """What is asked of a plan.

    Parameters
    ----------
    out : steps after which a cast is out of its mold, the maker's own behind them included.
    rubber : the class's name; `rubber_mixes`: the cups of it.
    cast : what is cast, resins and powders, with their sheets' names.
    height_mm : of the original.
    shrink_pct : as the plan expects it on the height [%].
    mold_days : working days till a new mold is ready.
    life : casts that its glove gives, as shares of those that its class gives: low, likely, high.
    """

    out: frozenset[StepId]
    rubber: str
    rubber_mixes: frozenset[MixId]
    cast: Mapping[StuffKey, str]
    height_mm: float
    shrink_pct: Range
    mold_days: int
    life: tuple[float, float, float] = CLASS_LIFE

    def names(self, kind: Kind) -> tuple[str, ...]:
        """Names of one kind of what is cast, each once.

        Parameters
        ----------
        kind : resin or powder.
        """
        return tuple(dict.fromkeys(name for key, name in self.cast.items() if key.kind == kind))


class PlansRead:
    """Plans of a shop, each read once.

    Parameters
    ----------
    shop : the store.
    """

    def __init__(self, shop: Shop) -> None:
        self._shop = shop
        self._read: dict[PlanId, MoldPlan | None] = {}

    def get(self, id_: PlanId | None) -> MoldPlan | None:
        """A plan; None where there is none, it is not kept, or it is of a version that is not read.

        Parameters
        ----------
        id_ : which.
        """
        if id_ is None:
            return None
        if id_ not in self._read:
            self._read[id_] = self._found(id_)
        return self._read[id_]

    def _found(self, id_: PlanId) -> MoldPlan | None:
        try:
            return mold_plan(self._shop.plan_text(id_))
        except MoldwrightError:
            return None


def mold_plan(text: str) -> MoldPlan | None:
    """What is asked of a plan; None of a version that is not read.

    Parameters
    ----------
    text : of a plan.json that the store keeps.
    """
    tree = json.loads(text)
    if not OLDEST_READ <= tree["schema_version"] <= SCHEMA_VERSION:
        return None
    shrinkage, height = _range(tree["cast"]["shrinkage_mm"]), tree["original"]["height_mm"]
    return MoldPlan(
        out=frozenset(StepId(step["id"]) for step in tree["steps"] if _is_out(step)),
        rubber=tree["rubber"],
        rubber_mixes=frozenset(MixId(m["id"]) for m in tree["mixes"] if MixKind(m["for"]["kind"]) in RUBBER_KINDS),
        cast={StuffKey(need["kind"], need["id"]): need["material"] for need in tree["needs"] if need["kind"] in CAST},
        height_mm=height,
        shrink_pct=shrinkage * (100.0 / height),
        mold_days=tree["totals"]["days"]["mold"],
        life=_life(tree["life"]) if "life" in tree else CLASS_LIFE,
    )


def _life(tree: dict[str, Any]) -> tuple[float, float, float]:
    casts, of_class = _range(tree["casts"]), _range(tree["of_class"])
    return casts.low / of_class.low, casts.likely / of_class.likely, casts.high / of_class.high


def _range(tree: dict[str, float]) -> Range:
    return Range(tree["low"], tree["likely"], tree["high"])


def _is_out(step: dict[str, Any]) -> bool:
    return Phase(step["phase"]) is Phase.OUT_OF_MOLD and Per(step["per"]) in EACH_CAST
