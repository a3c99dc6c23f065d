"""`moldwright lot`: what stands on the shelf, and what happens to it."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.desk.faults import saver
from moldwright.desk.options import CsvFile, Json, Why
from moldwright.desk.shop_at import By, ShopPlace, Units

lots = typer.Typer(no_args_is_help=True, help="Lots of materials: what came in, what is left, where it went.")
Which = Annotated[str, typer.Argument(metavar="LOT", help="The lot's code, its id, or the number on its label.")]
At = Annotated[str, typer.Option("--at", metavar="TIME", help='When, such as "2026-11-27 17:30"; left out, now.')]

Certificate = Annotated[
    Path | None, typer.Option("--certificate", metavar="FILE", help="The certificate that came with it.")
]
DataSheet = Annotated[Path | None, typer.Option("--data-sheet", metavar="FILE", help="Its safety data sheet.")]


@lots.command("add")
def add(
    material: Annotated[
        str, typer.Option("--material", metavar="ID", help="What it is, as the plans' lists and the library call it.")
    ] = "",
    amount: Annotated[str, typer.Option("--amount", metavar="AMOUNT", help='How much: "5 kg", "500 ml", "12".')] = "",
    name: Annotated[str, typer.Option("--name", metavar="NAME", help="A material of your own, in no list.")] = "",
    number: Annotated[str, typer.Option("--number", metavar="TEXT", help="The number on its label.")] = "",
    supplier: Annotated[str, typer.Option("--supplier", metavar="NAME", help="Whose it is.")] = "",
    on: Annotated[str, typer.Option("--on", metavar="DATE", help="When it came in; left out, today.")] = "",
    expires: Annotated[
        str, typer.Option("--expires", metavar="DATE", help='To when it keeps, as printed: "2027-06-30", "2027-06".')
    ] = "",
    keeps: Annotated[str, typer.Option("--keeps", metavar="DAYS", help='How long once open: "180 days".')] = "",
    stored: Annotated[str, typer.Option("--stored", metavar="TEXT", help="Where it stands.")] = "",
    certificate: Certificate = None,
    sheet: DataSheet = None,
    plan: Annotated[
        list[Path] | None, typer.Option("--plan", metavar="DIR", help="A plan whose list names the material.")
    ] = None,
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Put a lot on the shelf. Without options it is asked for, question by question."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import add_shown  # noqa: PLC0415
        from moldwright.records.stock.arrival import Arrival  # noqa: PLC0415

        told = Arrival(material, amount, name, number, supplier, on, expires, keeps, stored, certificate, sheet)
        add_shown(told, plan or (), (shop, by), units, as_json)


@lots.command("list")
def list_(
    material: Annotated[str, typer.Option("--material", metavar="ID", help="Of one material only.")] = "",
    everything: Annotated[bool, typer.Option("--all", metavar="", help="Those too that are gone.")] = False,
    csv: CsvFile = None,
    shop: ShopPlace = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """List the lots: what is left, in which state, where it stands, which to take first."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import list_shown  # noqa: PLC0415

        list_shown(material, everything, csv, shop, units, as_json)


@lots.command("show")
def show(which: Which, shop: ShopPlace = "", units: Units = "metric", as_json: Json = False) -> None:
    """Show a lot: what is left, all that it went into, every entry of its log with the code to strike it out by."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import lot_shown  # noqa: PLC0415

        lot_shown(which, shop, units, as_json)


@lots.command("open")
def open_(
    which: Which,
    on: Annotated[str, typer.Option("--on", metavar="DATE", help="When; left out, today.")] = "",
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Tell that a lot's seal is broken: from here on it keeps as long as an open one."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import open_shown  # noqa: PLC0415

        open_shown(which, on, (shop, by), units, as_json)


@lots.command("count")
def count(
    which: Which,
    amount: Annotated[str, typer.Argument(metavar="AMOUNT", help="What the scale shows, or how many.")],
    empty: Annotated[str, typer.Option("--empty", metavar="MASS", help="What its empty pot with lid weighs.")] = "",
    at: At = "",
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Tell what there is of a lot on the shelf: the figures count on from here, and what the log said is compared."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import count_shown  # noqa: PLC0415

        count_shown(which, (amount, empty, at), (shop, by), units, as_json)


@lots.command("use")
def use(
    which: Which,
    amount: Annotated[str, typer.Argument(metavar="AMOUNT", help="How much of it.")],
    why: Why = "",
    at: At = "",
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Tell that some of a lot was used outside of a run. What a run weighs is counted by itself."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import use_shown  # noqa: PLC0415

        use_shown(which, (amount, why, at), (shop, by), units, as_json)


@lots.command("move")
def move(
    which: Which,
    stored: Annotated[str, typer.Argument(metavar="WHERE", help="Where it stands now.")],
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Tell where a lot stands now."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import change_shown  # noqa: PLC0415
        from moldwright.log.lot_events import LotMoved  # noqa: PLC0415

        change_shown(which, LotMoved(stored), (shop, by), units, as_json)


@lots.command("discard")
def discard(
    which: Which, why: Why = "", shop: ShopPlace = "", by: By = "", units: Units = "metric", as_json: Json = False
) -> None:
    """Tell that the rest of a lot is gone."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import change_shown  # noqa: PLC0415
        from moldwright.log.lot_events import LotDiscarded  # noqa: PLC0415

        change_shown(which, LotDiscarded(why), (shop, by), units, as_json)


@lots.command("recall")
def recall(
    which: Which,
    why: Annotated[str, typer.Argument(metavar="WHY", help="Why, as the supplier tells it.")],
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Tell that a lot is not to be used, and see what was made of it, who has it, and what is not poured yet."""
    with ending(as_json, saver()):
        from moldwright.desk.show_recall import recall_shown  # noqa: PLC0415

        recall_shown(which, why, (shop, by, units), as_json)


@lots.command("in")
def in_(
    what: Annotated[str, typer.Argument(metavar="PIECE|RUN", help='A numbered piece ("otter 7"), or a run\'s code.')],
    cast: Annotated[
        int | None, typer.Option("--cast", metavar="NUMBER", min=0, help="Of a run: which cast; 0 is its mold.")
    ] = None,
    shop: ShopPlace = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Tell which lots are in a numbered piece, in a run's cast or in its mold."""
    with ending(as_json, saver()):
        from moldwright.desk.show_recall import lots_in_shown  # noqa: PLC0415

        lots_in_shown(what, cast, shop, units, as_json)


@lots.command("papers")
def papers(
    which: Which,
    certificate: Certificate = None,
    sheet: DataSheet = None,
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Keep papers with a lot that came later, or in place of others."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import papers_shown  # noqa: PLC0415

        papers_shown(which, (certificate, sheet), (shop, by), units, as_json)


@lots.command("note")
def note(
    which: Which,
    text: Annotated[str, typer.Argument(metavar="TEXT", help="What is to be remembered.")],
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Write a note about a lot."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import change_shown  # noqa: PLC0415
        from moldwright.log.any_events import Noted  # noqa: PLC0415

        change_shown(which, Noted(text), (shop, by), units, as_json)


@lots.command("strike")
def strike(
    event: Annotated[str, typer.Argument(metavar="EVENT", help="The entry's code, as `moldwright lot show` tells it.")],
    why: Why = "",
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Draw a line through an entry of a lot's log: it stays readable and counts in nothing."""
    with ending(as_json, saver()):
        from moldwright.desk.show_lot import struck_shown  # noqa: PLC0415

        struck_shown(event, why, (shop, by), units, as_json)


For = Annotated[
    list[Path] | None,
    typer.Option("--for", metavar="PLAN", help="A plan that is ahead, by its folder; may be repeated."),
]


@lots.command("forecast")
def forecast(
    material: Annotated[str, typer.Option("--material", metavar="ID", help="Of one material only.")] = "",
    plan: For = None,
    shop: ShopPlace = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Tell how long each material lasts, what the runs under way and named plans take, what will expire unused."""
    with ending(as_json, saver()):
        from moldwright.desk.show_ahead import forecast_shown  # noqa: PLC0415

        forecast_shown(material, plan or (), shop, units, as_json)


@lots.command("order")
def order(
    plan: For = None,
    until: Annotated[
        str, typer.Option("--until", metavar="DATE", help="To this day; left out, only for the runs and plans ahead.")
    ] = "",
    csv: CsvFile = None,
    shop: ShopPlace = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Tell what to buy, and how much: for runs under way, named plans and the usual use, less what is there."""
    with ending(as_json, saver()):
        from moldwright.desk.show_ahead import order_shown  # noqa: PLC0415

        order_shown(plan or (), until, csv, (shop, units), as_json)
