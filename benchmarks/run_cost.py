"""The state of a long run from its whole log: some 400 acts and 12,000 entries, a fourth of them the shop's air.

A bench folds the log anew whenever somebody presses something. CPU of this process, the best of five.
"""

from __future__ import annotations

import time
from itertools import cycle

from tests.bench_plans import Book, at, bench_plan

from benchmarks.report import line
from moldwright.bench.acts import PlannedAct, planned_acts
from moldwright.bench.run import run_state
from moldwright.log.any_events import Noted, Undone
from moldwright.log.run_events import Begun, CupRef, Done, Poured, ShopAir, Weighed

CASTS = 33
ENTRIES = 30
"""Entries of one act."""
LIMIT_S = 0.2


def run() -> bool:
    book, plan = long_log(), bench_plan(CASTS)
    acts = len(planned_acts(plan, CASTS))
    print(f"run: {acts} acts, {len(book.events):,} entries")
    return line("state of a run", min(_once(book) for _ in range(5)), LIMIT_S, "s")


def long_log() -> Book:
    """A run to its end; the parts are weighed up to 6 % off, every fiftieth act is struck out once."""
    book = Book(casts=CASTS)
    plan = bench_plan(CASTS)
    off = cycle((0.97, 1.0, 1.06, 1.0, 1.03))
    for n, act in enumerate(planned_acts(plan, CASTS)):
        begun = len(book.events)
        book.write(80.0 * n, Begun(act.act.step, act.act.turn))
        for mix in (plan.mix(id_) for id_ in act.step.mixes):
            cup = CupRef(mix.id, act.act.turn)
            for part in mix.parts:
                book.write(80.0 * n, Weighed(cup, part.kind, part.mass_g, part.mass_g * next(off)))
            book.write(80.0 * n + 2.0, Poured(cup))
        _beside(book, n, act, begun)
        book.write(80.0 * n + 20.0, Done(act.act.step, act.act.turn))
    return book


def _beside(book: Book, n: int, act: PlannedAct, begun: int) -> None:
    if n % 50 == 0:
        book.write(80.0 * n, Undone(book.events[-1].id))
    while len(book.events) < begun + ENTRIES - 1:
        k = len(book.events)
        told = ShopAir(18.0 + k % 83 / 10.0, 50.0) if k % 4 == 0 else Noted("seen", act.act.step, act.act.turn)
        book.write(80.0 * n + 5.0, told)


def _once(book: Book) -> float:
    begun = time.process_time()
    run_state(bench_plan(CASTS), book.events, at(80.0 * 400))
    return time.process_time() - begun
