"""What is to be in a cup, from what is in it: by the plan, or by new targets where a part was poured over."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import fsum

from moldwright.bench.cup_now import CupState, PartNow, PartState, Refusal, refusal_of
from moldwright.bench.fillings import NOTHING, CupFilling
from moldwright.errors import MoldwrightError
from moldwright.mixing.correct import Correction, corrected, part_within_g
from moldwright.mixing.scale_steps import grams, steps_of
from moldwright.plan.mixes import MeasuredBy, MixPart, MixPlan, PartKind

OPEN = (PartState.TO_COME, PartState.SHORT)


@dataclass(frozen=True, slots=True)
class Targets:
    """The parts of a cup as they stand, and what puts it right, or why nothing does."""

    parts: tuple[PartNow, ...]
    put_right: Correction | None = None
    refused: Refusal | None = None

    @property
    def state(self) -> CupState:
        """Where a cup stands that is neither on the work nor gelled."""
        if not any(part.in_g > NOTHING for part in self.parts):
            return CupState.TO_WEIGH
        if self.refused is not None or any(part.state is PartState.OVER for part in self.parts):
            return CupState.OVER
        return CupState.RIGHT if all(part.state is PartState.RIGHT for part in self.parts) else CupState.FILLING


def targets(mix: MixPlan, filling: CupFilling, step_g: float) -> Targets:
    """What is to be in a cup.

    Parameters
    ----------
    mix : as planned, for this filling's share of the work.
    filling : what is in it.
    step_g : the scale's step [g].
    """
    over = frozenset(part.kind for part in mix.parts if _is_over(mix, part, filling, step_g))
    put_right, refused = _put_right(mix, filling, step_g) if over else (None, None)
    if put_right is None or len(put_right.cups) > 1:
        wanted = {part.kind: part.mass_g for part in mix.parts}
        states = _states(mix, wanted, filling, step_g)
        states.update(dict.fromkeys(over, PartState.OVER))
    else:
        wanted = {part.kind: part.mass_g for part in put_right.cups[0].parts}
        states = _grown(mix, wanted, filling, step_g, over)
    rows = [_part(mix, part, wanted, states, filling, step_g) for part in mix.parts]
    return Targets(tuple(rows), put_right, refused)


def _states(
    mix: MixPlan, wanted: Mapping[PartKind, float], filling: CupFilling, step_g: float
) -> dict[PartKind, PartState]:
    return {part.kind: _state(mix, part, wanted, filling, step_g) for part in mix.parts}


def _grown(
    mix: MixPlan, wanted: Mapping[PartKind, float], filling: CupFilling, step_g: float, over: frozenset[PartKind]
) -> dict[PartKind, PartState]:
    """By new targets nothing is over any more; what asks for more of what is in already is told as over till then."""
    states = _states(mix, wanted, filling, step_g)
    asks = over if PartState.SHORT in states.values() else frozenset()
    return {k: PartState.OVER if k in asks and state is PartState.RIGHT else state for k, state in states.items()}


def _is_over(mix: MixPlan, part: MixPart, filling: CupFilling, step_g: float) -> bool:
    there = filling.in_g.get(part.kind, 0.0)
    return there > part.mass_g + part_within_g(mix, part, part.mass_g, step_g) + NOTHING


def _put_right(mix: MixPlan, filling: CupFilling, step_g: float) -> tuple[Correction | None, Refusal | None]:
    there = {kind: max(0.0, mass) for kind, mass in filling.in_g.items()}
    traces = {part.kind: part.mass_g for part in mix.parts if _unwritten_trace(mix, part, filling)}
    try:
        return corrected(mix, {**traces, **there}, step_g), None
    except MoldwrightError as error:
        return None, refusal_of(error)


def _unwritten_trace(mix: MixPlan, part: MixPart, filling: CupFilling) -> bool:
    """A trace on a stick is seldom written down: it is in where something that goes in after it is."""
    if part.by is not MeasuredBy.STICK or part.kind in filling.in_g:
        return False
    kinds = [each.kind for each in mix.parts]
    return any(filling.in_g.get(kind, 0.0) > 0.0 for kind in kinds[kinds.index(part.kind) + 1 :])


def _part(
    mix: MixPlan,
    part: MixPart,
    wanted: Mapping[PartKind, float],
    states: Mapping[PartKind, PartState],
    filling: CupFilling,
    step_g: float,
) -> PartNow:
    there, target, state = filling.in_g.get(part.kind, 0.0), wanted[part.kind], states[part.kind]
    add = max(0.0, target - there) if state in OPEN else 0.0
    return PartNow(
        kind=part.kind,
        name=part.name,
        by=part.by,
        planned_g=part.mass_g,
        target_g=target,
        in_g=there,
        within_g=part_within_g(mix, part, target, step_g),
        reads_g=_reads_g(mix, part.kind, wanted, states, filling, step_g),
        add_ml=round(add * part.volume_ml / part.mass_g, 2) if part.mass_g else 0.0,
        state=state,
        last_ms=filling.last_ms.get(part.kind),
        lots=filling.lots.get(part.kind, ()),
    )


def _state(
    mix: MixPlan, part: MixPart, wanted: Mapping[PartKind, float], filling: CupFilling, step_g: float
) -> PartState:
    there, target = filling.in_g.get(part.kind, 0.0), wanted[part.kind]
    if there <= NOTHING:
        in_already = target <= NOTHING or _unwritten_trace(mix, part, filling)
        return PartState.RIGHT if in_already else PartState.TO_COME
    within = part_within_g(mix, part, target, step_g)
    if there < target - within - NOTHING:
        return PartState.SHORT
    return PartState.RIGHT if there <= target + within + NOTHING else PartState.OVER


def _reads_g(
    mix: MixPlan,
    kind: PartKind,
    wanted: Mapping[PartKind, float],
    states: Mapping[PartKind, PartState],
    filling: CupFilling,
    step_g: float,
) -> float:
    """What the scale shows once all up to a part is in, and what stands in the cup of later ones besides."""
    till = [part.kind for part in mix.parts].index(kind) + 1
    early, late = mix.parts[:till], mix.parts[till:]
    first = fsum(wanted[p.kind] if _goes_in(p, states, filling) else filling.in_g[p.kind] for p in early)
    reads = first + fsum(filling.in_g.get(p.kind, 0.0) for p in late) + _shift_g(mix, wanted, filling)
    return grams(steps_of(reads, step_g), step_g)


def _goes_in(part: MixPart, states: Mapping[PartKind, PartState], filling: CupFilling) -> bool:
    """Whether a part is brought to its target yet, or was, as a trace that nobody wrote down."""
    return states[part.kind] in OPEN or part.kind not in filling.in_g


def _shift_g(mix: MixPlan, wanted: Mapping[PartKind, float], filling: CupFilling) -> float:
    """By how much the scale shows more than what was weighed, as it was last read: a cup that was not zeroed, or zeroed
    between; traces that nobody wrote down are no part of it."""
    if filling.read is None:
        return 0.0
    kind, more = filling.read
    before = mix.parts[: [part.kind for part in mix.parts].index(kind)]
    traces = (part.kind for part in before if part.by is MeasuredBy.STICK and part.kind not in filling.in_g)
    return more - fsum(wanted[trace] for trace in traces)
