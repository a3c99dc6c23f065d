"""A shop for tests at the pages of molds, editions and a piece's records, written into the desk's own store."""

from __future__ import annotations

import sys
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from tests.browser.desk_process import DeskProcess

from moldwright.log.edition_events import PieceState, Series
from moldwright.log.event import About, Body
from moldwright.log.ids import EditionId, MoldId, NumberedId, PieceId, RunId
from moldwright.log.mold_events import MoldState
from moldwright.log.run_events import CastMeasured, Done, Mishap, Problem, Weighed
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per
from moldwright.records.clock import BenchClock
from moldwright.records.editions.numbers import CastTold, give_number, void_number
from moldwright.records.editions.open import open_edition
from moldwright.records.editions.pieces import move_piece
from moldwright.records.molds import write
from moldwright.records.pieces.write import planned, take_in
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop, open_shop

sys.path.insert(0, str(Path(__file__).parents[1]))
from bench_plans import COAT_CUP, A, B, bench_plan

from moldwright.log.run_events import CupRef

DAY_MS = 86_400_000
COMMISSION = '[original]\ndisplaced = "1.2 l"\nheight = "200 mm"\nname = "Otter"\n[edition]\ncount = 24\n'


@dataclass(frozen=True, slots=True)
class Scene:
    """What was written: codes lead to its pages."""

    piece: PieceId
    run: RunId
    mold: MoldId
    edition: EditionId


def scene(desk: DeskProcess, plan: Plan | None = None, size: int = 300) -> Scene:
    """A piece that is planned, a run of it with two casts, its mold and two more, an edition with pieces everywhere."""
    with closing(open_shop(str(desk.home / "shop.db"))) as shop:
        return in_shop(shop, plan or bench_plan(4), size)


def in_shop(shop: Shop, plan: Plan, size: int) -> Scene:
    """The same in an open store."""
    past = [BenchClock("tablet").now() - 40 * DAY_MS]
    clock = BenchClock("tablet", "Maren", now=lambda: past[0])
    piece = take_in(shop, clock, COMMISSION, {}, "Otter on a stone")
    edition = open_edition(shop, clock, "Otter on a stone", size, 3, "bronze powder in resin").id
    text = plan_to_json(plan)
    planned(shop, clock, piece, text, "0")
    run = start_run(shop, clock, text, 4, edition=edition)
    mold = _cast(shop, clock, run.id, plan, past)
    _numbered(shop, clock, edition, run.id, size)
    _older(shop, clock)
    return Scene(piece, run.id, mold, edition)


def _cast(shop: Shop, clock: BenchClock, run: RunId, plan: Plan, past: list[int]) -> MoldId:
    def wrote(*bodies: Body) -> None:
        for body in bodies:
            past[0] += 3_600_000
            shop.append([clock.event(About.RUN, run, body)])

    cup = next(mix for mix in plan.mixes if mix.id == COAT_CUP or mix.for_.coat is not None)
    wrote(*[Weighed(CupRef(cup.id), kind, 100.0, 100.0) for kind in (B, A)])
    wrote(*[Done(step.id) for step in plan.steps if step.per is Per.MOLD])
    for turn in (1, 2):
        wrote(*[Done(step.id, turn) for step in plan.steps if step.per is Per.CAST])
    low = plan.cast.mass_g.low
    wrote(CastMeasured(1, plan.cast.mass_g.likely, plan.original.height_mm - 0.6), CastMeasured(2, 0.9 * low))
    wrote(Problem(Mishap.BUBBLES, "at the left ear", turn=2))
    return write.register_made(shop, clock, run, "Otter glove", "rack 2, left")


def _numbered(shop: Shop, clock: BenchClock, edition: EditionId, run: RunId, size: int) -> None:
    def give(number: int, state: PieceState | None = None, whom: str = "", turn: int = 0) -> NumberedId:
        cast = CastTold(run, turn) if turn else None
        piece = give_number(shop, clock, edition, Series.NUMBERED, number, cast)
        if state is not None:
            move_piece(shop, clock, edition, piece.id, state, whom)
        return piece.id

    give(1, turn=1)
    give(2, PieceState.SOLD, "a buyer")
    give(3, PieceState.RESERVED, "a friend of the shop")
    give(4, PieceState.BROKEN)
    void_number(shop, clock, edition, give(5), "cut twice")
    for number in range(6, min(size, 40)):
        give(number, PieceState.SOLD if number % 3 else None)
    give_number(shop, clock, edition, Series.PROOF)


def _older(shop: Shop, clock: BenchClock) -> None:
    leaf = write.register_older(shop, clock, "Alder leaf plaque", "addition-cure silicone", None, 9, 40, "drawer 5")
    write.look_over(shop, clock, leaf, MoldState.WORN, "thin along the stem")
    write.measure_shrink(shop, clock, leaf, 0.4)
    bracket = write.register_older(shop, clock, "Lantern bracket", "tin-cured silicone", None, 31, 30)
    write.look_over(shop, clock, bracket, MoldState.TORN, "at the hook")
