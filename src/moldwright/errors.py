"""What is refused, in four families. Each error tells the actual value, the limit and the remedy."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from moldwright.found_at import FoundAt, found_at_of
from moldwright.text.shown import LARGEST_PRINTED, number, short, shown
from moldwright.ways import Way, as_keys, keys_named, way_of, way_tree

LONGEST = 400
"""Characters of what was found, or of the limit, that a refusal keeps."""
Value = float | int | str | None


class MoldwrightError(Exception):
    """A refusal that a person can act on.

    Parameters
    ----------
    code : a stable lower-case identifier, words joined by "-".
    actual : what was found.
    limit : what is allowed (None where there is no single limit).
    unit : the unit of `actual` and `limit`, "" where they are words.
    remedy : one sentence that says what to do; without its full stop where a way leads on from it.
    way : what it leads to.
    place : where on the piece it was found, where that is known.

    What was found, the limit and the remedy may name keys of the commission (`ways.named_key`): `named` has all
    three as they were given, the others have the keys as a commission does.

    `picture` is the name of a file that shows the place, "" where none was drawn: who catches it draws it.

    A text is kept as it was found, cut where it is endless; who shows it makes it harmless. A number that JSON or a
    reader cannot take (endless digits, not a number) becomes words.
    """

    exit_code = 1

    def __init__(
        self,
        code: str,
        actual: Value,
        limit: Value = None,
        unit: str = "",
        remedy: str = "",
        way: Way | None = None,
        place: FoundAt | None = None,
    ) -> None:
        self.code = code
        self.named = (_kept(actual), _kept(limit), short(remedy, 2 * LONGEST))
        self.actual, self.limit = (_as_keys(value) for value in self.named[:2])
        self.unit = unit
        self.remedy = as_keys(self.named[2])
        self.way = way
        self.place = place
        self.picture = ""
        super().__init__(self.sentence())

    @property
    def family(self) -> str:
        """The name of its family, which decides the exit code."""
        return type(self).__name__

    def sentence(self) -> str:
        """The refusal in one line: `code: actual unit (limit: limit unit). Remedy.`"""
        unit = f" {self.unit}" if self.unit else ""
        limit = "" if self.limit is None else f" (limit: {spoken(self.limit)}{unit})"
        return f"{self.code}: {spoken(self.actual)}{unit}{limit}. {self.remedy}".strip()

    def as_dict(self) -> dict[str, Any]:
        """The refusal as an object without its way: whoever prints it words that. Its place and its picture are there
        where they are known."""
        told: dict[str, Any] = {
            "family": self.family,
            "code": self.code,
            "actual": self.actual,
            "limit": self.limit,
            "unit": self.unit,
            "remedy": self.remedy,
        }
        shown = {"place": self.place.as_dict() if self.place else None, "picture": self.picture}
        return told | {key: value for key, value in shown.items() if value}

    def as_kept(self) -> dict[str, Any]:
        """The refusal as plain values, with the way that its remedy leads to: `refusal_of` reads it."""
        actual, limit, remedy = self.named
        named = {"actual": actual, "limit": limit, "remedy": remedy}
        return self.as_dict() | named | {"way": way_tree(self.way)}

    def keys(self) -> tuple[str, ...]:
        """The keys of the commission that it names, in their order."""
        return tuple(key for told in self.named if isinstance(told, str) for key in keys_named(told))

    def __reduce__(self) -> tuple[type, tuple[Any, ...]]:
        actual, limit, remedy = self.named
        return type(self), (self.code, actual, limit, self.unit, remedy, self.way, self.place)


def spoken(value: Value) -> str:
    """What was found, or a limit, in words: numbers as one reads them.

    Parameters
    ----------
    value : a number or a text; None is nothing.

    >>> spoken(0.1 + 0.2), spoken("4 mm"), spoken(None)
    ('0.3', '4 mm', '')
    """
    if value is None or isinstance(value, str):
        return value or ""
    return number(value)


def _as_keys(value: Value) -> Value:
    return as_keys(value) if isinstance(value, str) else value


def _kept(value: Value) -> Value:
    if isinstance(value, str):
        return short(value, LONGEST)
    if isinstance(value, int):
        return value if abs(value) <= LARGEST_PRINTED else shown(value)
    return number(value) if value is not None and not math.isfinite(value) else value


class InputRefused(MoldwrightError):
    """The file, the commission or a sheet cannot be used as it is."""

    exit_code = 3


class NoSafePlan(MoldwrightError):
    """The input is sound, but no plan that works was found."""

    exit_code = 4


class ComputationFailed(MoldwrightError):
    """An invariant of the computation broke: a fault of the software, not of the user."""

    exit_code = 5


class RecordConflict(MoldwrightError):
    """Two records contradict each other."""

    exit_code = 6


FAMILIES = {family.__name__: family for family in (InputRefused, NoSafePlan, ComputationFailed, RecordConflict)}


def refusal_of(tree: Mapping[str, Any]) -> MoldwrightError:
    """A refusal from plain values.

    Parameters
    ----------
    tree : as `as_kept` made it.

    >>> from moldwright.ways import Deed
    >>> refusal_of(InputRefused("lot-unknown", "7", None, "", "Put it there", Deed.ADD_LOT).as_kept()).way
    <Deed.ADD_LOT: 16>
    """
    told = (tree["code"], tree["actual"], tree["limit"], tree["unit"], tree["remedy"])
    refusal = FAMILIES[tree["family"]](*told, way_of(tree.get("way")), found_at_of(tree.get("place")))
    refusal.picture = str(tree.get("picture", ""))
    return refusal
