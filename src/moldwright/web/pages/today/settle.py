"""What is to be settled: doubts in runs' logs, pieces without a plan, lots that expire, and what runs short."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from moldwright.log.codes import short_code
from moldwright.materials.library import library
from moldwright.plan.cautions import Severity
from moldwright.records.clock import now_ms
from moldwright.records.pieces.listing import PieceKnown, PieceStage
from moldwright.records.shop import Shop
from moldwright.records.stock.ahead import forecast
from moldwright.records.stock.forecast import Outlook
from moldwright.records.stock.left import LotState
from moldwright.records.stock.shelf import OnShelf, on_shelf
from moldwright.told.amounts import show_amount, show_amounts
from moldwright.told.bench.under_way import RunNow
from moldwright.told.lot_words import name_of
from moldwright.told.piece_words import CHANGED_SINCE
from moldwright.units.system import UnitSystem
from moldwright.web.long_work.job import LongJob, WorkKind, WorkState
from moldwright.web.words.dates import day_words
from moldwright.web.words.said import say, say_count

SOON_DAYS = 30
"""A lot that expires within so many days is told: our own."""
MOST = 12
NAMED = 3
"""So many of what no lot stands there for are named; where there are more they are counted: our own."""
GRAVEST = tuple(each.value for each in (Severity.STOP, Severity.HEED, Severity.NOTE))
DONE = frozenset((LotState.USED_UP, LotState.DISCARDED))


@dataclass(frozen=True, slots=True)
class ToSettle:
    """A doubt: about what, what it is, and what is done about it on which page."""

    about: str
    text: str
    act: str
    path: str


def of_runs(found: Iterable[RunNow]) -> Iterator[ToSettle]:
    """What is wrong or doubtful in the logs of the runs under way: of each the gravest, and how much more there is.

    Parameters
    ----------
    found : the runs.
    """
    for run in found:
        doubts = sorted(run.found, key=lambda each: GRAVEST.index(each.severity))
        if doubts:
            more = len(doubts) - 1
            told = say_count("%(num)s more doubt.", "%(num)s more doubts.", more) % {"num": more} if more else ""
            yield ToSettle(run.piece, f"{doubts[0].text} {told}".strip(), say("To the bench"), f"/bench/{run.run}")


def of_pieces(known: Iterable[PieceKnown], jobs: Sequence[LongJob]) -> Iterator[ToSettle]:
    """Pieces that wait for a plan: none was found, none was asked for, or something else is asked for since.

    Parameters
    ----------
    known : the pieces in the shop.
    jobs : all long work that is kept.
    """
    last = {job.about: job for job in jobs if job.kind is WorkKind.PLAN}
    for each in known:
        piece, job = each.piece, last.get(each.piece.id)
        path = f"/pieces/{short_code(piece.id)}"
        if job is not None and not job.state.ended:
            continue
        if job is not None and job.state is WorkState.REFUSED:
            yield ToSettle(piece.name, say("No plan that works was found for it."), say("See why"), path)
        elif piece.plan is None and each.stage is PieceStage.TAKEN_IN:
            yield ToSettle(piece.name, say("It is not planned yet."), say("Plan it"), path)
        elif piece.changed_since:
            yield ToSettle(piece.name, say(CHANGED_SINCE), say("Plan it anew"), path)


def of_shelf(shop: Shop, today: date, units: UnitSystem) -> tuple[ToSettle, ...]:
    """What waits for a decision on the shelf, what is expired first.

    Parameters
    ----------
    shop : the records.
    today : the shop's date.
    units : of who reads.
    """
    soon = (today + timedelta(days=SOON_DAYS)).isoformat()
    shelf = [each for each in on_shelf(shop, today.isoformat(), gone=False) if each.state not in DONE]
    lots = sorted((each for each in shelf if each.expires and each.expires <= soon), key=lambda each: each.expires)
    short = (each for each in _short(shop, today) if each.short.likely)
    return (*(_lot(each, today, units) for each in lots[:MOST]), *_short_of(tuple(short), units))


def _short(shop: Shop, today: date) -> tuple[Outlook, ...]:
    return forecast(shop, library(), today.isoformat(), now_ms()).outlooks


def _lot(each: OnShelf, today: date, units: UnitSystem) -> ToSettle:
    left = show_amount(each.left.amount, each.lot.received.unit, units)
    past = each.expires < today.isoformat()
    said = (
        say("expired on %(day)s; %(left)s stand there still.")
        if past
        else say("expires on %(day)s; %(left)s are left.")
    )
    text = said % {"day": day_words(each.expires), "left": left}
    act = say("Count it or throw it away") if past else say("Use it first")
    return ToSettle(name_of(each.lot), text, act, f"/shelf/{short_code(each.lot.id)}")


def _short_of(short: Sequence[Outlook], units: UnitSystem) -> Iterator[ToSettle]:
    """What the shop keeps by lots, one by one; of what it keeps none of, clamps and scissors, a few or their count."""
    kept = [each for each in short if each.lots]
    never = [each for each in short if not each.lots]
    yield from (_missing(each, units) for each in (*kept, *(never if len(never) <= NAMED else ())))
    if len(never) > NAMED:
        about = say_count("%(num)s material", "%(num)s materials", len(never)) % {"num": len(never)}
        names = "; ".join(_name(each) for each in never[:NAMED])
        text = say("with no lot on the shelf are needed for the runs under way: %(names)s …") % {"names": names}
        yield ToSettle(about, text, say("What to buy"), "/shelf/ahead")


def _name(each: Outlook) -> str:
    return each.stuff.name or each.stuff.id


def _missing(each: Outlook, units: UnitSystem) -> ToSettle:
    told = {"short": show_amounts(each.short, each.unit, units), "left": show_amount(each.left, each.unit, units)}
    said = say("%(short)s are missing for the runs under way; %(left)s are here.") % told
    return ToSettle(_name(each), said, say("What to buy"), "/shelf/ahead")
