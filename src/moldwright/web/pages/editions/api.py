"""Editions for scripts: what there is, and every act."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.responses import Response

from moldwright.errors import InputRefused
from moldwright.log.ids import EditionId, FileHash, NumberedId
from moldwright.records.editions import read
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.records.editions.numbers import CastTold, give_number, void_number
from moldwright.records.editions.open import open_edition, resize_edition
from moldwright.records.editions.pieces import move_piece, strike_move
from moldwright.records.runs.opened import find_run
from moldwright.records.shop import Shop
from moldwright.sheets.label_pages import label_pdf
from moldwright.text.shown import short
from moldwright.told.certificate_print import CertificateAsked, note_certificate, set_certificate
from moldwright.told.edition_trees import EDITION_HEADS, HEADS, edition_rows, edition_tree, numbered_tree
from moldwright.told.label_print import SheetTold, print_told
from moldwright.told.label_things import label_of
from moldwright.web.answers import csv_answer, pdf_answer
from moldwright.web.at_hand import Clock, OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.pages.editions.asked import (
    CertificateForm,
    EditionAsked,
    NumberGivenAsked,
    PieceMove,
    PieceWhy,
    SizeAsked,
)
from moldwright.web.pages.editions.told import EditionsTold, EditionTold, NumberedTold, WholeEdition
from moldwright.words.speaker import ENGLISH, spoken_by

router = APIRouter(prefix="/api", tags=["editions"])
ACT, OWN = [needs(Role.BENCH)], [needs(Role.OWNER)]


@router.get("/editions")
def all_editions(shop: OpenShop) -> EditionsTold:
    """All editions with what is left of each."""
    return EditionsTold(editions=[EditionTold(**edition_tree(each, pieces=False)) for each in read.editions(shop)])


@router.get("/editions.csv", response_class=Response)
def editions_csv(shop: OpenShop) -> Response:
    """All editions as a table for a spreadsheet (RFC 4180)."""
    trees = (edition_tree(each, pieces=False) for each in read.editions(shop))
    return csv_answer("editions.csv", EDITION_HEADS, ([tree[name] for name in EDITION_HEADS] for tree in trees))


@router.post("/editions", dependencies=OWN)
def open_(asked: EditionAsked, shop: OpenShop, clock: Clock) -> WholeEdition:
    """Open an edition: so many numbers and so many artist's proofs, never more."""
    return _whole(open_edition(shop, clock, asked.name, asked.size or 0, asked.proofs or 0, asked.material))


@router.get("/editions/{id_}")
def one_edition(id_: str, shop: OpenShop) -> WholeEdition:
    """An edition with every piece."""
    return _whole(read.edition_meant(shop, id_))


@router.get("/editions/{id_}/pieces.csv")
def pieces_csv(id_: str, shop: OpenShop) -> Response:
    """Its pieces as a table for a spreadsheet."""
    return csv_answer("pieces.csv", HEADS, edition_rows(read.edition_meant(shop, id_)))


@router.post("/editions/{id_}/size", dependencies=OWN)
def resize(id_: str, asked: SizeAsked, shop: OpenShop, clock: Clock) -> WholeEdition:
    """Make it smaller; larger only while no number is given."""
    found = read.edition_meant(shop, id_).id
    return _whole(resize_edition(shop, clock, found, asked.size, asked.proofs, asked.why))


@router.post("/editions/{id_}/numbers", dependencies=ACT)
def number(id_: str, asked: NumberGivenAsked, shop: OpenShop, clock: Clock) -> NumberedTold:
    """Give a piece its number, once and for good. Who comes second is told whose it is (409)."""
    found = read.edition_meant(shop, id_).id
    piece = give_number(shop, clock, found, asked.series, asked.number, _cast(shop, asked.cast))
    return NumberedTold(**numbered_tree(piece))


@router.post("/editions/{id_}/pieces/{piece}/moves", dependencies=ACT)
def move(id_: str, piece: str, asked: PieceMove, shop: OpenShop, clock: Clock) -> NumberedTold:
    """Write down that it is reserved, sold, broken, or in the shop again."""
    edition, found = _piece(shop, id_, piece)
    move_piece(shop, clock, edition.id, found.id, asked.state, asked.whom, asked.on)
    return _now(shop, edition.id, found.id)


@router.post("/editions/{id_}/pieces/{piece}/strike", dependencies=ACT)
def strike(id_: str, piece: str, asked: PieceWhy, shop: OpenShop, clock: Clock) -> NumberedTold:
    """Draw a line through its last move: it is where it was before."""
    edition, found = _piece(shop, id_, piece)
    strike_move(shop, clock, edition.id, found.id, asked.why)
    return _now(shop, edition.id, found.id)


@router.post("/editions/{id_}/pieces/{piece}/void", dependencies=OWN)
def void(id_: str, piece: str, asked: PieceWhy, shop: OpenShop, clock: Clock) -> NumberedTold:
    """Strike out a number that was given wrongly: the piece is void, the number stays spent."""
    edition, found = _piece(shop, id_, piece)
    void_number(shop, clock, edition.id, found.id, asked.why)
    return _now(shop, edition.id, found.id)


@router.post("/editions/{id_}/pieces/{piece}/certificate", dependencies=ACT)
def certificate(
    id_: str, piece: str, asked: CertificateForm, shop: OpenShop, clock: Clock, reader: Reading
) -> Response:
    """Its certificate as a PDF; that it was made is written down."""
    edition, found = _piece(shop, id_, piece)
    photo = FileHash(asked.file) if asked.file else None
    with spoken_by(ENGLISH):
        made = set_certificate(shop, edition, found, CertificateAsked(asked.paper, reader.units, asked.maker, photo))
    note_certificate(shop, clock, edition, found, made, photo)
    return pdf_answer(made.pdf, "certificate.pdf")


@router.get("/editions/{id_}/pieces/{piece}/label.pdf")
def label(id_: str, piece: str, shop: OpenShop, reader: Reading, start: int = 1) -> Response:
    """Its label, on the sheet that is usual; `start`: the first label that is still there."""
    text = label_of(shop, "piece", (_piece(shop, id_, piece)[1].id,))
    return pdf_answer(label_pdf([text], print_told(SheetTold(start=start), reader.units)), "label.pdf")


def _whole(edition: Edition) -> WholeEdition:
    return WholeEdition(**edition_tree(edition))


def _piece(shop: Shop, id_: str, written: str) -> tuple[Edition, NumberedPiece]:
    edition, piece = read.piece_meant(shop, written)
    if edition.id != read.edition_meant(shop, id_).id:
        raise InputRefused("not-kept", short(written), "a piece of this edition", "", "Press it in its own edition.")
    return edition, piece


def _now(shop: Shop, id_: EditionId, piece: NumberedId) -> NumberedTold:
    found = next(each for each in read.edition(shop, id_).pieces if each.id == piece)
    return NumberedTold(**numbered_tree(found))


def _cast(shop: Shop, written: str) -> CastTold | None:
    """ "RUN/2": the second cast of a run."""
    if not written:
        return None
    run, _, turn = written.partition("/")
    if not turn.isdecimal() or len(turn) > 6:
        raise InputRefused("cast-unknown", short(written), "a run's code and a cast", "", "Choose a cast of the list.")
    return CastTold(find_run(shop, run), int(turn))
