"""A shop's entry over a class's entry, field by field."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from moldwright.materials.figure import Figure
from moldwright.materials.mixture import bandage_mm, volume_from_weight, weight_from_volume
from moldwright.materials.read_sheet import SheetEntry

COMPUTED = "computed from the other ratio and the densities"
LAID = "computed: layers x plies x thickness of a ply"
PLIES = frozenset(("layers", "plies", "ply_thickness_mm"))
KEPT = ("tags", "cautions")
DENSITIES = ("density_a_g_ml", "density_b_g_ml")


def merged(under: SheetEntry | None, over: SheetEntry) -> SheetEntry:
    """Everything of `under` that `over` does not say, and all that `over` says.

    A ratio that the shop left out follows from the one it wrote (or, where it wrote only densities, from the ratio by
    weight) and the densities.

    Parameters
    ----------
    under : what is known of the material, None for a new one.
    over : what the shop's sheet says.

    Source: definition of density.
    """
    if under is None:
        return _with_ratio(over, over)
    fields = {**under.fields, **over.fields, **{key: _both(key, under, over) for key in KEPT}}
    whole = replace(over, fields=fields, sources={**under.sources, **over.sources})
    return _with_thickness(_with_ratio(whole, over), over)


def _both(key: str, under: SheetEntry, over: SheetEntry) -> tuple[str, ...]:
    """Texts of both: a shop adds tags and cautions and takes none away."""
    return tuple(dict.fromkeys((*under.fields.get(key, ()), *over.fields.get(key, ()))))


def _with_ratio(whole: SheetEntry, over: SheetEntry) -> SheetEntry:
    key = _left_out(over)
    other = "ratio_volume" if key == "ratio_weight" else "ratio_weight"
    a, b = (whole.fields.get(d) for d in DENSITIES)
    if key is None or other not in whole.fields or a is None or b is None:
        return whole
    convert = weight_from_volume if key == "ratio_weight" else volume_from_weight
    value: Any = convert(whole.fields[other], a.likely, b.likely)
    return replace(whole, fields={**whole.fields, key: value}, sources={**whole.sources, key: COMPUTED})


def _with_thickness(whole: SheetEntry, over: SheetEntry) -> SheetEntry:
    """A bandage's thickness follows from its plies where the shop wrote only those."""
    if "thickness_mm" in over.fields or not any(key in over.fields for key in PLIES) or not set(whole.fields) >= PLIES:
        return whole
    figure = Figure(bandage_mm(whole.fields), "mm", LAID)
    return replace(whole, fields={**whole.fields, "thickness_mm": figure})


def _left_out(over: SheetEntry) -> str | None:
    """The ratio that follows from the other: by weight where only the one by volume was written."""
    weight, volume = ("ratio_weight" in over.fields, "ratio_volume" in over.fields)
    if weight and volume:
        return None
    if volume:
        return "ratio_weight"
    return "ratio_volume" if weight or any(d in over.fields for d in DENSITIES) else None
