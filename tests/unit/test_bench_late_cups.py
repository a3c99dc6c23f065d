"""What to do with a cup that is late or whose parts went in out of their order."""

from __future__ import annotations

import pytest
from tests.bench_plans import MIXES, POWDER, A, B, Book, at, bench_plan, skin_cup

from moldwright.bench.run import run_state
from moldwright.bench.what_now import HOT, WhatNow, before_the_starter, what_now
from moldwright.log.event import Body
from moldwright.log.run_events import Gelled, Poured, Weighed
from moldwright.plan.mixes import PartKind

MASS = {A: 50.0, POWDER: 150.0, B: 50.0}


def told(kinds: tuple[PartKind, ...], minute: float, *more: Body) -> WhatNow | None:
    """Parts are weighed at minutes 0, 1, 2; the skin must be on the work 140 s after they met, all done by 240 s."""
    book = Book(casts=1)
    for n, kind in enumerate(kinds):
        book.write(n, Weighed(skin_cup(1), kind, MASS[kind], MASS[kind]))
    for body in more:
        book.write(3.0, body)
    cup = run_state(bench_plan(), book.events, at(minute)).cup(skin_cup(1))
    assert cup is not None
    return what_now(cup, at(minute))


@pytest.mark.parametrize(
    ("kinds", "minute", "wanted"),
    [
        ((A, POWDER), 2.0, None),
        ((POWDER, A), 2.0, WhatNow.NOTHING_REACTS),
        ((B, POWDER), 2.0, WhatNow.NOTHING_REACTS),
        ((A, B), 1.5, WhatNow.REACTS),
        ((A, B, POWDER), 2.5, WhatNow.REACTS),
        ((A, POWDER, B), 3.0, None),
        ((A, POWDER, B), 2.0 + 141.0 / 60.0, WhatNow.FEEL),
        ((A, POWDER, B), 2.0 + 241.0 / 60.0, WhatNow.LET_SET),
    ],
)
def test_what_to_do_goes_by_what_reacts_and_by_the_clock(
    kinds: tuple[PartKind, ...], minute: float, wanted: WhatNow | None
) -> None:
    assert told(kinds, minute) is wanted


def test_a_cup_on_the_work_wants_nothing_and_a_gelled_one_another() -> None:
    assert told((A, POWDER, B), 30.0, Poured(skin_cup(1))) is None
    assert told((A, POWDER, B), 30.0, Gelled(skin_cup(1))) is WhatNow.ANEW
    assert told((A, POWDER, B), 30.0, Gelled(skin_cup(1), 1.0)) is None


def test_what_sets_in_its_cup_gets_hot() -> None:
    assert {WhatNow.LET_SET, WhatNow.ANEW} == HOT


def test_the_parts_before_the_starter() -> None:
    assert before_the_starter(MIXES[1]) == {POWDER}
    assert before_the_starter(MIXES[2]) == frozenset()
