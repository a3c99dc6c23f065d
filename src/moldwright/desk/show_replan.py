"""What a plan that was made anew changes in a run, line by line."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.bench.plan_changed import CoatChange, CupChange, StepChange
from moldwright.log.run_events import CupRef
from moldwright.records.runs.replan import OtherPlan
from moldwright.sheets.bench_words import BenchWords
from moldwright.text.harmless import harmless
from moldwright.units import show_deadline, show_length, show_temperature

LOOK = " Look at it."


def changes_shown(other: OtherPlan) -> Iterator[str]:
    """The changes; what touches something that is done has a mark in front.

    Parameters
    ----------
    other : the other plan.
    """
    if other.same:
        yield "It is the plan by which the run goes already: nothing changes."
        return
    changes, before, after = other.changes, BenchWords(other.old), BenchWords(other.new)
    yield f"Kept: {other.kept} steps that are done, in hand or left out."
    yield from _of_all(other)
    yield from (_coat(after, change) for change in changes.coats)
    yield from (_cup(after, change, any(r.mix == change.cup for r in changes.weighed_other)) for change in changes.cups)
    yield from (_step(after, change) for change in changes.steps)
    yield from (f"New: {after.step_name(step)}." for step in changes.steps_new)
    yield from (f"No more: {before.step_name(step)}." for step in changes.steps_gone)
    yield from (f"! New before what is done: {after.act(act)}.{LOOK}" for act in changes.new_before)
    stays = "It stays in the log and counts in nothing."
    yield from (f"! No more though done: {before.act(act)}. {stays}" for act in changes.done_gone)
    yield from (f"! No more though weighed: {before.cup(ref)}. {stays}" for ref in changes.weighed_gone)


def _of_all(other: OtherPlan) -> Iterator[str]:
    if other.changes.rubber is not None:
        yield "! Rubber: {} -> {}.".format(*map(harmless, other.changes.rubber))
    if other.changes.temperature_c is not None:
        told = (show_temperature(each, other.new.units) for each in other.changes.temperature_c)
        yield f"Shop: {' -> '.join(told)}."


def _coat(words: BenchWords, change: CoatChange) -> str:
    told = (
        show_length(each, words.plan.units) if each is not None else "none" for each in (change.old_mm, change.new_mm)
    )
    return f"{harmless(change.coat)}: {' -> '.join(told)}."


def _cup(words: BenchWords, change: CupChange, weighed: bool) -> str:
    told = []
    for part in change.parts:
        pair = " -> ".join(words.mass(each) if each is not None else "none" for each in (part.old_g, part.new_g))
        stuff = f", of {harmless(part.new_stuff.id)}" if part.new_stuff and part.old_stuff != part.new_stuff else ""
        told.append(f"{part.kind.value} {pair}{stuff}")
    if change.old_work_by_s != change.new_work_by_s:
        pair = " -> ".join(
            show_deadline(s) if s is not None else "none" for s in (change.old_work_by_s, change.new_work_by_s)
        )
        told.append(f"worked by {pair}")
    return f"{'! ' * weighed}{words.cup(CupRef(change.cup))}: {', '.join(told)}.{LOOK * weighed}"


def _step(words: BenchWords, change: StepChange) -> str:
    return f"{words.step_name(change.step)}: other {', '.join(each.value for each in change.altered)}."
