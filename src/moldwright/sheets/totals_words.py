"""The totals in words, the same on the screen and on paper."""

from __future__ import annotations

from itertools import groupby

from moldwright.plan.ids import StepId
from moldwright.plan.plan import Plan
from moldwright.plan.totals import DaysPlan, LongWait
from moldwright.sheets.wording import show_lift
from moldwright.units import show_range
from moldwright.words.speaker import say, with_mark

ROUGH_FROM_MIN, ROUGH_MIN, FINE_MIN = 120.0, 30.0, 5.0
"""Hours of hands are told to half an hour from here on, to five minutes below [min]: our own, they are no finer."""

Rows = tuple[tuple[str, str], ...]


def totals_rows(plan: Plan) -> Rows:
    """What the work comes to: heading and text of each row.

    Parameters
    ----------
    plan : the plan.
    """
    rows = [("hands", _hands(plan)), ("days", _days(plan.totals.days))]
    rows += [("", text) for text in _misses(plan)]
    if plan.totals.waits:
        rows.append(("waits", "; ".join(_wait(wait, plan) for wait in plan.totals.waits)))
    if plan.totals.lifts:
        rows.append(("lifts", _lifts(plan)))
    return tuple(rows)


def hands(labor_min: float) -> str:
    """Hands' time, rounded as it is known.

    Parameters
    ----------
    labor_min : the sum of the steps' minutes [min].

    >>> hands(23.0), hands(702.0), hands(1.0)
    ('25 min', '11½ h', '5 min')
    """
    step = ROUGH_MIN if labor_min >= ROUGH_FROM_MIN else FINE_MIN
    rounded = max(step * round(labor_min / step), step)
    whole, half = divmod(rounded, 60.0)
    return f"{rounded:.0f} min" if rounded < ROUGH_FROM_MIN else f"{whole:.0f}{'½' if half else ''} h"


def _hands(plan: Plan) -> str:
    totals = plan.totals
    told = [
        (totals.mold_labor_min, say("for the mold")),
        (totals.cast_labor_min, say("for each cast")),
        (totals.edition_labor_min, say("once at the end")),
    ]
    return say("about ") + ", ".join(f"{hands(minutes)} {what}" for minutes, what in told if minutes > 0.0)


def _days(days: DaysPlan) -> str:
    assumed = say(
        "{day_min} h every day, one pair of hands, one step after the other",
        day_min=with_mark(f"{days.day_min / 60:.3g}"),
    )
    return say(
        "at least {mold} for the mold, {cast} for each cast ({assumed})",
        mold=days.mold,
        cast=days.cast,
        assumed=assumed,
    )


def _misses(plan: Plan) -> tuple[str, ...]:
    days = plan.totals.days
    coats = {
        coat.id: say("coat {number}, {name}", number=number, name=coat.name)
        for number, coat in enumerate(plan.glove.coats, start=1)
    }
    late = [_late(days, [coats.get(c, str(c)) for c in days.late])] if days.late else []
    longer = [
        say("longer than one day, without a break: step {number}", number=_number(step, plan)) for step in days.longer
    ]
    return (*late, *longer)


def _late(days: DaysPlan, coats: list[str]) -> str:
    """All coats go on in one run: begun when the shop opens, some are due after it has closed."""
    begin = say(
        "the coats take {hands} in one run, so begin when the shop opens and stay on", hands=hands(days.coats_min)
    )
    return say(
        "{begin}: by the next morning the tack window for {coats} is past", begin=begin, coats=say(" and ").join(coats)
    )


def _wait(wait: LongWait, plan: Plan) -> str:
    within = next((step.waits_within for step in plan.steps if step.id == wait.step), False)
    lasts, number = show_range(wait.wait_min * 60.0, "duration"), _number(wait.step, plan)
    if within:
        return say("{lasts} in step {number}", lasts=lasts, number=number)
    return say("{lasts} after step {number}", lasts=lasts, number=number)


def _lifts(plan: Plan) -> str:
    kept = sorted(plan.totals.lifts, key=lambda lifted: -round(lifted.lift_kg, 1))
    told = []
    for kg, same in groupby(kept, key=lambda lifted: round(lifted.lift_kg, 1)):
        numbers = [_number(lifted.step, plan) for lifted in same]
        told.append(f"{show_lift(kg, plan.units)} in step{'s' if len(numbers) > 1 else ''} {', '.join(numbers)}")
    return "; ".join(told)


def _number(step: StepId, plan: Plan) -> str:
    return next((str(number) for number, each in enumerate(plan.steps, start=1) if each.id == step), str(step))
