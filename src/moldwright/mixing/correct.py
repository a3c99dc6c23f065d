"""A cup that did not come out as planned: new targets that hold its ratio, two cups instead of one, or a refusal.

From what stands in the cup every part that is not in yet, or is too little, gets a new target: the cup grows until the
part that was poured over fits, `f = max(in_k / q_k)` over the parts that react, q their planned masses. What is in a
cup is never taken out of it, unless nothing reacts in it yet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil, fsum, inf

from moldwright.errors import InputRefused, NoSafePlan
from moldwright.mixing.scale_steps import grams, steps_of
from moldwright.mixing.syringe import SYRINGES
from moldwright.plan.mixes import REACTING, TRACES, MeasuredBy, MixPart, MixPlan, PartKind
from moldwright.ways import figure, word
from moldwright.words.marked import words

EXTRA_WITHIN = {PartKind.POWDER: 0.05, PartKind.FIBER: 0.1, PartKind.THIXOTROPE: 0.2}
"""By how much more of what does not react may be in, as a share: common practice, no source."""
TRACE_WITHIN = 0.5
"""The same of pigment and tint: what it does to a color is seen, not weighed; common practice, no source."""
MOST_CUPS = 4
HOT_REST = words(
    "The rest gets hot, more so in a mass: leave it in the open air on what does not burn, do not touch it bare, lean "
    "over or cover it; its safety data sheet goes first."
)
"""What is told of every mix that sets in its cup, both parts that react in it: common practice, no source."""
FASTER = words("A larger cup gels sooner than its card tells: mix and use it at once.")
CAUTIONS_HOLD = "The cautions of its step hold for it too; the safety data sheets of what is in it go first."
"""What is told of every cup with targets that no sheet prints."""


@dataclass(frozen=True, slots=True)
class PartTarget:
    """One part of a corrected cup: what is in, what goes in yet and by what, and what the scale shows once that is in.

    `add_ml` : what goes in yet as a syringe draws it.
    """

    kind: PartKind
    name: str
    by: MeasuredBy
    in_g: float
    add_g: float
    add_ml: float
    scale_reads_g: float

    @property
    def mass_g(self) -> float:
        """All of it that will be in [g]."""
        return self.in_g + self.add_g


@dataclass(frozen=True, slots=True)
class CorrectedCup:
    """A cup with its new targets; `share`: how much of the planned cup's work it does."""

    parts: tuple[PartTarget, ...]
    share: float

    @property
    def mass_g(self) -> float:
        """All parts together [g]."""
        return fsum(part.mass_g for part in self.parts)

    @property
    def ratio(self) -> float | None:
        """Mass of the later of the parts that react for one gram of the earlier; None of one part alone."""
        pair = [part.mass_g for part in self.parts if part.kind in REACTING]
        return pair[1] / pair[0] if len(pair) > 1 else None


@dataclass(frozen=True, slots=True)
class Correction:
    """What to do: `cups` alike, one where nothing is moved; `move_g` : what of the stirred cup goes into each of the
    clean ones before anything else goes in."""

    cups: tuple[CorrectedCup, ...]
    move_g: float = 0.0


def corrected(
    mix: MixPlan, in_g: Mapping[PartKind, float], step_g: float, left_g: Mapping[PartKind, float] | None = None
) -> Correction:
    """New targets for a cup, from what stands in it and what is left on the shelf.

    Parameters
    ----------
    mix : the cup as planned, on a scale
    in_g : what is in, by part [g], >= 0; parts that are not in yet are left out
    step_g : the scale's step [g], > 0
    left_g : what there still is of a part beside what is in [g]; parts that are not named do not run out

    Raises InputRefused for a cup that is measured without a scale, or a part that it has not. NoSafePlan
    ("cup-overfull", "too-little-left", "ratio-not-held"). Source: arithmetic; the ratio's tolerance by its sheet,
    reading by the planned cup's (JCGM 100:2008, F.2.2.1, from memory).

    >>> from moldwright.plan.mixes import SKIN, MeasuredBy, MixPart
    >>> kinds = ((PartKind.A, 50.0), (PartKind.B, 100.0))
    >>> parts = tuple(MixPart(k, k, 50.0, 50.0, read, MeasuredBy.SCALE, read) for k, read in kinds)
    >>> cup = MixPlan("skin.cup-1", SKIN, 1, parts, (), 600.0, 0.2, 10.0, 0.0, 1.0, 2.0, 150.0)
    >>> [part.add_g for part in corrected(cup, {PartKind.A: 62.0}, 0.1).cups[0].parts]
    [0.0, 62.0]
    """
    _refuse_unless_known(mix, in_g)
    ideal = {part.kind: part.mass_g for part in mix.parts}
    grown = _grown(mix, ideal, in_g)
    held = min((_may_be(k, ideal, in_g, left_g or {}) for k in ideal), default=inf)
    if grown > held:
        grown = held
        if held <= 0.0 or any(in_g[k] > held * ideal[k] * (1.0 + _spare(mix)) for k in in_g if k in REACTING):
            raise _too_little(mix, ideal, in_g, left_g or {})
    whole_g = fsum(max(in_g.get(k, 0.0), grown * q) for k, q in ideal.items())
    count = _cups_for(mix, ideal, in_g, whole_g, step_g)
    if count > 1 and (_reacts(mix, in_g) or count > MOST_CUPS):
        raise _overfull(mix, whole_g) if _reacts(mix, in_g) else _too_many(mix, whole_g, count)
    share = {kind: mass / count for kind, mass in in_g.items()}
    cup = _cup(mix, ideal, share, grown / count, step_g)
    _refuse_unless_held(mix, cup)
    return Correction((cup,) * count, 0.0 if count == 1 else round(fsum(share.values()), 1))


def _cups_for(
    mix: MixPlan, ideal: Mapping[PartKind, float], in_g: Mapping[PartKind, float], whole_g: float, step_g: float
) -> int:
    """How many cups hold it: where it is divided, each with room for what weighing its share in whole steps may add."""
    if not mix.most_g:
        return 1
    count = ceil(whole_g / mix.most_g - 1e-6)
    while 1 < count <= MOST_CUPS and whole_g / count * _stepped_up(ideal, in_g, count, step_g) > mix.most_g:
        count += 1
    return count


def _stepped_up(ideal: Mapping[PartKind, float], in_g: Mapping[PartKind, float], count: int, step_g: float) -> float:
    """By how much one of so many cups may grow as its parts are planned in whole steps: half a step more of each, half
    a step less of the one that is in and sets the size."""
    least_g = min((ideal[k] for k in in_g if in_g[k] > 0.0 and ideal[k] > step_g * count), default=inf) / count
    more = len(ideal) * step_g / 2.0 / (fsum(ideal.values()) / count)
    return (1.0 + more) / (1.0 - step_g / 2.0 / least_g)


def part_within_g(mix: MixPlan, part: MixPart, wanted_g: float, step_g: float) -> float:
    """How far off a part may be before anything is put right [g]: half of what its ratio has to spare, of what does not
    react a share; half a step of what measures it at the least.

    Parameters
    ----------
    mix : the cup as planned
    part : one of its parts
    wanted_g : what is to be in of it [g]
    step_g : the scale's step [g], > 0

    Source: as `corrected`.
    """
    share = _spare(mix) if part.kind in REACTING else _within(part.kind)
    return max(share * wanted_g, _step_of(part, step_g) / 2.0)


def _step_of(part: MixPart, step_g: float) -> float:
    """The step of what measures a part [g]."""
    syringe = next((each for each in SYRINGES if each.size_ml == part.syringe_ml), None)
    if part.by is not MeasuredBy.SYRINGE or syringe is None or not part.volume_ml:
        return step_g
    return syringe.step_ml * part.mass_g / part.volume_ml


def _refuse_unless_known(mix: MixPlan, in_g: Mapping[PartKind, float]) -> None:
    if mix.marked:
        remedy = "A cup that is filled to marks: fill the other part to the same share of its own mark."
        raise InputRefused("cup-by-marks", mix.id, "a cup on the scale", "", remedy)
    known = {part.kind for part in mix.parts}
    for kind, mass_g in in_g.items():
        if kind not in known:
            raise InputRefused("part-not-in-cup", kind, ", ".join(known), "", f"{mix.id} takes {', '.join(known)}.")
        if not 0.0 <= mass_g < inf:
            raise InputRefused("mass-out-of-range", mass_g, 0, "g", "Write what the scale shows of this part alone.")


def _grown(mix: MixPlan, ideal: Mapping[PartKind, float], in_g: Mapping[PartKind, float]) -> float:
    """How many times the planned cup it must become, 1 at least."""
    pair = [part.kind for part in mix.parts if part.kind in REACTING]
    extra = [k for k in in_g if k not in pair and ideal[k] > 0.0]
    loaded = max((in_g[k] / ideal[k] / (1.0 + _within(k)) for k in extra), default=0.0)
    first = max(1.0, loaded, *(in_g.get(k, 0.0) / ideal[k] for k in pair[:1]))
    if len(pair) < 2 or pair[1] not in in_g:
        return first
    second = in_g[pair[1]] / ideal[pair[1]]
    close = second <= first * (1.0 + _spare(mix))
    return first if close else second


def _spare(mix: MixPlan) -> float:
    """By how much the ratio may be off beyond what the reading of the scale puts it off, halved: either part may be."""
    return max(0.0, mix.ratio_within_pct - mix.tolerance_pct) / 200.0


def _within(kind: PartKind) -> float:
    return TRACE_WITHIN if kind in TRACES else EXTRA_WITHIN.get(kind, 0.0)


def _may_be(
    kind: PartKind, ideal: Mapping[PartKind, float], in_g: Mapping[PartKind, float], left_g: Mapping[PartKind, float]
) -> float:
    """How many times the planned cup what is in and left of a part suffices for."""
    return (in_g.get(kind, 0.0) + left_g[kind]) / ideal[kind] if kind in left_g and ideal[kind] > 0.0 else inf


def _reacts(mix: MixPlan, in_g: Mapping[PartKind, float]) -> bool:
    """Whether both of the parts that react are in."""
    return sum(in_g.get(part.kind, 0.0) > 0.0 for part in mix.parts if part.kind in REACTING) > 1


def _cup(
    mix: MixPlan, ideal: Mapping[PartKind, float], in_g: Mapping[PartKind, float], grown: float, step_g: float
) -> CorrectedCup:
    """The new targets, in the scale's steps: what is in stays, the running total counts all that is in already."""
    reads = fsum(in_g.values())
    parts = []
    for part in mix.parts:
        there = in_g.get(part.kind, 0.0)
        short = max(0.0, grown * ideal[part.kind] - there)
        add = grams(steps_of(short, step_g), step_g) if part.by is MeasuredBy.SCALE else round(short, 4)
        if _close_enough(mix, part.kind, there, grown * ideal[part.kind]):
            add = 0.0
        reads += add
        drawn = add * part.volume_ml / part.mass_g if part.mass_g else 0.0
        shown = grams(steps_of(reads, step_g), step_g)
        parts.append(PartTarget(part.kind, part.name, part.by, there, add, round(drawn, 2), shown))
    return CorrectedCup(tuple(parts), grown)


def _close_enough(mix: MixPlan, kind: PartKind, there_g: float, wanted_g: float) -> bool:
    """Whether a part that is in need not be topped up."""
    if there_g <= 0.0:
        return False
    within = _spare(mix) if kind in REACTING else _within(kind)
    return there_g >= wanted_g * (1.0 - within)


def _refuse_unless_held(mix: MixPlan, cup: CorrectedCup) -> None:
    """The ratio as it will be, and as it is read, within what the cure bears."""
    if mix.ratio is None or cup.ratio is None:
        return
    off = 100.0 * abs(cup.ratio / mix.ratio - 1.0) + read_within_pct(mix) / cup.share
    allowed = max(mix.ratio_within_pct, mix.tolerance_pct)
    if off > allowed + 1e-6:
        remedy = "So little cannot be weighed closely enough: mix a larger cup, or use a finer scale."
        raise NoSafePlan("ratio-not-held", round(off, 2), round(allowed, 2), "%", remedy)


def read_within_pct(mix: MixPlan) -> float:
    """What reading alone may put the planned cup's ratio off [%], on the scale or in a syringe; it falls with the mass.

    Parameters
    ----------
    mix : a cup with a ratio
    """
    a_g, b_g = (part.mass_g for part in mix.parts if part.kind in REACTING)
    return max(0.0, mix.tolerance_pct - 100.0 * abs(b_g / a_g / (mix.ratio or 1.0) - 1.0))


def _overfull(mix: MixPlan, whole_g: float) -> NoSafePlan:
    remedy = (
        "It reacts already: use what you can at once, mix the next cup anew; one holds "
        f"{figure(round(mix.most_g), 'g')}. {word(HOT_REST)}"
    )
    return NoSafePlan("cup-overfull", round(whole_g, 1), round(mix.most_g, 1), "g", remedy)


def _too_many(mix: MixPlan, whole_g: float, count: int) -> NoSafePlan:
    """Nothing reacts in it, but what is over asks for more cups than are worth mixing."""
    cups, most = figure(count, ""), figure(MOST_CUPS, "")
    remedy = (
        f"Nothing reacts in it yet, but it would take {cups} cups, {most} at most. Lift out what is over where it lies "
        "unstirred; else weigh this cup anew."
    )
    return NoSafePlan("cup-overfull", round(whole_g, 1), round(mix.most_g, 1), "g", remedy)


def _too_little(
    mix: MixPlan, ideal: Mapping[PartKind, float], in_g: Mapping[PartKind, float], left_g: Mapping[PartKind, float]
) -> NoSafePlan:
    """A part runs out before the ratio is met; where nothing reacts yet, what to take out of the cup is told."""
    lacking = min((k for k in ideal if k in left_g), key=lambda k: _may_be(k, ideal, in_g, left_g))
    most = _may_be(lacking, ideal, in_g, left_g)
    over = [(k, in_g[k] - most * ideal[k]) for k in in_g if k in REACTING and in_g[k] > most * ideal[k]]
    remedy = "This cup cannot be saved: let it set, weigh anew."
    if over and not _reacts(mix, in_g):
        kind, mass_g = over[0]
        remedy = f"Take {figure(round(mass_g, 1), 'g')} of {word(kind)} out of the cup and go on."
    if not any(in_g.values()):
        remedy = f"Get more of {word(lacking)} before this cup is begun."
    have_g = in_g.get(lacking, 0.0) + left_g[lacking]
    need_g = max((1.0, *(in_g[k] / ideal[k] for k in in_g if k in REACTING))) * ideal[lacking]
    return NoSafePlan("too-little-left", round(have_g, 1), round(need_g, 1), f"g of {lacking}", remedy)
