"""Whatever the amounts: cups hold what is needed, no running total is off by more than half a step."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from moldwright.errors import NoSafePlan
from moldwright.mixing.cup import CupClock, CupLimit
from moldwright.mixing.cups import cups_of
from moldwright.mixing.recipe import Recipe, liquid
from moldwright.mixing.scale_steps import apportion
from moldwright.plan.mixes import SKIN, MixPlan, PartKind, TaskKind

CLOCK = CupClock(600.0, 60.0, TaskKind.POUR, 0.1)


def planned(need_g: float, recipe: Recipe, step: float) -> tuple[MixPlan, ...]:
    """The cups; an example that is refused, with a remedy, is none."""
    try:
        return cups_of(SKIN, need_g, recipe, CupLimit(400.0, 400.0, CLOCK), step)
    except NoSafePlan as refused:
        assume(not refused.remedy)
        raise


@given(
    total=st.integers(5, 50_000),
    step=st.sampled_from([0.01, 0.1, 0.5]),
    ratio=st.floats(1.0, 80.0),
    extras=st.lists(st.floats(0.01, 2.0), max_size=2),
)
def test_cups_hold_what_is_needed_and_little_more(total: int, step: float, ratio: float, extras: list[float]) -> None:
    """In cups of 400 g: equal, none above its limit, all parts told; over is less than a step of the small part of each
    and what goes with it, or told as mixed only for the ratio's sake."""
    kinds = [PartKind.POWDER, PartKind.THIXOTROPE][: len(extras)]
    parts = [(PartKind.A, ratio), (PartKind.B, 1.0), *zip(kinds, extras, strict=True)]
    recipe = Recipe(tuple(liquid(kind, share, 1.1) for kind, share in parts), tolerance=0.05)
    need_g = total * 0.1
    cups = planned(need_g, recipe, step)
    assert len({cup.parts for cup in cups}) == 1
    whole_g = sum(cup.mass_g for cup in cups)
    grain_g = max(step, 1.1) * sum(share for _, share in parts) + 2 * step
    assert need_g - 2 * step * len(cups) <= whole_g
    assert whole_g - sum(cup.surplus_g for cup in cups) <= need_g + len(cups) * grain_g
    for cup in cups:
        assert cup.mass_g <= 400.0 + step
        assert cup.mass_g == pytest.approx(sum(part.mass_g for part in cup.parts))
        assert abs(cup.parts[-1].scale_reads_g - cup.mass_g) <= step * 0.5000001


@given(steps=st.integers(0, 10**6), weights=st.lists(st.floats(0, 100), min_size=1, max_size=9).filter(sum))
def test_nothing_is_lost_when_steps_are_shared_out(steps: int, weights: list[float]) -> None:
    parts = apportion(steps, weights)
    assert sum(parts) == steps
    assert min(parts) >= 0
    for part, weight in zip(parts, weights, strict=True):
        assert abs(part - steps * weight / sum(weights)) <= 1.0 + 1e-6
