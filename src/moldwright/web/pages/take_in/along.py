"""What is asked for of a piece and has no field on the page: it goes along, and may be left out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from moldwright.commission.keys import keys
from moldwright.text.shown import short
from moldwright.web.words.asked import GROUPS
from moldwright.web.words.named import called

ASKED = frozenset(
    ("original.file", "original.photos", "original.tape", "original.bowls")
) | {key for rows in GROUPS.values() for key, _ in rows}  # fmt: skip
"""Every key that the page sends, whether something is answered or not."""
LONGEST = 200


def with_what_goes_along(sent: Mapping[str, Any], before: Mapping[str, Any]) -> dict[str, Any]:
    """What a page sends, and what stood there before that it asks nothing of.

    Parameters
    ----------
    sent : by dotted key, as it was typed.
    before : what was answered before.
    """
    return {key: value for key, value in before.items() if key not in ASKED} | dict(sent)


def what_goes_along(answers: Mapping[str, Any]) -> list[tuple[str, str, str]]:
    """It by key, in words, and what stands there; prices are no matter of a piece's.

    Parameters
    ----------
    answers : by dotted key.
    """
    known = {f"{table}.{name}" for table, rows in keys().items() for name in rows} - ASKED
    return [(key, called(key), short(_told(value), LONGEST)) for key, value in answers.items() if key in known]


def _told(value: Any) -> str:
    if isinstance(value, list):
        return "; ".join(_told(each) for each in value)
    if isinstance(value, Mapping):
        return ", ".join(_told(each) for each in value.values())
    return str(value)
