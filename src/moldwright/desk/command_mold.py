"""`moldwright mold`: the register of molds."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.desk.faults import saver
from moldwright.desk.options import CsvFile, Json, Sheets, Why
from moldwright.desk.shop_at import By, ShopPlace, Units
from moldwright.log.mold_events import MoldState

mold = typer.Typer(no_args_is_help=True, help="Molds: casts drawn, condition, shrink, and when to make the next glove.")
Which = Annotated[str, typer.Argument(metavar="MOLD", help="Its name, its code or its id.")]
Note = Annotated[str, typer.Option("--text", metavar="WORDS", help="Where and what, in words.")]


@mold.command("add")
def add(
    name: Annotated[str, typer.Argument(metavar="NAME", help="What it is called; of a run's mold the run's.")] = "",
    run: Annotated[str, typer.Option("--run", metavar="RUN", help="The run that made it, by its code.")] = "",
    plan: Annotated[
        Path | None, typer.Option("--plan", metavar="DIR", help="The folder of the plan that it was made by.")
    ] = None,
    rubber: Annotated[str, typer.Option("--rubber", metavar="ID", help="Of what it is, as the library calls it.")] = "",
    cast: Annotated[
        str, typer.Option("--cast", metavar="ID", help="What is cast in it, as the library calls it.")
    ] = "",
    drawn: Annotated[int, typer.Option("--drawn", metavar="COUNT", help="Casts drawn so far.")] = 0,
    lasts: Annotated[
        int | None, typer.Option("--lasts", metavar="COUNT", help="Casts that it gives; left out, by its rubber.")
    ] = None,
    stored: Annotated[str, typer.Option("--stored", metavar="TEXT", help="Where it stands.")] = "",
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Put a mold into the register: one that a run made, or an older one typed in."""
    if run and (plan or rubber or cast or drawn or lasts):
        raise typer.BadParameter("--run tells plan, rubber and casts by itself")
    with ending(as_json, saver()):
        from moldwright.desk.show_mold import add_shown  # noqa: PLC0415

        add_shown((name, rubber, cast, stored), plan, (drawn, lasts), run, (shop, by), as_json)


@mold.command("list")
def list_(
    everything: Annotated[bool, typer.Option("--all", metavar="", help="Those too that are retired.")] = False,
    sheets: Sheets = None,
    csv: CsvFile = None,
    shop: ShopPlace = "",
    as_json: Json = False,
) -> None:
    """List the molds: condition, casts drawn and left, where they stand, when the next glove is due."""
    with ending(as_json, saver()):
        from moldwright.desk.show_mold import list_shown  # noqa: PLC0415

        list_shown(everything, sheets, csv, shop, as_json)


@mold.command("show")
def show(
    which: Which, sheets: Sheets = None, shop: ShopPlace = "", units: Units = "metric", as_json: Json = False
) -> None:
    """Show a mold's whole story: runs, casts, lots in it, problems, and its log with the code of each entry."""
    with ending(as_json, saver()):
        from moldwright.desk.show_mold import mold_shown  # noqa: PLC0415

        mold_shown(which, sheets, shop, units, as_json)


@mold.command("look")
def look(
    which: Which,
    state: Annotated[MoldState, typer.Argument(metavar="HOW", help="good, worn, torn, mended or spent.")],
    text: Note = "",
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Write down how a mold was found when it was looked over."""
    with ending(as_json, saver()):
        from moldwright.desk.show_mold import write_shown  # noqa: PLC0415
        from moldwright.records.molds.write import look_over  # noqa: PLC0415

        write_shown(which, lambda store, clock, id_: look_over(store, clock, id_, state, text), (shop, by), as_json)


@mold.command("measure")
def measure(
    which: Which,
    shrink: Annotated[
        str, typer.Argument(metavar="SHARE", help='How much smaller than the original: "0.4 %"; "-0.2 %" is larger.')
    ],
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Write down how much smaller a cast of it, or its mouth, is than the original."""
    with ending(as_json, saver()):
        from moldwright.desk.show_mold import write_shown  # noqa: PLC0415
        from moldwright.records.molds.write import measure_shrink  # noqa: PLC0415
        from moldwright.units import share  # noqa: PLC0415

        told = 100.0 * share(shrink, "SHARE")
        write_shown(which, lambda store, clock, id_: measure_shrink(store, clock, id_, told), (shop, by), as_json)


@mold.command("move")
def move(
    which: Which,
    where: Annotated[str, typer.Argument(metavar="WHERE", help="Where it stands now.")],
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Write down where a mold stands now."""
    with ending(as_json, saver()):
        from moldwright.desk.show_mold import write_shown  # noqa: PLC0415
        from moldwright.records.molds.write import move_mold  # noqa: PLC0415

        write_shown(which, lambda store, clock, id_: move_mold(store, clock, id_, where), (shop, by), as_json)


@mold.command("note")
def note(
    which: Which,
    text: Annotated[str, typer.Argument(metavar="TEXT", help="The note.")],
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Write a note on a mold."""
    with ending(as_json, saver()):
        from moldwright.desk.show_mold import write_shown  # noqa: PLC0415
        from moldwright.records.molds.write import note_on_mold  # noqa: PLC0415

        write_shown(which, lambda store, clock, id_: note_on_mold(store, clock, id_, text), (shop, by), as_json)


@mold.command("retire")
def retire(which: Which, why: Why = "", shop: ShopPlace = "", by: By = "", as_json: Json = False) -> None:
    """Take a mold out of use; it stays in the register with its story."""
    with ending(as_json, saver()):
        from moldwright.desk.show_mold import write_shown  # noqa: PLC0415
        from moldwright.records.molds.write import retire_mold  # noqa: PLC0415

        write_shown(which, lambda store, clock, id_: retire_mold(store, clock, id_, why), (shop, by), as_json)


@mold.command("strike")
def strike(
    event: Annotated[str, typer.Argument(metavar="EVENT", help="The entry's code, as `mold show` tells it.")],
    why: Why = "",
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Draw a line through an entry of a mold's log; it stays readable and counts in nothing."""
    with ending(as_json, saver()):
        from moldwright.desk.show_mold import strike_shown  # noqa: PLC0415

        strike_shown(event, why, (shop, by), as_json)
