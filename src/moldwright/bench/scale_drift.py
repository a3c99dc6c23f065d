"""What a scale that was found to be off has weighed, and whether the cups' ratios still hold."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import fsum

from moldwright.bench.find_measured import scale_is_off
from moldwright.log.event import Event
from moldwright.log.run_events import CupRef, ScaleChecked, Weighed
from moldwright.log.standing import standing
from moldwright.plan.mixes import REACTING, MeasuredBy, MixPlan, PartKind
from moldwright.plan.plan import Plan


class RatioNow(StrEnum):
    """What becomes of a cup's ratio: one factor is on all that reacts and keeps it; else it is within what the cure
    bears, or not; a cup of one part has none, or not all is in."""

    KEPT = "kept"
    WITHIN = "within"
    OFF = "off"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class PartMass:
    """One part's mass as it was written, and as it really was."""

    kind: PartKind
    told_g: float
    true_g: float


@dataclass(frozen=True, slots=True)
class CupDrift:
    """A cup with its masses as they really were.

    Parameters
    ----------
    cup : which.
    parts : in the cup's order.
    ratio : what becomes of its ratio.
    off_pct : by how much the true ratio is off its sheet's; None where there is none.
    within_pct : by how much it may be.
    """

    cup: CupRef
    parts: tuple[PartMass, ...]
    ratio: RatioNow
    off_pct: float | None = None
    within_pct: float = 0.0

    @property
    def told_g(self) -> float:
        """All of it, as it was written [g]."""
        return fsum(part.told_g for part in self.parts)

    @property
    def true_g(self) -> float:
        """All of it, as it really was [g]."""
        return fsum(part.true_g for part in self.parts)


@dataclass(frozen=True, slots=True)
class ScaleDrift:
    """A scale that was found to be off.

    Parameters
    ----------
    scale : which.
    factor : grams that there really are for each gram that it shows.
    after_ms : when it was last found right before; None: never in this run.
    found_ms : when it was found to be off.
    cups : what was weighed on it from the one to the other; and after, as long as it was not found right again.
    """

    scale: str
    factor: float
    after_ms: int | None
    found_ms: int
    cups: tuple[CupDrift, ...]


@dataclass(frozen=True, slots=True)
class _Check:
    at_ms: int
    factor: float


def scale_drifts(plan: Plan, events: Iterable[Event]) -> tuple[ScaleDrift, ...]:
    """Every check by which a scale was off, with the cups that it touched.

    A weighing counts by the next check of its scale, or by the last one where none came after it: whatever drift there
    was is taken as whole since the check before, so that the true masses lie between those written and those told.

    Parameters
    ----------
    plan : its cups and the scale's step.
    events : of the run, in any order.
    """
    stands = standing(events)
    checks = _checks(stands, plan.scale_g)
    weighed = [(event.body, event.at_ms) for event in stands if isinstance(event.body, Weighed)]
    cups = _cups(plan, weighed, checks)
    told = []
    for scale, of_scale in checks.items():
        for n, check in enumerate(of_scale):
            if check.factor != 1.0:
                touched = {body.cup: None for body, at in weighed if body.scale == scale and _by(of_scale, at) is check}
                before = [each.at_ms for each in of_scale[:n] if each.factor == 1.0]
                of_check = tuple(cups[ref] for ref in touched if ref in cups)
                told.append(ScaleDrift(scale, check.factor, before[-1] if before else None, check.at_ms, of_check))
    return tuple(sorted(told, key=lambda each: (each.found_ms, each.scale)))


def _checks(events: Iterable[Event], step_g: float) -> Mapping[str, list[_Check]]:
    found: defaultdict[str, list[_Check]] = defaultdict(list)
    for event in events:
        body = event.body
        if isinstance(body, ScaleChecked) and body.reads_g > 0.0 and body.weight_g > 0.0:
            factor = body.weight_g / body.reads_g if scale_is_off(body, step_g) else 1.0
            found[body.scale].append(_Check(event.at_ms, factor))
    return found


def _by(checks: Sequence[_Check], at_ms: int) -> _Check | None:
    """The check by which a weighing counts: the next, else the last."""
    if not checks:
        return None
    n = bisect_left(checks, at_ms, key=lambda each: each.at_ms)
    return checks[min(n, len(checks) - 1)]


def _cups(
    plan: Plan, weighed: Sequence[tuple[Weighed, int]], checks: Mapping[str, Sequence[_Check]]
) -> Mapping[CupRef, CupDrift]:
    mixes = {mix.id: mix for mix in plan.mixes}
    by: dict[CupRef, list[tuple[PartKind, float, float]]] = {}
    for body, at_ms in weighed:
        mix = mixes.get(body.cup.mix)
        part = next((each for each in mix.parts if each.kind is body.part), None) if mix else None
        if part is not None:
            check = _by(checks.get(body.scale, ()), at_ms) if part.by is MeasuredBy.SCALE else None
            by.setdefault(body.cup, []).append((body.part, body.mass_g, check.factor if check else 1.0))
    return {ref: _cup(ref, mixes[ref.mix], entries) for ref, entries in by.items()}


def _cup(ref: CupRef, mix: MixPlan, entries: Sequence[tuple[PartKind, float, float]]) -> CupDrift:
    parts = tuple(
        PartMass(
            part.kind,
            fsum(mass for kind, mass, _ in entries if kind is part.kind),
            fsum(mass * factor for kind, mass, factor in entries if kind is part.kind),
        )
        for part in mix.parts
        if any(kind is part.kind for kind, _, _ in entries)
    )
    pair = [part.true_g for part in parts if part.kind in REACTING]
    if mix.ratio is None or len(pair) < 2 or min(pair) <= 0.0:
        return CupDrift(ref, parts, RatioNow.NONE)
    off = 100.0 * (pair[1] / pair[0] / mix.ratio - 1.0)
    within = max(mix.ratio_within_pct, mix.tolerance_pct)
    one_factor = len({factor for kind, _, factor in entries if kind in REACTING}) == 1
    state = RatioNow.KEPT if one_factor else RatioNow.WITHIN if abs(off) <= within else RatioNow.OFF
    return CupDrift(ref, parts, state, off, within)
