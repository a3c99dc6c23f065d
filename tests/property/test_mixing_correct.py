"""Whatever was poured over, the new targets hold the ratio, take nothing out of a cup, and fit; or it is refused."""

from __future__ import annotations

from math import fsum

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from moldwright.errors import InputRefused, NoSafePlan
from moldwright.mixing.correct import Correction, corrected
from moldwright.mixing.cup import CupClock, CupLimit
from moldwright.mixing.cups import cups_of
from moldwright.mixing.recipe import Ingredient, Recipe, liquid
from moldwright.plan.mixes import SKIN, MixPlan, PartKind, TaskKind

CLOCK = CupClock(900.0, 60.0, TaskKind.POUR, 0.05)
A, B, POWDER = PartKind.A, PartKind.B, PartKind.POWDER


def planned(ratio: float, powder: float, total_g: float, within: float, step_g: float) -> MixPlan:
    parts: list[Ingredient] = [liquid(A, 1.0, 1.05)]
    if powder:
        parts.append(Ingredient(POWDER, powder, 2.5, 8.5, "metal"))
    parts.append(liquid(B, ratio, 1.1))
    try:
        return cups_of(SKIN, total_g, Recipe(tuple(parts), within), CupLimit(900.0, 900.0, CLOCK), step_g)[0]
    except NoSafePlan:
        assume(False)
        raise


cups = st.builds(
    planned,
    st.sampled_from([1.0, 0.9, 0.5, 0.1, 2.0]),
    st.sampled_from([0.0, 1.0, 2.5]),
    st.floats(60.0, 800.0),
    st.sampled_from([0.02, 0.05]),
    st.sampled_from([0.1, 1.0]),
)
PLANNED = {A: 1.0, POWDER: 1.0, B: 1.0}


def off(mix: MixPlan, a_g: float, b_g: float) -> float:
    """The ratio's error as a share."""
    assert mix.ratio is not None
    return abs(b_g / a_g / mix.ratio - 1.0)


def held(mix: MixPlan, found: Correction, in_g: dict[PartKind, float]) -> None:
    for cup in found.cups:
        mass = {part.kind: part.mass_g for part in cup.parts}
        assert off(mix, mass[A], mass[B]) * 100.0 <= mix.ratio_within_pct + 1e-6
        assert all(part.add_g >= 0.0 for part in cup.parts)
        assert cup.mass_g <= max(mix.most_g, mix.mass_g) * 1.02 + 1.0
    there = {kind: fsum(p.in_g for cup in found.cups for p in cup.parts if p.kind is kind) for kind in in_g}
    assert there == pytest.approx(in_g)


@given(cups, st.floats(0.2, 3.0))
def test_any_amount_of_the_first_part_is_met_by_the_others(mix: MixPlan, times: float) -> None:
    """The planned cup is filled, but for what the first part may be short of: half of what its sheet lets the ratio be
    off by, and is not topped up."""
    a_g = round(mix.parts[0].mass_g * times, 1)
    assume(a_g > 0)
    try:
        found = corrected(mix, {A: a_g}, 0.1)
    except NoSafePlan as refused:
        assert refused.code in {"ratio-not-held", "cup-overfull"}  # noqa: PT017
        return
    held(mix, found, {A: a_g})
    near_g = mix.parts[0].mass_g * mix.ratio_within_pct / 200.0
    assert fsum(cup.mass_g for cup in found.cups) >= mix.mass_g - near_g - 1.0


@given(cups, st.floats(0.5, 2.0), st.floats(0.5, 2.0))
def test_any_two_amounts_end_in_the_ratio_or_are_refused(mix: MixPlan, first: float, second: float) -> None:
    mass = {part.kind: part.mass_g for part in mix.parts}
    in_g = {kind: round(mass[kind] * (second if kind is B else first), 1) for kind in mass}
    assume(all(in_g.values()))
    try:
        found = corrected(mix, in_g, 0.1)
    except NoSafePlan as refused:
        assert refused.code in {"ratio-not-held", "cup-overfull"}  # noqa: PT017
        return
    assert len(found.cups) == 1
    held(mix, found, in_g)


@given(cups, st.floats(0.1, 2.0))
def test_what_is_left_of_the_last_part_is_not_passed(mix: MixPlan, times: float) -> None:
    b_g = round(mix.parts[-1].mass_g * times, 1)
    try:
        found = corrected(mix, {}, 0.1, {B: b_g})
    except NoSafePlan as refused:
        assert refused.code == "ratio-not-held"  # noqa: PT017
        return
    held(mix, found, {})
    assert fsum(p.add_g for cup in found.cups for p in cup.parts if p.kind is B) <= b_g + 0.06 * len(found.cups)
    assert found.cups[0].share <= max(1.0, times) + 1e-9


@given(cups)
def test_a_cup_as_planned_asks_for_nothing(mix: MixPlan) -> None:
    found = corrected(mix, {part.kind: part.mass_g for part in mix.parts}, 0.1)
    assert [part.add_g for part in found.cups[0].parts] == [0.0] * len(mix.parts)


def test_before_anything_reacts_too_much_becomes_two_cups() -> None:
    mix = planned(1.0, 0.0, 800.0, 0.05, 1.0)
    found = corrected(mix, {A: 700.0}, 1.0)
    assert len(found.cups) == 2
    assert found.move_g == pytest.approx(350.0)
    assert [part.add_g for part in found.cups[0].parts] == [0.0, 350.0]


def test_once_it_reacts_too_much_is_refused() -> None:
    mix = planned(1.0, 0.0, 800.0, 0.05, 1.0)
    with pytest.raises(NoSafePlan) as refused:
        corrected(mix, {A: 400.0, B: 700.0}, 1.0)
    assert refused.value.code == "cup-overfull"


def test_the_later_part_alone_does_not_react_yet() -> None:
    """B poured first by mistake, too much: two cups."""
    found = corrected(planned(1.0, 0.0, 800.0, 0.05, 1.0), {B: 700.0}, 1.0)
    assert len(found.cups) == 2
    assert [part.add_g for part in found.cups[0].parts] == [350.0, 0.0]


def test_a_last_part_that_does_not_suffice_tells_what_to_take_out() -> None:
    """200 g of A want 200 g of B; with 180 g left 20 g of A must go."""
    mix = planned(1.0, 0.0, 400.0, 0.02, 0.1)
    with pytest.raises(NoSafePlan) as refused:
        corrected(mix, {A: 200.0}, 0.1, {B: 180.0})
    assert refused.value.code == "too-little-left"
    assert "20 g of A" in refused.value.remedy


def test_a_part_of_which_nothing_is_left_is_told_before_the_cup_is_begun() -> None:
    mix = planned(1.0, 0.0, 400.0, 0.02, 0.1)
    with pytest.raises(NoSafePlan) as refused:
        corrected(mix, {}, 0.1, {B: 0.0})
    assert (refused.value.code, refused.value.remedy) == ("too-little-left", "Get more of B before this cup is begun.")


def test_parts_that_a_cup_has_not_and_masses_below_nothing_are_refused() -> None:
    mix = planned(1.0, 0.0, 200.0, 0.02, 0.1)
    for in_g in ({POWDER: 3.0}, {A: -1.0}, {A: float("nan")}):
        with pytest.raises(InputRefused):
            corrected(mix, in_g, 0.1)


@given(st.floats(10.0, 300.0), st.floats(100.0, 900.0), st.floats(20.0, 200.0))
def test_the_heaviest_cup_leaves_time_for_what_is_used(used_g: float, cup_g: float, stated_g: float) -> None:
    """`used hand <= (f t_pot - t_mix) share` holds up to it, and fails a little beyond, unless the cup is full."""
    clock = CupClock(900.0, 60.0, TaskKind.POUR, 1.0, stated_g)
    most = CupLimit(cup_g, cup_g, clock).holds_g(used_g)
    if used_g * clock.hand_s_per_g <= clock.left_s(used_g) and used_g <= cup_g:
        assert used_g * clock.hand_s_per_g <= clock.left_s(most) + 1e-6
    if most < max(cup_g, used_g) - 1e-6:
        assert used_g * clock.hand_s_per_g > clock.left_s(most * 1.001 + 1e-3)


def test_a_part_far_over_before_anything_reacts_is_not_told_to_get_hot() -> None:
    """A hundred times the powder in A alone asks for a hundred cups; nothing in it reacts."""
    mix = planned(1.0, 1.0, 90.0, 0.05, 0.1)
    with pytest.raises(NoSafePlan) as refused:
        corrected(mix, {A: 30.0, POWDER: 3000.0}, 0.1)
    assert refused.value.code == "cup-overfull"
    assert "react" in refused.value.remedy
    assert "hot" not in refused.value.remedy
