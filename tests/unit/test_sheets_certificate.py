"""The certificate: one page whatever is known, read back by pypdf and OpenCV's detector."""

from __future__ import annotations

import io
from dataclasses import fields, replace

import cv2
import numpy as np
import pypdf
import pytest
from PIL import Image
from tests.label_shots import DOTS, MM, scanned, shots, texts

from moldwright.errors import InputRefused
from moldwright.sheets.certificate import CertificateText, certificate_data, certificate_pdf

ID = "019a0000-0000-7000-8000-abcd4f2a91bc"
FULL = CertificateText(
    ID, "Otter on a stone", "17 of 50", "The otter", "A. Maker", "bronze, cold cast", "160 mm tall", "1.23 kg",
    "2026-11-27", "mold two", "50 and 3 artist's proofs",
)  # fmt: skip
BARE = CertificateText(ID, "Otter on a stone", "artist's proof 2 of 3")
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""ISO 216; ANSI Y14.1 (from memory) [mm]."""


def photo(form: str = "JPEG", size: tuple[int, int] = (600, 400), mode: str = "RGB", **more: object) -> bytes:
    held = io.BytesIO()
    Image.new(mode, size, (0, 0, 0, 0) if mode == "RGBA" else (200, 30, 30)).save(held, form, **more)
    return held.getvalue()


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("text", [FULL, BARE, replace(FULL, photo=photo())], ids=["full", "bare", "photo"])
def test_a_certificate_is_one_page_of_its_paper_with_all_that_is_known(text: CertificateText, paper: str) -> None:
    pdf = certificate_pdf(text, paper)
    (page,) = pypdf.PdfReader(io.BytesIO(pdf)).pages
    assert (float(page.mediabox.width) / MM, float(page.mediabox.height) / MM) == pytest.approx(PAPERS[paper], abs=0.05)
    told = texts(pdf)[0]
    for field in fields(text):
        value = getattr(text, field.name)
        assert not isinstance(value, str) or value in told
    for always in ("Signature", "Date", "4F2A-91BC", f"urn:uuid:{ID}"):
        assert always in told
    assert pdf == certificate_pdf(text, paper)


def test_what_nobody_knows_is_left_out() -> None:
    told = texts(certificate_pdf(BARE, "a4"))[0]
    for head in ("Edition", "Made by", "Material", "Size", "Weight", "Cast on", "Mold"):
        assert head not in told
        assert head in texts(certificate_pdf(FULL, "a4"))[0]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("picture", [None, photo()], ids=["plain", "photo"])
def test_the_code_is_read_back_from_the_page(paper: str, picture: bytes | None) -> None:
    (page,) = shots("certificate", *certificate_data(replace(FULL, photo=picture), paper))
    assert scanned(page[-round(60 * DOTS) :, : round(90 * DOTS)]) == f"urn:uuid:{ID}"


def test_long_texts_stay_on_the_page() -> None:
    """Every text 300 letters, every letter an M: nothing within 20 mm of the paper's edges, and still one page."""
    long = CertificateText(ID, *["MMM MMMM " * 33] * 10, photo=photo())
    (page,) = shots("certificate", *certificate_data(long, "letter"))
    inner = page.copy()
    edge = round(20 * DOTS)
    inner[edge:-edge, edge:-edge] = 255
    assert inner.min() == 255
    assert page.min() == 0


def test_a_photo_stands_upright_and_in_its_shape() -> None:
    """EXIF's orientation 6: the first row is the right side (Exif 2.3, 4.6.4.A): 600 x 400 pixels stand 400 x 600."""
    exif = Image.Exif()
    exif[0x0112] = 6
    for picture, shape in ((photo(), 1.5), (photo(exif=exif), 1 / 1.5), (photo("PNG"), 1.5)):
        (page,) = shots("certificate", *certificate_data(replace(FULL, photo=picture), "a4"))
        gray = cv2.morphologyEx(np.uint8((page > 40) & (page < 200)) * 255, cv2.MORPH_OPEN, np.ones((25, 25), np.uint8))
        rows, columns = np.nonzero(gray)
        assert np.ptp(columns) / np.ptp(rows) == pytest.approx(shape, rel=0.02)


def test_what_is_seen_through_is_white() -> None:
    """Of a PNG that is transparent throughout nothing is seen."""
    clear, none = (
        shots("certificate", *certificate_data(replace(FULL, photo=each), "a4"))[0]
        for each in (photo("PNG", mode="RGBA"), None)
    )
    assert int((clear < 128).sum()) == pytest.approx(int((none < 128).sum()), rel=0.01)


@pytest.mark.parametrize(
    "data", [b"", b"no photo", photo()[:300], photo("GIF"), photo("BMP")], ids=["none", "text", "torn", "gif", "bmp"]
)
def test_what_is_no_photo_is_refused(data: bytes) -> None:
    with pytest.raises(InputRefused) as refused:
        certificate_pdf(replace(FULL, photo=data), "a4")
    assert refused.value.code == "photo-unreadable"


def test_the_pdf_says_what_it_is() -> None:
    read = pypdf.PdfReader(io.BytesIO(certificate_pdf(replace(FULL, photo=photo()), "a4")))
    assert read.metadata is not None
    assert read.metadata.title == "Certificate: The otter, 17 of 50"
    assert read.trailer["/Root"]["/Lang"] == "en-US"
    assert read.trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_markup_in_a_name_is_text() -> None:
    name = "#set text(red) *a* $x$ <b>"
    assert name in texts(certificate_pdf(replace(BARE, edition=name), "a4"))[0]
