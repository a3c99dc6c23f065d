"""What `moldwright lot forecast` and `order` print."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

from moldwright.desk.csv_file import write_csv
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.making.plans import plans_in
from moldwright.materials import library
from moldwright.records.clock import now_ms, today
from moldwright.records.stock.ahead import Forecast, forecast, outlooks_of
from moldwright.records.stock.order import to_buy
from moldwright.records.told import day_told
from moldwright.text.harmless import harmless
from moldwright.told.ahead_words import (
    BUY_HEADS,
    ENOUGH,
    NOTHING,
    SURE,
    buy_cells,
    buy_line,
    buy_tree,
    once_lines,
    outlook_lines,
    outlook_tree,
    work_lines,
    work_tree,
    worth_telling,
)


def forecast_shown(wanted: str, plans: Iterable[Path], place: str, units: str, as_json: bool) -> None:
    """How long each material lasts.

    Parameters
    ----------
    wanted : one material, "" for all.
    plans : folders of plans that are ahead.
    place : the store.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    found = _forecast(plans, place, units)
    rows = outlooks_of(found, wanted)
    if as_json:
        say_json({"materials": [outlook_tree(row) for row in rows], "runs": [work_tree(run) for run in found.runs]})
        return
    shown = [row for row in rows if worth_telling(row)]
    for row in shown:
        say(harmless("\n".join(outlook_lines(row, units)), keep="\n"))
    say(harmless("\n".join(work_lines(found)), keep="\n") if shown or found.runs else NOTHING)


def _forecast(plans: Iterable[Path], place: str, units: str) -> Forecast:
    units_told(units)
    given = plans_in(plans)
    with opened(place) as shop:
        return forecast(shop, library(), today(), now_ms(), given)


def order_shown(plans: Iterable[Path], until: str, table: Path | None, told: tuple[str, str], as_json: bool) -> None:
    """What to buy.

    Parameters
    ----------
    plans : folders of plans that are ahead.
    until : the day, "" for what the work ahead takes alone.
    table : a CSV file to write, None for none.
    told : the store, and the units.
    as_json : print one JSON object.
    """
    day = day_told(until, date.today()) if until.strip() else ""
    place, units = told
    found = _forecast(plans, place, units)
    rows = to_buy(found.outlooks, today(), day)
    if table is not None:
        write_csv(table, BUY_HEADS, map(buy_cells, rows))
    if as_json:
        say_json({"until": day, "buy": [buy_tree(row) for row in rows]})
        return
    lines = [*once_lines(found), *(buy_line(row, units) for row in rows)]
    say(harmless("\n".join([*lines, SURE if rows else ENOUGH]), keep="\n"))
