"""Which store a command works on, and who works at which bench.

The options stand on every command of the records, so the database is loaded only where a store is opened.
"""

from __future__ import annotations

import os
import platform
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from moldwright.desk.exits import ending
from moldwright.errors import InputRefused
from moldwright.making.places import real_path
from moldwright.text.shown import short
from moldwright.units.system import UnitSystem

if TYPE_CHECKING:
    from moldwright.records.clock import BenchClock
    from moldwright.records.shop import Shop

SHOP, FILES, BENCH, BY = "MOLDWRIGHT_SHOP", "MOLDWRIGHT_FILES", "MOLDWRIGHT_BENCH", "MOLDWRIGHT_BY"
UNITS = "MOLDWRIGHT_UNITS"
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


def shop_place(told: str) -> str:
    """The store that is meant: as told, else one file in the user's data folder (XDG base directories).

    Parameters
    ----------
    told : a file or a URL, "" for the usual place.
    """
    if "://" in told:
        return told
    if told:
        return str(real_path(Path(told)))
    return str(data_folder() / "shop.db")


def data_folder() -> Path:
    """The user's folder for records, made where it is missing (XDG base directories)."""
    base = Path(os.environ.get("XDG_DATA_HOME", ""))
    folder = (base if base.is_absolute() else Path.home() / ".local" / "share") / "moldwright"
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def files_folder(place: str) -> Path | None:
    """Where the photos and files of a store lie: as told, else beside its file; for a URL in the user's data folder.

    Parameters
    ----------
    place : of the store, as `shop_place` gives it.
    """
    told = os.environ.get(FILES, "")
    if told:
        return real_path(Path(told))
    return data_folder() / "shop.files" if "://" in place else None


@contextmanager
def opened(told: str) -> Iterator[Shop]:
    """The store, open till the body ends; then a clock that cannot be right is told.

    Parameters
    ----------
    told : as `shop_place`.
    """
    from moldwright.desk.clock_told import tell_doubts  # noqa: PLC0415
    from moldwright.records.shop import open_shop  # noqa: PLC0415

    place = shop_place(told)
    if "://" not in place and not Path(place).parent.is_dir():
        remedy = "Name a file in a folder that is there."
        raise InputRefused("shop-folder-missing", str(Path(place).parent), "a folder", "", remedy)
    shop = open_shop(place, files_folder(place))
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


def bench_clock(shop: Shop, by: str = "") -> BenchClock:
    """Ids and times of this bench; they go on from the newest that it has written.

    Parameters
    ----------
    shop : the store.
    by : who works at it.
    """
    from moldwright.records.clock import BenchClock  # noqa: PLC0415

    bench = os.environ.get(BENCH) or platform.node() or "bench"
    return BenchClock(bench[:80], by.strip()[:80], last_ms=shop.last_ms(bench[:80]))
