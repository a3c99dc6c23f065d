"""Which lot to take, which belong together, and what a lot may be of."""

from __future__ import annotations

import pytest
from lots_by_hand import BASE, PARTNER, TODAY, bench, ms, receipt, received, weighed
from shelf_plan import plan

from moldwright.errors import InputRefused
from moldwright.log.ids import LotId
from moldwright.log.lot_events import LotOpened, LotRecalled, LotReceived, Stuff
from moldwright.materials import library
from moldwright.plan.needs import NeedUnit
from moldwright.records.shop import Shop
from moldwright.records.stock.catalog import material, offers
from moldwright.records.stock.choose import Pick, in_turn, partner, take
from moldwright.records.stock.keep import write
from moldwright.records.stock.shelf import OnShelf, on_shelf


def shelf_of(shop: Shop, *lots: LotReceived) -> tuple[list[LotId], tuple[OnShelf, ...]]:
    clock = bench()
    ids = [received(shop, clock, lot) for lot in lots]
    return ids, on_shelf(shop, TODAY)


def test_the_first_to_expire_is_taken_first_and_the_next_one_is_opened_for_the_rest(shop: Shop) -> None:
    """120 g of a cup of 200 g are in the open lot that keeps to December, 80 g come of the sealed one after it."""
    ids, _ = shelf_of(
        shop,
        receipt(amount=500.0),
        receipt(amount=500.0, expires="2027-03-01"),
        receipt(amount=400.0, expires="2026-12-24"),
        receipt(amount=900.0, expires="2026-11-26"),
    )
    clock = bench()
    write(shop, clock, ids[2], LotOpened("2026-11-01"), TODAY)
    shop.append([weighed(clock, ids[2], 280.0, ms("2026-11-02"))])
    shelves = on_shelf(shop, TODAY)
    assert [shelf.lot.id for shelf in in_turn(shelves)] == [ids[2], ids[1], ids[0]]
    found = take(shelves, 200.0)
    assert found.picks == (Pick(ids[2], 120.0, opens=False), Pick(ids[1], 80.0, opens=True))
    assert found.short == 0.0


def test_what_no_lot_holds_is_short_and_a_recalled_lot_is_never_taken(shop: Shop) -> None:
    """300 g are there, 100 g recalled: of 500 g 200 g are short."""
    ids, _ = shelf_of(shop, receipt(amount=300.0), receipt(amount=100.0))
    write(shop, bench(), ids[1], LotRecalled("sticky"), TODAY)
    found = take(on_shelf(shop, TODAY), 500.0)
    assert ([pick.lot for pick in found.picks], found.short) == ([ids[0]], 200.0)


def test_an_opened_lot_goes_before_a_sealed_one_of_the_same_day_and_an_older_before_a_newer(shop: Shop) -> None:
    ids, _ = shelf_of(shop, receipt(on="2026-02-01"), receipt(on="2026-01-15"), receipt(on="2026-03-01"))
    write(shop, bench(), ids[2], LotOpened("2026-11-01"), TODAY)
    assert [shelf.lot.id for shelf in in_turn(on_shelf(shop, TODAY))] == [ids[2], ids[1], ids[0]]


def test_a_and_b_of_one_kit_are_known_by_their_number(shop: Shop) -> None:
    ids, shelves = shelf_of(
        shop, receipt(BASE, number="4711-A"), receipt(PARTNER, number="4710-B"), receipt(PARTNER, number="4711-B")
    )
    by_id = {shelf.lot.id: shelf for shelf in shelves}
    others = [by_id[ids[1]], by_id[ids[2]]]
    found = partner(by_id[ids[0]], others)
    assert found is not None
    assert found.lot.id == ids[2]
    (unnumbered,), every = shelf_of(shop, receipt(BASE))
    assert partner(next(shelf for shelf in every if shelf.lot.id == unnumbered), others) is None


@pytest.mark.parametrize(
    ("written", "id_", "unit"),
    [
        ("urethane-standard-b", "urethane-standard-b", NeedUnit.GRAM),
        ("Bronze", "bronze", NeedUnit.GRAM),
        ("consumable clay", "clay", NeedUnit.GRAM),
        ("plaster bandage", "plaster-bandage", NeedUnit.EACH),
        ("vinyl-gloves", "vinyl-gloves", NeedUnit.PAIR),
        ("standard casting urethane, part A", "urethane-standard-a", NeedUnit.GRAM),
        ("tint black", "tint-black", NeedUnit.GRAM),
    ],
)
def test_a_material_is_meant_by_id_kind_or_name(written: str, id_: str, unit: NeedUnit) -> None:
    found = material(written, offers(library()))
    assert (found.stuff.id, found.unit) == (id_, unit)


def test_every_part_of_a_plans_cups_is_a_material_of_its_list_and_known_to_the_shelf() -> None:
    """What is weighed is taken from a row of the list, and a lot may be of it."""
    known = {offer.stuff.key for offer in offers(library(), plan().needs, [Stuff("", "own")])}
    assert {part.stuff for mix in plan().mixes for part in mix.parts} <= known
    assert Stuff("", "own").key in known


@pytest.mark.parametrize(("written", "code"), [("", "unknown"), ("silicone", "several"), ("unobtainium", "unknown")])
def test_what_is_no_material_or_several_is_refused(written: str, code: str) -> None:
    with pytest.raises(InputRefused, match=code):
        material(written, offers(library()))
