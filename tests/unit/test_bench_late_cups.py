"""What to do with a cup that is late or whose parts went in out of their order."""

from __future__ import annotations

import pytest
from tests.bench_plans import MIXES, POWDER, A, B, Book, at, bench_plan, skin_cup

from moldwright.bench.run import run_state
from moldwright.bench.what_now import WhatNow, before_the_starter, what_now
from moldwright.log.event import Body
from moldwright.log.run_events import Gelled, Poured, Weighed
from moldwright.plan.mixes import PartKind
from moldwright.sheets.bench_tell import cup_clock
from moldwright.sheets.bench_words import BenchWords

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


def test_the_parts_before_the_starter() -> None:
    assert before_the_starter(MIXES[1]) == {POWDER}
    assert before_the_starter(MIXES[2]) == frozenset()


def test_a_cup_past_its_pot_life_is_let_set_with_the_caution_for_what_gets_hot() -> None:
    """Both parts are in at minute 2; out by 140 s, pot life 240 s: at 141 s it is felt, at 270 s 0:30 past it."""
    book = Book(casts=1)
    for n, kind in enumerate((A, POWDER, B)):
        book.write(n, Weighed(skin_cup(1), kind, MASS[kind], MASS[kind]))
    for seconds, says, hot in ((141.0, "Feel it", False), (270.0, "past its pot life by 0:30", True)):
        now = at(2.0 + seconds / 60.0)
        cup = run_state(bench_plan(), book.events, now).cup(skin_cup(1))
        assert cup is not None
        line = cup_clock(BenchWords(bench_plan()), cup, now)
        assert says in line
        assert ("gets hot" in line) is hot


def test_one_part_alone_does_not_react() -> None:
    for kinds, reacts in (((A,), False), ((A, POWDER), False), ((A, B), True)):
        book = Book(casts=1)
        for n, kind in enumerate(kinds):
            book.write(n, Weighed(skin_cup(1), kind, MASS[kind], MASS[kind]))
        cup = run_state(bench_plan(), book.events, at(5.0)).cup(skin_cup(1))
        assert cup is not None
        assert cup.reacts is reacts
