"""A piece's certificate: what it says in the reader's units, its PDF, and that it was made."""

from __future__ import annotations

from dataclasses import dataclass, replace

from moldwright.errors import InputRefused
from moldwright.log.event import About
from moldwright.log.ids import FileHash
from moldwright.records.clock import BenchClock
from moldwright.records.editions.certificate import CertificateFacts, certificate_facts
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.records.editions.pieces import certificate_made
from moldwright.records.files.keep import attach
from moldwright.records.files.kept import bytes_of
from moldwright.records.shop import Shop
from moldwright.records.told import day_of, line_told
from moldwright.sheets.certificate import CertificateText, certificate_pdf
from moldwright.sheets.typesetting import PAPERS
from moldwright.text.shown import short
from moldwright.told.label_texts import number_in_words
from moldwright.units import show_length, show_mass


@dataclass(frozen=True, slots=True)
class CertificateAsked:
    """How a certificate is wanted.

    Parameters
    ----------
    paper, units : "a4" or "letter", "metric" or "us".
    maker : whose work it is, "" to leave that out.
    photo : a kept one of the piece.
    """

    paper: str = "a4"
    units: str = "metric"
    maker: str = ""
    photo: FileHash | None = None


@dataclass(frozen=True, slots=True)
class SetCertificate:
    """A certificate, typeset."""

    facts: CertificateFacts
    text: CertificateText
    pdf: bytes


def check_asked(asked: CertificateAsked) -> None:
    """Refuse what is no paper and no maker's name.

    Parameters
    ----------
    asked : how it is wanted.

    Raises InputRefused ("unknown-choice", "text-unusable").
    """
    if asked.paper not in PAPERS:
        raise InputRefused(
            "unknown-choice", short(asked.paper), " or ".join(PAPERS), "", "Name the paper in the printer."
        )
    line_told(asked.maker, "a maker", may_lack=True)


def set_certificate(shop: Shop, edition: Edition, piece: NumberedPiece, asked: CertificateAsked) -> SetCertificate:
    """The PDF of a piece's certificate.

    Parameters
    ----------
    shop : the store.
    edition, piece : which.
    asked : how it is wanted.

    Raises as `check_asked`, RecordConflict ("piece-void", "file-missing", "file-damaged").
    """
    check_asked(asked)
    facts = certificate_facts(shop, edition, piece)
    text = replace(certificate_text(facts, asked.units), maker=line_told(asked.maker, "a maker", may_lack=True))
    text = text if asked.photo is None else replace(text, photo=bytes_of(shop.files, asked.photo))
    return SetCertificate(facts, text, certificate_pdf(text, asked.paper))


def note_certificate(
    shop: Shop, clock: BenchClock, edition: Edition, piece: NumberedPiece, made: SetCertificate, photo: FileHash | None
) -> None:
    """Write down that a certificate was printed, and lay its photo to the edition.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    edition, piece : which.
    made : the certificate.
    photo : the kept one on it.
    """
    if photo is not None:
        attach(shop, clock, About.EDITION, edition.id, photo, f"{made.text.number}: certificate")
    certificate_made(shop, clock, edition.id, piece.id, made.text.maker)


def certificate_text(facts: CertificateFacts, units: str) -> CertificateText:
    """What a certificate says; what is not recorded is left out.

    Parameters
    ----------
    facts : what is recorded.
    units : "metric" or "us".
    """
    return CertificateText(
        id=facts.piece,
        edition=facts.edition,
        number=number_in_words(facts),
        materials=facts.material or ", ".join(facts.materials),
        size="" if facts.height_mm is None else f"{show_length(facts.height_mm, units)} high",
        weight="" if facts.mass_g is None else show_mass(facts.mass_g, units),
        cast_on="" if facts.cast_ms is None else day_of(facts.cast_ms).isoformat(),
        mold=facts.mold,
        whole=_whole(facts),
    )


def _whole(facts: CertificateFacts) -> str:
    proofs = f"{facts.proofs} artist's proof{'s' * (facts.proofs != 1)}" if facts.proofs else ""
    return " and ".join(filter(None, (f"{facts.size} numbered" if facts.size else "", proofs)))
