"""A run of the made-up piece of the sheets' tests, written down entry by entry and printed."""

from __future__ import annotations

import io
import re
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from itertools import count
from pathlib import Path

import pypdf

from moldwright.bench.run import RunState, run_state
from moldwright.commission.orders import UnitSystem
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, LotId, MoldId, PlanId, RunId, SubjectId
from moldwright.log.run_events import CupRef, Started, Weighed
from moldwright.log.uuid7 import uuid7
from moldwright.plan.ids import MixId
from moldwright.plan.lines import Line
from moldwright.plan.mixes import PartKind
from moldwright.plan.plan import Plan
from moldwright.sheets.run.printed import run_sheets
from moldwright.sheets.run.shown import RunShown, run_shown

sys.path.insert(0, str(Path(__file__).parent / "unit"))
from sheets_fixture import plan

RUN = RunId(SubjectId("018bcfe5-6800-7000-8000-00000c07398f"))
"""Its short code is 0C07-398F: the last eight digits."""
MINUTE = 60_000
START = round(datetime(2026, 3, 9, 8, 0, tzinfo=UTC).timestamp() * 1000)
"""A Monday, at 8:00."""
LOT_A = LotId(SubjectId("018bcfe5-6800-7000-8000-0000000000a1"))
LOT_POWDER = LotId(SubjectId("018bcfe5-6800-7000-8000-00004e5f00c1"))
"""Its short code is 4E5F-00C1."""
ASKED = {
    "lay-out": ("lay-out.write.1", "lay-out.write.2"),
    "coat-1-look": ("coat-*-look.write.1",),
    "skin": ("skin.write.1", "skin.write.2"),
    "weigh-cast": ("weigh-cast.write.1", "weigh-cast.write.2"),
    "pack": ("number.write.1",),
}
"""The boxes of some steps, by their sentences; all others have the fixture's own."""


def run_plan(units: UnitSystem = UnitSystem.METRIC) -> Plan:
    """The made-up plan with boxes that events tell, and cups that may become heavier."""
    its = plan(units)
    steps = tuple(
        replace(step, write=tuple(map(Line, ASKED[step.id]))) if step.id in ASKED else step for step in its.steps
    )
    mixes = tuple(replace(mix, most_g=600.0, ratio_within_pct=5.0) for mix in its.mixes)
    return replace(its, steps=steps, mixes=mixes)


@dataclass
class Log:
    """What is written in a test: minutes after 8:00, and what; `by`: who."""

    casts: int = 30
    batch: int = 3
    by: str = "Jo"
    mold: MoldId | None = None
    ids: count[int] = field(default_factory=lambda: count(1))
    events: list[Event] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.write(0, Started(PlanId("a" * 64), "stag", self.casts, self.batch, self.mold))

    def write(self, minute: float, body: Body, by: str | None = None, later: float | None = None) -> Event:
        """An entry; `later`: at which minute it was written down, where that was not at once."""
        at_ms = START + round(minute * MINUTE)
        made_ms = at_ms if later is None else START + round(later * MINUTE)
        id_ = EventId(uuid7(made_ms, next(self.ids) << 40))
        event = Event(id_, About.RUN, RUN, at_ms, "tablet 1", self.by if by is None else by, body)
        self.events.append(event)
        return event

    def weigh(self, minute: float, cup: CupRef, part: PartKind, mass_g: float, **more: object) -> Event:
        return self.write(minute, Weighed(cup, part, mass_g, mass_g, **more))  # type: ignore[arg-type]

    def state(self, minute: float, its: Plan) -> RunState:
        return run_state(its, self.events, START + round(minute * MINUTE))

    def shown(
        self,
        minute: float,
        its: Plan | None = None,
        lots: Mapping[LotId, str] | None = None,
        numbers: Mapping[int, str] | None = None,
    ) -> RunShown:
        """The run as it is printed."""
        its = run_plan() if its is None else its
        at_ms = START + round(minute * MINUTE)
        return run_shown(its, RUN, self.state(minute, its), self.events, at_ms, lots, numbers, UTC)


def cup(mix: str, turn: int = 0, filling: int = 1) -> CupRef:
    return CupRef(MixId(mix), turn, filling)


def texts(pdf: bytes) -> list[str]:
    """What each page says."""
    return [re.sub(r"\s+", " ", page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]


def printed(shown: RunShown, cast: int | None = None, paper: str = "a4") -> list[str]:
    """What each page of the sheets says."""
    return texts(run_sheets(shown, cast)[paper])


def step_text(pages: list[str], title: str) -> str:
    """All that stands under a step's title, up to the next one; the first sheet, which tells titles too, aside."""
    whole = " ".join(pages[1:])
    begins = whole.index(title)
    following = re.search(r" \d+\. [A-Z]", whole[begins + len(title) :])
    return whole[begins : begins + len(title) + following.start()] if following else whole[begins:]


COAT = cup("coat-1.cup-1")


def weighed(log: Log, minute: float) -> None:
    """The first cup: A 17.3, pigment 0.8 and B 17.3 g are planned, to 17.3, 18.1 and 35.4 g on the scale."""
    log.weigh(minute, COAT, PartKind.A, 17.4, reads_g=17.4, lot=LOT_A)
    log.weigh(minute + 1, COAT, PartKind.PIGMENT, 0.9, reads_g=18.3)
    log.weigh(minute + 2, COAT, PartKind.B, 17.2, reads_g=35.5)


def card_text(pages: list[str], title: str = "Coat 1 of 3") -> str:
    """The card of the first coat."""
    page = next(text for text in pages if f"{title}: detail, 0" in text)
    return page[page.index(f"{title}: detail, 0") : page.index(". Mix coat 1")]
