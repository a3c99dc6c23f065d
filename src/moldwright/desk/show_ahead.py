"""What `moldwright lot forecast` and `order` print."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import asdict
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from moldwright.desk.csv_file import write_csv
from moldwright.desk.lot_doing import today
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.log.codes import short_code
from moldwright.log.lot_events import Stuff
from moldwright.making.plans import plans_in
from moldwright.materials import library
from moldwright.ranges import Range
from moldwright.records.clock import now_ms
from moldwright.records.stock.ahead import Forecast, forecast
from moldwright.records.stock.catalog import Offer, material
from moldwright.records.stock.demand import WorkAhead
from moldwright.records.stock.forecast import Outlook
from moldwright.records.stock.order import ToBuy, to_buy
from moldwright.records.stock.rate import FEWEST_WEEKS, Lasts, WeeklyUse
from moldwright.records.told import day_told
from moldwright.text.harmless import harmless
from moldwright.told.amounts import show_amount, show_amounts

LONGEST_WEEKS = 520
"""Ten years: a stock that lasts longer is told as that; our own."""
SURE = (
    "The first figure is likely; the last one suffices nineteen times of twenty. Sizes of cups, syringes and rolls "
    "stand on the plan's own list."
)
NOTHING = "Nothing is used, needed or on the shelf."
HEADS = ("kind", "material", "name", "buy_likely", "buy_surely", "unit", "wanted_likely", "there", "for_work")


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
    rows = _only(found.outlooks, wanted)
    if as_json:
        say_json({"materials": [_tree(row) for row in rows], "runs": [_run_tree(run) for run in found.runs]})
        return
    shown = [row for row in rows if row.lots or row.held or row.ahead is not None or row.use is not None]
    for row in shown:
        say(harmless("\n".join(_outlook(row, units)), keep="\n"))
    say(harmless("\n".join(_runs(found)), keep="\n") if shown or found.runs else NOTHING)


def _forecast(plans: Iterable[Path], place: str, units: str) -> Forecast:
    units_told(units)
    given = plans_in(plans)
    with opened(place) as shop:
        return forecast(shop, library(), today(), now_ms(), given)


def _only(rows: Sequence[Outlook], wanted: str) -> Sequence[Outlook]:
    if not wanted.strip():
        return rows
    key = material(wanted, [Offer(row.stuff) for row in rows]).stuff.key
    return [row for row in rows if row.stuff.key == key]


def _outlook(row: Outlook, units: str) -> list[str]:
    count = f" in {len(row.lots)} lots" if len(row.lots) > 1 else ""
    there = f"{show_amount(row.left, row.unit, units)}{count}" if row.left else "none that may be used"
    lines = [f"  left       {there}"]
    if row.held:
        lines.append(f"  besides    {show_amount(row.held, row.unit, units)} that is expired or recalled")
    if row.lots or row.use is not None:
        lines.append(f"  a week     {_use(row, units)}")
    if row.lasts is not None and row.left:
        lines.append(f"  lasts      {_lasts(row.lasts)}")
    if row.ahead is not None:
        lines.append(f"  ahead      {show_amounts(row.ahead, row.unit, units)} for runs under way and the plans named")
    if row.short.likely:
        lines.append(f"  ! short    {show_amounts(row.short, row.unit, units)} for that")
    for each in row.unused:
        rest = show_amount(each.amount, row.unit, units)
        lines.append(f"  ! {rest} of {short_code(each.lot)} will be unused when it expires, {each.expires}")
    return [_name(row.stuff), *lines]


def _name(stuff: Stuff) -> str:
    return f"{stuff.name or stuff.id}  ({' '.join(filter(None, (stuff.kind, stuff.id)))})"


def _use(row: Outlook, units: str) -> str:
    use = row.use
    if use is None:
        return f"not known: the log is shorter than {FEWEST_WEEKS} weeks"
    if not use.mean:
        return f"nothing in {use.weeks} weeks"
    words = f"{show_amount(use.mean, row.unit, units)} in the mean of {use.weeks} weeks"
    return f"{words}{_change(use)}"


def _change(use: WeeklyUse) -> str:
    return ": the weeks before were otherwise" if use.changed else ""


def _lasts(lasts: Lasts) -> str:
    if lasts.likely > LONGEST_WEEKS:
        return "more than ten years"
    if lasts.high is None:
        return f"{_weeks(lasts.low)} at least, to {_day(lasts.low)}; more cannot be told of so little use"
    days = f"to {_day(lasts.likely)} ({_day(lasts.low)} – {_day(min(lasts.high, 10 * LONGEST_WEEKS))})"
    return f"{_weeks(lasts.likely)} ({_whole(lasts.low)}–{_whole(lasts.high)}), {days}"


def _weeks(weeks: float) -> str:
    return f"{_whole(weeks)} week{'s' * (_whole(weeks) != '1')}"


def _whole(weeks: float) -> str:
    return f"{weeks:.0f}" if weeks >= 10 else f"{weeks:.1f}".removesuffix(".0")


def _day(weeks: float) -> str:
    return (date.today() + timedelta(days=int(weeks * 7))).isoformat()


def _runs(found: Forecast) -> list[str]:
    under_way = [run.name or short_code(run.run) for run in found.runs if not run.still]
    still = [short_code(run.run) for run in found.runs if run.still]
    lines = [f"Runs under way: {', '.join(under_way)}."] if under_way else []
    lines += _once(found)
    if still:
        lines.append(f"Nothing was written for long of {', '.join(still)}: not counted here. End what is over.")
    return lines


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
    rows = tuple(sorted(rows, key=lambda row: not row.for_work))
    if table is not None:
        write_csv(table, HEADS, [_cells(row) for row in rows])
    if as_json:
        say_json({"until": day, "buy": [_buy_tree(row) for row in rows]})
        return
    lines = [*_once(found), *(_buy(row, units) for row in rows)]
    say(harmless("\n".join([*lines, SURE] if rows else [*lines, "Nothing to buy: what is there suffices."]), keep="\n"))


def _once(found: Forecast) -> list[str]:
    return [f"Under way already, counted once: {', '.join(found.once)}."] if found.once else []


def _buy(row: ToBuy, units: str) -> str:
    there = show_amount(row.there, row.unit, units)
    wanted = show_amount(row.wanted.likely, row.unit, units)
    why = "" if row.for_work else "  (usual use)"
    return f"{show_amounts(row.buy, row.unit, units):>24}  {_name(row.stuff)}: {wanted} wanted, {there} there{why}"


def _cells(row: ToBuy) -> Sequence[str | float]:
    stuff, buy = row.stuff, row.buy
    work = "yes" if row.for_work else "no"
    return (
        stuff.kind, stuff.id, stuff.name, buy.likely, buy.high, row.unit.value, row.wanted.likely, row.there, work,
    )  # fmt: skip


def _range(value: Range | None) -> dict[str, float] | None:
    return None if value is None else asdict(value)


def _of(stuff: Stuff) -> dict[str, str]:
    return {"kind": stuff.kind, "material": stuff.id, "name": stuff.name}


def _tree(row: Outlook) -> dict[str, Any]:
    return {
        **_of(row.stuff),
        "unit": row.unit.value,
        "left": row.left,
        "held": row.held,
        "lots": list(row.lots),
        "a_week": None if row.use is None else asdict(row.use),
        "lasts_weeks": None if row.lasts is None else asdict(row.lasts),
        "ahead": _range(row.ahead),
        "short": _range(row.short),
        "unused": [asdict(each) for each in row.unused],
    }


def _run_tree(run: WorkAhead) -> dict[str, Any]:
    needs = [
        {"kind": need.key.kind, "material": need.key.id, "unit": need.unit.value, "amount": asdict(need.amount)}
        for need in run.needs
    ]
    return {"run": run.run, "name": run.name, "lies_still": run.still, "needs": needs}


def _buy_tree(row: ToBuy) -> dict[str, Any]:
    ranges = {"buy": asdict(row.buy), "wanted": asdict(row.wanted)}
    return {**_of(row.stuff), "unit": row.unit.value, **ranges, "there": row.there, "for_work": row.for_work}
