"""`moldwright label`: what is named stands on the sheet in that order, each with its own code."""

from __future__ import annotations

import io
import json
import re
from contextlib import closing
from datetime import date
from pathlib import Path

import pypdf
import pytest
from PIL import Image
from sheets_fixture import plan
from tests.label_shots import texts
from typer.testing import CliRunner

from moldwright.desk.main import app
from moldwright.log.codes import short_code
from moldwright.log.event import About
from moldwright.log.ids import MoldId, RunId, SubjectId
from moldwright.log.mold_events import MoldInspected, MoldMade, MoldState
from moldwright.log.run_events import CupRef, MoldRegistered, Poured, Started, Weighed
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.mixes import PartKind
from moldwright.records.clock import BenchClock
from moldwright.records.shop import open_shop

RUN = RunId(SubjectId("019a0000-0000-7000-8000-0000000000aa"))
MOLD = MoldId(SubjectId("019a0000-0000-7000-8000-0000000000bb"))


class Desk:
    """The command line at one store."""

    def __init__(self, place: str, folder: Path) -> None:
        self.place, self.folder = place, folder

    def __call__(self, *words: str, code: int = 0) -> str:
        found = CliRunner().invoke(app, [*words, "--shop", self.place])
        assert found.exit_code == code, found.output
        return found.output

    def label(self, *words: str, code: int = 0) -> str:
        return self("label", str(self.folder / "labels.pdf"), *words, code=code)

    def pdf(self) -> bytes:
        return (self.folder / "labels.pdf").read_bytes()


@pytest.fixture
def desk(shop_at: str, tmp_path: Path) -> Desk:
    return Desk(shop_at, tmp_path)


def written(desk: Desk, *events: tuple[About, SubjectId, object]) -> None:
    clock = BenchClock("bench")
    with closing(open_shop(desk.place, desk.folder / "shop.files")) as shop:
        shop.append([clock.event(about, subject, body) for about, subject, body in events])  # type: ignore[arg-type]


def started(desk: Desk, **more: object) -> None:
    """A run of the made-up plan."""
    with closing(open_shop(desk.place, desk.folder / "shop.files")) as shop:
        id_ = shop.keep_plan(plan_to_json(plan()))
    written(desk, (About.RUN, RUN, Started(id_, "stag", 3, **more)))  # type: ignore[arg-type]


def lot(desk: Desk, material: str, *more: str) -> str:
    told = desk("lot", "add", "--material", material, "--amount", "1 kg", *more, "--json")
    return str(json.loads(told)["code"])


def codes(pdf: bytes) -> list[str]:
    """Short codes in the order in which the page is read."""
    return [code for text in texts(pdf) for code in re.findall(r"\b[0-9A-F]{4}-[0-9A-F]{4}\b", text)]


def test_things_stand_in_the_order_in_which_they_are_named(desk: Desk) -> None:
    one, two = lot(desk, "addition-cure-a10-slow-a"), lot(desk, "addition-cure-a10-slow-b")
    desk("edition", "open", "stag", "--size", "50", "--proofs", "3")
    piece = json.loads(desk("edition", "number", "stag", "--number", "17", "--json"))
    written(desk, (About.MOLD, MOLD, MoldMade("stag mold", stored="shelf 2")))
    asked = ["--lot", two, "--piece", "stag 17", "--mold", "stag mold", "--lot", one, "--piece", "stag 17"]
    said = desk.label(*asked, "--sheet", "a4-70x37", "--json")
    wanted = [two, piece["code"], short_code(MOLD), one, piece["code"]]
    assert [label["code"] for label in json.loads(said)["labels"]] == wanted
    assert codes(desk.pdf()) == wanted


def test_a_lot_says_what_it_is_which_part_and_to_when_it_keeps(desk: Desk) -> None:
    code = lot(
        desk, "addition-cure-a10-slow-b", "--number", "4711-23/B", "--supplier", "Supply house", "--stored", "shelf 3",
        "--expires", "2027-06-30", "--keeps", "180 days",
    )  # fmt: skip
    desk.label("--lot", "4711-23/B", "--single", "102x51")
    text = texts(desk.pdf())[0]
    said = ("Addition-cure silicone, Shore A 10, slow", "Part B", "Keeps to 2027-06-30", "4711-23/B", "Supply house")
    for told in (*said, "shelf 3", "180 days", "Opened ____", code, str(date.today())):
        assert told in text
    assert "part B" not in text
    desk("lot", "open", code, "--on", "2026-10-02")
    desk.label("--lot", code, "--single", "102x51")
    text = texts(desk.pdf())[0]
    assert "Opened 2026-10-02" in text
    assert "Keeps to 2027-03-31" in text  # 180 days after 2 October, counted on a calendar


def test_no_hazard_label_is_pretended(desk: Desk) -> None:
    said = desk.label("--lot", lot(desk, "addition-cure-a10-slow-b"))
    assert "no hazard labels" in said


def test_a_mold_says_where_it_stands_and_what_was_drawn(desk: Desk) -> None:
    written(desk, (About.MOLD, MOLD, MoldMade("stag mold", drawn=7, lasts=30, stored="cellar, shelf 3", rubber="tin")))
    desk.label("--mold", short_code(MOLD), "--single", "102x51")
    text = texts(desk.pdf())[0]
    for told in ("stag mold", "cellar, shelf 3", "Casts 7 of about 30", f"Registered {date.today()}"):
        assert told in text
    assert "torn" not in text
    written(desk, (About.MOLD, MOLD, MoldInspected(MoldState.TORN)))
    desk.label("--mold", "stag mold", "--single", "102x51")
    assert "torn" in texts(desk.pdf())[0]


def test_a_cast_says_its_number_and_its_mold(desk: Desk) -> None:
    started(desk)
    written(
        desk,
        (About.MOLD, MOLD, MoldMade("stag mold", run=RUN)),
        (About.RUN, RUN, MoldRegistered(MOLD)),
    )
    desk("edition", "open", "stag", "--size", "50", "--proofs", "3", "--material", "cold-cast bronze")
    desk("edition", "number", "stag", "--proof", "--run", RUN, "--cast", "2")
    desk.label("--piece", "stag proof 1", "--single", "102x51")
    text = texts(desk.pdf())[0].replace("\xa0", " ")
    for told in ("stag", "artist's proof 1 of 3", "cold-cast bronze", "Mold: stag mold"):
        assert told in text
    desk("edition", "void", "stag proof 1")
    assert "piece-void" in desk.label("--piece", "stag proof 1", code=6)


def test_a_cup_says_its_parts_in_order_with_running_totals(desk: Desk) -> None:
    """Totals by hand: what the plan adds of each part, one after the other."""
    started(desk)
    mix = plan().mixes[0]
    desk.label("--cup", short_code(RUN), mix.id, "--single", "102x51")
    text = texts(desk.pdf())[0].replace("\xa0", " ")
    total, spots = 0.0, []
    for part in mix.parts:
        total += part.mass_g
        if part.by == "scale":
            spots.append(text.find(f"{total:.1f} g"))
    assert -1 not in spots
    assert spots == sorted(spots)
    assert len(spots) >= 2
    for told in ("On the work by", "Zero the empty cup once", "Cup 1 of", "stag", short_code(RUN)):
        assert told in text


def test_a_cup_that_is_begun_has_no_label(desk: Desk) -> None:
    started(desk)
    mix = plan().mixes[0]
    written(desk, (About.RUN, RUN, Weighed(CupRef(mix.id), PartKind(mix.parts[0].kind), 1.0, 1.0)))
    assert "cup-begun" in desk.label("--cup", RUN, mix.id, code=6)
    assert "cup-unknown" in desk.label("--cup", RUN, "tea", code=3)


def test_of_casts_the_next_ones_cup_is_meant(desk: Desk) -> None:
    started(desk)
    skin = next(mix for mix in plan().mixes if mix.for_.kind == "skin")
    desk.label("--cup", RUN, skin.id, "--single", "102x51")
    assert "Cast 1" in texts(desk.pdf())[0]
    written(desk, (About.RUN, RUN, Poured(CupRef(skin.id, 1))))
    desk.label("--cup", RUN, skin.id, "--single", "102x51")
    assert "Cast 2" in texts(desk.pdf())[0]


def test_the_sheet_goes_on_where_it_was_left(desk: Desk) -> None:
    code = lot(desk, "addition-cure-a10-slow-b")
    assert "next time --start 7" in desk.label("--lot", code, "--lot", code, "--start", "5")
    full = json.loads(desk.label("--lot", code, "--start", "24", "--json"))
    assert (full["pages"], full["next_start"]) == (1, None)
    assert "label-start" in desk.label("--lot", code, "--start", "25", code=3)


def test_sheets_are_listed_and_one_is_told_by_measures(desk: Desk) -> None:
    told = json.loads(CliRunner().invoke(app, ["label", "--sheets", "--json"]).output)
    assert {sheet["name"] for sheet in told["sheets"]} >= {"a4-70x37", "letter-2.6x1"}
    assert "3 x 8 labels of 70 x 37 mm" in CliRunner().invoke(app, ["label", "--sheets"]).output
    code = lot(desk, "addition-cure-a10-slow-b")
    own = ["--grid", "2x6", "--size", "90x45", "--gap", "5x1", "--paper", "letter"]
    desk.label("--lot", code, *own, "--shift-x", "0.5 mm", "--shift-y", "-1 mm")
    box = pypdf.PdfReader(io.BytesIO(desk.pdf())).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((612.0, 792.0))  # Letter in points: 8.5 x 11 in
    assert "labels-off-paper" in desk.label("--lot", code, "--grid", "3x9", "--size", "70x37", code=3)


def test_a_trial_needs_no_records(tmp_path: Path) -> None:
    out = tmp_path / "trial.pdf"
    found = CliRunner().invoke(app, ["label", str(out), "--outlines"])
    assert found.exit_code == 0
    assert "against the light" in found.output
    assert len(pypdf.PdfReader(out).pages) == 1


def test_only_an_earlier_sheet_is_replaced(desk: Desk) -> None:
    code = lot(desk, "addition-cure-a10-slow-b")
    desk.label("--lot", code)
    desk.label("--lot", code, "--single", "62x29")
    (desk.folder / "labels.pdf").write_bytes(b"%PDF-1.7 a letter of mine")
    assert "file-exists" in desk.label("--lot", code, code=3)
    assert desk.pdf() == b"%PDF-1.7 a letter of mine"
    assert "sheet-no-pdf" in desk("label", str(desk.folder / "labels.txt"), "--lot", code, code=3)


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["x.pdf"],
        ["x.pdf", "--lot", "1", "--sheet", "a4-70x37", "--single", "62x29"],
        ["x.pdf", "--lot", "1", "--grid", "3x8"],
        ["x.pdf", "--cup", "1"],
    ],
)
def test_what_cannot_be_meant_is_a_fault_of_use(words: list[str]) -> None:
    assert CliRunner().invoke(app, ["label", *words]).exit_code == 2


def test_nothing_is_written_where_something_is_not_found(desk: Desk) -> None:
    desk.label("--lot", lot(desk, "addition-cure-a10-slow-b"), "--lot", "FFFF-FFFF", code=3)
    assert not (desk.folder / "labels.pdf").exists()


def test_a_certificate_shows_the_photo_and_nothing_that_the_camera_wrote_beside_it(desk: Desk) -> None:
    desk("edition", "open", "stag", "--size", "50")
    desk("edition", "number", "stag")
    exif = Image.Exif()
    exif[0x010E] = "taken at home"
    shot, out = desk.folder / "stag.jpg", desk.folder / "stag-1.pdf"
    Image.new("RGB", (300, 200), (90, 60, 30)).save(shot, exif=exif)
    assert b"taken at home" in shot.read_bytes()
    desk("edition", "certificate", "stag 1", str(out), "--photo", str(shot))
    (page,) = pypdf.PdfReader(out).pages
    (image,) = page.images
    assert image.image is not None
    assert image.image.size == (300, 200)
    assert b"taken at home" not in image.data
    assert b"taken at home" not in out.read_bytes()


def test_a_certificate_replaces_a_certificate_only(desk: Desk) -> None:
    desk("edition", "open", "stag", "--size", "50")
    desk("edition", "number", "stag")
    out = desk.folder / "stag-1.pdf"
    for _ in range(2):
        desk("edition", "certificate", "stag 1", str(out))
    desk("edition", "certificate", "stag 1", str(out), "--photo", str(desk.folder / "none.jpg"), code=3)
    out.write_bytes(b"a letter of mine")
    assert "file-exists" in desk("edition", "certificate", "stag 1", str(out), code=3)
    assert out.read_bytes() == b"a letter of mine"
