"""`moldwright lot add`: what came in, by options or asked for question by question."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from moldwright.desk.asking import answer_to
from moldwright.errors import InputRefused
from moldwright.log.lot_events import LotReceived, Stuff
from moldwright.making.plans import plans_in
from moldwright.materials import library
from moldwright.plan.needs import NeedUnit
from moldwright.records.clock import BenchClock
from moldwright.records.files.keep import keep_file
from moldwright.records.shop import Shop
from moldwright.records.stock.catalog import Offer, material, offers
from moldwright.records.stock.keep import MOST_DAYS, Written, checked_receipt, receive
from moldwright.records.stock.shelf import on_shelf
from moldwright.records.told import day_told
from moldwright.text.shown import short
from moldwright.told.amounts import read_amount
from moldwright.units import duration_s
from moldwright.units.clock import DAY_S

MONTH_LENGTH = len("2027-01")


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
    certificate: Path | None = None
    sheet: Path | None = None


QUESTIONS: Mapping[str, str] = {
    "material": "What came in, as the plans' lists call it (a word that is in no list is a material of your own)",
    "amount": 'How much ("5 kg", "2 lb 4 oz", "500 ml", "12")',
    "number": "Which number is on its label (Enter: none)",
    "supplier": "From whom (Enter: not told)",
    "on": "When did it come in (Enter: today)",
    "expires": 'To when does it keep, as printed ("2027-06-30", "2027-06"; Enter: nothing printed)',
    "keeps": 'How long does it keep once it is open ("180 days", "26 weeks"; Enter: not known)',
    "stored": "Where does it stand (Enter: not told)",
}
Ask = Callable[[str], str]


def add(shop: Shop, clock: BenchClock, told: Arrival, plans: Iterable[Path] = ()) -> Written:
    """A lot comes in as told.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    told : what was typed.
    plans : folders of plans, whose lists name materials too.
    """
    today = date.today().isoformat()
    receipt = checked_receipt(_receipt(told, known_to(shop, plans, today)))
    files = [keep_file(shop, each) if each is not None else None for each in (told.certificate, told.sheet)]
    return receive(shop, clock, replace(receipt, certificate=files[0], sheet=files[1]), today)


def known_to(shop: Shop, plans: Iterable[Path], today: str) -> tuple[Offer, ...]:
    """What a lot may be of: the library's, the plans' and what the shop has had.

    Parameters
    ----------
    shop : the store.
    plans : folders of plans.
    today : the shop's date.
    """
    needs = [need for plan in plans_in(plans) for need in plan.needs]
    return offers(library(), needs, (shelf.lot.stuff for shelf in on_shelf(shop, today)))


def asked_for(shop: Shop, ask: Ask) -> Arrival:
    """What came in, asked question by question; an answer that cannot be read is asked again.

    Parameters
    ----------
    shop : the store.
    ask : shows a prompt and returns what was typed.
    """
    known = known_to(shop, (), date.today().isoformat())
    typed: dict[str, Any] = {}
    for key, words in QUESTIONS.items():
        typed[key] = answer_to(ask, f"{words}: ", partial(_check, typed, key, known))
        if key == "material" and not _is_known(typed[key], known):
            typed["name"] = answer_to(ask, "It is in no list: what is it called: ", _some)
    return Arrival(**typed)


def _check(typed: Mapping[str, str], key: str, known: Iterable[Offer], answer: str) -> None:
    """Refuse an answer that no lot can have."""
    match key:
        case "material":
            _known_or_own(answer, known)
        case "amount":
            _amount(answer, _offer(typed["material"], typed.get("name", ""), known))
        case "on" | "expires":
            printed_day(answer)
        case "keeps":
            days_told(answer)


def _some(answer: str) -> None:
    if not answer:
        raise InputRefused("name-missing", "nothing", "a name", "", "Write what stands on its label.")


def _known_or_own(answer: str, known: Iterable[Offer]) -> None:
    """Refuse only what may be several; what is in no list is a material of the shop's own."""
    try:
        material(answer, known)
    except InputRefused as refused:
        if refused.code != "unknown-material" or not answer:
            raise


def _is_known(answer: str, known: Iterable[Offer]) -> bool:
    try:
        return bool(material(answer, known).stuff.id)
    except InputRefused:
        return False


def _offer(written: str, name: str, known: Iterable[Offer]) -> Offer:
    """The material that is meant, or the shop's own by its name."""
    try:
        return material(written or name, known)
    except InputRefused as refused:
        if refused.code != "unknown-material" or not name.strip():
            raise
    return Offer(Stuff("", "-".join((written or name).casefold().split()), name.strip()))


def _receipt(told: Arrival, known: Iterable[Offer]) -> LotReceived:
    offer = _offer(told.material, told.name, known)
    amount, unit = _amount(told.amount, offer)
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


def _amount(written: str, offer: Offer) -> tuple[float, NeedUnit]:
    if not written.strip():
        remedy = 'Write how much came in: --amount "5 kg".'
        raise InputRefused("amount-missing", "nothing", "an amount with its unit", "", remedy)
    return read_amount(written, offer.unit, "--amount")


def printed_day(written: str) -> str:
    """A day as it is printed on a label, as ISO 8601; a month alone is meant to its end.

    Parameters
    ----------
    written : "2027-06-30", "2027-06", "" for none.

    Raises InputRefused ("day-unclear").

    >>> printed_day("2028-02"), printed_day("2027-12"), printed_day("")
    ('2028-02-29', '2027-12-31', '')
    """
    told = written.strip()
    if len(told) != MONTH_LENGTH or told[4] != "-":
        return day_told(told, date.min) if told else ""
    first = date.fromisoformat(day_told(f"{told}-01", date.min))
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
    days = float(told) if plain else duration_s(told, "--keeps") / DAY_S
    if not 0 <= days <= MOST_DAYS:
        remedy = "Write for how many days it keeps once it is open."
        raise InputRefused("life-out-of-range", short(told), MOST_DAYS, "days", remedy)
    return int(days)
