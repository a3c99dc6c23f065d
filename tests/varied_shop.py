"""A shop with everything in it: every kind of event with hostile texts and numbers, kinds from a newer version, lines
struck out, numbers given, plans, photos and documents. Nothing in it means anything; the same seed gives the same.
"""

from __future__ import annotations

import json
import random
import types
from dataclasses import is_dataclass
from enum import Enum
from hashlib import sha256
from typing import Any, NewType, Union, get_args, get_origin

from moldwright.log.any_events import Attached, Undone, Unread
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, FileHash, PlanId, SubjectId
from moldwright.log.json_text import compact
from moldwright.log.kinds import KINDS
from moldwright.plan.json_text import tree_of
from moldwright.plan.plan import Plan
from moldwright.records.clock import BenchClock
from moldwright.records.editions.numbers import give_number
from moldwright.records.editions.open import open_edition
from moldwright.records.files.keep import keep_file
from moldwright.records.shop import Shop
from moldwright.records.store.tables import EVENT
from moldwright.store.shape import hints

TEXTS = (
    "", "plain", "zwölf Güsse", "бронза", "青銅", "👷🏽‍♀️", "two\nlines", "tab\tand \"quotes\" \\ and /",
    "\u2028\u2029\x85", "é as one and e\u0301 as two", "\x1b[31m", "\u202egnp.", "</script>",
    "'; DROP TABLE event; --", "x" * 3000,
)  # fmt: skip
NUMBERS = (0.0, -0.0, 0.1 + 0.2, 1e-7, 5e-324, 1.7976931348623157e308, 1e22, 1e16, 123456789.123456789, 32.5)
WHOLE = (0, -1, 1, 2**53 + 1, 10**30)
HOSTILE = (
    "{}", '{"a":1}', '{ "a": 1 }', '{"a":1e5}', '{"a":1E5}', '{"a":100000.0}', '{"a":1,"a":2}', '{"a":-0}',
    '{"a":-0.0}', '{"a":12345678901234567890123}', '{"a":0.30000000000000004}', '{"a":0.3000000000000000444}',
    '{"a":1e400}', '{"a":NaN}', '{"a":Infinity}', "[1,2]", '"text"', "7", "null", "", "no JSON",
    '{"a":"\\ud800"}', '{"a":"\\u00e4"}',
    '{"a":"ä"}', '{"a":"\u2028"}', '{"a":"\\u2028"}', '{"a":"\\/"}', '{"a":"\\u0000"}', "two\nlines\r\n", '{"body":{}}',
    '{"a":' + "9" * 5000 + "}", '{"a":' + "[" * 3000 + "]" * 3000 + "}", "{" + '"a":{' * 900 + "}" * 901,
)  # fmt: skip
"""Bodies of kinds that are not known: whatever a newer bench may send."""
NEWER = '{"temperature_c":21.50,"humidity_pct":null,"pressure_hpa":1.0e3}'
"""A body of a known kind with a field more and figures written in another way."""


class Made:
    """Bodies of every kind, from the types alone.

    Parameters
    ----------
    seed : of all chance.
    files, plans : hashes that may be referred to.
    """

    def __init__(self, seed: int, files: list[FileHash], plans: list[PlanId]) -> None:
        self.chance, self.files, self.plans = random.Random(seed), files, plans
        self.events: list[EventId] = []

    def id(self) -> str:
        return BenchClock("made", now=lambda: self.chance.randrange(1, 2**47)).new_id()

    def of(self, hint: Any) -> Any:  # noqa: PLR0911
        if hint is FileHash:
            return self.chance.choice(self.files)
        if hint is PlanId:
            return self.chance.choice(self.plans)
        if isinstance(hint, NewType):
            return self.id() if "Id" in hint.__name__ else self.of(hint.__supertype__)
        if isinstance(hint, type) and is_dataclass(hint):
            return hint(**{name: self.of(inner) for name, inner in hints(hint).items()})
        if get_origin(hint) in (types.UnionType, Union):
            return self.of(self.chance.choice(get_args(hint)))
        if get_origin(hint) is tuple:
            return tuple(self.of(get_args(hint)[0]) for _ in range(self.chance.randrange(4)))
        if isinstance(hint, type) and issubclass(hint, Enum):
            return self.chance.choice(list(hint))
        values = {str: TEXTS, float: NUMBERS, int: WHOLE, bool: (True, False), types.NoneType: (None,)}
        return self.chance.choice(values[hint])


def fill(shop: Shop, plan: Plan, rounds: int = 3, seed: int = 9) -> None:
    """Fill an empty store with everything."""
    files = [keep_file(shop, data, name) for name, data in documents().items()]
    plans = [shop.keep_plan(_plan_text(plan, name)) for name in ("otter", "Größe 青", "third")]
    made = Made(seed, files, plans)
    clocks = [BenchClock(name, by) for name, by in (("tablet 1", "Kim"), ("Bänk 青", ""), ("x" * 80, "\u2028"))]
    subjects = {about: [SubjectId(made.id()) for _ in range(3)] for about in About}
    for number in range(rounds):
        shop.append(_event(made, clocks, subjects, kind) for kind in KINDS.values() if kind.__name__ != "NumberGiven")
        shop.append(_event(made, clocks, subjects, Unread, f"newer-{number}", text) for text in HOSTILE)
        _strike(shop, made, clocks[0], subjects)
    _newer(shop, made, clocks[0], subjects[About.RUN][0])
    _numbers(shop, clocks[0])
    clock, run = clocks[0], subjects[About.RUN][0]
    shop.append(clock.event(About.RUN, run, Attached(file, "kept")) for file in files)


def documents() -> dict[str, bytes]:
    """Files as people keep them."""
    return {
        "Zertifikat 青.pdf": b"%PDF-1.7\nendobj\n%%EOF\n",
        "note.txt": "Größe: 12 mm\r\n".encode(),
        "bom.txt": b"\xef\xbb\xbfwith a mark\n",
        "long.txt": b"0123456789\n" * 90_000,
    }


def _plan_text(plan: Plan, name: str) -> str:
    return json.dumps({**tree_of(plan), "name": name}, ensure_ascii=False, indent=1)


def _event(
    made: Made, clocks: list[BenchClock], subjects: dict[About, list[SubjectId]], kind: type[Body], *told: str
) -> Event:
    about = made.chance.choice(list(About))
    body = kind(*told) if told else made.of(kind)
    at_ms = made.chance.choice((None, 0, 1, 1_700_000_000_123, 253_402_300_800_000, 2**48 - 1))
    event = made.chance.choice(clocks).event(about, made.chance.choice(subjects[about]), body, at_ms)
    made.events.append(event.id)
    return event


def _strike(shop: Shop, made: Made, clock: BenchClock, subjects: dict[About, list[SubjectId]]) -> None:
    for target in made.chance.sample(made.events, 5):
        shop.append([clock.event(About.RUN, subjects[About.RUN][0], Undone(target, made.of(str)))])


def _newer(shop: Shop, made: Made, clock: BenchClock, run: SubjectId) -> None:
    """A row as a newer version of this software writes it."""
    row = {"about": "run", "subject": run, "kind": "shop-air", "at_ms": 7, "bench": "newer", "by": "", "body": NEWER}
    with shop.writing() as connection:
        connection.execute(EVENT.insert(), {**row, "id": clock.new_id()})


def _numbers(shop: Shop, clock: BenchClock) -> None:
    edition = open_edition(shop, clock, "Otter", 12, 2)
    for number in (None, 7, None):
        give_number(shop, clock, edition.id, number=number)


def digest(data: bytes) -> str:
    """The SHA-256 of bytes."""
    return sha256(data).hexdigest()


__all__ = ["HOSTILE", "NEWER", "Made", "compact", "digest", "documents", "fill"]
