"""`moldwright piece`: what the shop was asked to copy."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.desk.faults import saver
from moldwright.desk.options import CsvFile, Json, Why
from moldwright.desk.shop_at import By, ShopPlace

piece = typer.Typer(no_args_is_help=True, help="Pieces: what the shop was asked to copy, with commission and files.")
Which = Annotated[str, typer.Argument(metavar="PIECE", help="Its name, its code or its id.")]
Commission = Annotated[Path, typer.Argument(metavar="COMMISSION.toml", help="The order; its files are kept too.")]


@piece.command("add")
def add(
    commission: Commission,
    name: Annotated[str, typer.Option("--name", metavar="NAME", help="Left out, as the commission calls it.")] = "",
    for_: Annotated[str, typer.Option("--for", metavar="NAME", help="For whom it is; may be left out.")] = "",
    due: Annotated[str, typer.Option("--due", metavar="DAY", help="Promised by then, such as 2026-03-31.")] = "",
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Take a piece in: its commission, and the scan, photos, sheets and steps that it names.

    A scan has at most 100 MB. A photo is kept without the place, time, names and serial numbers beside the picture.
    """
    with ending(as_json, saver()):
        from moldwright.desk.show_piece import add_shown  # noqa: PLC0415

        add_shown(commission, (name, for_, due), (shop, by), as_json)


@piece.command("list")
def list_(
    everything: Annotated[bool, typer.Option("--all", metavar="", help="Those too that are put away.")] = False,
    csv: CsvFile = None,
    shop: ShopPlace = "",
    as_json: Json = False,
) -> None:
    """List the pieces in the shop: how far each is, for whom, when it is due."""
    with ending(as_json, saver()):
        from moldwright.desk.show_piece import list_shown  # noqa: PLC0415

        list_shown(everything, csv, shop, as_json)


@piece.command("show")
def show(which: Which, shop: ShopPlace = "", as_json: Json = False) -> None:
    """Show a piece: its files, plans and runs, and its log with the code of each entry."""
    with ending(as_json, saver()):
        from moldwright.desk.show_piece import piece_shown  # noqa: PLC0415

        piece_shown(which, shop, as_json)


@piece.command("change")
def change(
    which: Which, commission: Commission, why: Why = "", shop: ShopPlace = "", by: By = "", as_json: Json = False
) -> None:
    """Ask for something else: the whole commission anew, with all that it names."""
    with ending(as_json, saver()):
        from moldwright.desk.show_piece import change_shown  # noqa: PLC0415

        change_shown(which, commission, why, (shop, by), as_json)


@piece.command("planned")
def planned(
    which: Which,
    plan: Annotated[Path, typer.Argument(metavar="PLAN", help="The plan's folder, as `moldwright plan` made it.")],
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Write down that a plan was made for a piece; runs of that plan are the piece's."""
    with ending(as_json, saver()):
        from moldwright.desk.show_piece import planned_shown  # noqa: PLC0415

        planned_shown(which, plan, (shop, by), as_json)


@piece.command("away")
def away(which: Which, why: Why = "", shop: ShopPlace = "", by: By = "", as_json: Json = False) -> None:
    """Put a piece away: it leaves the list and keeps its story."""
    with ending(as_json, saver()):
        from moldwright.desk.show_piece import write_shown  # noqa: PLC0415
        from moldwright.records.pieces.write import put_away  # noqa: PLC0415

        write_shown(which, lambda store, clock, id_: put_away(store, clock, id_, why), (shop, by), as_json)


@piece.command("back")
def back(which: Which, why: Why = "", shop: ShopPlace = "", by: By = "", as_json: Json = False) -> None:
    """Take a piece back that was put away."""
    with ending(as_json, saver()):
        from moldwright.desk.show_piece import write_shown  # noqa: PLC0415
        from moldwright.records.pieces.write import take_back  # noqa: PLC0415

        write_shown(which, lambda store, clock, id_: take_back(store, clock, id_, why), (shop, by), as_json)


@piece.command("note")
def note(
    which: Which,
    text: Annotated[str, typer.Argument(metavar="TEXT", help="The note.")],
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Write a note on a piece."""
    with ending(as_json, saver()):
        from moldwright.desk.show_piece import write_shown  # noqa: PLC0415
        from moldwright.records.pieces.write import note_on_piece  # noqa: PLC0415

        write_shown(which, lambda store, clock, id_: note_on_piece(store, clock, id_, text), (shop, by), as_json)


@piece.command("export")
def export(
    which: Which,
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="A folder that is new or empty.")],
    shop: ShopPlace = "",
    as_json: Json = False,
) -> None:
    """Lay a piece out as a folder: its commission and its files, ready for `moldwright plan`."""
    with ending(as_json, saver()):
        from moldwright.desk.show_piece import export_shown  # noqa: PLC0415

        export_shown(which, folder, shop, as_json)


@piece.command("strike")
def strike(
    event: Annotated[str, typer.Argument(metavar="EVENT", help="The entry's code, as `piece show` tells it.")],
    why: Why = "",
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Draw a line through an entry of a piece's log; it stays readable and counts in nothing."""
    with ending(as_json, saver()):
        from moldwright.desk.show_piece import strike_shown  # noqa: PLC0415

        strike_shown(event, why, (shop, by), as_json)
