"""`moldwright edition certificate`: the facts of a piece in the reader's units, as a PDF."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from moldwright.desk.own_pdf import check_own_pdf
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.disk.whole_file import write_whole
from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.event import About
from moldwright.making.shop import bench_clock
from moldwright.plan.json_text import tree_of
from moldwright.records.editions.certificate import CertificateFacts, certificate_facts
from moldwright.records.editions.pieces import certificate_made
from moldwright.records.editions.read import piece_meant
from moldwright.records.files.keep import attach, keep_file
from moldwright.records.files.kept import bytes_of
from moldwright.records.told import day_of, line_told
from moldwright.sheets.certificate import CertificateText, certificate_pdf
from moldwright.sheets.typesetting import PAPERS
from moldwright.text.harmless import harmless
from moldwright.text.shown import short
from moldwright.told.label_texts import number_in_words
from moldwright.units import show_length, show_mass

OURS = b"/Keywords(moldwright certificate"
"""What a PDF of a certificate says of itself."""


def certificate_shown(
    which: str, out: Path, told: tuple[str, Path | None], form: tuple[str, str], who: tuple[str, str], as_json: bool
) -> None:
    """Write a certificate, and that it was made.

    Parameters
    ----------
    which : the piece, as it was typed.
    out : the PDF.
    told : whose work it is, "" to leave that out; and a photo of the piece, which is kept with its edition.
    form : the paper, "a4" or "letter", and the units.
    who : the store, and by whom.
    as_json : print the facts as one object.
    """
    (maker, photo), (paper, units) = told, form
    units_told(units)
    if paper not in PAPERS:
        raise InputRefused("unknown-choice", short(paper), " or ".join(PAPERS), "", "Name the paper in the printer.")
    whose = line_told(maker, "a maker", may_lack=True)
    check_own_pdf(out, OURS, "certificate", "otter-7.pdf")
    with opened(who[0]) as shop:
        edition, piece = piece_meant(shop, which)
        facts = certificate_facts(shop, edition, piece)
        kept = None if photo is None else keep_file(shop, photo)
        text = replace(certificate_text(facts, units), maker=whose)
        text = text if kept is None else replace(text, photo=bytes_of(shop.files, kept))
        write_whole(out, certificate_pdf(text, paper))
        clock = bench_clock(shop, who[1])
        if kept is not None:
            attach(shop, clock, About.EDITION, edition.id, kept, f"{text.number}: certificate")
        certificate_made(shop, clock, edition.id, piece.id, whose)
    if as_json:
        say_json({"file": str(out), "maker": whose, "photo": kept, **tree_of(facts)})
    else:
        say(harmless(f"{out}: certificate of {text.edition}, {text.number} ({short_code(text.id)})."))


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
