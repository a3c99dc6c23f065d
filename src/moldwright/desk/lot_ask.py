"""`moldwright lot add` without options: what came in, asked for question by question."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import partial
from typing import Any

from moldwright.desk.asking import answer_to
from moldwright.errors import InputRefused
from moldwright.records.clock import today
from moldwright.records.shop import Shop
from moldwright.records.stock.arrival import (
    Arrival,
    amount_told,
    days_told,
    is_known,
    known_or_own,
    known_to,
    offer_told,
    printed_day,
)
from moldwright.records.stock.catalog import Offer

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


def asked_for(shop: Shop, ask: Ask) -> Arrival:
    """What came in, asked question by question; an answer that cannot be read is asked again.

    Parameters
    ----------
    shop : the store.
    ask : shows a prompt and returns what was typed.
    """
    known = known_to(shop, (), today())
    typed: dict[str, Any] = {}
    for key, words in QUESTIONS.items():
        typed[key] = answer_to(ask, f"{words}: ", partial(_check, typed, key, known))
        if key == "material" and not is_known(typed[key], known):
            typed["name"] = answer_to(ask, "It is in no list: what is it called: ", _some)
    return Arrival(**typed)


def _check(typed: Mapping[str, str], key: str, known: Iterable[Offer], answer: str) -> None:
    """Refuse an answer that no lot can have."""
    match key:
        case "material":
            known_or_own(answer, known)
        case "amount":
            amount_told(answer, offer_told(typed["material"], typed.get("name", ""), known))
        case "on" | "expires":
            printed_day(answer)
        case "keeps":
            days_told(answer)


def _some(answer: str) -> None:
    if not answer:
        raise InputRefused("name-missing", "nothing", "a name", "", "Write what stands on its label.")
