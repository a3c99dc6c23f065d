"""Where a shop's records lie on this machine, and under which name this bench writes in them.

The database is loaded only where a store is opened.
"""

from __future__ import annotations

import os
import platform
from pathlib import Path
from typing import TYPE_CHECKING

from moldwright.errors import InputRefused
from moldwright.making.places import data_folder, real_path

if TYPE_CHECKING:
    from moldwright.records.clock import BenchClock
    from moldwright.records.shop import Shop

SHOP, FILES, BENCH = "MOLDWRIGHT_SHOP", "MOLDWRIGHT_FILES", "MOLDWRIGHT_BENCH"
"""Variables of the environment: the store, the folder of its files, the bench's name."""
LONGEST_NAME = 80


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


def shop_opened(told: str) -> Shop:
    """The store, open; who asked for it closes it.

    Parameters
    ----------
    told : as `shop_place`.

    Raises InputRefused ("shop-folder-missing") where there is no folder for its file.
    """
    from moldwright.records.shop import open_shop  # noqa: PLC0415

    place = shop_place(told)
    if "://" not in place and not Path(place).parent.is_dir():
        remedy = "Name a file in a folder that is there."
        raise InputRefused("shop-folder-missing", str(Path(place).parent), "a folder", "", remedy)
    return open_shop(place, files_folder(place))


def bench_name() -> str:
    """The name of this bench: as told, else the machine's."""
    return (os.environ.get(BENCH) or platform.node() or "bench")[:LONGEST_NAME]


def bench_clock(shop: Shop, by: str = "") -> BenchClock:
    """Ids and times of this bench; they go on from the newest that it has written.

    Parameters
    ----------
    shop : the store.
    by : who works at it.
    """
    from moldwright.records.clock import BenchClock  # noqa: PLC0415

    bench = bench_name()
    return BenchClock(bench, by.strip()[:LONGEST_NAME], last_ms=shop.last_ms(bench))
