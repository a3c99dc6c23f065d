"""The state of a long run from its whole log: some 400 acts and 12,000 entries, a fourth of them the shop's air.

A bench folds the log anew whenever somebody presses something. Then what a screen is told at a cup of the small plan,
as JSON: with every answer, and for going on without the server. CPU of this process, the best of five.
"""

from __future__ import annotations

import json
import time
from itertools import cycle

from tests.bench_plans import Book, at, bench_plan
from tests.screens import told

from benchmarks.report import line
from moldwright.bench.acts import PlannedAct, planned_acts
from moldwright.bench.run import run_state
from moldwright.log.any_events import Noted, Undone
from moldwright.log.run_events import Begun, CupRef, Done, Poured, ShopAir, Weighed
from moldwright.plan.json_text import tree_of

CASTS = 33
ENTRIES = 30
"""Entries of one act."""
LIMIT_S = 0.2
AHEAD = {(3, 1, 0): 0.2, (40, 4, 16): 0.8}
"""Presses told ahead, tables of too much and screens with what follows where the work turns aside, as
`web/pages/bench/api.py` asks for them, and what they may take [s]."""


def run() -> bool:
    book, plan = long_log(), bench_plan(CASTS)
    acts = len(planned_acts(plan, CASTS))
    print(f"run: {acts} acts, {len(book.events):,} entries")
    folded = line("state of a run", min(_once(book) for _ in range(5)), LIMIT_S, "s")
    return all([folded, *(_line_ahead(*each, limit_s) for each, limit_s in AHEAD.items())])


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


def _line_ahead(presses: int, tables: int, turns: int, limit_s: float) -> bool:
    costs = [_ahead(presses, tables, turns) for _ in range(5)]
    name = f"{presses} presses ahead, {tables} tables of too much, {turns} turns, {costs[0][1] / 1000:.0f} kB"
    return line(name, min(cost_s for cost_s, _ in costs), limit_s, "s")


def _ahead(presses: int, tables: int, turns: int) -> tuple[float, int]:
    """What it takes [s], and how long its JSON is."""
    book, plan = Book(2), bench_plan(2)
    for step in plan.steps[:2]:
        book.write(1.0, Done(step.id))
    begun = time.process_time()
    text = json.dumps(tree_of(told(plan, book.events, at(5000.0), presses=presses, overs=tables, turns=turns)))
    return time.process_time() - begun, len(text)
