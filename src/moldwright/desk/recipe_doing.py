"""What the commands about recipes print."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from moldwright.desk.csv_file import write_csv
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.errors import InputRefused
from moldwright.log.event import About
from moldwright.log.recipe_events import RecipeKind
from moldwright.making.shop import bench_clock
from moldwright.materials import library
from moldwright.records.recipes.cautions import cautions_of
from moldwright.records.recipes.keep import drop_recipe, recipe_meant, recipes
from moldwright.records.recipes.typed import CupNamed, PartTyped, RecipeTyped, keep_typed, scaled_to
from moldwright.records.strike import strike_out
from moldwright.text.harmless import harmless
from moldwright.text.shown import short
from moldwright.told.recipe_trees import STATE_HEADS, recipe_tree, scaled_tree, state_cells
from moldwright.told.recipe_words import DROPPED, STRUCK, missing_words, recipe_lines, scaled_lines

NONE = (
    "No recipe is kept. Keep one of a run's cup (moldwright recipe keep NAME --run RUN --cup CUP), or type it in with "
    "--part."
)


def keep_shown(
    called: tuple[str, RecipeKind],
    cup: CupNamed,
    typed: tuple[Sequence[str], Sequence[str]],
    swatch: Path | None,
    told: tuple[str, str, str],
    as_json: bool,
) -> None:
    """A recipe is kept.

    Parameters
    ----------
    called : its name, and what it is for.
    cup : of a run, nothing told where it is typed in.
    typed : parts of the lists, and of materials of the shop's own.
    swatch : a photo, None for none.
    told : the store, by whom, the units.
    as_json : print one JSON object.
    """
    place, by, units = told
    units_told(units)
    parts = [PartTyped(*_split(each), own) for own, some in zip((False, True), typed, strict=True) for each in some]
    with opened(place) as shop:
        kept = keep_typed(shop, bench_clock(shop, by), RecipeTyped(*called, cup, tuple(parts), swatch))
    if as_json:
        say_json({**recipe_tree(kept.recipe), "not_weighed": list(kept.missing)})
        return
    say(harmless("\n".join(recipe_lines(kept.recipe, units)), keep="\n"))
    if kept.missing:
        say(harmless(missing_words(kept.missing)))


def _split(written: str) -> tuple[str, str]:
    name, sign, mass = written.rpartition("=")
    if not sign or not name.strip():
        raise InputRefused("part-unclear", short(written), "ID=MASS", "", 'Write it as "urethane-standard-a=50 g".')
    return name.strip(), mass.strip()


def list_shown(everything: bool, table: Path | None, place: str, units: str, as_json: bool) -> None:
    """The recipes of the shop.

    Parameters
    ----------
    everything : those too that were dropped.
    table : a CSV file to write, one row for each part, None for none.
    place : the store.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(place) as shop:
        found = [each for each in recipes(shop) if everything or each.dropped is None]
    if table is not None:
        write_csv(table, STATE_HEADS, [row for each in found for row in state_cells(each)])
    if as_json:
        say_json({"recipes": [recipe_tree(each) for each in found]})
        return
    for each in found:
        say(harmless(recipe_lines(each, units)[0]))
    if not found:
        say(NONE)


def recipe_shown(name: str, place: str, units: str, as_json: bool) -> None:
    """One recipe with its earlier states.

    Parameters
    ----------
    name : as it was typed.
    place : the store.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(place) as shop:
        found = recipe_meant(shop, name)
    cautions = cautions_of(found.now.kept.parts, library())
    if as_json:
        say_json(recipe_tree(found))
        return
    say(harmless("\n".join(recipe_lines(found, units, cautions)), keep="\n"))


def scale_shown(name: str, total: str, step: str, told: tuple[str, str], as_json: bool) -> None:
    """A recipe for an amount.

    Parameters
    ----------
    name : the recipe, as it was typed.
    total : how much in all.
    step : of the scale.
    told : the store, and the units.
    as_json : print one JSON object.
    """
    place, units = told
    units_told(units)
    with opened(place) as shop:
        found = recipe_meant(shop, name)
        made = scaled_to(shop, found, total, step, library())
    cautions = cautions_of(found.now.kept.parts, library())
    if as_json:
        say_json(scaled_tree(found, made, cautions))
        return
    say(harmless("\n".join(scaled_lines(found, made, cautions, units)), keep="\n"))


def drop_shown(name: str, why: str, told: tuple[str, str, str], as_json: bool) -> None:
    """A recipe is used no longer.

    Parameters
    ----------
    name : as it was typed.
    why : in words.
    told : the store, by whom, the units.
    as_json : print one JSON object.
    """
    place, by, units = told
    units_told(units)
    with opened(place) as shop:
        found = drop_recipe(shop, bench_clock(shop, by), recipe_meant(shop, name).id, why)
    if as_json:
        say_json(recipe_tree(found))
        return
    say(harmless(f"{DROPPED.format(name=found.name)} (moldwright recipe list --all)"))


def strike_shown(event: str, why: str, told: tuple[str, str], as_json: bool) -> None:
    """A line through a state.

    Parameters
    ----------
    event : its code.
    why : in words.
    told : the store, and by whom.
    as_json : print one JSON object.
    """
    place, by = told
    with opened(place) as shop:
        found = strike_out(shop, bench_clock(shop, by), About.RECIPE, event, why)
    if as_json:
        say_json({"struck": found.id, "recipe": found.subject})
        return
    say(STRUCK)
