"""A lot's whole story: run by run, cup by cup, to who has the pieces; and back again."""

from __future__ import annotations

from dataclasses import replace

from lots_by_hand import BASE, PARTNER, TODAY, bench, ms, receipt, received, weighed
from shelf_plan import RESIN, plan

from moldwright.log.any_events import Undone
from moldwright.log.edition_events import PieceState
from moldwright.log.event import About, Event
from moldwright.log.ids import LotId, MoldId, RunId, SubjectId
from moldwright.log.run_events import CupRef, Gelled, Mishap, MoldRegistered, Poured, Problem, Started
from moldwright.plan.ids import MixId
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.mixes import PartKind
from moldwright.records.clock import BenchClock
from moldwright.records.editions.numbers import CastTold, give_number
from moldwright.records.editions.open import open_edition
from moldwright.records.editions.pieces import move_piece
from moldwright.records.shop import Shop
from moldwright.records.stock.story import lot_story, lots_in

MOLD = MoldId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c070001"))
MAKING, LATER = (RunId(SubjectId(f"017f22e2-79b0-7cc3-98c4-dc0c0c07000{n}")) for n in (2, 3))
COAT = CupRef(MixId("coat-1.cup-1"))


def skin(turn: int) -> CupRef:
    return CupRef(MixId("skin.cup-1"), turn)


def of_run(clock: BenchClock, run: RunId, body: object, day: str = "2026-03-01") -> Event:
    return clock.event(About.RUN, run, body, ms(day))  # type: ignore[arg-type]


def shop_with_a_mold_and_casts(shop: Shop) -> tuple[LotId, LotId]:
    """A lot of rubber in the mold, one of resin in casts 1 and 2 of its run and in cast 1 of a later one."""
    clock = bench()
    kept = shop.keep_plan(plan_to_json(plan()))
    rubber, resin = received(shop, clock, receipt(BASE)), received(shop, clock, receipt(RESIN, 5000.0))
    shop.append(
        [
            of_run(clock, MAKING, Started(kept, "otter", 2)),
            weighed(clock, rubber, 150.0, ms("2026-03-02", 9), MAKING, COAT),
            weighed(clock, rubber, 20.0, ms("2026-03-02", 10), MAKING, COAT),
            of_run(clock, MAKING, Poured(COAT), "2026-03-03"),
            of_run(clock, MAKING, MoldRegistered(MOLD), "2026-03-05"),
            weighed(clock, resin, 180.0, ms("2026-03-06"), MAKING, skin(1)),
            of_run(clock, MAKING, Poured(skin(1)), "2026-03-07"),
            of_run(clock, MAKING, Problem(Mishap.FOAMED, "a spoonful", turn=1), "2026-03-07"),
            weighed(clock, resin, 181.0, ms("2026-03-08"), MAKING, skin(2)),
            of_run(clock, MAKING, Gelled(skin(2)), "2026-03-08"),
            of_run(clock, LATER, Started(kept, "otter again", 3, mold=MOLD), "2026-06-01"),
            weighed(clock, resin, 182.0, ms("2026-06-02"), LATER, skin(1)),
        ]
    )
    return rubber, resin


def numbered(shop: Shop) -> None:
    """Otter 1 is cast 1 of the first run, sold; otter 2 is cast 1 of the later one; otter 3 is of another run."""
    clock = bench("office", "2026-07-01")
    edition = open_edition(shop, clock, "otter", 9)
    first = give_number(shop, clock, edition.id, cast=CastTold(MAKING, 1))
    give_number(shop, clock, edition.id, cast=CastTold(LATER, 1))
    give_number(shop, clock, edition.id)
    move_piece(shop, clock, edition.id, first.id, PieceState.SOLD, "the museum", "2026-08-01")


def test_what_a_lot_of_resin_went_into(shop: Shop) -> None:
    _, resin = shop_with_a_mold_and_casts(shop)
    numbered(shop)
    story = lot_story(shop, resin, TODAY)
    told = [(use.run, use.cup.turn, use.mass_g, use.poured, use.gelled, use.unpoured) for use in story.uses]
    assert told == [
        (MAKING, 1, 180.0, True, False, False),
        (MAKING, 2, 181.0, False, True, False),
        (LATER, 1, 182.0, False, False, True),
    ]
    assert [[problem.what for problem in use.problems] for use in story.uses] == [[Mishap.FOAMED], [], []]
    assert story.unpoured == story.uses[2:]
    assert story.molds == ()
    pieces = [(made.piece.number, made.piece.state, made.piece.whom, made.drawn) for made in story.pieces]
    assert pieces == [(1, PieceState.SOLD, "the museum", False), (2, PieceState.KEPT, "", False)]


def test_what_a_lot_of_rubber_went_into_and_what_was_drawn_from_its_mold(shop: Shop) -> None:
    """150 + 20 g in one cup are 170 g; both runs that cast from the mold count."""
    rubber, _ = shop_with_a_mold_and_casts(shop)
    numbered(shop)
    story = lot_story(shop, rubber, TODAY)
    assert [(use.cup, use.part, use.mass_g, use.mold) for use in story.uses] == [(COAT, PartKind.A, 170.0, MOLD)]
    assert story.molds == (MOLD,)
    assert [(made.piece.number, made.drawn) for made in story.pieces] == [(1, True), (2, True)]


def test_a_weighing_that_names_a_lot_of_another_material_is_found(shop: Shop) -> None:
    clock = bench()
    kept = shop.keep_plan(plan_to_json(plan()))
    wrong = received(shop, clock, receipt(PARTNER))
    shop.append(
        [of_run(clock, MAKING, Started(kept, "otter", 1)), weighed(clock, wrong, 50.0, ms("2026-03-02"), MAKING)]
    )
    story = lot_story(shop, wrong, TODAY)
    assert [use.right for use in story.uses] == [False]
    assert story.wrong == story.uses
    assert story.shelf.left.amount == 950.0


def test_of_a_cup_that_no_plan_knows_nothing_is_said(shop: Shop) -> None:
    clock = bench()
    mix = replace(plan().mixes[0], id=MixId("coat-9.cup-1"))
    kept = shop.keep_plan(plan_to_json(replace(plan(), mixes=(mix,))))
    lot = received(shop, clock)
    shop.append([of_run(clock, MAKING, Started(kept, "otter", 1)), weighed(clock, lot, 50.0, ms("2026-03-02"), MAKING)])
    assert [use.right for use in lot_story(shop, lot, TODAY).uses] == [None]


def test_the_lots_in_a_cast_and_in_a_mold(shop: Shop) -> None:
    rubber, resin = shop_with_a_mold_and_casts(shop)
    assert [(use.lot, use.mass_g) for use in lots_in(shop, MAKING, 1)] == [(resin, 180.0)]
    assert [(use.lot, use.mass_g) for use in lots_in(shop, MAKING, 0)] == [(rubber, 170.0)]
    assert lots_in(shop, MAKING, 7) == ()
    line = bench("tablet 2").event(About.RUN, MAKING, Undone(shop.events_of(MAKING)[1].id))
    shop.append([line])
    assert [(use.lot, use.mass_g) for use in lots_in(shop, MAKING, 0)] == [(rubber, 20.0)]
