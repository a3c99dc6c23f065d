"""A run's sheets say what its log says, where it belongs; read back by pypdf, which has no part in making them.

All times, totals and codes that are expected are reckoned or written out by hand beside the check.
"""

from __future__ import annotations

import io
import re
from dataclasses import replace
from pathlib import Path

import cv2
import numpy as np
import pypdf
import pytest
from sheets_fixture import pictures
from tests.run_on_paper import (
    COAT,
    LOT_A,
    LOT_POWDER,
    RUN,
    Log,
    card_text,
    cup,
    printed,
    run_plan,
    step_text,
    texts,
    weighed,
)

from moldwright.commission.orders import UnitSystem
from moldwright.log.any_events import Attached, Noted, Undone
from moldwright.log.ids import FileHash, MoldId, SubjectId
from moldwright.log.run_events import (
    Begun,
    BoxWritten,
    CastMeasured,
    CupTemperature,
    Done,
    Ended,
    Gauged,
    LeftOut,
    Mishap,
    Poured,
    Problem,
    ScaleChecked,
    ShopAir,
)
from moldwright.plan.ids import CoatId, StepId
from moldwright.plan.mixes import PartKind
from moldwright.plan.steps import Per
from moldwright.sheets.run.data import run_data
from moldwright.sheets.run.printed import run_sheets
from moldwright.sheets.typesetting import PAPERS, typeset_png
from moldwright.sheets.writing import write_sheets

A, B, POWDER = PartKind.A, PartKind.B, PartKind.POWDER
MM = 72 / 25.4


def done(log: Log, minute: float, *steps: str, turn: int = 0) -> None:
    for step in steps:
        log.write(minute, Done(StepId(step), turn))


def test_a_done_step_tells_when_and_who_and_its_wait_from_when_till_when() -> None:
    """The patch test is done on Monday at 8:30 and cures 20 h, 16 to 24: till Tuesday 4:30, 0:30 to 8:30."""
    log = Log()
    log.write(10, Begun(StepId("receive")))
    log.write(25, Done(StepId("receive")), by="Ann")
    done(log, 30, "patch-test")
    pages = printed(log.shown(40))
    assert "Begun 2026-03-09 08:10, Jo, done 08:25, Ann" in step_text(pages, "1. Receive")
    patch = step_text(pages, "6. Patch test")
    assert "Done 2026-03-09 08:30, Jo" in patch
    assert "From 08:30 to Tue 04:30 (00:30–08:30)" in patch
    assert "Done" not in step_text(pages, "2. Lay out")


def test_ticks_are_filled_where_a_step_is_done_and_struck_where_it_is_left_out() -> None:
    log = Log()
    done(log, 5, "receive")
    log.write(6, LeftOut(StepId("mount"), "stands by itself"))
    log.write(7, Begun(StepId("clean")))
    data = run_data(log.shown(8), "a4")
    marks = {step["number"]: step["run"]["mark"] for page in data["mold"] for step in page["steps"] if "number" in step}
    assert {number: mark for number, mark in marks.items() if mark} == {1: "done", 4: "out"}
    text = step_text(printed(log.shown(8)), "4. Mount")
    assert "Left out 2026-03-09 08:06, Jo: stands by itself" in text
    assert "In hand since 2026-03-09 08:07, Jo" in step_text(printed(log.shown(8)), "3. Clean")


def _ink(data: dict[str, object]) -> float:
    """How much of the second sheet is black."""
    png = typeset_png("run", data, {}, 4.0)[1]
    return float((cv2.imdecode(np.frombuffer(png, np.uint8), cv2.IMREAD_GRAYSCALE) < 128).mean())


def test_ticks_and_strikes_are_drawn() -> None:
    """The same sheet with its boxes free, struck and ticked: all words alike, more ink."""
    data = run_data(Log().shown(1), "a4")
    inks = {}
    for mark in ("", "out", "done"):
        for step in (step for page in data["mold"] for step in page["steps"] if "number" in step):
            step["run"]["mark"] = mark
        inks[mark] = _ink(data)
    assert inks["out"] > inks[""]
    assert inks["done"] > inks[""]


def test_boxes_hold_what_was_logged() -> None:
    """Gauged at 0.5, 0.62 and 0.8 mm; the shop's air read a quarter of an hour before the step was done."""
    log = Log()
    log.write(5, ShopAir(23.5, 48.0))
    log.write(8, BoxWritten(StepId("receive"), "own.1", "ivory-white, crazed"))
    done(log, 20, "receive", "lay-out")
    log.write(60, Gauged(CoatId("coat-1"), (0.62, 0.5)))
    log.write(61, Gauged(CoatId("coat-1"), (0.8,)))
    pages = printed(log.shown(70))
    assert "ivory-white, crazed" in step_text(pages, "1. Receive")
    lay_out = step_text(pages, "2. Lay out")
    assert "Shop temperature 23.5 °C, 48 % at 08:05 Date 2026-03-09" in lay_out
    assert "0.5–0.8 mm, 3 places" in step_text(pages, "9. Look, repair, wait")
    assert "0.62" in pages[0]


def test_what_is_typed_in_later_says_so_and_what_is_entered_soon_does_not() -> None:
    log = Log()
    log.write(10, Done(StepId("receive")), later=300)
    log.write(12, Done(StepId("clean")), later=20)
    log.write(14, BoxWritten(StepId("receive"), "own.1", "plaster"), later=300)
    pages = printed(log.shown(310))
    receive = step_text(pages, "1. Receive")
    assert "Done 2026-03-09 08:10, Jo, typed in" in receive
    assert "plaster, typed in" in receive
    assert "typed in" not in step_text(pages, "3. Clean")


def test_notes_problems_and_files_stand_at_their_step_others_on_the_first_sheet() -> None:
    log = Log()
    log.write(10, Noted("a crack behind the ear", StepId("receive")))
    log.write(11, Attached(FileHash("b" * 64), "the crack", StepId("receive")))
    log.write(12, Problem(Mishap.BUBBLES, "two in the paw", StepId("coat-1")))
    log.write(13, Problem(Mishap.GELLED_EARLY, "phone rang", cup=COAT))
    log.write(14, Noted("the client called"))
    log.write(15, ScaleChecked("bench", 100.0, 100.2))
    pages = printed(log.shown(16))
    receive = step_text(pages, "1. Receive")
    assert "2026-03-09 08:10, Jo: a crack behind the ear" in receive
    assert "08:11, Jo: Kept with it: the crack" in receive
    assert "Went wrong, bubbles or unfilled tips: two in the paw" in step_text(pages, "8. Lay coat 1 of 3")
    assert "Went wrong, gelled before it was poured: phone rang" in step_text(pages, "7. Mix coat 1 of 3")
    assert "2026-03-09 08:14, Jo: the client called" in pages[0]
    assert "Scale bench: 100.0 g read 100.2 g" in pages[0]
    assert "crack" not in pages[0]


def test_what_is_struck_out_is_not_printed() -> None:
    log = Log()
    struck = [
        log.write(10, Done(StepId("receive"))),
        log.write(11, Noted("SLIPPED", StepId("receive"))),
        log.write(12, BoxWritten(StepId("receive"), "own.1", "WRONGLY")),
        log.weigh(13, COAT, A, 99.9, reads_g=99.9, lot=LOT_POWDER),
        log.write(14, Gauged(CoatId("coat-1"), (7.7,))),
        log.write(15, CastMeasured(1, 888.8)),
        log.write(16, LeftOut(StepId("clean"), "NEVERMIND")),
        log.write(17, Poured(cup("skin.cup-1", 1))),
    ]
    for event in struck:
        log.write(20, Undone(event.id))
    text = " ".join(printed(log.shown(30)) + printed(log.shown(30), cast=1))
    for gone in ("SLIPPED", "WRONGLY", "99.9", "4E5F", "7.7 mm", "888.8", "NEVERMIND", "08:10", "08:17", "Done 2026"):
        assert gone not in text


def _cast(log: Log, turn: int, minute: float) -> None:
    skin = cup("skin.cup-1", turn)
    done(log, minute, "wash-glove", "reseat", "close-shell", "leak-check", turn=turn)
    log.write(minute + 1, ShopAir(24.0))
    log.weigh(minute + 2, skin, A, 61.2, reads_g=61.2, lot=LOT_A)
    log.weigh(minute + 3, skin, POWDER, 178.5, reads_g=239.7, lot=LOT_POWDER)
    log.weigh(minute + 4, skin, B, 64.1, reads_g=303.8)
    log.write(minute + 5, Poured(skin))
    done(log, minute + 6, "skin", turn=turn)
    log.write(minute + 90, CastMeasured(turn, 1392.4, 189.4))
    done(log, minute + 91, "weigh-cast", turn=turn)


def test_the_log_of_casts_has_its_lines_filled() -> None:
    log = Log()
    _cast(log, 2, 100)
    pages = printed(log.shown(300, lots={LOT_A: "SB-2211"}, numbers={2: "2/30", 5: "5/30"}))
    first, second = (text for text in pages if "A line for each cast" in text)
    line = first[first.index(" 2 2026-03-09") : first.index(" 3 4 ")]
    expected = ("SB-2211", "4E5F-00C1", "24 °C", "09:45", "1392.4 g", "189.4 mm", "2/30", "Jo")
    spots = [line.find(each) for each in expected]
    assert -1 not in spots
    assert spots == sorted(spots)
    assert "5 5/30" in first
    assert "2026" not in second.replace("Printed again 2026-03-09 13:00", "")


def test_the_sheets_of_one_cast_have_its_boxes_and_no_other_cast() -> None:
    log = Log()
    _cast(log, 1, 0)
    _cast(log, 2, 100)
    shown = log.shown(300, numbers={1: "1/30"})
    one, two, three = (printed(shown, cast) for cast in (1, 2, 3))
    skin = step_text(one, "30. Cast the skin")
    assert "Shop temperature 24 °C at 08:01 Poured at 08:05" in skin
    assert "09:45" in step_text(two, "30. Cast the skin")
    assert "Cast weighs 1392.4 g Height 189.4 mm" in step_text(one, "34. Weigh cast")
    assert "1/30" in step_text(one, "37. Pack")
    assert "1/30" not in " ".join(two)
    assert not re.search(r"Done 2026|1392|0[89]:[0-5]", " ".join(three).replace("2026-03-09 13:00", ""))
    for number, pages in enumerate((one, two, three), start=1):
        assert all(f"Cast {number}, printed again 2026-03-09 13:00, run 0C07-398F" in page for page in pages)
        assert "Into the log" not in " ".join(pages)


def test_every_sheet_says_which_run_plan_and_print_and_its_number() -> None:
    its = run_plan()
    for cast in (None, 1):
        for pdf in run_sheets(Log().shown(95), cast).values():
            pages = texts(pdf)
            for number, page in enumerate(pages, start=1):
                assert f"rinted again 2026-03-09 09:35, run 0C07-398F, plan {its.plan_hash}." in page
                assert f"Sheet {number} of {len(pages)}" in page


def test_the_square_code_holds_the_runs_id() -> None:
    """Read by a reader that has no part in making it."""
    pages = typeset_png("run", run_data(Log().shown(1), "a4"), {}, 12.0)
    for png in (pages[0], pages[2], pages[-1]):
        page = cv2.imdecode(np.frombuffer(png, np.uint8), cv2.IMREAD_GRAYSCALE)
        corner = page[: 25 * 12, -45 * 12 :]
        text, *_ = cv2.QRCodeDetector().detectAndDecode(corner)
        assert text == f"urn:uuid:{RUN}"


def test_a_run_of_which_nothing_is_done_prints_what_the_plan_prints(tmp_path: Path) -> None:
    """All sheets but the first and the drawings, word by word; head, foot and numbers of sheets aside."""
    its = run_plan()
    write_sheets(its, pictures(), (), tmp_path)
    for paper in PAPERS:
        own = texts(tmp_path.joinpath("sheets", f"bench-{paper}.pdf").read_bytes())
        again = printed(Log().shown(1), paper=paper)
        begins = next(n for n, text in enumerate(own) if "1. Receive" in text)
        assert len(own) - begins == len(again) - 1
        for mine, plans in zip(again[1:], own[begins:], strict=True):
            assert sorted(_words(mine)) == sorted(_words(plans))


def _words(page: str) -> list[str]:
    kept = re.sub(r"Printed again 2026-03-09 08:01, run 0C07-398F, plan \S+", "", page)
    kept = re.sub(r"[Ss]heets? \d+( of \d+)?", "", kept)
    kept = re.sub(r"(Into the log: )|(Wait [^.]*\. From\s+to)", "", kept)
    return kept.split()


HOSTILE = 'מסמך #strike[x] *b* `raw` $1/0$ <b> \\ "q" // @here'


def test_notes_and_names_come_out_as_they_were_written() -> None:
    log = Log(by="#let *Jo*")
    log.write(5, Noted(HOSTILE, StepId("receive")))
    log.write(6, LeftOut(StepId("clean"), HOSTILE))
    log.weigh(7, COAT, A, 17.3, lot=LOT_A)
    log.write(8, BoxWritten(StepId("receive"), "own.1", "#panic()"))
    pages = printed(log.shown(9, lots={LOT_A: "#x*y*_z_"}))
    whole = " ".join(pages)
    for told in ("#strike[x] *b* `raw` $1/0$ <b>", '"q" // @here', "#let *Jo*", "#x*y*_z_", "#panic()"):
        assert told in whole
    for letter in "מסך":
        assert letter in whole


def test_what_steers_the_line_is_told_by_its_number() -> None:
    """U+202E turns what follows round (Unicode, UAX 9): it stands as its escape."""
    log = Log()
    log.write(5, Noted("safe \u202eelbatsnu", StepId("receive")))
    whole = " ".join(printed(log.shown(6)))
    assert "\u202e" not in whole
    assert "202e" in whole.lower()


@pytest.mark.parametrize("units", UnitSystem)
def test_in_either_units_on_either_paper(units: UnitSystem) -> None:
    """17.4 g are 0.614 oz (28.3495 g to the ounce, NIST SP 811); 24.5 degC are 76 degF, 0.5 mm a 0.02 of an inch."""
    its = run_plan(units)
    log = Log()
    weighed(log, 10)
    log.write(13, CupTemperature(COAT, 24.5))
    log.write(20, Gauged(CoatId("coat-1"), (0.508,)))
    reads, warm, thick = ("0.614", "76 °F", "0.02 in") if units is UnitSystem.US else ("17.4", "24.5 °C", "0.51 mm")
    sizes = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
    for paper, pdf in run_sheets(log.shown(30, its)).items():
        pages = texts(pdf)
        card = card_text(pages)
        assert reads in card
        assert warm in card
        assert thick in step_text(pages, "9. Look, repair, wait")
        box = pypdf.PdfReader(io.BytesIO(pdf)).pages[0].mediabox
        assert (float(box.width) / MM, float(box.height) / MM) == pytest.approx(sizes[paper], abs=0.1)


def test_same_run_same_bytes_in_the_shipped_face() -> None:
    log = Log()
    weighed(log, 10)
    one, again = run_sheets(log.shown(20)), run_sheets(log.shown(20))
    assert one == again
    fonts = {
        str(font.get_object()["/BaseFont"])
        for page in pypdf.PdfReader(io.BytesIO(one["a4"])).pages
        for font in page["/Resources"]["/Font"].values()  # type: ignore[index]
    }
    assert all("AtkinsonHyperlegible" in name for name in fonts)
    assert any("Italic" in name for name in fonts)


def test_what_is_done_once_a_batch_is_told_for_its_casts() -> None:
    """Batches of three: before casts 1 and 4; cast 5 is of the batch that begins with 4."""
    its = run_plan()
    index = next(n for n, step in enumerate(its.steps) if step.id == "wash-glove")
    steps = list(its.steps)
    steps[index] = replace(steps[index], per=Per.BATCH)
    its = replace(its, steps=tuple(steps))
    log = Log()
    log.write(10, Done(StepId("wash-glove"), 1))
    log.write(500, Done(StepId("wash-glove"), 4), by="Ann")
    shown = log.shown(600, its)
    assert "Done for cast 1, 4, last 2026-03-09 16:20" in step_text(printed(shown), "26. Wash glove")
    assert "Done 2026-03-09 16:20, Ann" in step_text(printed(shown, 5), "26. Wash glove")
    assert "Done 2026-03-09 08:10, Jo" in step_text(printed(shown, 2), "26. Wash glove")


def test_a_run_from_a_mold_on_the_shelf_has_no_step_of_the_mold() -> None:
    log = Log(mold=MoldId(SubjectId("018bcfe5-6800-7000-8000-0000000000d1")))
    pages = printed(log.shown(5))
    whole = " ".join(pages)
    for number in (1, 7, 8, 25):
        assert not re.search(rf" {number}\. [A-Z]", whole)
    assert "Mold 0 of" not in pages[0]
    assert "38. Clean and store the mold" in whole


def test_the_first_sheet_tells_where_the_run_stands() -> None:
    """The patch test cures 20 h from 8:30, 16 to 24: till Tuesday 4:30."""
    log = Log()
    done(log, 20, "receive", "lay-out", "clean", "mount", "release")
    done(log, 30, "patch-test")
    first = printed(log.shown(40))[0]
    assert "6. Patch test: till Tue 04:30 (00:30–08:30)" in first
    assert "Mold 6 of 25 steps done" in first
    log.write(50, Begun(StepId("coat-1-mix")))
    assert "In hand 7. Mix coat 1 of 3: detail" in printed(log.shown(51))[0]
    log.write(60, Ended("the client gave up"))
    assert "Ended 2026-03-09 09:00: the client gave up" in printed(log.shown(61))[0]


def test_the_shops_air_is_told_day_by_day() -> None:
    log = Log()
    log.write(5, ShopAir(21.0, 40.0))
    log.write(65, ShopAir(22.5))
    log.write(60 * 24, ShopAir(23.0))
    first = printed(log.shown(60 * 25))[0]
    assert "2026-03-09, shop: 08:05 21 °C, 40 %; 09:05 22.5 °C 2026-03-10, shop: 08:00 23 °C" in first


def test_what_was_typed_in_without_a_time_prints_none() -> None:
    """Its place in the order is no time of day: no wait is counted from it, no date is filled in."""
    log = Log()
    log.write(10, Done(StepId("lay-out"), timed=False))
    log.write(11, Done(StepId("patch-test"), timed=False))
    log.write(12, ShopAir(23.0, step=StepId("lay-out"), timed=False))
    log.weigh(13, COAT, A, 17.3, timed=False)
    pages = printed(log.shown(600))
    lay_out, patch = step_text(pages, "2. Lay out"), step_text(pages, "6. Patch test")
    assert "Done, Jo, typed in" in lay_out
    assert "23 °C, typed in" in lay_out
    assert "Done, Jo, typed in" in patch
    assert "From to" in patch
    assert "2026" not in (lay_out + patch).replace("again 2026-03-09 18:00", "")
    card = card_text(pages)
    assert "+17.3 g" in card
    assert "typed in, Jo" in card
