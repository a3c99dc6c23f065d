"""Whatever the amounts: cups sum to the total, no running total is off by more than half a step."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldwright.mixing.cup import CupClock, CupLimit
from moldwright.mixing.cups import cups_of
from moldwright.mixing.recipe import Recipe, liquid
from moldwright.mixing.scale_steps import apportion
from moldwright.plan.mixes import SKIN, PartKind, TaskKind

STEPS = st.sampled_from([0.01, 0.1, 0.5, 1.0, 5.0])
CLOCK = CupClock(600.0, 60.0, TaskKind.POUR, 0.1)
SHARES = st.lists(st.floats(0.01, 10.0), min_size=2, max_size=6)


@given(total=st.integers(1, 50_000), limit=st.integers(1, 5_000), step=STEPS, shares=SHARES)
def test_cups_sum_to_the_total(total: int, limit: int, step: float, shares: list[float]) -> None:
    limit = max(limit, total // 40 + 1)
    kinds = list(PartKind)[-len(shares) :]
    recipe = Recipe(tuple(liquid(kind, share, 1.1) for kind, share in zip(kinds, shares, strict=True)))
    cups = cups_of(SKIN, total * step, recipe, CupLimit(limit * step, CLOCK), step)
    assert sum(cup.mass_g for cup in cups) == pytest.approx(total * step, rel=1e-12)
    assert max(cup.mass_g for cup in cups) - min(cup.mass_g for cup in cups) <= step * 1.000001
    assert all(cup.mass_g <= limit * step * 1.000001 for cup in cups)
    for cup in cups:
        target = 0.0
        for part, share in zip(cup.parts, shares, strict=True):
            target += cup.mass_g * share / sum(shares)
            assert abs(part.scale_reads_g - target) <= step * 0.5000001
        assert sum(part.mass_g for part in cup.parts) == pytest.approx(cup.parts[-1].scale_reads_g)


@given(steps=st.integers(0, 10**6), weights=st.lists(st.floats(0, 100), min_size=1, max_size=9).filter(sum))
def test_nothing_is_lost_when_steps_are_shared_out(steps: int, weights: list[float]) -> None:
    parts = apportion(steps, weights)
    assert sum(parts) == steps
    assert min(parts) >= 0
    for part, weight in zip(parts, weights, strict=True):
        assert abs(part - steps * weight / sum(weights)) <= 1.0 + 1e-6
