"""Recipes: looked through, one with its amounts, two beside each other, one that is kept."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.event import About
from moldwright.log.ids import RunId
from moldwright.log.recipe_events import RecipeKind
from moldwright.materials import library
from moldwright.materials.hazards import deference
from moldwright.records.clock import today
from moldwright.records.files.attached import attached_to
from moldwright.records.find import find
from moldwright.records.recipes.cautions import cautions_of
from moldwright.records.recipes.cups import weighed_cups
from moldwright.records.recipes.keep import recipe_meant, recipes
from moldwright.records.recipes.recipe import KeptRecipe
from moldwright.records.recipes.typed import scaled_to
from moldwright.records.runs.listing import runs
from moldwright.records.shop import Shop
from moldwright.records.stock.arrival import known_to
from moldwright.text.looked_for import says_all
from moldwright.told.recipe_words import ratio_words, scaled_parts, scaled_title, state_told, was_words
from moldwright.units.system import UnitSystem
from moldwright.web.at_hand import OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.recipes import api
from moldwright.web.refusals import said
from moldwright.web.render import page
from moldwright.web.typed_in import Word
from moldwright.web.words.marked import words
from moldwright.words.speaker import in_house_marks

router = APIRouter()
PAGE = Page(router, DeskPlace(words("Recipes"), "/recipes", 65))
VIEW = [needs(Role.VIEW)]
USUAL_STEP = {UnitSystem.METRIC: "0.1 g", UnitSystem.US: "0.1 oz"}
"""The scale that is meant where none is told: our own."""
MOST_RUNS = 60
router.include_router(api.router)


@router.get("/recipes", include_in_schema=False, dependencies=VIEW)
def listed(
    request: Request, shop: OpenShop, reader: Reading, q: Word = "", kind: Word = "", gone: bool = False
) -> Response:
    """The recipes."""
    every = recipes(shop)
    found = [each for each in every if (gone or each.dropped is None) and _is_meant(each, q, kind)]
    values = {
        "any": bool(every), "rows": [_told(each, reader.units.value) for each in found], "kinds": list(RecipeKind),
        "q": q, "kind": kind, "gone": gone,
    }  # fmt: skip
    return page(request, "recipes", values)


def _is_meant(recipe: KeptRecipe, text: str, kind: str) -> bool:
    told = [recipe.name, short_code(recipe.id), *(part.stuff.name or part.stuff.id for part in recipe.now.kept.parts)]
    return (not kind or recipe.now.kept.kind.value == kind) and says_all("\n".join(told), text)


def _told(recipe: KeptRecipe, units: str) -> dict[str, Any]:
    kept = recipe.now.kept
    return {
        "id": recipe.id, "code": short_code(recipe.id), "name": recipe.name, "kind": kept.kind.value,
        "dropped": recipe.dropped, "swatch": kept.swatch, "state": state_told(recipe.now, units),
    }  # fmt: skip


@router.get("/recipes/keep", include_in_schema=False, dependencies=[needs(Role.BENCH)])
def keeping(request: Request, shop: OpenShop, run: Word = "") -> Response:
    """A recipe to keep: of a cup of a run, or typed in."""
    meant = RunId(find(shop, About.RUN, run)) if run else None
    values = {
        "name": "recipes", "kinds": list(RecipeKind), "offers": known_to(shop, (), today()), "run": meant,
        "runs": [(each.id, each.started.name, short_code(each.id)) for each in runs(shop)[:MOST_RUNS]],
        "cups": weighed_cups(shop, meant) if meant else (),
    }  # fmt: skip
    return page(request, "pages/recipes/keep.html", values)


@router.get("/recipes/compare", include_in_schema=False, dependencies=VIEW)
def compared(request: Request, shop: OpenShop, reader: Reading, a: Word = "", b: Word = "") -> Response:
    """Two recipes beside each other; where none are told, all."""
    if not (a and b):
        return RedirectResponse("/recipes", 303)
    both = [_told(recipe_meant(shop, each), reader.units.value) for each in (a, b)]
    return page(request, "pages/recipes/compare.html", {"name": "recipes", "both": both})


@router.get("/recipes/{recipe}", include_in_schema=False, dependencies=VIEW)
def one(recipe: str, request: Request, shop: OpenShop, reader: Reading, total: Word = "", scale: Word = "") -> Response:
    """One recipe: how it is mixed now, for an amount, and as it was before."""
    found, units = recipe_meant(shop, recipe), reader.units.value
    step = scale or USUAL_STEP[reader.units]
    values = {
        "name": "recipes", **{"recipe": _told(found, units)}, "notes": found.notes, "total": total, "scale": step,
        "earlier": [state_told(state, units) for state in found.states[-2::-1]],
        "events": [state.event for state in found.states[-2::-1]], "now": found.now.event,
        "cautions": cautions_of(found.now.kept.parts, library()), "deference": deference(),
        "others": [(each.id, each.name) for each in recipes(shop) if each.id != found.id and each.dropped is None],
        "amount": _amount(shop, found, total, step, units), "laid": attached_to(shop, found.id),
    }  # fmt: skip
    return page(request, "pages/recipes/recipe.html", values)


def _amount(shop: Shop, recipe: KeptRecipe, total: str, step: str, units: str) -> dict[str, Any] | None:
    """A recipe for an amount, or why there is none; None while nothing is typed."""
    if not total.strip():
        return None
    try:
        made = scaled_to(shop, recipe, in_house_marks(total), in_house_marks(step), library())
    except InputRefused as refused:
        return {"refused": refused, "said": said(refused)}
    ratios = [(ratio_words(each, units), each.held, was_words(each) if each.was_off else "") for each in made.ratios]
    return {"title": scaled_title(recipe, made, units), "parts": scaled_parts(made, units), "ratios": ratios}
