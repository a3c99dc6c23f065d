"""`moldwright desk`: the whole job in a browser."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.desk.options import Quiet
from moldwright.desk.shop_at import ShopPlace
from moldwright.making.places import data_folder
from moldwright.making.shop import files_folder, shop_place


def desk(
    shop: ShopPlace = "",
    port: Annotated[int, typer.Option(metavar="N", min=0, max=65535, help="The port; 0 for any free one.")] = 8477,
    data: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Folder for plans, work and who is signed in; left out, in your home."),
    ] = None,
    lan: Annotated[
        bool, typer.Option("--lan", metavar="", help="Let other devices of the shop's network in, by a passphrase.")
    ] = False,
    host: Annotated[
        list[str] | None,
        typer.Option(metavar="NAME", help="With --lan: another name or address by which devices reach this machine."),
    ] = None,
    https: Annotated[
        bool, typer.Option("--https", metavar="", help="Answer by HTTPS, with a certificate of this machine's own.")
    ] = False,
    closed: Annotated[
        bool, typer.Option("--no-browser", metavar="", help="Do not open the browser, print the address alone.")
    ] = False,
    quiet: Quiet = False,
) -> None:
    """Open the desk in the browser: take pieces in, plan, work at the bench, keep the shop's records.

    It answers this machine alone, or with --lan the shop's network. Ctrl-C closes it; nothing is lost by that.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(False, saver()):
        from moldwright.desk.open_desk import open_desk  # noqa: PLC0415

        place = shop_place(shop)
        folder = data or data_folder() / "desk"
        open_desk(place, files_folder(place), folder, port, lan, tuple(host or ()), https, quiet, closed)
