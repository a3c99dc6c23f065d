"""The recipes for programs, and every act on one: what is told is what `moldwright recipe` tells."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from moldwright.log.event import About, Body
from moldwright.log.ids import FileHash
from moldwright.log.recipe_events import RecipeDropped
from moldwright.materials import library
from moldwright.records.recipes.cautions import cautions_of
from moldwright.records.recipes.keep import drop_recipe, recipe_meant, recipes
from moldwright.records.recipes.recipe import KeptRecipe
from moldwright.records.recipes.typed import CupNamed, PartTyped, RecipeTyped, keep_typed, scaled_to
from moldwright.records.strike import find_event, strike_out
from moldwright.told.recipe_trees import STATE_HEADS, recipe_tree, scaled_tree, state_cells
from moldwright.told.recipe_words import DROPPED, KEPT, STRUCK, missing_words
from moldwright.web.answers import csv_answer
from moldwright.web.at_hand import Clock, OpenShop
from moldwright.web.doors.needs import Needs, needs
from moldwright.web.doors.visitor import Role
from moldwright.web.pages.recipes.told import (
    RecipeDone,
    RecipeJson,
    RecipeKeeping,
    RecipeReason,
    RecipeScaled,
    RecipesJson,
    RecipeStateJson,
    RecipeStruck,
)
from moldwright.web.typed_in import Quantity

router = APIRouter(tags=["recipes"])
BENCH, OWNER, VIEW = [needs(Role.BENCH)], [needs(Role.OWNER)], [needs(Role.VIEW)]
Gone = Annotated[bool, Query(description="Those too that were dropped.")]
Mass = Annotated[Quantity, Query(max_length=60)]


def role_to_strike(body: Body) -> Role:
    """Who may strike out an entry: who may write it.

    Parameters
    ----------
    body : of the entry.
    """
    return Role.OWNER if isinstance(body, RecipeDropped) else Role.BENCH


def _json(recipe: KeptRecipe) -> RecipeJson:
    tree: dict[str, Any] = recipe_tree(recipe)
    states = [RecipeStateJson(**state) for state in tree.pop("states")]
    return RecipeJson(**tree, states=states)


@router.get("/api/recipes", dependencies=VIEW)
def recipes_told(shop: OpenShop, gone: Gone = False) -> RecipesJson:
    """The recipes of the shop."""
    return RecipesJson([_json(each) for each in recipes(shop) if gone or each.dropped is None])


@router.get("/api/recipes.csv", dependencies=VIEW, response_class=Response)
def recipes_table(shop: OpenShop, gone: Gone = False) -> Response:
    """Their parts as a table for a spreadsheet (RFC 4180)."""
    found = [each for each in recipes(shop) if gone or each.dropped is None]
    return csv_answer("recipes.csv", STATE_HEADS, [row for each in found for row in state_cells(each)])


@router.post("/api/recipes", dependencies=BENCH)
def keep(shop: OpenShop, clock: Clock, body: RecipeKeeping) -> RecipeDone:
    """Keep a recipe; one of that name has a new state, its old ones stay readable."""
    parts = tuple(PartTyped(part.what, part.mass, part.own) for part in body.parts)
    cup = CupNamed(body.run, body.cup, body.cast, body.filling)
    typed = RecipeTyped(body.name, body.kind, cup, parts, FileHash(body.swatch) if body.swatch else None)
    written = keep_typed(shop, clock, typed)
    said = [KEPT.format(name=written.recipe.name), *([missing_words(written.missing)] if written.missing else [])]
    return RecipeDone(" ".join(said), written.recipe.now.event, _json(written.recipe))


@router.get("/api/recipes/{recipe}", dependencies=VIEW)
def recipe_told(recipe: str, shop: OpenShop) -> RecipeJson:
    """A recipe with its earlier states, by its name, its code or its id."""
    return _json(recipe_meant(shop, recipe))


@router.get("/api/recipes/{recipe}/scaled", dependencies=VIEW)
def scaled_told(recipe: str, shop: OpenShop, total: Mass, scale: Mass = "0.1 g") -> RecipeScaled:
    """A recipe for an amount: what the scale must read after each part."""
    found = recipe_meant(shop, recipe)
    made = scaled_to(shop, found, total, scale, library())
    return RecipeScaled(**scaled_tree(found, made, cautions_of(found.now.kept.parts, library())))


@router.post("/api/recipes/{recipe}/drop", dependencies=OWNER)
def drop(recipe: str, shop: OpenShop, clock: Clock, body: RecipeReason) -> RecipeDone:
    """Use a recipe no longer; it stays readable, and is used again once it is kept again."""
    found = drop_recipe(shop, clock, recipe_meant(shop, recipe).id, body.why)
    event = next(each.id for each in reversed(shop.events_of(found.id)) if isinstance(each.body, RecipeDropped))
    return RecipeDone(DROPPED.format(name=found.name), event, _json(found))


@router.post("/api/recipe-entries/{event}/strike", dependencies=BENCH)
def strike(event: str, request: Request, shop: OpenShop, clock: Clock, body: RecipeReason) -> RecipeStruck:
    """A line through a state, or through its being dropped: it stays readable and counts in nothing."""
    Needs(role_to_strike(find_event(shop, About.RECIPE, event).body))(request)
    found = strike_out(shop, clock, About.RECIPE, event, body.why)
    return RecipeStruck(STRUCK, found.id, found.subject)
