"""`moldwright shop`: the store of the records as a whole."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.desk.options import Json, Quiet
from moldwright.desk.shop_at import By, ShopPlace
from moldwright.log.event import About

shop = typer.Typer(
    no_args_is_help=True, help="The records as a whole: their files, whether they are sound, backup and restore."
)


@shop.command()
def attach(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A photo (JPEG, PNG, HEIC), a PDF or a text.")],
    to: Annotated[
        tuple[About, str],
        typer.Option("--to", metavar="THING ID", help="run, lot, mold, edition, recipe or piece, and its id or code."),
    ],
    text: Annotated[str, typer.Option("--text", metavar="WORDS", help="What it shows.")] = "",
    place: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Keep a photo or a file with a run, a lot, a mold, an edition, a recipe or a piece.

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


@shop.command()
def backup(
    folder: Annotated[
        Path | None,
        typer.Argument(metavar="FOLDER", help="A stick or another disk; left out, a folder in your home."),
    ] = None,
    place: ShopPlace = "",
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Write all records, plans and files into one dated file of a folder, and read it again.

    Benches may go on writing meanwhile. No earlier backup is touched.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(as_json, saver()):
        from moldwright.desk.archive_shop import run_backup  # noqa: PLC0415

        run_backup(folder, place, as_json, quiet)


@shop.command()
def export(
    out: Annotated[Path, typer.Argument(metavar="OUT.zip", help="The file to write; it must not be there yet.")],
    place: ShopPlace = "",
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Write all records, plans and files into one open archive: a zip of JSON lines and files.

    The same records always give the same bytes.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(as_json, saver()):
        from moldwright.desk.archive_shop import run_export  # noqa: PLC0415

        run_export(out, place, as_json, quiet)


@shop.command()
def restore(
    archive: Annotated[Path, typer.Argument(metavar="ARCHIVE", help="What backup or export wrote.")],
    unreadable: Annotated[
        bool,
        typer.Option("--unreadable", metavar="", help="Keep events that this version cannot read, as they are."),
    ] = False,
    place: ShopPlace = "",
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Put an archive back into an empty store, a file or a server: all of it or nothing.

    Every part is checked before anything counts.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(as_json, saver()):
        from moldwright.desk.archive_shop import run_restore  # noqa: PLC0415

        run_restore(archive, unreadable, place, as_json, quiet)
