"""`moldwright shop`: the store of the records as a whole."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.desk.options import Json
from moldwright.desk.shop_at import By, ShopPlace
from moldwright.log.event import About

shop = typer.Typer(no_args_is_help=True, help="The shop's records as a whole: their files, whether they are sound.")


@shop.command()
def attach(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A photo (JPEG, PNG, HEIC), a PDF or a text.")],
    to: Annotated[
        tuple[About, str],
        typer.Option("--to", metavar="THING ID", help="run, lot, mold, edition or recipe, and its id or short code."),
    ],
    text: Annotated[str, typer.Option("--text", metavar="WORDS", help="What it shows.")] = "",
    place: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Keep a photo or a file with a run, a lot, a mold, an edition or a recipe.

    A photo is kept without the place, time, names and serial numbers that a camera writes beside the picture.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(as_json, saver()):
        from moldwright.desk.attach_file import run_attach  # noqa: PLC0415

        run_attach(file, to, text, place, by, as_json)


@shop.command()
def check(place: ShopPlace = "", as_json: Json = False) -> None:
    """Look at all of the records: database, events, lines, plans, numbers and files. Nothing is changed.

    Ends with 0 where they are sound, with 6 where something in them contradicts something else.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(as_json, saver()):
        from moldwright.desk.check_shop import run_check  # noqa: PLC0415

        run_check(place, as_json)
