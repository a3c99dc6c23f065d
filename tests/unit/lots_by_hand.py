"""A shelf for tests: lots received and weighings written down at given moments."""

from __future__ import annotations

from datetime import UTC, datetime

from moldwright.log.event import About, Event
from moldwright.log.ids import LotId, RunId, SubjectId
from moldwright.log.lot_events import LotReceived, Stuff
from moldwright.log.run_events import CupRef, Weighed
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import PartKind
from moldwright.plan.needs import NeedUnit
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop

TODAY = "2026-11-27"
BASE = Stuff("rubber", "addition-cure-a10-slow-a", "addition-cure silicone, part A")
PARTNER = Stuff("rubber", "addition-cure-a10-slow-b", "addition-cure silicone, part B")
RUN = RunId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"))
DAY_MS = 86_400_000


def ms(day: str, hour: int = 12) -> int:
    """A moment of a day, UTC."""
    return int(datetime.fromisoformat(f"{day}T{hour:02}:00:00").replace(tzinfo=UTC).timestamp() * 1000)


def bench(name: str = "bench 1", day: str = "2026-01-01") -> BenchClock:
    """A bench whose clock stands still."""
    return BenchClock(name, now=lambda: ms(day))


def receipt(
    stuff: Stuff = BASE,
    amount: float = 1000.0,
    unit: NeedUnit = NeedUnit.GRAM,
    on: str = "2026-01-01",
    **more: object,
) -> LotReceived:
    """A lot of 1000 g that came in on the first of January."""
    return LotReceived(stuff, amount, unit, on, **more)  # type: ignore[arg-type]


def received(shop: Shop, clock: BenchClock, what: LotReceived | None = None) -> LotId:
    """A new lot's id."""
    id_ = LotId(SubjectId(clock.new_id()))
    shop.append([clock.event(About.LOT, id_, what or receipt())])
    return id_


def weighed(
    clock: BenchClock, lot: LotId, mass_g: float, at_ms: int, run: RunId = RUN, cup: CupRef | None = None
) -> Event:
    """So much of a lot's part A in a run's cup."""
    cup = cup or CupRef(MixId("coat-1.cup-1"))
    return clock.event(About.RUN, run, Weighed(cup, PartKind.A, mass_g, mass_g, lot=lot), at_ms)


def about_lot(clock: BenchClock, lot: LotId, body: object, at_ms: int) -> Event:
    """Something that happened to a lot."""
    return clock.event(About.LOT, lot, body, at_ms)  # type: ignore[arg-type]
