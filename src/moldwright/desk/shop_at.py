"""Which store a command works on, and who works at it.

The options stand on every command of the records, so the database is loaded only where a store is opened.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.errors import InputRefused
from moldwright.making.shop import SHOP, shop_opened
from moldwright.text.shown import short
from moldwright.units.system import UnitSystem

if TYPE_CHECKING:
    from moldwright.records.shop import Shop

BY, UNITS = "MOLDWRIGHT_BY", "MOLDWRIGHT_UNITS"
ShopPlace = Annotated[
    str,
    typer.Option(
        "--shop",
        metavar="FILE|URL",
        envvar=SHOP,
        show_envvar=False,
        help="The shop's records: a file, or PostgreSQL's URL; left out, the file in your home.",
    ),
]
Units = Annotated[
    str,
    typer.Option("--units", metavar="UNITS", envvar=UNITS, show_envvar=False, help="metric or us, for what is shown."),
]
By = Annotated[str, typer.Option("--by", metavar="NAME", envvar=BY, show_envvar=False, help="Who does it.")]


def units_told(written: str) -> str:
    """The units that are shown, refused where they are none.

    Parameters
    ----------
    written : as it was typed.

    Raises InputRefused ("unknown-choice").
    """
    if written not in list(UnitSystem):
        raise InputRefused(
            "unknown-choice", short(written), " or ".join(UnitSystem), "", "Write --units metric or --units us."
        )
    return written


@contextmanager
def opened(told: str) -> Iterator[Shop]:
    """The store, open till the body ends; then a clock that cannot be right is told.

    Parameters
    ----------
    told : as `shop_place`.
    """
    from moldwright.desk.clock_told import tell_doubts  # noqa: PLC0415

    shop = shop_opened(told)
    try:
        yield shop
    finally:
        shop.close()
    tell_doubts(shop.doubts)


@contextmanager
def at_shop(shop: str, as_json: bool) -> Iterator[Shop]:
    """A command's body with the store open; whatever ends it becomes an exit code.

    Parameters
    ----------
    shop : as `shop_place`.
    as_json : refusals as JSON.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(as_json, saver()), opened(shop) as found:
        yield found
