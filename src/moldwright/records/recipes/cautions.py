"""What must be heeded where a recipe is mixed: the cautions of its materials, each once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from moldwright.log.lot_events import Stuff
from moldwright.log.recipe_events import RecipePart
from moldwright.materials import Library
from moldwright.materials.hazards import cautions_for, deference
from moldwright.materials.kinds import Pigment, Sheet, TwoPart
from moldwright.plan.mixes import PartKind

NOT_KNOWN = "What it may do to you is not known here: read its safety data sheet before it is opened."


@dataclass(frozen=True, slots=True)
class RecipeCaution:
    """Cautions of one material of a recipe, both of its parts together; `name`: as its sheet, or its lot, calls it."""

    name: str
    texts: tuple[str, ...]


def cautions_of(parts: Sequence[RecipePart], library: Library) -> tuple[RecipeCaution, ...]:
    """The cautions of a recipe's materials, each text where it is first told.

    Parameters
    ----------
    parts : of the recipe.
    library : the sheets.

    Source: the sheets' hazard statements and cautions. Nothing here says that anything is safe.
    """
    told: set[str] = {deference()}
    found: dict[str, RecipeCaution] = {}
    for part in parts:
        sheet = sheet_of(part.stuff, library)
        known = cautions_for(sheet) if sheet is not None else (NOT_KNOWN,)
        texts = tuple(text for text in known if text not in told or text == NOT_KNOWN)
        told |= {*texts}
        name = sheet.name if sheet is not None else part.stuff.name or part.stuff.id
        if texts and name not in found:
            found[name] = RecipeCaution(name, texts)
    return tuple(found.values())


def sheet_of(stuff: Stuff, library: Library) -> Sheet | None:
    """The sheet of a material as the lists name it; None for one of the shop's own.

    Parameters
    ----------
    stuff : the material.
    library : the sheets.
    """
    if stuff.kind in library.sheets:
        sheets = library.sheets[stuff.kind]
        whole = next((sheets[id_] for id_ in sheets if stuff.id in _part_ids(sheets[id_])), None)
        return sheets.get(stuff.id) or whole
    colors = (each for each in library.all("pigment") if isinstance(each, Pigment))
    return next((each for each in colors if stuff.id in (f"pigment-{each.color}", f"tint-{each.color}")), None)


def _part_ids(sheet: Sheet) -> tuple[str, ...]:
    if not isinstance(sheet, TwoPart):
        return ()
    return tuple(f"{sheet.id}-{side.lower()}" for side in (PartKind.A, PartKind.B))
