"""A lot that comes in, as it was typed: read, checked, its papers kept, written down."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.log.ids import FileHash
from moldwright.log.lot_events import LotPapers, LotReceived, Stuff
from moldwright.materials import library
from moldwright.plan.needs import NeedPlan, NeedUnit
from moldwright.records.clock import BenchClock, today
from moldwright.records.files.keep import keep_file
from moldwright.records.files.kept import bytes_of
from moldwright.records.shop import Shop
from moldwright.records.stock.amounts import read_amount
from moldwright.records.stock.catalog import Offer, material, offers
from moldwright.records.stock.doing import lot_meant
from moldwright.records.stock.keep import MOST_DAYS, Written, checked_receipt, receive, write
from moldwright.records.stock.shelf import on_shelf
from moldwright.records.told import day_told
from moldwright.text.shown import short
from moldwright.units import duration_s
from moldwright.units.clock import DAY_S

MONTH = re.compile(r"(?P<year>\d{4})-(?P<month>\d{2})|(?P<before>\d{1,2}) ?[/.] ?(?P<after>\d{4})")
"""A month alone, as pots are printed with: "2027-06" as ISO 8601 has it, "06/2027", "6.2027"."""
Paper = FileHash | Path
"""A file that is kept already, or one to keep."""


@dataclass(frozen=True, slots=True)
class Arrival:
    """What was told of a lot that came in, as it was typed."""

    material: str = ""
    amount: str = ""
    name: str = ""
    number: str = ""
    supplier: str = ""
    on: str = ""
    expires: str = ""
    keeps: str = ""
    stored: str = ""
    certificate: Paper | None = None
    sheet: Paper | None = None


def arrive(shop: Shop, clock: BenchClock, told: Arrival, needs: Iterable[NeedPlan] = ()) -> Written:
    """A lot comes in as told.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    told : what was typed.
    needs : rows of plans, whose lists name materials too.

    Raises InputRefused; RecordConflict ("file-missing") for papers that are not kept.
    """
    day = today()
    receipt = checked_receipt(_receipt(told, known_to(shop, needs, day)))
    certificate, sheet = kept_paper(shop, told.certificate), kept_paper(shop, told.sheet)
    return receive(shop, clock, replace(receipt, certificate=certificate, sheet=sheet), day)


def add_papers(
    shop: Shop, clock: BenchClock, which: str, certificate: Paper | None = None, sheet: Paper | None = None
) -> Written:
    """Papers of a lot that came later, or take the place of those that were kept.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    which : the lot, as it was typed.
    certificate, sheet : its certificate and its safety data sheet; None: as before.

    Raises InputRefused ("paper-missing") where neither is told; RecordConflict ("file-missing") where one is not kept.
    """
    if certificate is None and sheet is None:
        remedy = "Choose its certificate, its safety data sheet, or both."
        raise InputRefused("paper-missing", "no file", "one file at least", "", remedy)
    id_ = lot_meant(shop, which)
    return write(shop, clock, id_, LotPapers(kept_paper(shop, certificate), kept_paper(shop, sheet)), today())


def kept_paper(shop: Shop, paper: Paper | None) -> FileHash | None:
    """The hash of a paper, which is kept now, or was: None for none.

    Parameters
    ----------
    shop : the store.
    paper : a file, or the hash of a kept one.

    Raises InputRefused as `keep_file`; RecordConflict ("file-missing").
    """
    if isinstance(paper, Path):
        return keep_file(shop, paper)
    if paper is not None:
        bytes_of(shop.files, paper)
    return paper


def known_to(shop: Shop, needs: Iterable[NeedPlan], day: str) -> tuple[Offer, ...]:
    """What a lot may be of: the library's, the plans' and what the shop has had.

    Parameters
    ----------
    shop : the store.
    needs : rows of plans.
    day : the shop's date.
    """
    return offers(library(), needs, (shelf.lot.stuff for shelf in on_shelf(shop, day)))


def known_or_own(answer: str, known: Iterable[Offer]) -> None:
    """Refuse only what may be several; what is in no list is a material of the shop's own.

    Parameters
    ----------
    answer : as it was typed.
    known : what it may be.
    """
    try:
        material(answer, known)
    except InputRefused as refused:
        if refused.code != "unknown-material" or not answer:
            raise


def is_known(answer: str, known: Iterable[Offer]) -> bool:
    """Whether it is one material of the lists.

    Parameters
    ----------
    answer : as it was typed.
    known : what it may be.
    """
    try:
        return bool(material(answer, known).stuff.id)
    except InputRefused:
        return False


def offer_told(written: str, name: str, known: Iterable[Offer]) -> Offer:
    """The material that is meant, or the shop's own by its name.

    Parameters
    ----------
    written : as it was typed, "" for one of the shop's own.
    name : what the shop's own is called.
    known : what it may be.
    """
    try:
        return material(written or name, known)
    except InputRefused as refused:
        if refused.code != "unknown-material" or not name.strip():
            raise
    return Offer(Stuff("", "-".join((written or name).casefold().split()), name.strip()))


def _receipt(told: Arrival, known: Iterable[Offer]) -> LotReceived:
    offer = offer_told(told.material, told.name, known)
    amount, unit = amount_told(told.amount, offer)
    return LotReceived(
        offer.stuff,
        amount,
        unit,
        day_told(told.on, date.today()),
        told.number,
        told.supplier,
        printed_day(told.expires),
        days_told(told.keeps),
        told.stored,
        density_g_ml=offer.density_g_ml if unit is NeedUnit.MILLILITER else None,
    )


def amount_told(written: str, offer: Offer) -> tuple[float, NeedUnit]:
    """How much came in.

    Parameters
    ----------
    written : as it was typed.
    offer : of what.

    Raises InputRefused ("amount-missing", "quantity-unclear").
    """
    if not written.strip():
        remedy = "Write how much came in, with its unit: 5 kg, 500 ml, 12."
        raise InputRefused("amount-missing", "nothing", "an amount with its unit", "", remedy)
    return read_amount(written, offer.unit, "amount")


def printed_day(written: str) -> str:
    """A day as it is printed on a label, as ISO 8601; a month alone is meant to its end.

    Parameters
    ----------
    written : "2027-06-30", "2027-06", "06/2027", "" for none.

    Raises InputRefused ("day-unclear").

    >>> printed_day("2028-02"), printed_day("12/2027"), printed_day("")
    ('2028-02-29', '2027-12-31', '')
    """
    told = written.strip()
    month = MONTH.fullmatch(told)
    if month is None:
        return day_told(told, date.min) if told else ""
    year, number = month["year"] or month["after"], int(month["month"] or month["before"])
    first = date.fromisoformat(day_told(f"{year}-{number:02}-01", date.min))
    after = date(first.year + first.month // 12, first.month % 12 + 1, 1)
    return date.fromordinal(after.toordinal() - 1).isoformat()


def days_told(written: str) -> int | None:
    """A time in whole days, None for nothing.

    Parameters
    ----------
    written : "180 days", "180".

    Raises InputRefused ("quantity-unclear", "life-out-of-range").

    >>> days_told("180"), days_told("26 weeks"), days_told("")
    (180, 182, None)
    """
    told = written.strip()
    if not told:
        return None
    plain = told.isdecimal() and len(told) <= len(str(MOST_DAYS))
    days = float(told) if plain else duration_s(told, "keeps") / DAY_S
    if not 0 <= days <= MOST_DAYS:
        remedy = "Write for how many days it keeps once it is open."
        raise InputRefused("life-out-of-range", short(told), MOST_DAYS, "days", remedy)
    return int(days)
