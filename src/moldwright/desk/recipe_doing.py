"""What the commands about recipes do and print."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from moldwright.desk.csv_file import write_csv
from moldwright.desk.lot_add import known_to
from moldwright.desk.recipe_words import STATE_HEADS, recipe_lines, recipe_tree, scaled_lines, scaled_tree, state_cells
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.errors import InputRefused
from moldwright.log.event import About
from moldwright.log.ids import RunId
from moldwright.log.lot_events import Stuff
from moldwright.log.recipe_events import RecipeKept, RecipeKind, RecipePart
from moldwright.log.run_events import CupRef
from moldwright.making.shop import bench_clock
from moldwright.materials import library
from moldwright.plan.ids import MixId
from moldwright.records.files.keep import keep_file
from moldwright.records.find import find
from moldwright.records.recipes.cautions import cautions_of
from moldwright.records.recipes.keep import (
    CupTold,
    cup_parts,
    drop_recipe,
    from_cup,
    keep_recipe,
    mixes_of,
    recipe_meant,
    recipes,
)
from moldwright.records.recipes.scale import pairs_in, scaled
from moldwright.records.shop import Shop
from moldwright.records.stock.catalog import Offer, material
from moldwright.records.strike import strike_out
from moldwright.records.told import line_told
from moldwright.text.harmless import harmless
from moldwright.text.shown import short
from moldwright.units import mass_g

NONE = (
    "No recipe is kept. Keep one of a run's cup (moldwright recipe keep NAME --run RUN --cup CUP), or type it in with "
    "--part."
)


@dataclass(frozen=True, slots=True)
class CupNamed:
    """A cup of a run as it was typed."""

    run: str
    cup: str
    cast: int
    filling: int


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
    with opened(place) as shop:
        what, missing = _told(shop, called, cup, typed)
        photo = keep_file(shop, swatch) if swatch is not None else None
        kept = RecipeKept(what.name, what.kind, what.parts, photo, what.run, what.cup)
        found = keep_recipe(shop, bench_clock(shop, by), kept)
    if as_json:
        say_json({**recipe_tree(found), "not_weighed": list(missing)})
        return
    say(harmless("\n".join(recipe_lines(found, units)), keep="\n"))
    if missing:
        say(
            harmless(f"Not in it, as nobody weighed it: {'; '.join(missing)}. With it: type the recipe in with --part.")
        )


def _told(
    shop: Shop, called: tuple[str, RecipeKind], cup: CupNamed, typed: tuple[Sequence[str], Sequence[str]]
) -> tuple[RecipeKept, tuple[str, ...]]:
    if bool(cup.run) != bool(cup.cup) or bool(cup.run) == bool(typed[0] or typed[1]):
        remedy = "Give --run and --cup, or the parts with --part and --own."
        raise InputRefused("recipe-unclear", "not one of both", "a run's cup, or parts that are typed in", "", remedy)
    if not cup.run:
        return RecipeKept(*called, _parts(shop, *typed)), ()
    run = RunId(find(shop, About.RUN, cup.run))
    ref = CupRef(MixId(cup.cup.strip()), cup.cast, cup.filling)
    found: CupTold = cup_parts(shop, run, ref)
    return from_cup(*called, found, run, ref), found.missing


def _parts(shop: Shop, listed: Sequence[str], own: Sequence[str]) -> tuple[RecipePart, ...]:
    known = known_to(shop, (), date.today().isoformat()) if listed else ()
    parts = [RecipePart(material(name, known).stuff, mass) for name, mass in map(_split, listed)]
    for name, mass in map(_split, own):
        stuff = Offer(Stuff("", "-".join(name.casefold().split()), line_told(name, "a name"))).stuff
        parts.append(RecipePart(stuff, mass))
    return tuple(parts)


def _split(written: str) -> tuple[str, float]:
    name, sign, mass = written.rpartition("=")
    if not sign or not name.strip():
        raise InputRefused("part-unclear", short(written), "ID=MASS", "", 'Write it as "urethane-standard-a=50 g".')
    return name.strip(), mass_g(mass.strip(), f"--part {name.strip()}")


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
        mixes = mixes_of(shop, found.now.kept)
    parts = found.now.kept.parts
    made = scaled(parts, mass_g(total, "MASS"), mass_g(step, "--scale"), pairs_in(parts, library(), mixes))
    cautions = cautions_of(parts, library())
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
    say(harmless(f"{found.name} is used no longer; it stays readable (moldwright recipe list --all)."))


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
    say("Struck out. It stays readable and counts in nothing.")
