"""What a key of the commission may be answered with, where that is a list."""

from __future__ import annotations

from moldwright.commission.keys import ValueKind, keys
from moldwright.materials import Library
from moldwright.materials.originals import original_materials

KINDS = {
    "mold.rubber": "rubber",
    "mold.release": "release",
    "mold.sealer": "sealer",
    "mold.shell": "shell",
    "cast.resin": "resin",
    "cast.powder": "powder",
    "cast.backfill": "resin",
}
"""The kind of sheet that a key names."""
MAY_BE_NONE = frozenset(("mold.release", "mold.sealer", "cast.powder", "cast.backfill"))
YES_NO = {"yes": True, "no": False}


def choices_of(dotted: str, known: Library) -> dict[str, str]:
    """What may be answered, by the word to answer, with its name where that says more; empty where all may be.

    Parameters
    ----------
    dotted : the key that is asked for.
    known : the library that materials are looked up in.
    """
    if dotted == "original.material":
        return {material.name: "" for material in original_materials()}
    if dotted in KINDS:
        sheets = {sheet.id: sheet.name for sheet in known.all(KINDS[dotted])}
        return {**sheets, **({"none": ""} if dotted in MAY_BE_NONE else {})}
    table, _, name = dotted.partition(".")
    if keys()[table][name].kind is ValueKind.SWITCH:
        return dict.fromkeys(YES_NO, "")
    return {str(choice): "" for choice in keys()[table][name].choices}
