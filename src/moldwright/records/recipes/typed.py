"""A recipe as it was typed: a cup of a run by its name, or parts one by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.log.event import About
from moldwright.log.ids import FileHash, RunId
from moldwright.log.lot_events import Stuff
from moldwright.log.recipe_events import RecipeKept, RecipeKind, RecipePart
from moldwright.log.run_events import CupRef
from moldwright.materials import Library
from moldwright.plan.ids import MixId
from moldwright.records.clock import BenchClock, today
from moldwright.records.files.keep import keep_file
from moldwright.records.files.kept import bytes_of
from moldwright.records.find import find
from moldwright.records.recipes.keep import cup_parts, from_cup, keep_recipe, mixes_of
from moldwright.records.recipes.recipe import KeptRecipe
from moldwright.records.recipes.scale import ScaledRecipe, pairs_in, scaled
from moldwright.records.shop import Shop
from moldwright.records.stock.arrival import is_known, known_or_own, known_to
from moldwright.records.stock.catalog import Offer, material
from moldwright.records.told import line_told
from moldwright.units import mass_g


@dataclass(frozen=True, slots=True)
class CupNamed:
    """A cup of a run as it was typed; nothing where the recipe is typed in."""

    run: str = ""
    cup: str = ""
    cast: int = 0
    filling: int = 1


@dataclass(frozen=True, slots=True)
class PartTyped:
    """A part as it was typed: a material of the lists, or one of the shop's own by its name (`own`; None: where no list
    has it)."""

    what: str
    mass: str
    own: bool | None = False


@dataclass(frozen=True, slots=True)
class RecipeTyped:
    """A recipe as it was typed: a cup, or parts; `swatch`: a photo, kept already or to keep."""

    name: str
    kind: RecipeKind
    cup: CupNamed = CupNamed()
    parts: tuple[PartTyped, ...] = ()
    swatch: FileHash | Path | None = None


@dataclass(frozen=True, slots=True)
class RecipeWritten:
    """A recipe after it was kept; `missing`: parts of its cup that nobody weighed."""

    recipe: KeptRecipe
    missing: tuple[str, ...]


def keep_typed(shop: Shop, clock: BenchClock, told: RecipeTyped) -> RecipeWritten:
    """Keep a recipe as it was typed.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    told : it.

    Raises InputRefused ("recipe-unclear", "cup-not-weighed", "unknown-material", ...).
    """
    what, missing = _read(shop, told)
    return RecipeWritten(keep_recipe(shop, clock, replace(what, swatch=_photo(shop, told.swatch))), missing)


def _photo(shop: Shop, swatch: FileHash | Path | None) -> FileHash | None:
    if isinstance(swatch, Path):
        return keep_file(shop, swatch)
    if swatch is not None:
        bytes_of(shop.files, swatch)
    return swatch


def _read(shop: Shop, told: RecipeTyped) -> tuple[RecipeKept, tuple[str, ...]]:
    cup = told.cup
    if bool(cup.run) != bool(cup.cup) or bool(cup.run) == bool(told.parts):
        remedy = "Name a run and its cup, or type the parts in, one by one."
        raise InputRefused("recipe-unclear", "not one of both", "a run's cup, or parts that are typed in", "", remedy)
    if not cup.run:
        return RecipeKept(told.name, told.kind, _parts(shop, told.parts)), ()
    run = RunId(find(shop, About.RUN, cup.run))
    ref = CupRef(MixId(cup.cup.strip()), cup.cast, cup.filling)
    found = cup_parts(shop, run, ref)
    return from_cup(told.name, told.kind, found, run, ref), found.missing


def _parts(shop: Shop, typed: Sequence[PartTyped]) -> tuple[RecipePart, ...]:
    known = known_to(shop, (), today()) if not all(part.own for part in typed) else ()
    return tuple(_part(part, known) for part in typed)


def _part(part: PartTyped, known: Sequence[Offer]) -> RecipePart:
    name = part.what.strip()
    mass = mass_g(part.mass.strip(), name)
    own = part.own
    if own is None:
        known_or_own(name, known)
        own = not is_known(name, known)
    if not own:
        return RecipePart(material(name, known).stuff, mass)
    return RecipePart(Stuff("", "-".join(name.casefold().split()), line_told(name, "a name")), mass)


def scaled_to(shop: Shop, recipe: KeptRecipe, total: str, step: str, library: Library) -> ScaledRecipe:
    """A recipe for an amount, as it is mixed now.

    Parameters
    ----------
    shop : the store.
    recipe : it.
    total : how much in all, as it was typed.
    step : the smallest step of the scale, as it was typed.
    library : the sheets.

    Raises InputRefused ("quantity-unclear", "amount-out-of-range", "scale-step").
    """
    parts = recipe.now.kept.parts
    pairs = pairs_in(parts, library, mixes_of(shop, recipe.now.kept))
    return scaled(parts, mass_g(total, "in all"), mass_g(step, "scale"), pairs)
