"""A mix card for everything that is mixed: its cups in large figures, those that are alike in one table."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Any

from moldwright.plan.mixes import REACTING, MeasuredBy, MixFor, MixKind, MixPart, MixPlan, PartKind, TaskKind
from moldwright.plan.plan import Plan
from moldwright.sheets.marked_cup import marked_rows, measured
from moldwright.sheets.need_words import part_name
from moldwright.sheets.vessels import begun, vessel_named, vessels_counted, vessels_named
from moldwright.sheets.wording import table
from moldwright.sheets.words import labor_text, reads_nothing, split_unit
from moldwright.units import show_deadline, show_length, show_mass, show_volume
from moldwright.units.system import UnitSystem
from moldwright.words.speaker import say, with_mark

FINEST_PCT = 0.1
"""No ratio is told to hold closer [%]: our own."""
ACROSS = 3
"""Cups that stand beside one another under a table."""


def mix_card(plan: Plan, for_: MixFor, steps: Sequence[int], above: MixFor | None = None) -> dict[str, Any]:
    """The card of one thing that is mixed.

    Parameters
    ----------
    plan : the plan.
    for_ : what its cups are for.
    steps : numbers of the steps that mix them.
    above : what the card above is for; what both say of an over-pour is not said again.
    """
    cups = plan.mixes_for(for_)
    same = [tuple(group) for _, group in groupby(cups, key=alike)]
    numbers = ", ".join(map(str, steps))
    remedy = remedy_text(cups[0], plan.units)
    again = above is not None and _put_right(plan.mixes_for(above)[0]) == _put_right(cups[0])
    said_again = say(str(table()["card"]["again"]))
    beside = ["" if for_.kind is MixKind.FILL else _held(cups), said_again if again and remedy else ""]
    return {
        "title": f"{mix_name(plan, for_)}: {vessels_counted(for_.kind, len(cups))}",
        "sub": " ".join(filter(None, (say("Step {numbers}.", numbers=numbers), begun(cups[0]), *beside))),
        "cups": [cups_alike(plan, group, len(cups)) for group in same],
        "remedy": "" if again else remedy,
    }


def mix_name(plan: Plan, for_: MixFor) -> str:
    """What is mixed, in the words of its card: "Coat 2 of 3: brushed, 1.4 mm, blue", "Skin".

    Parameters
    ----------
    plan : the plan.
    for_ : what its cups are for.
    """
    words = table()["mix"][for_.kind]
    if for_.coat is None:
        return say(words, piece=for_.piece)
    coats = [coat.id for coat in plan.glove.coats]
    coat = plan.coat(for_.coat)
    named = {"number": coats.index(coat.id) + 1, "count": len(coats), "name": say(coat.name)}
    thick = show_length(coat.thickness_mm, plan.units)
    return say(words, **named, pigment=say(coat.pigment), thickness=thick)


def _held(cups: Sequence[MixPlan]) -> str:
    worst = max(*(mix.tolerance_pct for mix in cups), FINEST_PCT)
    shown = with_mark(f"{worst:.1f}")
    if cups[0].starter:
        return say("Ratio true to {off} %.", off=shown)
    return say("Amount true to {off} %.", off=shown)


def alike(mix: MixPlan) -> object:
    """What cups that stand in one table have in common.

    Parameters
    ----------
    mix : a cup.
    """
    return mix.parts, mix.tasks, mix.work_by_s


def cups_alike(plan: Plan, same: Sequence[MixPlan], count: int) -> dict[str, Any]:
    """The table of cups that are alike.

    Parameters
    ----------
    plan : the plan.
    same : they, in their order.
    count : how many cups the card has.
    """
    mix = same[0]
    return {
        "title": vessels_named(mix, same[-1]) if count > 1 else say("In this order"),
        "names": [vessel_named(each) for each in same],
        "across": min(ACROSS, len(same)),
        **cup_table(mix, plan.units, plan.scale_g),
    }


def cup_table(mix: MixPlan, units: UnitSystem, scale_g: float) -> dict[str, Any]:
    """What goes into a cup, part by part, and by when it is on the work.

    Parameters
    ----------
    mix : the cup.
    units : the reader's.
    scale_g : the step of the reader's scale [g].
    """
    return {
        "head": say("Filled to") if mix.marked else say("Scale reads"),
        "rows": marked_rows(mix, units) if mix.marked else [_row(part, units, scale_g) for part in mix.parts],
        "clock": "" if mix.out_by_s is None else clock_text(mix.out_by_s),
        "starts": say("Clock starts with {starter}: on the work by", starter=mix.starter) if mix.starter else "",
        "tasks": _tasks(mix),
    }


def _tasks(mix: MixPlan) -> str:
    """What is done with a cup till it is empty, and what comes after: "mix 60 s, pour 30 s; then swirl 2 min"."""
    words = table()["task"]
    told = [(task.kind, f"{say(words[task.kind])} {_minutes(task.duration_s)}") for task in mix.tasks]
    empty = ", ".join(text for kind, text in told if kind is not TaskKind.SWIRL)
    after = ", ".join(text for kind, text in told if kind is TaskKind.SWIRL)
    return say("{empty}; then {after}", empty=empty, after=after) if after else empty


def _minutes(duration_s: float) -> str:
    """A task's time; shorter ones than two minutes to the second."""
    return f"{duration_s:.0f} s" if duration_s < 119.5 else labor_text(duration_s / 60.0)


def clock_text(work_by_s: float) -> str:
    """The work-by time as a clock shows it, never later than it is.

    >>> clock_text(271.0), clock_text(2234.0)
    ('4:30 min', '37 min')
    """
    text = show_deadline(work_by_s)
    return f"{text} min" if ":" in text else text


def _row(part: MixPart, units: UnitSystem, step_g: float) -> dict[str, str]:
    reads, unit = split_unit(show_mass(part.scale_reads_g, units, step_g))
    add, also_add = _added(part, units, step_g)
    return {
        "name": part_name(part), "add": add, "also_add": also_add, "reads": reads, "unit": unit,
        "also": "" if units is not UnitSystem.US else show_mass(part.scale_reads_g, "metric", step_g),
    }  # fmt: skip


def _added(part: MixPart, units: UnitSystem, step_g: float) -> tuple[str, str]:
    """How much of a part goes in, and the same by volume for liquids: a weighed powder shows no loose volume."""
    weighed = show_mass(part.mass_g, units, step_g)
    if part.by is MeasuredBy.SYRINGE:
        return measured(part, weighed)
    if part.mass_g < step_g / 2:
        return say("a trace"), ""
    if part.by is MeasuredBy.STICK:
        return weighed, say("on a stick")
    return weighed, "" if part.kind is PartKind.POWDER else _volume(part.volume_ml, units)


def _volume(volume_ml: float, units: UnitSystem) -> str:
    """Empty where the digits that are printed would all be 0."""
    text = show_volume(volume_ml, units)
    return "" if reads_nothing(text) else text


def _put_right(mix: MixPlan) -> tuple[object, ...]:
    """What decides how an over-pour is put right."""
    return mix.ratio, mix.marked, *(part.kind for part in mix.parts if part.kind in REACTING)


def remedy_text(mix: MixPlan, units: UnitSystem) -> str:
    """How to put an over-pour right, from the ratio of the two parts.

    Parameters
    ----------
    mix : the cup.
    units : the reader's.
    """
    share = mix.ratio
    if not share:
        return ""
    unit = "ml" if mix.marked else "oz" if units is UnitSystem.US else "g"
    a, b = (part for part in mix.parts if part.kind in REACTING)
    if share == 1.0:
        more = say("As much more of the other")
    else:
        both = (a.kind, b.kind, share), (b.kind, a.kind, 1 / share)
        more = "; ".join(_follows(unit, one, other, times) for one, other, times in both)
    return say("{more}. Totals between rise by the first, later ones by both.", more=more)


def _follows(unit: str, one: PartKind, other: PartKind, times: float) -> str:
    shown = with_mark(f"{times:.3g}")
    return say("1 {unit} {one}: {times} {unit} more {other}", unit=unit, one=one, times=shown, other=other)


def kinds_of(mixes: Iterable[MixPlan]) -> tuple[MixFor, ...]:
    """What these cups are for, each once, in their order.

    Parameters
    ----------
    mixes : cups.
    """
    return tuple(dict.fromkeys(mix.for_ for mix in mixes))
