"""`moldwright materials`: list, show and check the sheets of materials."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.desk.options import Json, Sheets
from moldwright.desk.say import say

materials = typer.Typer(no_args_is_help=True, help="The materials' sheets: list them, show one, check your own.")


@materials.command("list")
def list_(
    kind: Annotated[
        str, typer.Argument(help="original, rubber, resin, powder, shell, release, … Left out: all kinds.")
    ] = "",
    sheets: Sheets = None,
    as_json: Json = False,
) -> None:
    """List the materials by kind, with the id that a commission names; `none` leaves some of them out."""
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(as_json, saver()):
        from moldwright.desk import show_materials  # noqa: PLC0415

        say(show_materials.listed(kind, sheets, as_json))


@materials.command()
def show(
    id_: Annotated[str, typer.Argument(metavar="ID", help="A material's id or name, as you write it.")],
    sheets: Sheets = None,
    as_json: Json = False,
) -> None:
    """Show one sheet: every figure with its range and where it comes from, and the hazards."""
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(as_json, saver()):
        from moldwright.desk import show_materials  # noqa: PLC0415

        say(show_materials.shown(id_, sheets, as_json))


@materials.command()
def check(
    files: Annotated[list[Path], typer.Argument(metavar="SHEET.toml…", help="Your own sheets.")],
    as_json: Json = False,
) -> None:
    """Check a shop's own sheet: known fields, possible values, the ratio by weight and by volume consistent."""
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(as_json, saver()):
        from moldwright.desk import show_materials  # noqa: PLC0415

        show_materials.check(files, as_json)
