"""What a certificate says of a piece: what was recorded and nothing else, never whom it was sold to."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pypdf
import pytest
from PIL import Image
from test_records_molds import CLOCK, DAY_MS, NOON_MS, RESIN, a_run, kept, out
from typer.testing import CliRunner

from moldwright.desk.main import app
from moldwright.errors import RecordConflict
from moldwright.log.any_events import Attached
from moldwright.log.codes import short_code, urn_of
from moldwright.log.edition_events import CertificateMade, PieceState, Series
from moldwright.log.event import About
from moldwright.log.ids import LotId, RunId, SubjectId
from moldwright.log.lot_events import LotReceived, Stuff
from moldwright.log.run_events import CastMeasured, CupRef, Started, Weighed
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import PartKind
from moldwright.plan.needs import NeedUnit
from moldwright.records.editions.certificate import CertificateFacts, certificate_facts
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.records.editions.numbers import CastTold, give_number, void_number
from moldwright.records.editions.open import open_edition
from moldwright.records.editions.pieces import move_piece
from moldwright.records.editions.read import edition
from moldwright.records.molds.write import register_made
from moldwright.records.shop import Shop
from moldwright.told.certificate_print import certificate_text


def numbered(shop: Shop, run: RunId | None = None, material: str = "", turn: int = 2) -> tuple[Edition, NumberedPiece]:
    id_ = open_edition(shop, CLOCK, "otter", 24, 2, material).id
    piece = give_number(shop, CLOCK, id_, number=7, cast=CastTold(run, turn) if run else None)
    return edition(shop, id_), piece


def lot_of(shop: Shop, stuff: Stuff) -> LotId:
    lot = LotId(SubjectId(CLOCK.new_id()))
    shop.append([CLOCK.event(About.LOT, lot, LotReceived(stuff, 1000.0, NeedUnit.GRAM, "2026-01-02"))])
    return lot


def test_of_a_piece_without_a_cast_only_its_number_is_known(shop: Shop) -> None:
    found, piece = numbered(shop)
    assert certificate_facts(shop, found, piece) == CertificateFacts(piece.id, "otter", Series.NUMBERED, 7, 24, 24, 2)


def test_of_a_cast_all_that_was_written_down(shop: Shop) -> None:
    """Cast 2 came out 5 days before noon of 2026-06-10; its second height is that which counts."""
    measured = (CastMeasured(1, 999.0, 199.0), CastMeasured(2, 1390.0, 19.0), CastMeasured(2, height_mm=199.5))
    run = a_run(shop, *out([1, 2]), *measured, days_ago=5)
    register_made(shop, CLOCK, run, "glove 1")
    found, piece = numbered(shop, run)
    facts = certificate_facts(shop, found, piece)
    assert facts.cast_ms == NOON_MS - 5 * DAY_MS + 2
    assert (facts.mass_g, facts.height_mm, facts.mold) == (1390.0, 199.5, "glove 1")
    assert facts.materials == ("bronze powder", RESIN)


def test_lots_that_were_weighed_in_tell_the_material_before_the_plan(shop: Shop) -> None:
    """A lot of the plan's own resin has the plan's name for it; a tint and another cast's lot are no material of it."""
    plan = shop.plan(kept(shop))
    resin = next(need for need in plan.needs if need.kind == "resin")
    lots = [
        lot_of(shop, Stuff("resin", resin.id, f"{RESIN}, part A")),
        lot_of(shop, Stuff("powder", "own", "old bell bronze")),
        lot_of(shop, Stuff("", "tint-black", "black")),
        lot_of(shop, Stuff("powder", "copper", "copper powder")),
    ]
    cups = [CupRef(MixId("skin.cup-1"), turn) for turn in (2, 2, 2, 1)]
    weighed = [Weighed(cup, PartKind.A, 1.0, 1.0, lot=lot) for cup, lot in zip(cups, lots, strict=True)]
    found, piece = numbered(shop, a_run(shop, *weighed))
    assert certificate_facts(shop, found, piece).materials == ("old bell bronze", RESIN)


def test_a_run_from_the_shelf_names_that_mold(shop: Shop) -> None:
    mold = register_made(shop, CLOCK, a_run(shop), "glove 1")
    found, piece = numbered(shop, a_run(shop, mold=mold))
    assert certificate_facts(shop, found, piece).mold == "glove 1"


def test_a_void_piece_has_no_certificate(shop: Shop) -> None:
    found, piece = numbered(shop)
    void_number(shop, CLOCK, found.id, piece.id)
    found = edition(shop, found.id)
    with pytest.raises(RecordConflict, match="piece-void"):
        certificate_facts(shop, found, found.pieces[0])


def test_what_is_not_recorded_is_no_line() -> None:
    """12 oz = 340.19 g (NIST Handbook 44, appendix C: 1 oz = 28.349523125 g)."""
    facts = CertificateFacts(CLOCK.new_id(), "otter", Series.PROOF, 1, 2, 0, 2)  # type: ignore[arg-type]
    text = certificate_text(facts, "us")
    assert (text.number, text.whole) == ("artist's proof 1 of 2", "2 artist's proofs")
    assert (text.materials, text.size, text.weight, text.cast_on, text.mold, text.maker) == ("",) * 6
    full = CertificateFacts(CLOCK.new_id(), "otter", Series.NUMBERED, 7, 24, 24, 1, mass_g=340.194, height_mm=203.2)  # type: ignore[arg-type]
    told = certificate_text(full, "us")
    assert (told.weight, told.size, told.whole) == ("12.0 oz", "8 in high", "24 numbered and 1 artist's proof")


def test_the_command_writes_the_page_and_that_it_was_made(shop: Shop, shop_at: str, tmp_path: Path) -> None:
    found, piece = numbered(shop, a_run(shop, *out([2])), material="cold-cast bronze")
    move_piece(shop, CLOCK, found.id, piece.id, PieceState.SOLD, "Somebody Secret")
    pdf = tmp_path / "otter-7.pdf"
    order = ["edition", "certificate", "otter 7", str(pdf), "--maker", "A. Maker", "--shop", shop_at, "--json"]
    told = CliRunner().invoke(app, order)
    assert told.exit_code == 0, told.output
    assert json.loads(told.output)["material"] == "cold-cast bronze"
    assert "Secret" not in told.output
    (page,) = pypdf.PdfReader(io.BytesIO(pdf.read_bytes())).pages
    words = " ".join(page.extract_text().split())
    for each in ("otter", "7 of 24", "cold-cast bronze", "A. Maker", short_code(piece.id), urn_of(piece.id)):
        assert each in words
    assert "Secret" not in words
    made = [event.body for event in shop.events_of(found.id) if isinstance(event.body, CertificateMade)]
    assert made == [CertificateMade(piece.id, "A. Maker")]
    refused = CliRunner().invoke(app, [*order[:3], str(tmp_path / "no" / "such.pdf"), *order[4:]])
    assert refused.exit_code == 3
    assert len(edition(shop, found.id).pieces[0].certificates_ms) == 1


def test_a_photo_on_it_is_kept_with_the_edition(shop: Shop, shop_at: str, tmp_path: Path) -> None:
    found, _ = numbered(shop)
    photo, pdf = tmp_path / "p.png", tmp_path / "c.pdf"
    Image.new("RGB", (60, 40), (200, 30, 30)).save(photo)
    order = ["edition", "certificate", "otter 7", str(pdf), "--photo", str(photo), "--shop", shop_at, "--json"]
    told = CliRunner().invoke(app, order, env={"MOLDWRIGHT_FILES": str(tmp_path / "kept")})
    assert told.exit_code == 0, told.output
    assert len(pypdf.PdfReader(io.BytesIO(pdf.read_bytes())).pages[0].images) == 1
    files = [event.body for event in shop.events_of(found.id) if isinstance(event.body, Attached)]
    assert [(each.file, each.text) for each in files] == [(json.loads(told.output)["photo"], "7 of 24: certificate")]
    photo.write_text("no photo")
    assert CliRunner().invoke(app, order, env={"MOLDWRIGHT_FILES": str(tmp_path / "kept")}).exit_code == 3
    assert len(edition(shop, found.id).pieces[0].certificates_ms) == 1


def test_a_started_run_without_its_plan_still_names_the_piece(shop: Shop) -> None:
    run = RunId(SubjectId(CLOCK.new_id()))
    shop.append([CLOCK.event(About.RUN, run, Started("0" * 64, "otter", 3))])  # type: ignore[arg-type]
    found, piece = numbered(shop, run)
    facts = certificate_facts(shop, found, piece)
    assert (facts.materials, facts.cast_ms, facts.mold) == ((), None, "")
