"""`moldwright photos`: what is written, what is said, what is refused and leaves nothing behind."""

from __future__ import annotations

import io
from pathlib import Path

import pypdf
import pytest
from typer.testing import CliRunner

from moldwright.desk.command_photos import run_photos
from moldwright.desk.main import app
from moldwright.errors import InputRefused

BEAR = {"height": "160 mm", "width": "100 mm", "depth": "", "paper": "a4"}


def test_it_is_written_and_what_comes_next_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "bear.pdf"
    run_photos(out, **BEAR)
    told = capsys.readouterr().out
    pages = pypdf.PdfReader(io.BytesIO(out.read_bytes())).pages
    assert [page.extract_text().count("Photo sheet A4") for page in pages] == [1, 0]
    assert "218 mm tall" in told
    assert "at 100 %" in told
    assert "moldwright look FOLDER" in told
    assert list(tmp_path.iterdir()) == [out]


def test_an_earlier_sheet_is_replaced_and_joined_pages_are_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "bear.PDF"
    run_photos(out, **BEAR)
    run_photos(out, **{**BEAR, "height": "14 in", "width": "5 in", "paper": "Letter"})
    assert "ANSI C, joined of 4 pages of Letter; page 5" in capsys.readouterr().out
    assert len(pypdf.PdfReader(io.BytesIO(out.read_bytes())).pages) == 5


@pytest.mark.parametrize(
    ("name", "changed", "code"),
    [
        ("bear.png", {}, "sheet-no-pdf"),
        ("bear", {}, "sheet-no-pdf"),
        ("none/bear.pdf", {}, "file-unwritable"),
        (f"{'b' * 300}.pdf", {}, "file-unwritable"),
        ("folder.pdf", {}, "file-unwritable"),
        ("invoice.pdf", {}, "file-exists"),
        ("bear.pdf", {"height": "160"}, "quantity-unclear"),
        ("bear.pdf", {"height": "5 mm"}, "value-out-of-range"),
        ("bear.pdf", {"width": "0 mm"}, "value-out-of-range"),
        ("bear.pdf", {"depth": "4 m"}, "value-out-of-range"),
        ("bear.pdf", {"paper": "a0"}, "unknown-choice"),
        ("bear.pdf", {"height": "500 mm"}, "piece-past-sheet"),
        ("bear.pdf", {"height": "200 mm", "paper": "a5"}, "piece-past-sheet"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(
    tmp_path: Path, name: str, changed: dict[str, str], code: str
) -> None:
    (tmp_path / "folder.pdf").mkdir()
    (tmp_path / "invoice.pdf").write_bytes(b"%PDF-1.7 of somebody else")
    before = sorted(tmp_path.rglob("*"))
    with pytest.raises(InputRefused) as refused:
        run_photos(tmp_path / name, **{**BEAR, **changed})
    assert refused.value.code == code
    assert refused.value.remedy
    assert sorted(tmp_path.rglob("*")) == before
    assert (tmp_path / "invoice.pdf").read_bytes() == b"%PDF-1.7 of somebody else"


def test_a_height_without_a_unit_is_refused_by_the_name_it_was_typed_under(tmp_path: Path) -> None:
    with pytest.raises(InputRefused) as refused:
        run_photos(tmp_path / "b.pdf", **{**BEAR, "height": "60"})
    assert str(refused.value.actual).startswith("--height")


def test_a_remedy_names_a_paper_that_serves(tmp_path: Path) -> None:
    with pytest.raises(InputRefused) as refused:
        run_photos(tmp_path / "b.pdf", **{**BEAR, "height": "300 mm", "width": "9 in", "paper": "tabloid"})
    assert "--paper ansi-c" in refused.value.remedy
    run_photos(tmp_path / "b.pdf", **{**BEAR, "height": "300 mm", "width": "9 in", "paper": "ansi-c"})


def test_the_command_needs_the_pieces_size_and_ends_with_the_codes_of_the_others(tmp_path: Path) -> None:
    run = CliRunner().invoke
    assert run(app, ["photos", str(tmp_path / "b.pdf")]).exit_code == 2
    ask = ["--height", "160 mm", "--width", "90 mm"]
    assert run(app, ["photos", str(tmp_path / "b.txt"), *ask]).exit_code == 3
    assert run(app, ["photos", str(tmp_path / "b.pdf"), *ask]).exit_code == 0
