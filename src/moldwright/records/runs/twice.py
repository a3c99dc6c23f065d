"""One pour that two screens told: the second was pressed where the part was still asked for, so it adds nothing."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from moldwright.bench.cup_now import CupNow
from moldwright.log.any_events import Undone
from moldwright.log.event import About, Event, order_of
from moldwright.log.ids import EventId
from moldwright.log.run_events import CupRef, Divided, Weighed
from moldwright.log.standing import standing
from moldwright.mixing.correct import part_within_g
from moldwright.plan.mixes import PartKind
from moldwright.records.clock import BenchClock
from moldwright.records.runs.opened import OpenRun
from moldwright.records.shop import Shop

SAME_G = 1e-4
"""Two sums of the same weighings differ by less."""


@dataclass(frozen=True, slots=True)
class Twice:
    """A weighing that tells once more what another one told.

    Parameters
    ----------
    event : it.
    first : the one that told it before.
    """

    event: Event
    first: Event


@dataclass(slots=True)
class _Part:
    """A part of a cup while its weighings are gone through: what is in [g], and what put it there."""

    in_g: float
    went: list[tuple[Event, Weighed]]


_Parts = dict[tuple[CupRef, PartKind], _Part]


def told_twice(events: Iterable[Event], new: Collection[EventId]) -> Iterator[Twice]:
    """Weighings whose screen did not know of one before them, where either came in just now.

    A screen says with each weighing how much of the part it believed to be in (`Weighed.in_before_g`). Where more is in
    by then, what it tells is in there already; so it is where less is lifted out of a cup from which it is out already.

    Parameters
    ----------
    events : all of a run.
    new : ids of those that came in just now.
    """
    parts: _Parts = {}
    for event in standing(events):
        match event.body:
            case Weighed() as body:
                part = parts.setdefault((body.cup, body.part), _Part(0.0, []))
                first = _told_by(part, body)
                if first is not None and (event.id in new or first.id in new):
                    yield Twice(event, first)
                    continue
                part.in_g += body.mass_g
                part.went.append((event, body))
            case Divided(cup=cup, into=into):
                _divide(parts, cup, into)
            case _:
                pass


def _told_by(part: _Part, body: Weighed) -> Event | None:
    before_g = body.in_before_g
    if before_g is None:
        return None
    if body.mass_g < 0.0:
        lifted = (e for e, b in part.went if b.mass_g < 0.0 and _same(b.in_before_g, before_g))
        return next(lifted, None) if part.in_g < before_g - SAME_G else None
    return part.went[-1][0] if part.went and before_g < part.in_g - SAME_G else None


def _same(one: float | None, other: float) -> bool:
    return one is not None and abs(one - other) <= SAME_G


def _divide(parts: _Parts, cup: CupRef, into: tuple[int, ...]) -> None:
    """What is in goes on in equal shares: in the cup itself and in the clean ones."""
    for (ref, kind), part in list(parts.items()):
        if ref == cup:
            for filling in (cup.filling, *into):
                parts[CupRef(cup.mix, cup.turn, filling), kind] = _Part(part.in_g / (len(into) + 1), list(part.went))


def line_through_twice(shop: Shop, run: OpenRun, new: Collection[EventId]) -> tuple[Twice, ...]:
    """Draw a line through what tells a pour once more; it stays readable, and the line names what told it before.

    Parameters
    ----------
    shop : the store.
    run : as it stands with them.
    new : ids of what came in just now.
    """
    found = tuple(told_twice(run.events, new))
    if found:
        newest_ms = max(run.state.now_ms, *(each.event.at_ms for each in found))
        clock = BenchClock(DRAWN_BY, now=lambda: newest_ms, last_ms=shop.last_ms(DRAWN_BY))
        shop.append([clock.event(About.RUN, run.id, Undone(e.event.id, "", e.first.id)) for e in found])
    return found


DRAWN_BY = "moldwright"
"""Under which name these lines stand: they are no device's."""


def in_question(run: OpenRun, cup: CupNow | None) -> tuple[Twice, ...]:
    """Of a cup in hand the weighings of which two screens told different masses, and nobody has said which stands.

    Parameters
    ----------
    run : as it stands.
    cup : that is weighed or laid; None for none.
    """
    if cup is None or cup.settled or not cup.in_g:
        return ()
    twice = _lined(run)
    if not twice or any(isinstance(e.body, Divided) and e.body.cup == cup.ref for e in run.events):
        return ()
    last: dict[tuple[PartKind, str], Twice] = {}
    for each in twice:
        if isinstance(each.event.body, Weighed) and each.event.body.cup == cup.ref:
            last[each.event.body.part, each.event.bench] = each
    return tuple(each for each in last.values() if _differs(run, cup, each.event.body))


def _lined(run: OpenRun) -> list[Twice]:
    """What the desk drew a line through and nobody else did, while what told it before stands; the oldest first."""
    lines: defaultdict[EventId, list[Undone]] = defaultdict(list)
    for event in run.events:
        if isinstance(event.body, Undone):
            lines[event.body.event].append(event.body)
    stand = {event.id: event for event in standing(run.events)}
    drawn = ((e, lines[e.id]) for e in sorted(run.events, key=order_of) if e.id in lines)
    firsts = ((e, [stand.get(line.told_by) if line.told_by else None for line in through]) for e, through in drawn)
    return [Twice(event, first) for event, (first, *more) in firsts if first is not None and None not in more]


def _differs(run: OpenRun, cup: CupNow, body: object) -> bool:
    """Whether what a screen told to be in is farther off what is in than the part may be."""
    if not isinstance(body, Weighed) or body.in_before_g is None:
        return False
    part = next((each for each in cup.parts if each.kind == body.part), None)
    planned = next((each for each in cup.mix.parts if each.kind == body.part), None)
    if part is None or planned is None:
        return False
    told_g = body.in_before_g + body.mass_g
    within_g = part_within_g(cup.mix, planned, part.in_g, run.plan.scale_g)
    return abs(told_g - part.in_g) > within_g + SAME_G
