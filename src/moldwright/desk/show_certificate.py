"""`moldwright edition certificate`: writes the PDF, and that it was made."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from moldwright.desk.own_pdf import check_own_pdf
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.disk.whole_file import write_whole
from moldwright.log.codes import short_code
from moldwright.making.shop import bench_clock
from moldwright.plan.json_text import tree_of
from moldwright.records.editions.certificate import certificate_facts
from moldwright.records.editions.read import piece_meant
from moldwright.records.files.keep import keep_file
from moldwright.text.harmless import harmless
from moldwright.told.certificate_print import CertificateAsked, check_asked, note_certificate, set_certificate

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
    asked = CertificateAsked(paper, units, maker)
    check_asked(asked)
    check_own_pdf(out, OURS, "certificate", "otter-7.pdf")
    with opened(who[0]) as shop:
        edition, piece = piece_meant(shop, which)
        certificate_facts(shop, edition, piece)
        kept = None if photo is None else keep_file(shop, photo)
        made = set_certificate(shop, edition, piece, replace(asked, photo=kept))
        write_whole(out, made.pdf)
        note_certificate(shop, bench_clock(shop, who[1]), edition, piece, made, kept)
    if as_json:
        say_json({"file": str(out), "maker": made.text.maker, "photo": kept, **tree_of(made.facts)})
    else:
        say(harmless(f"{out}: certificate of {made.text.edition}, {made.text.number} ({short_code(made.text.id)})."))
