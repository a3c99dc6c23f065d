"""All that the mold's element is told: words, colors, legends, solids, where to get them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import Any

import numpy as np

from moldwright.log.ids import PlanId
from moldwright.making.screen.packed_parts import ScreenMold, ScreenPart
from moldwright.plan.plan import Plan
from moldwright.sheets.palettes import LEAF_COLORS
from moldwright.told.surfaces.extremes import Ends
from moldwright.told.surfaces.lengths import bars, stops_to
from moldwright.told.surfaces.mapped import end_words
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity, quantities_on_surfaces
from moldwright.told.surfaces.solids import solid_words
from moldwright.web.of_plan import FoundPlan
from moldwright.web.pages.mold.seen_legend import seen_legend
from moldwright.words.speaker import say

APART = 0.7
"""How far the pieces are drawn apart at most, as a share of how wide everything is: our own."""


def told_mold(found: FoundPlan, mold: ScreenMold, tag: str) -> dict[str, Any]:
    """A plan's solids and quantities in words.

    Parameters
    ----------
    found : the plan.
    mold : its solids for the screen.
    tag : of the file that they are in.
    """
    every = ((quantity, mold.known_on(quantity.name)) for quantity in quantities_on_surfaces())
    return {
        "solids": solids_path(found.id, tag),
        "place": f"/api/plans/{found.id}/place",
        "between": f"/api/plans/{found.id}/between",
        "apart": asdict(stops_to(APART * _across_mm(mold), found.plan.units)),
        "cut": asdict(stops_to(_across_mm(mold), found.plan.units)),
        "bars": asdict(bars(found.plan.units)),
        "parts": [_part(part, found) for part in mold.parts],
        "quantities": [_quantity(quantity, part, found) for quantity, part in every if part is not None],
    }


def solids_path(plan: PlanId, tag: str) -> str:
    """Where the solids are got.

    Parameters
    ----------
    plan : their plan.
    tag : of the file that they are in.
    """
    return f"/api/plans/{plan}/solids/{tag}"


def _across_mm(mold: ScreenMold) -> float:
    """From corner to corner of a level rectangle about everything [mm]."""
    low = np.min([part.vertices[:, :2].min(axis=0) for part in mold.parts], axis=0)
    high = np.max([part.vertices[:, :2].max(axis=0) for part in mold.parts], axis=0)
    return float(np.linalg.norm(high - low))


def _part(part: ScreenPart, found: FoundPlan) -> dict[str, Any]:
    name, line = solid_words(part.id, Solid(part.kind), found.plan, found.plan.units)
    return {"id": part.id, "kind": part.kind, "name": name, "line": line}


def _quantity(quantity: SurfaceQuantity, part: ScreenPart, found: FoundPlan) -> dict[str, Any]:
    plan = found.plan
    legend, ends = seen_legend(quantity, part, plan)
    at_bench = quantity.at_bench(plan, plan.units) if quantity.at_bench else ""
    return {
        "name": quantity.name,
        "title": say(quantity.title),
        "told": quantity.told(found.plan, found.plan.units),
        "leaves": LEAF_COLORS[quantity.colors],
        "part": part.id,
        "allowed_mm": quantity.allowed_mm(found.plan),
        "needed_mm": quantity.needed_mm(found.plan),
        "legend": asdict(legend),
        "at_bench": at_bench,
        "ends": list(_ends(quantity, part, ends, plan)) if at_bench else [],
    }


def _ends(quantity: SurfaceQuantity, part: ScreenPart, ends: Ends, plan: Plan) -> Iterator[dict[str, Any]]:
    """Where it is least and most, as the bench sheets mark it: in words, and the corner that is nearest."""
    for name, word, end in zip(("least", "most"), (say("least"), say("most")), ends, strict=True):
        if end is not None:
            corner = int(((part.vertices - np.array(end.at)) ** 2).sum(axis=1).argmin())
            yield {"name": name, "told": end_words(word, end, quantity, plan), "corner": corner}
