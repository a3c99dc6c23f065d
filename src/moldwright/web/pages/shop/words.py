"""What stands on the page of the shop, in words that the catalogs translate."""

from __future__ import annotations

from dataclasses import dataclass

from babel import Locale

from moldwright.units.system import UnitSystem
from moldwright.web.doors.sessions import Sessions
from moldwright.web.doors.state import CameBy, DeskSession
from moldwright.web.doors.visitor import Role, Visitor
from moldwright.web.words.marked import Words, words
from moldwright.web.words.said import languages, say, say_count

LOOK_WORDS: tuple[tuple[str, Words], ...] = (
    ("", words("As the device is set")),
    ("light", words("Light")),
    ("dark", words("Dark")),
    ("contrast", words("High contrast")),
)
UNIT_WORDS: tuple[tuple[str, Words], ...] = (
    (UnitSystem.METRIC.value, words("Metric: mm, g, °C")),
    (UnitSystem.US.value, words("US: in, oz, °F")),
)
ROLE_WORDS: tuple[tuple[Role, Words, Words], ...] = (
    (Role.BENCH, words("Bench"), words("works: weighs, logs, takes pieces in")),
    (Role.VIEW, words("View"), words("reads, changes nothing")),
    (Role.OWNER, words("Owner"), words("everything, this page too")),
)
WAY_WORDS: dict[CameBy, Words] = {
    CameBy.MACHINE: words("on the desk's own machine"),
    CameBy.PASSPHRASE: words("by the passphrase"),
    CameBy.INVITATION: words("by invitation"),
}
MIN_MS, HOUR_MS, DAY_MS = 60_000, 3_600_000, 86_400_000
LATELY_MS = 6 * MIN_MS
"""When a device was last seen is kept to five minutes (`web/doors/sessions.py`)."""


@dataclass(frozen=True, slots=True)
class DeviceRow:
    """One device that is signed in, in words; `own`: it is the one that asks."""

    name: str
    device: str
    by: str
    role: str
    way: str
    seen: str
    own: bool


def device_rows(sessions: Sessions, visitor: Visitor) -> tuple[DeviceRow, ...]:
    """Every device that is signed in.

    Parameters
    ----------
    sessions : of the desk.
    visitor : who asks.
    """
    return tuple(_row(each, sessions.age_ms(each), visitor) for each in sessions.all())


def _row(session: DeskSession, age_ms: int, visitor: Visitor) -> DeviceRow:
    role = next(word for role, word, _ in ROLE_WORDS if role is session.role)
    return DeviceRow(
        session.name,
        session.device,
        session.by,
        say(role),
        say(WAY_WORDS[session.way]),
        ago(age_ms),
        session.name == visitor.session,
    )


def ago(age_ms: int) -> str:
    """How long ago something was, in the largest unit that fills once.

    Parameters
    ----------
    age_ms : how long [ms].

    >>> ago(0), ago(7 * 60_000), ago(60 * 60_000), ago(50 * 3_600_000)
    ('just now', '7 min ago', '1 h ago', '2 days ago')
    """
    if age_ms < LATELY_MS:
        return say("just now")
    if age_ms < HOUR_MS:
        return say("%(min)d min ago") % {"min": age_ms // MIN_MS}
    if age_ms < DAY_MS:
        return say("%(hours)d h ago") % {"hours": age_ms // HOUR_MS}
    days = age_ms // DAY_MS
    return say_count("%(days)d day ago", "%(days)d days ago", days) % {"days": days}


def language_names() -> tuple[tuple[str, str], ...]:
    """The languages that there are, each called as it calls itself: Unicode's CLDR, by Babel."""
    return tuple((each, Locale(each).get_language_name() or each) for each in languages())
