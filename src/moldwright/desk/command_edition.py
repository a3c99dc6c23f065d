"""`moldwright edition`: editions, their numbers, and where their pieces are."""

from __future__ import annotations

from typing import Annotated

import typer

from moldwright.desk.options import CsvFile, Json, Why
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import By, ShopPlace, at_shop
from moldwright.making.shop import bench_clock

edition = typer.Typer(
    no_args_is_help=True, help="Editions: give numbers, say where pieces are, list what is left, print certificates."
)
Name = Annotated[str, typer.Argument(metavar="EDITION", help="Its name or its code.")]
PieceName = Annotated[
    str,
    typer.Argument(metavar="PIECE", help='Its code, or the edition and the number: "otter 7", "otter proof 1".'),
]
Size = Annotated[int, typer.Option(metavar="COUNT", help="How many numbers there are.")]


@edition.command("open")
def open_(
    name: Annotated[str, typer.Argument(metavar="NAME", help="What it is called.")],
    size: Size,
    proofs: Annotated[int, typer.Option(metavar="COUNT", help="How many artist's proofs beside them.")] = 0,
    material: Annotated[str, typer.Option(metavar="TEXT", help="Of what its pieces are, in your words.")] = "",
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Open an edition: so many numbers and so many artist's proofs, never more."""
    with at_shop(shop, as_json) as store:
        from moldwright.desk import show_edition as show_  # noqa: PLC0415
        from moldwright.records.editions.open import open_edition  # noqa: PLC0415
        from moldwright.told.edition_trees import edition_tree  # noqa: PLC0415

        found = open_edition(store, bench_clock(store, by), name, size, proofs, material)
        say_json(edition_tree(found)) if as_json else say(show_.shown(found))


@edition.command("list")
def list_(shop: ShopPlace = "", as_json: Json = False) -> None:
    """List the editions with what is left of each."""
    with at_shop(shop, as_json) as store:
        from moldwright.desk import show_edition as show_  # noqa: PLC0415
        from moldwright.records.editions.read import editions  # noqa: PLC0415
        from moldwright.told.edition_trees import edition_tree  # noqa: PLC0415

        found = editions(store)
        if as_json:
            say_json({"editions": [edition_tree(each, pieces=False) for each in found]})
        else:
            say(show_.listed(found))


@edition.command()
def show(name: Name, shop: ShopPlace = "", csv: CsvFile = None, as_json: Json = False) -> None:
    """Show an edition: every piece with its number and where it is, and what is left."""
    with at_shop(shop, as_json) as store:
        from moldwright.desk import show_edition as show_  # noqa: PLC0415
        from moldwright.desk.csv_file import write_csv  # noqa: PLC0415
        from moldwright.records.editions.read import edition_meant  # noqa: PLC0415
        from moldwright.told.edition_trees import HEADS, edition_rows, edition_tree  # noqa: PLC0415

        found = edition_meant(store, name)
        if csv:
            write_csv(csv, HEADS, edition_rows(found))
        say_json(edition_tree(found)) if as_json else say(show_.shown(found))


@edition.command()
def resize(
    name: Name,
    size: Size,
    proofs: Annotated[int | None, typer.Option(metavar="COUNT", help="Artist's proofs; left out, as they are.")] = None,
    why: Why = "",
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Make an edition smaller; larger only while no number is given."""
    with at_shop(shop, as_json) as store:
        from moldwright.desk import show_edition as show_  # noqa: PLC0415
        from moldwright.records.editions.open import resize_edition  # noqa: PLC0415
        from moldwright.records.editions.read import edition_meant  # noqa: PLC0415
        from moldwright.told.edition_trees import edition_tree  # noqa: PLC0415

        id_ = edition_meant(store, name).id
        found = resize_edition(store, bench_clock(store, by), id_, size, proofs, why)
        say_json(edition_tree(found)) if as_json else say(show_.shown(found))


@edition.command()
def number(
    name: Name,
    chosen: Annotated[
        int | None, typer.Option("--number", metavar="N", help="This number; left out, the next free one.")
    ] = None,
    proof: Annotated[bool, typer.Option("--proof", metavar="", help="Of the artist's proofs.")] = False,
    run: Annotated[str, typer.Option(metavar="RUN", help="The run that cast it, by its code.")] = "",
    cast: Annotated[int, typer.Option(metavar="N", help="Which cast of that run, from 1.")] = 0,
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Give a cast its number. A number is given once, and for good."""
    if bool(run) != bool(cast):
        raise typer.BadParameter("--run and --cast go together")
    with at_shop(shop, as_json) as store:
        from moldwright.log.edition_events import Series  # noqa: PLC0415
        from moldwright.log.event import About  # noqa: PLC0415
        from moldwright.log.ids import RunId  # noqa: PLC0415
        from moldwright.records.editions.numbers import CastTold, give_number  # noqa: PLC0415
        from moldwright.records.editions.read import edition_meant  # noqa: PLC0415
        from moldwright.records.find import find  # noqa: PLC0415
        from moldwright.told.edition_trees import numbered_tree  # noqa: PLC0415
        from moldwright.told.edition_words import given_words  # noqa: PLC0415

        found = edition_meant(store, name)
        which = CastTold(RunId(find(store, About.RUN, run)), cast) if run else None
        series = Series.PROOF if proof else Series.NUMBERED
        piece = give_number(store, bench_clock(store, by), found.id, series, chosen, which)
        say_json(numbered_tree(piece)) if as_json else say(given_words(found, piece))


@edition.command()
def void(piece: PieceName, why: Why = "", shop: ShopPlace = "", by: By = "", as_json: Json = False) -> None:
    """Strike out a number that was given wrongly: the piece is void, the number stays spent."""
    with at_shop(shop, as_json) as store:
        from moldwright.desk import show_edition as show_  # noqa: PLC0415
        from moldwright.records.editions import read  # noqa: PLC0415
        from moldwright.records.editions.numbers import void_number  # noqa: PLC0415

        found, which = read.piece_meant(store, piece)
        void_number(store, bench_clock(store, by), found.id, which.id, why)
        show_.say_piece(read.edition(store, found.id), which.id, as_json)
