"""What is told of a recipe, as JSON and as a table."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from moldwright.log.codes import short_code
from moldwright.materials.hazards import deference
from moldwright.plan.json_text import tree_of
from moldwright.records.recipes.cautions import RecipeCaution
from moldwright.records.recipes.recipe import KeptRecipe, RecipeState
from moldwright.records.recipes.scale import ScaledRecipe
from moldwright.told.csv_text import Cell

STATE_HEADS = ("recipe", "code", "kind", "material_kind", "material", "name", "mass_g", "share", "lot")


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
