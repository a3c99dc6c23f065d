"""`moldwright desk`: the whole job in a browser."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.desk.options import Quiet
from moldwright.desk.say import say
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
    closed: Annotated[
        bool, typer.Option("--no-browser", metavar="", help="Do not open the browser, print the address alone.")
    ] = False,
    quiet: Quiet = False,
) -> None:
    """Open the desk in the browser: take pieces in, plan, work at the bench, keep the shop's records.

    It answers this machine alone. Ctrl-C closes it; nothing is lost by that.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(False, saver()):
        from moldwright.web.assets import refuse_unbundled  # noqa: PLC0415
        from moldwright.web.serve import serve  # noqa: PLC0415
        from moldwright.web.settings import Settings  # noqa: PLC0415

        refuse_unbundled()
        place = shop_place(shop)
        settings = Settings(place, files_folder(place), data or data_folder() / "desk")
        serve(settings, "127.0.0.1", port, lambda address: _opened(address, quiet, closed))


def _opened(address: str, quiet: bool, closed: bool) -> None:
    if not quiet:
        say(f"The desk is open: {address}")
    if not closed:
        import webbrowser  # noqa: PLC0415

        webbrowser.open(address)
