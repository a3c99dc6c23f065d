"""A fold that keeps what states have in common tells what one that keeps nothing tells, whatever was folded before."""

from __future__ import annotations

from itertools import count
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bench_plans import A, B, Book, at, bench_plan, coat_cup, skin_cup

from moldwright.bench.cup_alone import CupAlone
from moldwright.bench.run import RunFold, run_state
from moldwright.log.any_events import Undone
from moldwright.log.event import Body
from moldwright.log.ids import PlanId
from moldwright.log.run_events import (
    Begun,
    CupRef,
    CupTemperature,
    Divided,
    Done,
    Ended,
    Gelled,
    LeftOut,
    Poured,
    Replanned,
    ShopAir,
    Weighed,
    WentOn,
)
from moldwright.plan.plan import Plan

PLANS = {casts: bench_plan(casts) for casts in (1, 3)}


def some_body(plan: Plan, book: Book, chance: Random) -> Body:
    """Anything that may be written, sensible or not."""
    step, turn = chance.choice(plan.steps).id, chance.choice([0, 0, 1, 2, 3])
    cup = chance.choice([coat_cup(), coat_cup(2), skin_cup(1), skin_cup(2), CupRef(plan.mixes[2].id, 1)])
    mass = chance.choice([10.0, 50.0, 100.0, 108.0, 150.0, 400.0])
    makers = (
        lambda: Begun(step, turn),
        lambda: Done(step, turn),
        lambda: Done(step, turn, timed=False),
        lambda: LeftOut(step, "not now", turn),
        lambda: Weighed(cup, chance.choice([A, B]), mass, mass * chance.choice([1.0, 1.0, 1.1])),
        lambda: Weighed(cup, chance.choice([A, B]), mass, mass, mass + 3.0),
        lambda: Poured(cup),
        lambda: Gelled(cup, chance.choice([0.0, 0.4])),
        lambda: Divided(cup, (2,)),
        lambda: WentOn(cup),
        lambda: CupTemperature(cup, chance.choice([18.0, 30.0])),
        lambda: ShopAir(chance.choice([17.0, 24.0, 31.0]), 70.0),
        lambda: Undone(chance.choice(book.events).id),
        lambda: Replanned(PlanId("b" * 64)),
        lambda: Ended("enough"),
    )
    weights = [6, 8, 1, 2, 10, 3, 4, 2, 1, 1, 2, 2, 4, 1, 1]
    return chance.choices(makers, weights)[0]()


@settings(max_examples=40, deadline=None)
@given(st.randoms(use_true_random=False), st.sampled_from([1, 3]), st.integers(1, 45))
def test_a_kept_fold_tells_the_same_as_a_new_one(chance: Random, casts: int, entries: int) -> None:
    plan, minute = PLANS[casts], 0.0
    fold, books = RunFold(plan), [Book(casts), Book(casts)]
    books[1].ids = count(100_000)
    for _ in range(entries):
        book = chance.choice(books)
        minute += chance.choice([0.0, 0.2, 5.0, 70.0])
        book.write(minute, some_body(plan, book, chance))
        now = at(minute + chance.choice([0.0, 1.0, 200.0]))
        assert fold.state(book.events, now) == run_state(plan, book.events, now)


@settings(max_examples=25, deadline=None)
@given(st.randoms(use_true_random=False), st.integers(0, 25), st.floats(0.5, 300.0))
def test_a_cup_by_itself_stands_as_in_its_run(chance: Random, entries: int, mass_g: float) -> None:
    plan, book = PLANS[3], Book(3)
    for minute in range(entries):
        book.write(float(minute), some_body(plan, book, chance))
    now = at(entries + 1.0)
    cups = [cup for cup in run_state(plan, book.events, now).cups if not cup.settled]
    if not cups:
        return
    ref = chance.choice(cups).ref
    alone = CupAlone(RunFold(plan), book.events, ref, now)
    event = book.write(entries + 0.5, Weighed(ref, A, mass_g, mass_g))
    assert alone.after([event]) == run_state(plan, book.events, now).cup(ref)
