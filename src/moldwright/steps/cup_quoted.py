"""What a sentence may quote of a set of equal cups, and the minutes that labor counts for them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import fsum

from moldwright.plan.mixes import MeasuredBy, MixPlan, TaskKind
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.steps.lifts import mixed_g


def cup_quoted(name: str, mixes: Sequence[MixPlan]) -> tuple[Quantity, ...]:
    """What is mixed, in how many cups, until when, and which part is in the cup first and which starts the clock.

    Parameters
    ----------
    name : how sentences call them: "coat", "fill", "skin" or "backfill".
    mixes : the cups; none: there is nothing to quote but that.
    """
    told = [
        mixed(f"{name}.mixed", mixes),
        Quantity(f"{name}.cups", Dimension.COUNT, len(mixes)),
    ]
    clocks_s = [mix.out_by_s for mix in mixes if mix.out_by_s is not None]
    if clocks_s:
        told.append(Quantity(f"{name}.work_by", Dimension.DURATION, min(clocks_s)))
    for mix in mixes[:1]:
        told.append(Quantity(f"{name}.first", Dimension.WORD, mix.parts[0].kind))
        if mix.starter is not None:
            told.append(Quantity(f"{name}.starter", Dimension.WORD, mix.starter))
    return tuple(told)


def mixed(name: str, mixes: Sequence[MixPlan], parts: int = 1) -> Quantity:
    """What these cups hold, or one of so many equal parts of it: in milliliters where they are filled to marks.

    Parameters
    ----------
    name : how sentences call it.
    mixes : the cups.
    parts : into how many.
    """
    if any(mix.marked for mix in mixes):
        return Quantity(name, Dimension.VOLUME, fsum(mix.volume_ml for mix in mixes) / parts)
    return Quantity(name, Dimension.MASS, mixed_g(mixes) / parts)


def parts_quoted(name: str, mix: MixPlan) -> Quantity:
    """The parts of one cup in their order, each as it is measured.

    Parameters
    ----------
    name : the quantity's.
    mix : the cup.
    """
    told = {
        MeasuredBy.SCALE: lambda part: f"{part.mass_g:g} g",
        MeasuredBy.MARKS: lambda part: f"{part.volume_ml:g} ml",
        MeasuredBy.SYRINGE: lambda part: f"{part.volume_ml:g} ml by syringe",
    }
    parts = (f"{part.kind}={told[part.by](part)}" for part in mix.parts if part.by in told)
    return Quantity(name, Dimension.PARTS, "; ".join(parts))


def cup_minutes(name: str, mixes: Sequence[MixPlan]) -> Mapping[str, float]:
    """Minutes of each task, over all these cups: what labor counts is what the cups' clocks count.

    Parameters
    ----------
    name : as `cup_quoted`.
    mixes : the cups.
    """
    return {f"{name}.{kind}_min": _seconds(mixes, kind) / 60.0 for kind in TaskKind}


def _seconds(mixes: Sequence[MixPlan], kind: TaskKind) -> float:
    return fsum(task.duration_s for mix in mixes for task in mix.tasks if task.kind is kind)


def by_syringe(mixes: Sequence[MixPlan]) -> bool:
    """Whether any part of these cups is measured by syringe.

    Parameters
    ----------
    mixes : the cups.
    """
    return any(part.by is MeasuredBy.SYRINGE for mix in mixes for part in mix.parts)
