"""The first sheet of a run: where it stands, and what is written that has no place on a step."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from moldwright.bench.acts import Act
from moldwright.bench.now import ActNow
from moldwright.log.any_events import Attached, Noted
from moldwright.log.event import Event
from moldwright.log.run_events import Gauged, Problem, ScaleChecked, ShopAir
from moldwright.plan.steps import Per, Phase
from moldwright.sheets.run.boxes import air_text, length_text
from moldwright.sheets.run.shown import RunShown, timed, typed_in
from moldwright.sheets.run.steps import IS_DONE, NOTES, casts_text, note_text, till
from moldwright.sheets.wording import Wording, table
from moldwright.units import show_mass

MOST_NEXT = 4
"""So many steps that may begin are told, the first ones: with many casts to come more would hide them."""


def stands(shown: RunShown) -> list[list[str]]:
    """Where the run stands: heading and text of each row.

    Parameters
    ----------
    shown : the run.
    """
    words, state = table()["run"], shown.state
    if state.frame.ended_ms is not None:
        why = f": {state.frame.why}" if state.frame.why else "."
        return [[words["ended"], f"{shown.moment(state.frame.ended_ms)}{why}"], *_counted(shown)]
    told = {
        "in-hand-now": [title(shown, act) for act in state.in_hand],
        "waits": [_till(shown, "till", wait.of, till(shown, wait.ends, shown.at_ms)) for wait in state.waits],
        "window": [_till(shown, "by", w.next, shown.near(w.closes.likely_ms, shown.at_ms)) for w in state.windows],
        "next": [title(shown, act) for act in state.may_begin[:MOST_NEXT]],
    }
    rows = [[words[name] if k == 0 else "", text] for name, texts in told.items() for k, text in enumerate(texts)]
    return [*rows, *_counted(shown)]


def _till(shown: RunShown, how: str, act: Act, when: str) -> str:
    now = shown.act(act)
    return str(table()["run"][how]).format(step=act.step if now is None else title(shown, now), till=when)


def _counted(shown: RunShown) -> list[list[str]]:
    words = table()["run"]
    of_mold = [act for act in shown.state.acts if act.step.per is Per.MOLD]
    done = [act for act in of_mold if act.state in IS_DONE]
    started = shown.state.frame.started
    makes = bool(of_mold) and (started is None or started.mold is None)
    rows = [[words["of-mold"], words["counted"].format(done=len(done), of=len(of_mold))]] if makes else []
    out = sorted({act.act.turn for act in shown.state.acts if act.state in IS_DONE and _is_out(act)})
    return [*rows, [words["of-cast"], words["casts"].format(casts=casts_text(out) if out else words["none"])]]


def _is_out(act: ActNow) -> bool:
    return act.step.per is Per.CAST and act.step.phase is Phase.OUT_OF_MOLD


def title(shown: RunShown, act: ActNow) -> str:
    """A step with its number and, of a cast, which one: "42. Cast the skin, 4 mm, cast 3".

    Parameters
    ----------
    shown : the run.
    act : which.
    """
    plan = shown.plan
    number = 1 + [step.id for step in plan.steps].index(act.act.step)
    told = f"{number}. {Wording(plan.units, plan.scale_g).line(act.step.title, act.step.quantities)}"
    return f"{told}, cast {act.act.turn}" if act.act.turn else told


def besides(shown: RunShown, on_sheets: frozenset[Act]) -> list[str]:
    """What is written that stands on no step of these sheets: notes, problems, kept files, the air, scales.

    Parameters
    ----------
    shown : the run.
    on_sheets : acts whose notes the sheets tell.
    """
    return [*_air_by_day(shown), *(text for event in shown.stands for text in _besides(shown, event, on_sheets))]


def _air_by_day(shown: RunShown) -> list[str]:
    """The shop's air as it was read, a line a day; what was typed in without a time by itself."""
    words, units = table()["run"], shown.plan.units
    read = [(event, event.body) for event in shown.stands if isinstance(event.body, ShopAir)]
    days: dict[str, list[str]] = {}
    for event, air in read:
        told = air_text(air, units)
        day, entry = (shown.day(event.at_ms), f"{shown.clock(event.at_ms)} {told}") if timed(air) else ("", told)
        days.setdefault(day or str(words["typed"]), []).append(entry)
    return [words["air"].format(day=day, air="; ".join(entries)) for day, entries in days.items()]


def _besides(shown: RunShown, event: Event, on_sheets: frozenset[Act]) -> Iterator[str]:
    body, words = event.body, table()["run"]
    units, step_g = shown.plan.units, shown.plan.scale_g
    if isinstance(body, NOTES):
        if not _told_at(shown, event, on_sheets):
            yield note_text(shown, event)
        return
    match body:
        case ScaleChecked(scale=scale, weight_g=weight, reads_g=reads):
            both = (show_mass(mass, units, step_g) for mass in (weight, reads))
            told = words["scale"].format(scale=scale, weight=next(both), read=next(both)).replace("  ", " ")
        case Gauged(coat=coat, places_mm=places):
            coats = [each.id for each in shown.plan.glove.coats]
            which = f"coat {coats.index(coat) + 1}" if coat in coats else coat
            told = words["gauged"].format(coat=which, places=", ".join(length_text(mm, units) for mm in places))
        case _:
            return
    when = [shown.moment(event.at_ms)] if timed(body) else []
    typed = [str(words["typed"])] if typed_in(event) else []
    yield f"{', '.join([*when, *filter(None, [event.by]), *typed])}: {told}"


def _told_at(shown: RunShown, event: Event, on_sheets: frozenset[Act]) -> bool:
    body: Any = event.body
    assert isinstance(body, Noted | Attached | Problem)
    if body.step:
        return Act(body.step, body.turn) in on_sheets
    cup = body.cup if isinstance(body, Problem) else None
    if cup is None:
        return False
    return any(Act(step.id, cup.turn) in on_sheets for step in shown.plan.steps if cup.mix in step.mixes)
