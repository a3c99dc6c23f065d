"""Editions on both engines: numbers by hand, moves, what is refused; nothing half written."""

from __future__ import annotations

import random
from collections.abc import Callable

import pytest
from sqlalchemy import select

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.any_events import Undone
from moldwright.log.codes import short_code, urn_of
from moldwright.log.edition_events import EditionResized, NumberGiven, PieceState, Series
from moldwright.log.event import About
from moldwright.log.ids import EditionId, PlanId, RunId, SubjectId
from moldwright.log.run_events import Done, Started
from moldwright.plan.ids import StepId
from moldwright.records.clock import BenchClock
from moldwright.records.editions.edition import edition_of
from moldwright.records.editions.numbers import CastTold, give_number, void_number
from moldwright.records.editions.open import open_edition, resize_edition
from moldwright.records.editions.pieces import certificate_made, move_piece, strike_move
from moldwright.records.editions.read import edition, edition_meant, editions, piece_meant
from moldwright.records.shop import Shop
from moldwright.records.store.tables import NUMBER

CLOCK = BenchClock("bench 1", "by hand")


def otter(shop: Shop, size: int = 4, proofs: int = 1) -> EditionId:
    return open_edition(shop, CLOCK, "otter", size, proofs, "cold-cast bronze").id


def a_run(shop: Shop, casts: int = 3) -> RunId:
    run = RunId(SubjectId(CLOCK.new_id()))
    shop.append([CLOCK.event(About.RUN, run, Started(PlanId("0" * 64), "otter", casts))])
    return run


def rows(shop: Shop) -> int:
    with shop.reading() as connection:
        return len(connection.execute(select(NUMBER)).all())


def refused(code: str, act: Callable[[], object]) -> RecordConflict | InputRefused:
    with pytest.raises((RecordConflict, InputRefused)) as found:
        act()
    assert found.value.code == code
    return found.value


def test_the_next_free_number_passes_over_what_was_chosen(shop: Shop) -> None:
    id_ = otter(shop)
    chosen = give_number(shop, CLOCK, id_, number=2)
    got = [give_number(shop, CLOCK, id_).number for _ in range(3)]
    assert (chosen.number, got) == (2, [1, 3, 4])
    assert give_number(shop, CLOCK, id_, Series.PROOF).number == 1
    found = edition(shop, id_)
    assert (found.left(Series.NUMBERED), found.left(Series.PROOF)) == (0, 0)
    assert [(p.series, p.number) for p in found.pieces][-1] == (Series.PROOF, 1)
    refused("edition-full", lambda: give_number(shop, CLOCK, id_))
    assert rows(shop) == 5


def test_a_number_that_is_given_tells_to_whom_and_which_is_free(shop: Shop) -> None:
    id_ = otter(shop)
    piece = give_number(shop, CLOCK, id_)
    told = refused("number-given", lambda: give_number(shop, CLOCK, id_, number=1))
    assert short_code(piece.id) in str(told.actual)
    assert "2" in told.remedy
    for outside in (0, 5, -1):
        refused("number-outside", lambda n=outside: give_number(shop, CLOCK, id_, number=n))  # type: ignore[misc]
    refused("number-outside", lambda: give_number(shop, CLOCK, id_, Series.PROOF, 2))
    assert len(edition(shop, id_).pieces) == rows(shop) == 1


def test_a_number_that_is_struck_out_stays_spent_and_frees_its_cast(shop: Shop) -> None:
    id_, run = otter(shop), a_run(shop)
    first = give_number(shop, CLOCK, id_, cast=CastTold(run, 1))
    void_number(shop, CLOCK, id_, first.id, "the wrong cast")
    again = give_number(shop, CLOCK, id_, cast=CastTold(run, 1))
    assert again.number == 2
    refused("number-given", lambda: give_number(shop, CLOCK, id_, number=1))
    refused("piece-void", lambda: move_piece(shop, CLOCK, id_, first.id, PieceState.SOLD))
    refused("piece-void", lambda: void_number(shop, CLOCK, id_, first.id))
    found = edition(shop, id_)
    assert [piece.void for piece in found.pieces] == [True, False]
    assert (found.left(Series.NUMBERED), found.counted(PieceState.KEPT)) == (2, 1)


def test_a_cast_has_one_number_in_all_editions_together(shop: Shop) -> None:
    run = a_run(shop, casts=2)
    id_, other = otter(shop), open_edition(shop, CLOCK, "otter, small", 3).id
    give_number(shop, CLOCK, id_, cast=CastTold(run, 2))
    refused("cast-numbered", lambda: give_number(shop, CLOCK, other, cast=CastTold(run, 2)))
    refused("cast-unknown", lambda: give_number(shop, CLOCK, id_, cast=CastTold(run, 3)))
    refused("cast-unknown", lambda: give_number(shop, CLOCK, id_, cast=CastTold(run, 0)))
    nowhere = RunId(SubjectId(CLOCK.new_id()))
    refused("cast-unknown", lambda: give_number(shop, CLOCK, id_, cast=CastTold(nowhere, 1)))
    shop.append([CLOCK.event(About.RUN, run, Done(StepId("demold"), turn=3))])
    assert give_number(shop, CLOCK, other, cast=CastTold(run, 3)).number == 1


def test_an_edition_shrinks_and_never_grows_once_a_number_is_given(shop: Shop) -> None:
    id_ = otter(shop)
    assert resize_edition(shop, CLOCK, id_, 9, 2).size == 9
    give_number(shop, CLOCK, id_, number=3)
    refused("edition-grows", lambda: resize_edition(shop, CLOCK, id_, 10))
    refused("edition-grows", lambda: resize_edition(shop, CLOCK, id_, 9, 3))
    refused("edition-cut", lambda: resize_edition(shop, CLOCK, id_, 2))
    small = resize_edition(shop, CLOCK, id_, 3, 0, "the original broke")
    assert (small.size, small.proofs, small.left(Series.NUMBERED)) == (3, 0, 2)
    refused("number-outside", lambda: give_number(shop, CLOCK, id_, number=4))
    give_number(shop, CLOCK, id_)
    told = [(piece.number, piece.of) for piece in edition(shop, id_).pieces]
    assert told == [(1, 3), (3, 9)], "each is of as many as there were when it was cut"


def test_lines_through_an_opening_or_a_smaller_size_change_no_edition_that_has_numbers(shop: Shop) -> None:
    id_ = otter(shop)
    resize_edition(shop, CLOCK, id_, 3)
    give_number(shop, CLOCK, id_)
    found = edition(shop, id_)
    lines = [Undone(event.id) for event in shop.events_of(id_) if not isinstance(event.body, NumberGiven)]
    shop.append([CLOCK.event(About.EDITION, id_, line) for line in lines])
    assert len(lines) == 2
    assert edition(shop, id_) == found
    empty = open_edition(shop, CLOCK, "hare", 3).id
    shop.append([CLOCK.event(About.EDITION, empty, Undone(shop.events_of(empty)[0].id))])
    assert [each.name for each in editions(shop)] == ["otter"]


def test_an_edition_is_in_order_though_a_bench_s_clock_was_set_back(shop: Shop) -> None:
    id_ = otter(shop)
    late = BenchClock("bench 2", now=lambda: 5)
    resize_edition(shop, late, id_, 3)
    resize_edition(shop, late, id_, 2)
    piece = give_number(shop, late, id_).id
    for state in (PieceState.RESERVED, PieceState.SOLD):
        move_piece(shop, late, id_, piece, state, on="2026-01-02")
    assert edition(shop, id_).size == 2
    assert edition(shop, id_).pieces[0].state is PieceState.SOLD
    mixed = [*shop.events_of(id_)] * 2
    random.Random(3).shuffle(mixed)
    assert edition_of(mixed) == edition(shop, id_)
    assert sum(isinstance(event.body, EditionResized) for event in shop.events_of(id_)) == 2


def test_where_a_piece_goes_and_what_cannot_be(shop: Shop) -> None:
    id_ = otter(shop)
    piece = give_number(shop, CLOCK, id_).id

    def go(state: PieceState, whom: str = "") -> PieceState:
        move_piece(shop, CLOCK, id_, piece, state, whom, "2026-03-31")
        return edition(shop, id_).pieces[0].state

    refused("piece-elsewhere", lambda: go(PieceState.KEPT))
    assert go(PieceState.RESERVED, "a friend") is PieceState.RESERVED
    refused("piece-elsewhere", lambda: go(PieceState.RESERVED, "another"))
    assert go(PieceState.SOLD, "a friend") is PieceState.SOLD
    told = refused("piece-elsewhere", lambda: go(PieceState.SOLD))
    assert told.actual == "sold, a friend since 2026-03-31"
    strike_move(shop, CLOCK, id_, piece)
    assert edition(shop, id_).pieces[0].state is PieceState.RESERVED
    assert go(PieceState.BROKEN) is PieceState.BROKEN
    refused("piece-elsewhere", lambda: go(PieceState.SOLD))
    assert go(PieceState.KEPT) is PieceState.KEPT
    for _ in range(3):
        strike_move(shop, CLOCK, id_, piece)
    refused("piece-unmoved", lambda: strike_move(shop, CLOCK, id_, piece))
    refused("day-unclear", lambda: move_piece(shop, CLOCK, id_, piece, PieceState.SOLD, on="31.3.2026"))
    assert edition(shop, id_).pieces[0].whom == ""


def test_a_certificate_is_written_down(shop: Shop) -> None:
    id_ = otter(shop)
    piece = give_number(shop, CLOCK, id_).id
    certificate_made(shop, CLOCK, id_, piece)
    assert len(edition(shop, id_).pieces[0].certificates_ms) == 1


def test_names_and_sizes_that_are_refused(shop: Shop) -> None:
    otter(shop)
    refused("edition-named", lambda: open_edition(shop, CLOCK, " Otter ", 3))
    for size, proofs in ((0, 0), (-1, 3), (100_001, 0)):
        refused("edition-size", lambda s=size, p=proofs: open_edition(shop, CLOCK, "x", s, p))  # type: ignore[misc]
    for name in ("", "two\nlines", "\x1b[31m", "x" * 201):
        refused("text-unusable", lambda n=name: open_edition(shop, CLOCK, n, 3))  # type: ignore[misc]
    assert [each.name for each in editions(shop)] == ["otter"]


def test_what_a_person_types_for_an_edition_and_a_piece(shop: Shop) -> None:
    id_ = otter(shop)
    seven = give_number(shop, CLOCK, id_, number=3)
    proof = give_number(shop, CLOCK, id_, Series.PROOF)
    for written in ("Otter", " otter", id_, short_code(id_)):
        assert edition_meant(shop, written).id == id_
    for written in ("otter 3", "OTTER 3/4", seven.id, urn_of(seven.id), short_code(seven.id).lower()):
        assert piece_meant(shop, written)[1].id == seven.id
    assert piece_meant(shop, "otter proof 1")[1].id == proof.id
    for written in ("otter 2", "otter proof 2", "", "%", "3"):
        refused("not-kept", lambda w=written: piece_meant(shop, w))  # type: ignore[misc]
