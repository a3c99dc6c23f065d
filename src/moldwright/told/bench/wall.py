"""The wall beside the step: which of its layers is built, in hand, to come."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.bench.acts import Act
from moldwright.bench.now import ActNow, ActState
from moldwright.bench.run import RunState
from moldwright.plan.mixes import MixKind
from moldwright.plan.steps import EACH_CAST, StepPlan
from moldwright.records.runs.next_act import FINISHED
from moldwright.told.bench.screen_words import ScreenWords
from moldwright.told.bench.view import WallState
from moldwright.told.bench.view_step import LayerState

BUILT, IN_HAND, TO_COME = "built", "in-hand", "to-come"


def wall_state(words: ScreenWords, state: RunState, act: ActNow) -> WallState:
    """How far the wall is that stands behind an act's step.

    Parameters
    ----------
    words : of the plan.
    state : of the run.
    act : in hand.
    """
    place = words.places[act.act.step].place
    now = {each.act: each.state for each in state.acts if each.act.turn in (0, act.act.turn)}
    layers = tuple(
        _layer(words, now, act, (place.wall, n), n < place.layer, n == place.layer)
        for n in range(len(words.walls[place.wall]))
    )
    return WallState(place.wall, layers)


def _layer(
    words: ScreenWords, now: dict[Act, ActState], act: ActNow, place: tuple[str, int], below: bool, here: bool
) -> LayerState:
    steps = words.alike.get(place, ())
    packing = _packing(words, now, act, steps)
    if not here:
        return LayerState(BUILT if below else TO_COME, 1.0 if below else 0.0, packing)
    done = [_done(now, act, step) for step in steps]
    return LayerState(IN_HAND, sum(done) / len(done) if done else 0.0, packing)


def _packing(words: ScreenWords, now: dict[Act, ActState], act: ActNow, steps: Iterable[StepPlan]) -> str:
    """How far what is packed behind a coat is; "" where nothing is."""
    packs = [step for step in steps if any(words.kind_of(mix) is MixKind.FILL for mix in step.mixes)]
    if not packs:
        return ""
    if all(_done(now, act, step) for step in packs):
        return BUILT
    return IN_HAND if any(step.id == act.act.step for step in packs) else TO_COME


def _done(now: dict[Act, ActState], act: ActNow, step: StepPlan) -> bool:
    turn = act.act.turn if step.per in EACH_CAST else 0
    return now.get(Act(step.id, turn)) in FINISHED
