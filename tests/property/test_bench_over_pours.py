"""Whatever is weighed into a cup at the bench, its next targets end within what the cure bears, or it is refused.

The ratio is reckoned here from the masses alone: B over A within what the cure bears; powder within its share of the
larger of the two, which may themselves be off by half of what the ratio bears, and by the scale's step.
"""

from __future__ import annotations

from dataclasses import replace
from math import fsum

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from tests.bench_plans import POWDER, A, B, Book, at, bench_plan, skin_cup

from moldwright.bench.cup_now import CupNow, CupState, PartState
from moldwright.bench.run import run_state
from moldwright.errors import NoSafePlan
from moldwright.log.run_events import Divided, Weighed
from moldwright.mixing.correct import EXTRA_WITHIN
from moldwright.mixing.cup import CupClock, CupLimit
from moldwright.mixing.cups import cups_of
from moldwright.mixing.recipe import Ingredient, Recipe, liquid
from moldwright.plan.mixes import SKIN, MixPlan, PartKind, TaskKind
from moldwright.plan.plan import Plan

REFUSED = {"ratio-not-held", "cup-overfull", "cup-by-marks"}


def planned(ratio: float, powder: float, total_g: float, within: float, step_g: float, first: PartKind) -> Plan:
    parts: list[Ingredient] = [liquid(first, 1.0 if first is A else ratio, 1.05)]
    if powder:
        parts.append(Ingredient(POWDER, powder, 2.5, 8.5, "metal"))
    last = B if first is A else A
    parts.append(liquid(last, 1.0 if last is A else ratio, 1.1))
    clock = CupClock(900.0, 60.0, TaskKind.POUR, 0.05)
    try:
        mix = cups_of(SKIN, total_g, Recipe(tuple(parts), within), CupLimit(900.0, 900.0, clock), step_g)[0]
    except NoSafePlan:
        assume(False)
        raise
    whole = bench_plan(1)
    return replace(whole, mixes=(whole.mixes[0], mix, whole.mixes[2]), scale_g=step_g)


plans = st.builds(
    planned,
    st.sampled_from([1.0, 0.9, 0.5, 0.1, 2.0]),
    st.sampled_from([0.0, 1.0, 2.5]),
    st.floats(60.0, 800.0),
    st.sampled_from([0.02, 0.05]),
    st.sampled_from([0.1, 1.0]),
    st.sampled_from([A, B]),
)
times = st.lists(st.floats(0.2, 3.0), min_size=1, max_size=3)


def mix_of(plan: Plan) -> MixPlan:
    return plan.mixes[1]


def told(plan: Plan, book: Book, filling: int = 1) -> CupNow:
    cup = run_state(plan, book.events, at(10.0)).cup(skin_cup(1, filling))
    assert cup is not None
    return cup


def weighed(plan: Plan, factors: list[float]) -> tuple[Book, dict[PartKind, float]]:
    """So many parts in their order, each so many times what was planned."""
    book, there = Book(casts=1), {}
    for minute, (part, factor) in enumerate(zip(mix_of(plan).parts, factors, strict=False)):
        mass = max(plan.scale_g, round(round(part.mass_g * factor / plan.scale_g) * plan.scale_g, 6))
        book.write(minute, Weighed(skin_cup(1), part.kind, part.mass_g, mass))
        there[part.kind] = mass
    return book, there


def ends(cup: CupNow) -> dict[PartKind, float]:
    """What is in of each part once every target is met; what is right is not touched."""
    return {p.kind: p.in_g + p.add_g if p.state is not PartState.RIGHT else p.in_g for p in cup.parts}


def held(plan: Plan, masses: dict[PartKind, float]) -> None:
    mix = mix_of(plan)
    meant = {part.kind: part.mass_g for part in mix.parts}
    first, last = (kind for kind in meant if kind is not POWDER)
    off_pct = 100.0 * abs(masses[last] / masses[first] / mix.ratio - 1.0)  # type: ignore[operator]
    assert off_pct <= max(mix.ratio_within_pct, mix.tolerance_pct) + 1e-6
    if POWDER in meant:
        grown = max(masses[first] / meant[first], masses[last] / meant[last])
        rounded = plan.scale_g / min(meant[first], meant[last])
        either = mix.ratio_within_pct / 200.0
        spare_g = ((EXTRA_WITHIN[POWDER] + either) * grown + rounded) * meant[POWDER] + plan.scale_g
        assert abs(masses[POWDER] - grown * meant[POWDER]) <= spare_g + 1e-6


@given(plans, times)
def test_after_any_over_pour_the_targets_hold_every_ratio_or_it_is_refused(plan: Plan, factors: list[float]) -> None:
    book, there = weighed(plan, factors)
    cup = told(plan, book)
    assert {part.kind: part.in_g for part in cup.parts if part.in_g} == pytest.approx(there)
    if cup.refused is not None:
        assert cup.refused.code in REFUSED
        assert cup.next is None
        return
    if cup.put_right is not None and len(cup.put_right.cups) > 1:
        assert cup.state is CupState.OVER
        return
    masses = ends(cup)
    assert all(masses[kind] >= mass - 1e-9 for kind, mass in there.items())
    assert fsum(masses.values()) <= max(mix_of(plan).most_g, mix_of(plan).mass_g) * 1.02 + 2.0
    held(plan, masses)


@given(plans, st.floats(1.5, 3.0))
@example(planned(1.0, 2.5, 801.0, 0.02, 1.0, A), 400.0 / 178.0)
def test_what_is_divided_is_told_as_so_many_cups_that_hold_it_too(plan: Plan, factor: float) -> None:
    """The example: 1800 g just fill two cups of 900; their shares in whole steps of 1 g ask for 901."""
    book, there = weighed(plan, [factor])
    cup = told(plan, book)
    assume(cup.put_right is not None and len(cup.put_right.cups) > 1)
    assert cup.put_right is not None
    fillings = range(2, len(cup.put_right.cups) + 1)
    book.write(5.0, Divided(skin_cup(1), tuple(fillings)))
    cups = [told(plan, book, filling) for filling in (1, *fillings)]
    assert fsum(each.in_g for each in cups) == pytest.approx(fsum(there.values()))
    for each in cups:
        assert each.refused is None
        held(plan, ends(each))


@given(plans, times)
def test_who_follows_the_targets_ends_with_a_right_cup(plan: Plan, factors: list[float]) -> None:
    """Each next part is weighed to its target, as often as the bench asks for one: at most once for each part."""
    book, _ = weighed(plan, factors)
    for minute in range(3, 8):
        cup = told(plan, book)
        assume(cup.refused is None and (cup.put_right is None or len(cup.put_right.cups) == 1))
        if cup.next is None:
            break
        book.write(minute, Weighed(skin_cup(1), cup.next.kind, cup.next.target_g, cup.next.add_g))
    assert told(plan, book).state is CupState.RIGHT
    held(plan, {part.kind: part.in_g for part in told(plan, book).parts})


@given(plans, times)
def test_the_next_total_is_what_stands_in_the_cup_and_what_is_to_come(plan: Plan, factors: list[float]) -> None:
    """The scale shows the sum of the masses, to half a step; it starts at nothing."""
    book, there = weighed(plan, factors)
    cup = told(plan, book)
    assume(cup.next is not None)
    assert cup.next is not None
    assert cup.next.reads_g == pytest.approx(fsum(there.values()) + cup.next.add_g, abs=plan.scale_g / 2 + 1e-6)
