"""Of what each part of a cup is taken: the row on the list that it stands in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from moldwright.materials import Library
from moldwright.materials.kinds import Sheet
from moldwright.plan.mixes import REACTING, TRACES, MixKind, MixPart, MixPlan, PartKind, StuffKey
from moldwright.plan.needs import NeedPlan
from moldwright.quantities.chosen import Chosen

GYPSUM_WATER, GYPSUM_FIBER, GYPSUM_MAT = "gypsum-water", "gypsum-fiber", "gypsum-mat"
BESIDE_GYPSUM = {PartKind.WATER: GYPSUM_WATER, PartKind.FIBER: GYPSUM_FIBER}
"""Ids of what goes into a shell of gypsum beside it."""


def with_stuffs(mixes: Iterable[MixPlan], chosen: Chosen) -> tuple[MixPlan, ...]:
    """The cups, each part with what it is taken from.

    Parameters
    ----------
    mixes : the cups
    chosen : the sheets

    Source: the sheets.
    """
    return tuple(
        replace(mix, parts=tuple(replace(part, stuff=_stuff_of(part, mix.for_.kind, chosen)) for part in mix.parts))
        for mix in mixes
    )


def sheet_of(need: NeedPlan, library: Library) -> Sheet | None:
    """The sheet of what a row needs, for a part of what two parts make the sheet of both; None for what has none.

    Parameters
    ----------
    need : the row
    library : all sheets

    Source: the sheets.
    """
    id_ = need.id.removesuffix(f"-{need.part.lower()}") if need.part in REACTING else need.id
    return library.sheets.get(need.kind, {}).get(id_)


def _stuff_of(part: MixPart, kind: MixKind, chosen: Chosen) -> StuffKey:
    bought: dict[PartKind, Sheet | None] = {
        PartKind.POWDER: chosen.powder,
        PartKind.THIXOTROPE: chosen.thixotrope,
        PartKind.GYPSUM: chosen.shell,
    }
    if part.kind in TRACES:
        return StuffKey("", f"{part.kind}-{part.name}")
    if part.kind in BESIDE_GYPSUM:
        return StuffKey("", BESIDE_GYPSUM[part.kind])
    if sheet := bought.get(part.kind):
        return StuffKey(sheet.kind, sheet.id)
    sheet = {MixKind.SKIN: chosen.resin, MixKind.BACK_FILL: chosen.backfill}.get(kind) or chosen.rubber
    return StuffKey(sheet.kind, f"{sheet.id}-{part.kind.lower()}")
