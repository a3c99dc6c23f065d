"""What is told of a recipe, as words and as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from moldwright.desk.csv_file import Cell
from moldwright.log.codes import short_code
from moldwright.log.lot_events import Stuff
from moldwright.log.recipe_events import RecipePart
from moldwright.materials.hazards import deference
from moldwright.plan.json_text import tree_of
from moldwright.records.recipes.cautions import RecipeCaution
from moldwright.records.recipes.recipe import KeptRecipe, RecipeState
from moldwright.records.recipes.scale import ScaledPart, ScaledRatio, ScaledRecipe
from moldwright.told.any_words import moment
from moldwright.units import show_mass, show_share
from moldwright.units.digits import number

STATE_HEADS = ("recipe", "code", "kind", "material_kind", "material", "name", "mass_g", "share", "lot")


def recipe_lines(recipe: KeptRecipe, units: str, cautions: Sequence[RecipeCaution] = ()) -> list[str]:
    """A recipe for people: a heading, its parts, where it comes from, earlier states.

    Parameters
    ----------
    recipe : it.
    units : "metric" or "us".
    cautions : of its materials.
    """
    now = recipe.now
    dropped = f", dropped{f': {recipe.dropped}' if recipe.dropped else ''}" if recipe.dropped is not None else ""
    swatch = ", with a swatch" if now.kept.swatch else ""
    whole = show_mass(now.mass_g, units)
    title = f"{recipe.name}  ({now.kept.kind.value}, {short_code(recipe.id)}{dropped}{swatch}): {whole} as mixed"
    return [
        title,
        *_parts(now, units),
        *_origin(now),
        *(f"  note: {note}" for note in recipe.notes),
        *_earlier(recipe, units),
        *caution_lines(cautions),
    ]


def _parts(state: RecipeState, units: str) -> list[str]:
    return [
        f"  {show_mass(part.mass_g, units):>12}  {show_share(part.mass_g / state.mass_g, 2):>8}  {_named(part)}"
        for part in state.kept.parts
    ]


def _named(part: RecipePart) -> str:
    return f"{name_of(part.stuff)}{f', lot {short_code(part.lot)}' if part.lot else ''}"


def name_of(stuff: Stuff) -> str:
    """What a material is called.

    Parameters
    ----------
    stuff : it.
    """
    return stuff.name or stuff.id


def _origin(state: RecipeState) -> list[str]:
    cup = state.kept.cup
    where = f"of {cup.mix}, cast {cup.turn} of run {short_code(state.kept.run)}" if cup is not None else "typed in"
    return [f"  {where}, {moment(state.at_ms)}, state {short_code(state.event)}"]


def _earlier(recipe: KeptRecipe, units: str) -> list[str]:
    lines = []
    for state in recipe.states[-2::-1]:
        lines += [f"  before, {moment(state.at_ms)}, state {short_code(state.event)}:"]
        lines += [f"  {line}" for line in _parts(state, units)]
    return lines


def scaled_lines(recipe: KeptRecipe, made: ScaledRecipe, cautions: Sequence[RecipeCaution], units: str) -> list[str]:
    """A recipe for an amount: what is to be heeded, then what the scale must read after each part.

    Parameters
    ----------
    recipe : it.
    made : scaled.
    cautions : of its materials.
    units : "metric" or "us".
    """
    step = made.step_g
    title = f"{recipe.name}, {show_mass(made.mass_g, units, step)} in all; the empty cup zeroed once:"
    return [
        *caution_lines(cautions),
        title,
        *(line for part in made.parts for line in _scaled(part, step, units)),
        *(line for ratio in made.ratios for line in _ratio(ratio, units)),
    ]


def _scaled(part: ScaledPart, step_g: float, units: str) -> list[str]:
    mass, reads = (show_mass(each, units, step_g) for each in (part.mass_g, part.reads_g))
    off = f"  (rounded {signed(part.off)})" if abs(part.off) >= 0.0005 else ""
    lines = [f"  {mass:>12}  scale reads {reads:>12}  {name_of(part.stuff)}{off}"]
    if part.least_g:
        least = show_mass(part.least_g, units)
        lines.append(f"      ! too little for this scale: mix {least} at least, take a finer scale, or stir it into a")
        lines.append("        weighed amount of a part that it goes into, and weigh of that.")
    return lines


def signed(share: float) -> str:
    """A share with its sign: "+1.2 %".

    Parameters
    ----------
    share : a fraction of one.

    >>> signed(0.0123), signed(-0.2)
    ('+1.2 %', '−20 %')
    """
    return f"{'+' if share > 0 else ''}{number(100.0 * share, 1 if abs(share) < 0.1 else 0)} %"


def _ratio(ratio: ScaledRatio, units: str) -> list[str]:
    within, off = show_share(ratio.within), show_share(ratio.off, 2)
    sheet = f"the sheet's ratio, 1 : {ratio.sheet:.4g}"
    lines = [f"  {sheet}: off by {off} at most on this scale; the cure bears {within}."]
    if not ratio.held:
        least = show_mass(ratio.least_g, units)
        lines = [
            f"  ! {sheet}, may be off by {off} on this scale; the cure bears {within}:",
            f"    mix {least} in all at least, or take a finer scale.",
        ]
    if ratio.was_off:
        lines.append(f"  ! as it was mixed it was 1 : {ratio.recipe:.4g}: the sheet's ratio is taken, not that.")
    return lines


def caution_lines(cautions: Sequence[RecipeCaution]) -> list[str]:
    """Cautions of a recipe's materials, for people.

    Parameters
    ----------
    cautions : of each material.
    """
    if not cautions:
        return []
    lines = []
    for each in cautions:
        lines += [f"  ! {each.name}", *(f"    {text}" for text in each.texts)]
    return [*lines, f"  ! {deference()}"]


def recipe_tree(recipe: KeptRecipe) -> dict[str, Any]:
    """A recipe as JSON tells it.

    Parameters
    ----------
    recipe : it.
    """
    return {
        "id": recipe.id,
        "code": short_code(recipe.id),
        "name": recipe.name,
        "dropped": recipe.dropped,
        "states": [_state(state) for state in recipe.states],
        "notes": list(recipe.notes),
    }


def _state(state: RecipeState) -> dict[str, Any]:
    kept = state.kept
    return {
        "event": state.event,
        "code": short_code(state.event),
        "at_ms": state.at_ms,
        "kind": kept.kind.value,
        "mass_g": state.mass_g,
        "parts": [tree_of(part) for part in kept.parts],
        "swatch": kept.swatch,
        "run": kept.run,
        "cup": tree_of(kept.cup) if kept.cup is not None else None,
    }


def state_cells(recipe: KeptRecipe) -> list[Sequence[Cell]]:
    """A recipe's parts as rows of a table.

    Parameters
    ----------
    recipe : it.
    """
    now, code = recipe.now, short_code(recipe.id)
    return [
        (
            recipe.name, code, now.kept.kind.value, part.stuff.kind, part.stuff.id, part.stuff.name, part.mass_g,
            round(part.mass_g / now.mass_g, 6), part.lot or "",
        )
        for part in now.kept.parts
    ]  # fmt: skip


def scaled_tree(recipe: KeptRecipe, made: ScaledRecipe, cautions: Sequence[RecipeCaution]) -> dict[str, Any]:
    """A recipe for an amount, as JSON tells it.

    Parameters
    ----------
    recipe : it.
    made : scaled.
    cautions : of its materials.
    """
    told = [text for each in cautions for text in each.texts]
    return {
        "recipe": recipe.name,
        "code": short_code(recipe.id),
        **tree_of(made),
        "ratios": [{**tree_of(ratio), "held": ratio.held, "was_off": ratio.was_off} for ratio in made.ratios],
        "cautions": [*told, deference()],
    }
