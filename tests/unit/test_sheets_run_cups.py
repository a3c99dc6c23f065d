"""The mix cards of a run: readings, lots, new totals, clocks, cups that gelled; figures reckoned by hand."""

from __future__ import annotations

import re
from dataclasses import replace

from tests.run_on_paper import COAT, LOT_A, LOT_POWDER, Log, card_text, cup, printed, run_plan, weighed

from moldwright.log.run_events import CupTemperature, Divided, Gelled, Poured, ShopAir
from moldwright.plan.clocks import CurePlan, Curing
from moldwright.plan.mixes import MeasuredBy, PartKind
from moldwright.plan.plan import Plan
from moldwright.ranges import Range
from moldwright.sheets.run.data import run_data

A, B, PIGMENT = PartKind.A, PartKind.B, PartKind.PIGMENT


def test_a_cup_has_its_readings_lots_times_and_temperature() -> None:
    log = Log()
    weighed(log, 10)
    log.write(13, CupTemperature(COAT, 24.5))
    log.write(16, Poured(COAT))
    card = card_text(printed(log.shown(20, lots={LOT_A: "SB-2211"})))
    assert re.search(r"A 17\.3 g .*?17\.3 g 17\.4 SB-2211", card)
    assert re.search(r"18\.1 g 18\.3", card)
    assert re.search(r"B 17\.3 g .*?35\.4 g 35\.5", card)
    assert "Cup 1 began 08:12 left 08:16 mix 24.5 °C at 08:13, Jo" in card


def test_a_lot_without_a_name_is_told_by_its_code_and_two_of_one_part_both() -> None:
    log = Log()
    log.weigh(10, COAT, A, 10.0, lot=LOT_A)
    log.weigh(11, COAT, A, 7.3, lot=LOT_POWDER)
    row = card_text(printed(log.shown(12, lots={LOT_A: "SB-2211"})))
    assert "+17.3 g SB-2211, 4E5F-00C1" in row


def test_an_over_pour_has_new_totals_beside_the_planned_ones() -> None:
    """20.0 g of A instead of 17.3, one of A to one of B: 20.0 g of B, after 0.8 g of pigment to 40.8 g on the scale
    instead of 35.4 g."""
    log = Log()
    log.weigh(10, COAT, A, 20.0, reads_g=20.0)
    log.weigh(11, COAT, PIGMENT, 0.8, reads_g=20.8)
    card = card_text(printed(log.shown(12)))
    assert re.search(r"A 17\.3 g 20\.0 g .*?17\.3 20\.0 g 20\.0", card)
    assert re.search(r"B 17\.3 g 20\.0 g .*?35\.4 40\.8 g", card)
    data = run_data(log.shown(12), "a4")
    rows = next(table for page in data["mold"] for card in page["cards"] for table in card["cups"])["rows"]
    assert [(row["was_reads"], row["reads"]) for row in rows][2] == ("35.4", "40.8")


def test_a_cup_within_its_tolerance_keeps_its_totals_but_for_what_is_still_to_come() -> None:
    """0.1 g more of A and of pigment are in: B is poured to 17.4 + 0.9 + 17.3 = 35.6 g."""
    log = Log()
    log.weigh(10, COAT, A, 17.4, reads_g=17.4)
    log.weigh(11, COAT, PIGMENT, 0.9, reads_g=18.3)
    card = card_text(printed(log.shown(12)))
    assert re.search(r"A 17\.3 g 16", card)
    assert re.search(r"35\.4 35\.6 g", card)


def test_a_gelled_cup_is_struck_and_its_replacement_stands_below_it() -> None:
    """Two fifths are on the work, so three are left; of no less than the smallest batch that can be weighed, 23 of the
    cup's 37 g: A 17.3 x 23 / 37 = 10.8 g."""
    log = Log()
    weighed(log, 10)
    log.write(25, Gelled(COAT, 0.4))
    log.weigh(30, cup("coat-1.cup-1", 0, 2), A, 10.7, reads_g=10.7)
    data = run_data(log.shown(31), "a4")
    first, second, *_ = next(card for page in data["mold"] for card in page["cards"])["cups"]
    assert (first["gone"], second["gone"]) == (True, False)
    card = card_text(printed(log.shown(31)))
    assert "gelled 08:25, 40 % of it on the work" in card
    assert card.index("gelled 08:25") < card.index("Cup 1 again, for 60 %") < card.index("10.8 g 10.7")


def test_cups_alike_stand_in_one_table_until_one_is_weighed() -> None:
    log = Log()
    log.weigh(10, cup("coat-3.cup-2"), A, 21.9)
    text = " ".join(printed(log.shown(11)))
    assert "Cups 1 to 3, each" not in text
    assert "Cup 2 A" in text.replace("Add Scale reads It read Lot ", "")


def test_in_a_warm_shop_a_cup_must_be_out_sooner_and_in_a_cold_one_no_later() -> None:
    data = {c: run_data(_aired(c).shown(20, _with_cures()), "a4") for c in (15.0, 30.0)}
    clocks = {c: next(t for page in d["mold"] for card in page["cards"] for t in card["cups"]) for c, d in data.items()}
    assert clocks[15.0]["was_clock"] == ""
    assert clocks[30.0]["was_clock"] == clocks[15.0]["clock"]
    assert clocks[30.0]["clock"] != clocks[15.0]["clock"]


def _aired(celsius: float) -> Log:
    log = Log()
    log.write(5, ShopAir(celsius))
    return log


def _with_cures() -> Plan:
    rubber = CurePlan(Curing.RUBBER, Range(40.0, 50.0, 60.0), Range(780.0, 900.0, 1100.0))
    return replace(run_plan(), cures=(rubber,))


def test_a_part_that_went_in_too_early_has_no_total_and_the_earlier_one_counts_on_from_it() -> None:
    """20.0 g of B are in before any A, and 0.8 of the pigment: A to 20.0 g, the scale from 20.8 to 40.8 g."""
    log = Log()
    log.weigh(10, COAT, PIGMENT, 0.8)
    log.weigh(11, COAT, B, 20.0)
    rows = _rows(log)
    assert [(row["was_reads"], row["reads"]) for row in rows[:3]] == [("17.3", "40.8"), ("18.1", ""), ("35.4", "")]


def _rows(log: Log, number: int = 0) -> list[dict[str, str]]:
    data = run_data(log.shown(40), "a4")
    rows = next(card for page in data["mold"] for card in page["cards"])["cups"][number]["rows"]
    assert isinstance(rows, list)
    return rows


def test_a_cup_that_was_parted_has_what_each_of_them_holds() -> None:
    """52 g of A parted in two: 26.0 g in each, which is read on no scale; 0.4 g of pigment to 26.4 g."""
    log = Log()
    log.weigh(10, COAT, A, 52.0, reads_g=52.0, lot=LOT_A)
    log.write(12, Divided(COAT, (2,)))
    log.weigh(14, cup("coat-1.cup-1", 0, 2), PIGMENT, 0.4, reads_g=26.4)
    card = card_text(printed(log.shown(40)))
    assert "parted into 2 cups" in card
    assert "a share of cup 1, which was parted" in card
    assert [_rows(log, number)[0]["read"] for number in (0, 1)] == ["26.0 g", "26.0 g"]
    assert [_rows(log, number)[0]["was_reads"] for number in (0, 1)] == ["", ""]
    assert _rows(log, 1)[1]["read"] == "26.4"
    assert "52.0" not in card


def test_a_cup_filled_to_marks_tells_milliliters() -> None:
    """17.28 g at 1.08 g/ml are 16 ml, of a part that is planned as 17.3 g, 16.0 ml."""
    its = run_plan()
    parts = tuple(replace(part, by=MeasuredBy.MARKS) for part in its.mixes[0].parts)
    marked = replace(its, mixes=(replace(its.mixes[0], parts=parts), *its.mixes[1:]), marks_ml=10.0)
    log = Log()
    log.weigh(10, COAT, A, 17.3)
    assert "+16.0 ml" in card_text(printed(log.shown(11, marked)))


def test_a_cup_that_no_totals_put_right_says_what_to_do() -> None:
    """All of A and ten times the thickener are in: what is in is not taken out again."""
    log = Log()
    log.weigh(10, COAT, A, 17.3)
    log.weigh(11, COAT, B, 17.3)
    log.weigh(12, COAT, PartKind.THIXOTROPE, 160.0)
    assert "Poured over. " in card_text(printed(log.shown(13)))
