"""From text to terms: `3 lb 4 oz` is two numbers with their unit words, `7 1/2 min` is one."""

from __future__ import annotations

import re
from dataclasses import dataclass

from moldwright.units.unclear import UnclearError
from moldwright.words.speaker import in_house_marks, say, with_mark

_DECIMAL = r"(?:\d+(?:[.,]\d+)*|[.,]\d+)"
_NUMBER = rf"(?:\d+(?: ?- ?| )\d+ ?/ ?\d+|\d+ ?/ ?\d+|{_DECIMAL})"
_TERM = re.compile(rf" ?(?P<number>{_NUMBER}) ?(?P<unit>[^\d\s+\-,;][^\d+\-,;]*?)? ?(?=[\d,;]|[.,]\d|$)")
_FRACTION = re.compile(r"(?:(?P<whole>\d+)(?: ?- ?| ))?(?P<top>\d+) ?/ ?(?P<bottom>\d+)$")


@dataclass(frozen=True, slots=True)
class Term:
    """A number with the word after it; `whole` tells that it was written without a fraction."""

    value: float
    unit: str
    whole: bool


def terms(text: str) -> tuple[bool, tuple[Term, ...]]:
    """Whether a minus stands in front, and the terms of a plain text.

    Parameters
    ----------
    text : made plain before, at most a few hundred characters.

    >>> terms("3 lb 4 oz")[1][1]
    Term(value=4.0, unit='oz', whole=True)
    """
    negative = text.startswith("-")
    rest = text[1:].strip() if text[:1] in "+-" and text else text
    found: list[Term] = []
    while rest:
        match = _TERM.match(rest)
        if match is None:
            raise UnclearError(say('"{rest}" is no number with a unit', rest=in_house_marks(rest)))
        found.append(_term(match["number"], (match["unit"] or "").strip().lower()))
        rest = re.sub(r"^(?:, ?|; ?|and )", "", rest[match.end() :])
    return negative, tuple(found)


def _term(number: str, unit: str) -> Term:
    fraction = _FRACTION.match(number)
    if fraction is None:
        value = decimal(number)
        return Term(value, unit, value.is_integer())
    if int(fraction["bottom"]) == 0:
        raise UnclearError(say("A fraction over zero is no number"))
    return Term(int(fraction["whole"] or 0) + int(fraction["top"]) / int(fraction["bottom"]), unit, False)


def decimal(text: str) -> float:
    """A decimal with a point or an unmistakable comma; thousands separators are refused.

    Parameters
    ----------
    text : digits with points or commas, in the house's marks (`words/speaker.py`, `in_house_marks`).

    >>> decimal("1,5"), decimal("0,125"), decimal("1.500")
    (1.5, 0.125, 1.5)

    Source: where thousands are parted, and by which mark: Unicode's CLDR, in `tests/unit/test_units_marks.py`.
    """
    if len(re.findall("[.,]", text)) > 1:
        raise UnclearError(say("Write large numbers without separators"))
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", text):
        whole, part = text.replace(",", ""), with_mark(f"{float(text.replace(',', '.')):g}")
        raise UnclearError(
            say(
                "{typed} could be {whole} or {part}: write one of them",
                typed=in_house_marks(text),
                whole=whole,
                part=part,
            )
        )
    return float(text.replace(",", "."))
