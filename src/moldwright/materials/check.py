"""Whether a whole sheet can be true: one figure against another."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from moldwright.materials.figure import Figure
from moldwright.materials.finding import SheetFinding, doubt, stop
from moldwright.materials.mixture import bandage_mm, weight_from_volume
from moldwright.materials.nearest import did_you_mean
from moldwright.materials.sheet_fields import kind_rules, usual
from moldwright.materials.shipped import shipped
from moldwright.materials.words import Carrier, Making
from moldwright.text.shown import number, short

RATIO_TOLERANCE = 0.04
DENSEST_LOOSE = 0.74
Fields = dict[str, Any]
Found = Iterator[SheetFinding]

# (the earlier, the later, whether the later may be as early)
ORDER = (
    ("pot_life_s", "tack_earliest_s", True),
    ("tack_earliest_s", "tack_latest_s", False),
    ("tack_earliest_s", "tack_free_s", True),
    ("pot_life_s", "tack_free_s", True),
    ("pot_life_s", "demold_s", False),
    ("tack_free_s", "demold_s", True),
    ("demold_s", "full_cure_s", True),
    ("tack_latest_s", "full_cure_s", True),
    ("mix_s", "pot_life_s", False),
    ("set_s", "handling_s", True),
    ("dose_pct", "dose_max_pct", True),
    ("pass_mm", "glove_mm", True),
    ("detail_mm", "glove_mm", True),
    ("coat_mm", "glove_mm", True),
)


def check_fields(kind: str, where: str, fields: Fields) -> tuple[SheetFinding, ...]:
    """Everything that cannot be true ("stop") or is unusual for its class ("doubt") in a merged sheet.

    Parameters
    ----------
    kind : "rubber", "resin", ...
    where : kind and id, for the findings.
    fields : the sheet's values by key, figures as Figure, ratios as (A, B).

    >>> [f.where for f in check_fields("consumable", "consumable.cup", {"name": "cup", "unit": "each"})]
    ['consumable.cup.rate_per_use', 'consumable.cup.per']

    Source: order of pot life, tack window, demold and cure; additive volumes; densest packing of equal balls (74 %);
    usual values of the classes from memory.
    """
    checks: tuple[Callable[[str, Fields], Found], ...] = (
        _order,
        _ratios,
        _parts,
        _loose,
        _hazards,
        _isocyanate,
        _usual,
        _thickness,
        _thinner,
    )
    first = (*_missing(kind, where, fields), *_chemistry(kind, where, fields))
    return first or tuple(found for check in checks for found in check(where, fields))


WORDS_THAT_MUST_BE = {
    "rubber": ("chemistry",),
    "resin": ("chemistry",),
    "shell": ("making",),
    "consumable": ("unit", "per"),
}


NEEDED_BY_MAKING: dict[str, tuple[str, ...]] = {
    Making.BANDAGE: (
        "plies",
        "layers",
        "ply_thickness_mm",
        "dry_g_m2",
        "roll_width_mm",
        "roll_length_mm",
        "strip_length_mm",
    ),
    Making.GYPSUM: ("density_g_ml", "water_g_g"),
    Making.PRINTED: ("density_g_ml",),
}
"""What a shell's sheet must tell, by how it is made."""
THICKNESS_TOLERANCE = 0.1
"""So far may a bandage's thickness be from layers times plies times a ply: our own."""


def _missing(kind: str, where: str, fields: Fields) -> Found:
    making = NEEDED_BY_MAKING.get(fields.get("making", ""), ())
    for key in ("name", *kind_rules()[kind].required, *WORDS_THAT_MUST_BE.get(kind, ()), *making):
        if key not in fields:
            text = 'Write it, or start from a class with like = "its id".'
            yield stop("value-missing", f"{where}.{key}", "nothing", f"every {kind} has it", remedy=text)


def _chemistry(kind: str, where: str, fields: Fields) -> Found:
    chemistry, allowed = fields.get("chemistry"), shipped("schema")["chemistries"]
    if chemistry is None or kind not in allowed:
        return
    if chemistry not in allowed[kind]:
        text = did_you_mean(chemistry, allowed[kind])
        yield stop("chemistry-unclear", f"{where}.chemistry", chemistry, f"one of a {kind}", remedy=text)
    elif chemistry in allowed["isocyanate"] and not fields.get("isocyanate_part"):
        text = "Say which part holds the isocyanate, A or B: the safety data sheet tells."
        yield stop("value-missing", f"{where}.isocyanate_part", "nothing", "A or B", remedy=text)


def _thickness(where: str, fields: Fields) -> Found:
    """A bandage is as thick as its plies; its weight follows from its cloth."""
    if fields.get("making") != Making.BANDAGE:
        return
    laid_mm = bandage_mm(fields).likely
    told_mm = fields["thickness_mm"].likely
    if abs(told_mm / laid_mm - 1) > THICKNESS_TOLERANCE:
        text = (
            "Layers times plies times the thickness of a ply is the thickness: correct one, or leave the thickness out."
        )
        yield stop("thickness-inconsistent", f"{where}.thickness_mm", round(told_mm, 2), round(laid_mm, 2), "mm", text)
    if "density_g_ml" in fields:
        text = "The weight of a bandage shell follows from dry_g_m2: leave the density out."
        yield doubt("not-used", f"{where}.density_g_ml", fields["density_g_ml"].likely, "no density", remedy=text)


def _thinner(where: str, fields: Fields) -> Found:
    if "thinner_pct" in fields and fields.get("carrier", Carrier.NONE) == Carrier.NONE:
        text = "Say what thins it: water, alcohol, solvent or mineral spirits."
        yield stop("value-missing", f"{where}.carrier", "none", "what it is thinned with", remedy=text)


def _isocyanate(where: str, fields: Fields) -> Found:
    part = fields.get("isocyanate_part")
    if part and part == fields.get("powder_part", "A" if part == "B" else "B"):
        text = "Powder wetted out in the isocyanate side foams it when damp: take the other part."
        yield doubt("powder-in-isocyanate", f"{where}.powder_part", part, "the other part", remedy=text)
    if part and "H334" not in fields.get("hazards", ()):
        text = "Isocyanates usually carry H334 (asthma): read the safety data sheet again."
        yield doubt("hazard-expected", f"{where}.hazards", "no H334", "H334", remedy=text)


def _order(where: str, fields: Fields) -> Found:
    for earlier, later, same in ORDER:
        a, b = fields.get(earlier), fields.get(later)
        if a is None or b is None:
            continue
        if a.likely > b.likely or (a.likely == b.likely and not same):
            told = "comes before" if a.unit == "s" else "is never above"
            text = f"{earlier} {told} {later}: correct one, or write both for your material."
            yield stop("order-impossible", f"{where}.{earlier}", round(a.likely, 3), round(b.likely, 3), a.unit, text)


def _ratios(where: str, fields: Fields) -> Found:
    a, b = fields.get("density_a_g_ml"), fields.get("density_b_g_ml")
    if a is None or b is None or "ratio_weight" not in fields:
        return
    written = fields["ratio_weight"][1] / fields["ratio_weight"][0]
    low, high = _bounds(fields["ratio_volume"], a, b)
    if not low * (1 - RATIO_TOLERANCE) <= written <= high * (1 + RATIO_TOLERANCE):
        limit = f"100:{100 * low:.1f} to 100:{100 * high:.1f}"
        text = "The ratio by weight does not follow from the ratio by volume and the densities: check all four."
        yield stop("ratio-inconsistent", f"{where}.ratio_weight", f"100:{100 * written:.1f}", limit, "by weight", text)


def _bounds(ratio_volume: tuple[float, float], a: Figure, b: Figure) -> tuple[float, float]:
    """The least and the greatest share B / A by weight that the densities allow."""
    least = weight_from_volume(ratio_volume, a.high, b.low)[1] / 100
    return least, weight_from_volume(ratio_volume, a.low, b.high)[1] / 100


def _parts(where: str, fields: Fields) -> Found:
    if "ratio_weight" not in fields:
        return
    two = fields.get("density_b_g_ml") is not None
    for key in ("ratio_weight", "ratio_volume"):
        if two != (fields[key][1] > 0):
            text = "Two parts have two densities and two shares; one part has no density of B and the ratio 1:0."
            told = ":".join(number(part) for part in fields[key])
            yield stop("parts-unclear", f"{where}.{key}", told, "A:B for two parts, 1:0 for one", "", text)


def _loose(where: str, fields: Fields) -> Found:
    true, loose = fields.get("true_density_g_ml"), fields.get("apparent_density_g_ml")
    if true is None or loose is None:
        return
    if loose.likely > DENSEST_LOOSE * true.likely:
        text = "Loose powder is mostly air: equal balls cannot fill more than 74 %. Weigh a level cup."
        limit = round(DENSEST_LOOSE * true.likely, 3)
        yield stop("powder-too-dense", f"{where}.apparent_density_g_ml", loose.likely, limit, "g/ml", text)


def _hazards(where: str, fields: Fields) -> Found:
    known = shipped("hazards")["statements"]
    for code in fields.get("hazards", ()):
        if code not in known:
            yield stop("unknown-hazard", f"{where}.hazards", short(code), "a GHS H code", "", did_you_mean(code, known))


def _usual(where: str, fields: Fields) -> Found:
    for key, (low, high) in usual(str(fields.get("chemistry", ""))).items():
        read = fields.get(key)
        if read is not None and not low <= read.likely <= high:
            text = f"Unusual for {fields['chemistry']}: read the data sheet again."
            yield doubt(
                "unusual-for-class", f"{where}.{key}", read.likely, f"{number(low)} to {number(high)}", read.unit, text
            )
