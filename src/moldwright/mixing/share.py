"""A share of a planned cup: what is mixed where some of the work is done already, or two cups do one's."""

from __future__ import annotations

from dataclasses import replace
from itertools import accumulate

from moldwright.mixing.correct import read_within_pct
from moldwright.mixing.scale_steps import grams, steps_of
from moldwright.plan.mixes import REACTING, MeasuredBy, MixPart, MixPlan


def part_of(mix: MixPlan, share: float, step_g: float) -> MixPlan:
    """A cup that does a share of a planned one's work, in the scale's steps, though no less than can be weighed.

    Parameters
    ----------
    mix : the cup as planned
    share : of its work, > 0
    step_g : the scale's step [g], > 0

    Source: arithmetic; what reading puts the ratio off goes by 1 / mass (JCGM 100:2008, F.2.2.1, from memory).
    """
    if share == 1.0 or not mix.mass_g:
        return mix
    share = max(share, min(1.0, mix.smallest_batch_g / mix.mass_g))
    masses = _shares(mix, share, step_g)
    parts = tuple(
        replace(
            part,
            mass_g=mass,
            volume_ml=part.volume_ml * share,
            scale_reads_g=grams(steps_of(reads, step_g), step_g),
            reads_ml=part.reads_ml * share,
        )
        for part, mass, reads in zip(mix.parts, masses, accumulate(masses), strict=True)
    )
    read_pct = read_within_pct(mix) / share - read_within_pct(mix) if mix.ratio else 0.0
    return replace(mix, parts=parts, tolerance_pct=mix.tolerance_pct + read_pct, surplus_g=mix.surplus_g * share)


def _shares(mix: MixPlan, share: float, step_g: float) -> list[float]:
    """The parts' masses; the larger of those that react follows the smaller, as rounded, by the ratio."""
    masses = {part.kind: _in_steps(part, part.mass_g * share, step_g) for part in mix.parts}
    pair = [part for part in mix.parts if part.kind in REACTING]
    if mix.ratio and len(pair) > 1:
        first, second = pair
        if mix.ratio >= 1.0:
            masses[second.kind] = _in_steps(second, masses[first.kind] * mix.ratio, step_g)
        else:
            masses[first.kind] = _in_steps(first, masses[second.kind] / mix.ratio, step_g)
    return [masses[part.kind] for part in mix.parts]


def _in_steps(part: MixPart, mass_g: float, step_g: float) -> float:
    return grams(max(1, steps_of(mass_g, step_g)), step_g) if part.by is MeasuredBy.SCALE else mass_g
