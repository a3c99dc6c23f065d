"""What a check can find, each kind with what it means and what to do."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from enum import Enum, StrEnum

from moldwright.records.shop import Shop

SHOWN = 8
"""So many of one kind are named; all are counted."""
BACKUP = "Copy the store away as it is, then put the last backup back: `moldwright shop restore`."


class Gravity(StrEnum):
    """How much it matters."""

    CONTRADICTION = "contradiction"
    HEED = "heed"
    TOLD = "told"


class Amiss(Enum):
    """A kind of finding: its code, its gravity, what it is, and what to do."""

    DATABASE = ("database-damaged", Gravity.CONTRADICTION, "The database itself is damaged", BACKUP)
    LINK = ("link-broken", Gravity.CONTRADICTION, "A row names another that is not there", BACKUP)
    TABLES = ("tables-differ", Gravity.CONTRADICTION, "Tables are not as this version makes them", BACKUP)
    OLDER = (
        "shop-older",
        Gravity.TOLD,
        "The store is of an earlier version",
        "The next command that opens it brings it forward, and keeps a copy; then check again.",
    )
    UNSEEN = (
        "not-looked-at",
        Gravity.HEED,
        "This could not be looked at",
        "Mend what is told of it, then check again.",
    )
    UNREADABLE = (
        "event-unreadable",
        Gravity.CONTRADICTION,
        "An event cannot be read",
        f"Send it again from the bench that wrote it. {BACKUP}",
    )
    ALTERED = (
        "event-altered",
        Gravity.CONTRADICTION,
        "An event's columns say something else than its body",
        f"Somebody or something has changed it: events are never changed. {BACKUP}",
    )
    STRAY_LINE = (
        "line-strays",
        Gravity.CONTRADICTION,
        "A line goes through an event of something else",
        "Look at both. The line counts in nothing; strike the right event out.",
    )
    EARLY_LINE = (
        "line-early",
        Gravity.HEED,
        "A line goes through an event that is not here (yet)",
        "It arrives with the log of the bench that wrote it; if it does not, nothing is amiss but the line.",
    )
    UNKNOWN = (
        "kind-unknown",
        Gravity.TOLD,
        "Events of a kind that this version does not know are kept and counted in nothing",
        "A newer version wrote them, and reads them.",
    )
    AHEAD = (
        "time-ahead",
        Gravity.HEED,
        "Events lie in the future",
        "A clock stood wrong: set it. What matters of them is struck out and written again with `--at`.",
    )
    SET_BACK = (
        "clock-set-back",
        Gravity.HEED,
        "A bench wrote at a later time before these events",
        "Its clock stood ahead then, or stands behind now: set it.",
    )
    EARLY = ("time-senseless", Gravity.HEED, "Events lie before all records", "A clock was never set: set it.")
    PLAN_DAMAGED = (
        "plan-damaged",
        Gravity.CONTRADICTION,
        "A kept plan is not what it was",
        f"Give the run its plan's folder once more. {BACKUP}",
    )
    PLAN_MISSING = (
        "plan-missing",
        Gravity.CONTRADICTION,
        "The plan of a run or a piece is not kept here",
        "Give the run its plan's folder once more; plan the piece again.",
    )
    PLAN_OTHER = (
        "plan-version",
        Gravity.HEED,
        "A kept plan is of another version's form and cannot be read here",
        "Plan its commission again with this version and give that to the run.",
    )
    NUMBER = (
        "number-differs",
        Gravity.CONTRADICTION,
        "A number and the event that gave it do not agree",
        "Compare certificate, list and log of the edition before another piece is numbered.",
    )
    FILE_MISSING = (
        "file-missing",
        Gravity.CONTRADICTION,
        "A kept file is gone from the folder",
        "Put it back from a backup, or attach it again: the same bytes get their place again.",
    )
    FILE_DAMAGED = (
        "file-damaged",
        Gravity.CONTRADICTION,
        "A kept file is not what it was",
        "Put it back from a backup, or attach the original again.",
    )
    FILE_NEVER = (
        "file-never-kept",
        Gravity.HEED,
        "A file is told of that was never kept here",
        "It may lie on the bench that told of it: attach it here too.",
    )
    FILE_LOOSE = ("file-loose", Gravity.TOLD, "A kept file that nothing refers to", "It does no harm.")
    FILE_STRANGE = (
        "file-strange",
        Gravity.TOLD,
        "Something in the files' folder that is none of the records'",
        "It does no harm; move it if it is yours.",
    )

    def __init__(self, code: str, gravity: Gravity, text: str, remedy: str) -> None:
        self.code, self.gravity, self.text, self.remedy = code, gravity, text, remedy


Found = tuple[Amiss, str]
"""One case: its kind, and which row, file or page it is."""
Finder = Callable[[Shop], Iterator[Found]]
"""Looks at one part of a store and tells case by case."""


@dataclass(frozen=True, slots=True)
class ShopFinding:
    """All cases of one kind; `which` names the first of them."""

    kind: Amiss
    count: int
    which: tuple[str, ...]


def gathered(cases: Iterable[Found]) -> tuple[ShopFinding, ...]:
    """Cases by their kind, in the kinds' order.

    Parameters
    ----------
    cases : any.
    """
    counts: dict[Amiss, int] = {}
    named: dict[Amiss, list[str]] = {}
    for kind, which in cases:
        counts[kind] = counts.get(kind, 0) + 1
        if len(named.setdefault(kind, [])) < SHOWN:
            named[kind].append(which)
    return tuple(ShopFinding(kind, counts[kind], tuple(named[kind])) for kind in Amiss if kind in counts)
