"""How long each material lasts and what to buy, in words, as JSON and as a table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import date, timedelta
from typing import Any

from moldwright.log.codes import short_code
from moldwright.log.lot_events import Stuff
from moldwright.ranges import Range
from moldwright.records.stock.ahead import Forecast
from moldwright.records.stock.demand import WorkAhead
from moldwright.records.stock.forecast import Outlook
from moldwright.records.stock.order import ToBuy
from moldwright.records.stock.rate import FEWEST_WEEKS, Lasts, WeeklyUse
from moldwright.told.amounts import show_amount, show_amounts
from moldwright.told.csv_text import Cell
from moldwright.words.marked import words
from moldwright.words.speaker import say

LONGEST_WEEKS = 520
"""Ten years: a stock that lasts longer is told as that; our own."""
SURE = words(
    "The first figure is likely; the last one suffices nineteen times of twenty. Sizes of cups, syringes and rolls "
    "stand on the plan's own list."
)
NOTHING = words("Nothing is used, needed or on the shelf.")
ENOUGH = words("Nothing to buy: what is there suffices.")
USUAL = words("  (usual use)")
BUY_HEADS = ("kind", "material", "name", "buy_likely", "buy_surely", "unit", "wanted_likely", "there", "for_work")


@dataclass(frozen=True, slots=True)
class OutlookTold:
    """A material's outlook in words: facts with what each is called, and what is to be heeded."""

    title: str
    facts: tuple[tuple[str, str], ...]
    heeds: tuple[str, ...]


def worth_telling(row: Outlook) -> bool:
    """Whether there is anything to tell of a material.

    Parameters
    ----------
    row : its outlook.
    """
    return bool(row.lots or row.held or row.ahead is not None or row.use is not None)


def outlook_told(row: Outlook, units: str) -> OutlookTold:
    """A material's outlook.

    Parameters
    ----------
    row : its outlook.
    units : "metric" or "us".
    """
    count = say(" in {lots} lots", lots=len(row.lots)) if len(row.lots) > 1 else ""
    there = f"{show_amount(row.left, row.unit, units)}{count}" if row.left else say("none that may be used")
    facts = [(say("left"), there)]
    if row.held:
        facts.append(
            (say("besides"), say("{held} that is expired or recalled", held=show_amount(row.held, row.unit, units)))
        )
    if row.lots or row.use is not None:
        facts.append((say("a week"), _use(row, units)))
    if row.lasts is not None and row.left:
        facts.append((say("lasts"), _lasts(row.lasts)))
    if row.ahead is not None:
        ahead = show_amounts(row.ahead, row.unit, units)
        facts.append((say("ahead"), say("{ahead} for runs under way and the plans named", ahead=ahead)))
    return OutlookTold(stuff_words(row.stuff), tuple(facts), tuple(_heeds(row, units)))


def _heeds(row: Outlook, units: str) -> list[str]:
    heeds = (
        [say("short    {amount} for that", amount=show_amounts(row.short, row.unit, units))] if row.short.likely else []
    )
    for each in row.unused:
        rest = show_amount(each.amount, row.unit, units)
        heeds.append(
            say(
                "{rest} of {lot} will be unused when it expires, {expires}",
                rest=rest,
                lot=short_code(each.lot),
                expires=each.expires,
            )
        )
    return heeds


def outlook_lines(row: Outlook, units: str) -> list[str]:
    """The same as lines of a terminal.

    Parameters
    ----------
    row : its outlook.
    units : "metric" or "us".
    """
    told = outlook_told(row, units)
    return [told.title, *(f"  {name:<10} {text}" for name, text in told.facts), *(f"  ! {heed}" for heed in told.heeds)]


def stuff_words(stuff: Stuff) -> str:
    """A material's name with what the lists call it.

    Parameters
    ----------
    stuff : it.
    """
    return f"{stuff.name or stuff.id}  ({' '.join(filter(None, (stuff.kind, stuff.id)))})"


def _use(row: Outlook, units: str) -> str:
    use = row.use
    if use is None:
        return say("not known: the log is shorter than {weeks} weeks", weeks=FEWEST_WEEKS)
    if not use.mean:
        return say("nothing in {weeks} weeks", weeks=use.weeks)
    words = say("{mean} in the mean of {weeks} weeks", mean=show_amount(use.mean, row.unit, units), weeks=use.weeks)
    return f"{words}{_change(use)}"


def _change(use: WeeklyUse) -> str:
    return say(": the weeks before were otherwise") if use.changed else ""


def _lasts(lasts: Lasts) -> str:
    if lasts.likely > LONGEST_WEEKS:
        return say("more than ten years")
    if lasts.high is None:
        return say(
            "{weeks} at least, to {day}; more cannot be told of so little use",
            weeks=_weeks(lasts.low),
            day=_day(lasts.low),
        )
    days = say(
        "to {day} ({low} – {high})",
        day=_day(lasts.likely),
        low=_day(lasts.low),
        high=_day(min(lasts.high, 10 * LONGEST_WEEKS)),
    )
    return f"{_weeks(lasts.likely)} ({_whole(lasts.low)}–{_whole(lasts.high)}), {days}"


def _weeks(weeks: float) -> str:
    return f"{_whole(weeks)} week{'s' * (_whole(weeks) != '1')}"


def _whole(weeks: float) -> str:
    return f"{weeks:.0f}" if weeks >= 10 else f"{weeks:.1f}".removesuffix(".0")


def _day(weeks: float) -> str:
    return (date.today() + timedelta(days=int(weeks * 7))).isoformat()


def work_lines(found: Forecast) -> list[str]:
    """Which runs are counted, which not, and why.

    Parameters
    ----------
    found : the forecast.
    """
    under_way = [run.name or short_code(run.run) for run in found.runs if not run.still]
    still = [short_code(run.run) for run in found.runs if run.still]
    lines = [say("Runs under way: {names}.", names=", ".join(under_way))] if under_way else []
    lines += once_lines(found)
    if still:
        lines.append(
            say("Nothing was written for long of {names}: not counted here. End what is over.", names=", ".join(still))
        )
    return lines


def once_lines(found: Forecast) -> list[str]:
    """Plans that were named though they are under way.

    Parameters
    ----------
    found : the forecast.
    """
    return [say("Under way already, counted once: {names}.", names=", ".join(found.once))] if found.once else []


@dataclass(frozen=True, slots=True)
class ToBuyRow:
    """What to buy of a material, in words; `usual`: only the usual use wants it, no work ahead."""

    buy: str
    what: str
    wanted: str
    there: str
    usual: bool


def buy_told(row: ToBuy, units: str) -> ToBuyRow:
    """What to buy of a material: how much, of what, what is wanted and there.

    Parameters
    ----------
    row : of the list.
    units : "metric" or "us".
    """
    wanted, there = show_amount(row.wanted.likely, row.unit, units), show_amount(row.there, row.unit, units)
    return ToBuyRow(
        show_amounts(row.buy, row.unit, units), stuff_words(row.stuff), wanted, there, usual=not row.for_work
    )


def buy_line(row: ToBuy, units: str) -> str:
    """The same as a line of a terminal.

    Parameters
    ----------
    row : of the list.
    units : "metric" or "us".
    """
    told = buy_told(row, units)
    return f"{told.buy:>24}  {told.what}: {told.wanted} wanted, {told.there} there{USUAL if told.usual else ''}"


def buy_cells(row: ToBuy) -> Sequence[Cell]:
    """What to buy of a material, as a row of a table.

    Parameters
    ----------
    row : of the list.
    """
    stuff, buy = row.stuff, row.buy
    work = "yes" if row.for_work else "no"
    return (
        stuff.kind, stuff.id, stuff.name, buy.likely, buy.high, row.unit.value, row.wanted.likely, row.there, work,
    )  # fmt: skip


def _range(value: Range | None) -> dict[str, float] | None:
    return None if value is None else asdict(value)


def _of(stuff: Stuff) -> dict[str, str]:
    return {"kind": stuff.kind, "material": stuff.id, "name": stuff.name}


def outlook_tree(row: Outlook) -> dict[str, Any]:
    """A material's outlook as JSON tells it.

    Parameters
    ----------
    row : its outlook.
    """
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


def work_tree(run: WorkAhead) -> dict[str, Any]:
    """A run under way with what it needs yet, as JSON tells it.

    Parameters
    ----------
    run : of the forecast.
    """
    needs = [
        {"kind": need.key.kind, "material": need.key.id, "unit": need.unit.value, "amount": asdict(need.amount)}
        for need in run.needs
    ]
    return {"run": run.run, "name": run.name, "lies_still": run.still, "needs": needs}


def buy_tree(row: ToBuy) -> dict[str, Any]:
    """What to buy of a material, as JSON tells it.

    Parameters
    ----------
    row : of the list.
    """
    ranges = {"buy": asdict(row.buy), "wanted": asdict(row.wanted)}
    return {**_of(row.stuff), "unit": row.unit.value, **ranges, "there": row.there, "for_work": row.for_work}
