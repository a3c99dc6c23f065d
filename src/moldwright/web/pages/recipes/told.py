"""What the recipes' calls take and give, for their description (OpenAPI)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from moldwright.log.recipe_events import RecipeKind
from moldwright.records.recipes.keep import MOST_PARTS
from moldwright.records.told import LONGEST
from moldwright.web.typed_in import Quantity


class RecipePartTyped(BaseModel):
    """A part that is typed in."""

    model_config = ConfigDict(extra="forbid", str_max_length=LONGEST)

    what: str = Field(description="A material as the lists call it, or the name of one of the shop's own.")
    mass: Quantity = Field(description='"50 g".')
    own: bool | None = Field(False, description="It is in no list; null: where no list has it.")


class RecipeKeeping(BaseModel):
    """A recipe to keep: of a run's cup as it was weighed, or typed in, in the order in which the parts go in."""

    model_config = ConfigDict(extra="forbid", str_max_length=LONGEST)

    name: str
    kind: RecipeKind
    run: str = ""
    cup: str = ""
    cast: int = Field(0, ge=0, le=100_000)
    filling: int = Field(1, ge=1, le=1000)
    parts: list[RecipePartTyped] = Field([], max_length=MOST_PARTS)
    swatch: str = Field("", description="The hash of a kept photo.")


class RecipeReason(BaseModel):
    """Why."""

    model_config = ConfigDict(extra="forbid", str_max_length=LONGEST)

    why: str = ""


@dataclass(frozen=True, slots=True)
class RecipeStateJson:
    """A recipe as it was kept once; `at_ms`: since 1970-01-01 UTC."""

    event: str
    code: str
    at_ms: int
    kind: str
    mass_g: float
    parts: list[dict[str, Any]]
    swatch: str | None
    run: str
    cup: dict[str, Any] | None


@dataclass(frozen=True, slots=True)
class RecipeJson:
    """A recipe, the same object as `moldwright recipe show --json` has; its last state is how it is mixed now."""

    id: str
    code: str
    name: str
    dropped: str | None
    states: list[RecipeStateJson]
    notes: list[str]


@dataclass(frozen=True, slots=True)
class RecipesJson:
    """Recipes by their names."""

    recipes: list[RecipeJson]


@dataclass(frozen=True, slots=True)
class RecipeDone:
    """What was done, in words; `event`: the entry by which it is put back."""

    said: str
    event: str
    recipe: RecipeJson


@dataclass(frozen=True, slots=True)
class RecipeStruck:
    """A state that was struck out, in words."""

    said: str
    struck: str
    subject: str


@dataclass(frozen=True, slots=True)
class RecipeScaled:
    """A recipe for an amount: masses in whole steps of the scale, running totals, the ratios, the cautions."""

    recipe: str
    code: str
    wanted_g: float
    mass_g: float
    step_g: float
    parts: list[dict[str, Any]]
    ratios: list[dict[str, Any]]
    cautions: list[str]
