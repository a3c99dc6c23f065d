"""What is told of one cup beside its parts: its name, its clock, what became of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from moldwright.bench.cup_now import CupNow, CupState
from moldwright.log.event import Event
from moldwright.log.run_events import CupRef, CupTemperature, Divided, Gelled, Poured, Weighed
from moldwright.sheets.mix_cards import clock_text
from moldwright.sheets.run.shown import RunShown, timed, typed_in
from moldwright.sheets.vessels import vessel_named, vessel_said
from moldwright.sheets.wording import table
from moldwright.units import show_share, show_temperature
from moldwright.ways import as_keys

OF_CUPS = (Weighed, Poured, Gelled, CupTemperature, Divided)


def entries_of(shown: RunShown, ref: CupRef) -> list[Event]:
    """What is written of one filling, in its order; that it was parted from another one too.

    Parameters
    ----------
    shown : the run.
    ref : which.
    """
    return [event for event in shown.stands if _is_of(event, ref)]


def _is_of(event: Event, ref: CupRef) -> bool:
    body = event.body
    if isinstance(body, Divided) and (body.cup.mix, body.cup.turn) == (ref.mix, ref.turn):
        return ref.filling in (body.cup.filling, *body.into)
    return isinstance(body, OF_CUPS) and body.cup == ref


def cup_name(cup: CupNow) -> str:
    """What a filling is called: "Cup 1", "Cup 1 again".

    Parameters
    ----------
    cup : the filling.
    """
    words, told = table()["run"], vessel_named(cup.mix)
    if cup.ref.filling == 1:
        return told
    return str(words["filling"]["second" if cup.ref.filling == 2 else "later"]).format(cup=told, number=cup.ref.filling)


def cup_title(cup: CupNow) -> str:
    """Its name, and how much of the planned cup's work it does where that is not all.

    Parameters
    ----------
    cup : the filling.
    """
    if cup.share == 1.0:
        return cup_name(cup)
    return str(table()["run"]["share"]).format(cup=cup_name(cup), share=show_share(cup.share, 0))


def cup_clock(cup: CupNow) -> str:
    """By when it is on the work: as its clock runs, else as it would run now, though never later than planned: the shop
    may be warm again by then.

    Parameters
    ----------
    cup : the filling.
    """
    if cup.mix.out_by_s is None:
        return ""
    if cup.clock is not None:
        return clock_text((cup.clock.out_by_ms - cup.clock.from_ms) / 1000.0)
    now_s = cup.mix.out_by_s if cup.out_in_s is None or cup.settled else cup.out_in_s
    return clock_text(min(cup.mix.out_by_s, now_s))


def cup_times(shown: RunShown, cup: CupNow) -> dict[str, Any]:
    """When its clock began, when it came onto the work, and what else is written of it.

    Parameters
    ----------
    shown : the run.
    cup : the filling.
    """
    entries = entries_of(shown, cup.ref)
    untimed = any(not timed(event.body) for event in entries if isinstance(event.body, Weighed))
    left = next((event for event in entries if isinstance(event.body, Poured)), None)
    return {
        "done": left is not None or (cup.settled and cup.state is not CupState.GELLED),
        "began": "" if cup.clock is None or untimed else shown.clock(cup.clock.from_ms),
        "left": "" if left is None or not timed(left.body) else shown.clock(left.at_ms),
        "also": list(_also(shown, cup, entries)),
    }


def _also(shown: RunShown, cup: CupNow, entries: Sequence[Event]) -> Iterator[str]:
    words = table()["run"]
    for event in entries:
        match event.body:
            case CupTemperature(temperature_c=temperature_c):
                told = show_temperature(temperature_c, shown.plan.units)
                yield words["warm"].format(temperature=told, at=shown.clock(event.at_ms))
            case Divided(cup=first, into=into) if first == cup.ref:
                yield words["divided"].format(count=len(into) + 1)
            case Divided():
                yield words["share-of"].format(cup=vessel_said(cup.mix))
            case Gelled():
                used = words["used"].format(share=show_share(cup.used, 0)) if cup.used > 0.0 else words["unused"]
                yield words["gelled"].format(at=shown.clock(event.at_ms), used=used)
    if any(map(typed_in, entries)):
        yield words["typed"]
    people = dict.fromkeys(event.by for event in entries if event.by)
    if people:
        yield ", ".join(people)


def cup_remedy(cup: CupNow) -> str:
    """What is to be done with a cup that was poured over and that no new totals put right.

    Parameters
    ----------
    cup : the filling.
    """
    words = table()["run"]
    if cup.settled:
        return ""
    if cup.refused is not None:
        return str(words["refused"]).format(remedy=as_keys(cup.refused.remedy))
    if cup.put_right is not None and len(cup.put_right.cups) > 1:
        return str(words["part"]).format(count=len(cup.put_right.cups))
    return ""
