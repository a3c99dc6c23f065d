"""`moldwright edition reserve | sell | broken | back | strike | certificate`: where a numbered piece goes."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from moldwright.desk.command_edition import PieceName, edition
from moldwright.desk.exits import ending
from moldwright.desk.faults import saver
from moldwright.desk.options import Json, Why
from moldwright.desk.shop_at import By, ShopPlace, Units, at_shop
from moldwright.making.shop import bench_clock

if TYPE_CHECKING:
    from moldwright.log.edition_events import PieceState

__all__ = ["edition"]
For = Annotated[str, typer.Option("--for", metavar="NAME", help="For whom; may be left out, your list alone tells it.")]
To = Annotated[str, typer.Option("--to", metavar="NAME", help="To whom; may be left out, your list alone tells it.")]
On = Annotated[str, typer.Option("--on", metavar="DAY", help="Since which day, such as 2026-03-31; left out, today.")]


@edition.command()
def reserve(
    piece: PieceName, for_: For = "", on: On = "", shop: ShopPlace = "", by: By = "", as_json: Json = False
) -> None:
    """Write down that a piece is reserved."""
    from moldwright.log.edition_events import PieceState  # noqa: PLC0415

    _move(piece, PieceState.RESERVED, for_, on, shop, by, as_json)


@edition.command()
def sell(piece: PieceName, to: To = "", on: On = "", shop: ShopPlace = "", by: By = "", as_json: Json = False) -> None:
    """Write down that a piece is sold; one that is sold already is refused."""
    from moldwright.log.edition_events import PieceState  # noqa: PLC0415

    _move(piece, PieceState.SOLD, to, on, shop, by, as_json)


@edition.command()
def broken(piece: PieceName, on: On = "", shop: ShopPlace = "", by: By = "", as_json: Json = False) -> None:
    """Write down that a piece is broken; its number stays spent."""
    from moldwright.log.edition_events import PieceState  # noqa: PLC0415

    _move(piece, PieceState.BROKEN, "", on, shop, by, as_json)


@edition.command()
def back(piece: PieceName, on: On = "", shop: ShopPlace = "", by: By = "", as_json: Json = False) -> None:
    """Write down that a piece is in the shop again: given back, mended, or no longer reserved."""
    from moldwright.log.edition_events import PieceState  # noqa: PLC0415

    _move(piece, PieceState.KEPT, "", on, shop, by, as_json)


@edition.command()
def strike(piece: PieceName, why: Why = "", shop: ShopPlace = "", by: By = "", as_json: Json = False) -> None:
    """Draw a line through a piece's last move: it is where it was before, and the line stays readable."""
    with at_shop(shop, as_json) as store:
        from moldwright.desk.show_edition import say_piece  # noqa: PLC0415
        from moldwright.records.editions import read  # noqa: PLC0415
        from moldwright.records.editions.pieces import strike_move  # noqa: PLC0415

        found, which = read.piece_meant(store, piece)
        strike_move(store, bench_clock(store, by), found.id, which.id, why)
        say_piece(read.edition(store, found.id), which.id, as_json)


@edition.command()
def certificate(
    piece: PieceName,
    out: Annotated[Path, typer.Argument(metavar="OUT.pdf", help="The PDF to write.")],
    maker: Annotated[
        str, typer.Option("--maker", metavar="NAME", help="Whose work it is; left out, a line less.")
    ] = "",
    photo: Annotated[
        Path | None, typer.Option("--photo", metavar="FILE", help="A photo of it, JPEG or PNG; it is kept too.")
    ] = None,
    paper: Annotated[str, typer.Option("--paper", metavar="PAPER", help="a4 or letter.")] = "a4",
    shop: ShopPlace = "",
    by: By = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Print a piece's certificate: what is recorded of it, room to sign, and a square code that holds its id."""
    with ending(as_json, saver()):
        from moldwright.desk.show_certificate import certificate_shown  # noqa: PLC0415

        certificate_shown(piece, out, (maker, photo), (paper, units), (shop, by), as_json)


def _move(piece: str, state: PieceState, whom: str, on: str, shop: str, by: str, as_json: bool) -> None:
    with at_shop(shop, as_json) as store:
        from moldwright.desk.show_edition import say_piece  # noqa: PLC0415
        from moldwright.records.editions import read  # noqa: PLC0415
        from moldwright.records.editions.pieces import move_piece  # noqa: PLC0415

        found, which = read.piece_meant(store, piece)
        move_piece(store, bench_clock(store, by), found.id, which.id, state, whom, on)
        say_piece(read.edition(store, found.id), which.id, as_json)
