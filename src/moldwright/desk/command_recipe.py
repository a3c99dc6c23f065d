"""`moldwright recipe`: colors and metals as they were really mixed, and again for another amount."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.desk.faults import saver
from moldwright.desk.options import CsvFile, Json, Why
from moldwright.desk.shop_at import By, ShopPlace, Units
from moldwright.log.recipe_events import RecipeKind

recipe = typer.Typer(no_args_is_help=True, help="Recipes of colors and metals: as they were mixed, and scaled.")
Name = Annotated[str, typer.Argument(metavar="RECIPE", help="The recipe's name, its code or its id.")]


@recipe.command("keep")
def keep(
    name: Annotated[str, typer.Argument(metavar="NAME", help="What it is called; one of that name has a new state.")],
    kind: Annotated[RecipeKind, typer.Option("--kind", help="What it is for.")],
    run: Annotated[str, typer.Option("--run", metavar="RUN", help="The run whose cup it was, by its code.")] = "",
    cup: Annotated[str, typer.Option("--cup", metavar="CUP", help="The cup, such as skin.cup-1.")] = "",
    cast: Annotated[int, typer.Option("--cast", metavar="NUMBER", min=0, help="For which cast it was mixed.")] = 0,
    filling: Annotated[
        int, typer.Option("--filling", metavar="NUMBER", min=1, help="The how-manyth that was mixed for it.")
    ] = 1,
    part: Annotated[
        list[str] | None,
        typer.Option("--part", metavar="ID=MASS", help='A part that is typed in: "urethane-standard-a=50 g".'),
    ] = None,
    own: Annotated[
        list[str] | None,
        typer.Option("--own", metavar="NAME=MASS", help="A part of a material of your own, in no list."),
    ] = None,
    swatch: Annotated[Path | None, typer.Option("--swatch", metavar="PHOTO", help="A photo of the color.")] = None,
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Keep a recipe: from a cup of a run as it was weighed, or typed in part by part, in the order they go in."""
    with ending(as_json, saver()):
        from moldwright.desk.recipe_doing import keep_shown  # noqa: PLC0415
        from moldwright.records.recipes.typed import CupNamed  # noqa: PLC0415

        named = CupNamed(run, cup, cast, filling)
        keep_shown((name, kind), named, (part or (), own or ()), swatch, (shop, by, units), as_json)


@recipe.command("list")
def list_(
    everything: Annotated[bool, typer.Option("--all", metavar="", help="Those too that were dropped.")] = False,
    csv: CsvFile = None,
    shop: ShopPlace = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """List the recipes that are used, with what each is for."""
    with ending(as_json, saver()):
        from moldwright.desk.recipe_doing import list_shown  # noqa: PLC0415

        list_shown(everything, csv, shop, units, as_json)


@recipe.command("show")
def show(name: Name, shop: ShopPlace = "", units: Units = "metric", as_json: Json = False) -> None:
    """Show a recipe: its parts and shares, where it comes from, its earlier states."""
    with ending(as_json, saver()):
        from moldwright.desk.recipe_doing import recipe_shown  # noqa: PLC0415

        recipe_shown(name, shop, units, as_json)


@recipe.command("scale")
def scale(
    name: Name,
    total: Annotated[str, typer.Argument(metavar="MASS", help='How much in all: "640 g".')],
    step: Annotated[str, typer.Option("--scale", metavar="MASS", help="The smallest step of the scale.")] = "0.1 g",
    shop: ShopPlace = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Tell a recipe for an amount: running totals on the scale, what rounding does, the cautions of its materials."""
    with ending(as_json, saver()):
        from moldwright.desk.recipe_doing import scale_shown  # noqa: PLC0415

        scale_shown(name, total, step, (shop, units), as_json)


@recipe.command("drop")
def drop(
    name: Name, why: Why = "", shop: ShopPlace = "", by: By = "", units: Units = "metric", as_json: Json = False
) -> None:
    """Use a recipe no longer; it stays readable, and is used again once it is kept again."""
    with ending(as_json, saver()):
        from moldwright.desk.recipe_doing import drop_shown  # noqa: PLC0415

        drop_shown(name, why, (shop, by, units), as_json)


@recipe.command("strike")
def strike(
    event: Annotated[str, typer.Argument(metavar="EVENT", help="The state's code, as `moldwright recipe show` tells.")],
    why: Why = "",
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Draw a line through a state of a recipe: it stays readable and counts in nothing."""
    with ending(as_json, saver()):
        from moldwright.desk.recipe_doing import strike_shown  # noqa: PLC0415

        strike_shown(event, why, (shop, by), as_json)
