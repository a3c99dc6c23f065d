"""`moldwright look FOLDER`: photos told one by one, what is missing, the contact sheet, and the live tally.

Photos are real files read by the real reader; what they show is made up here.
"""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import numpy as np
import pypdf
import pytest
from PIL import Image
from typer.testing import CliRunner

from moldwright.desk import look_photos, watch_photos
from moldwright.desk.main import app
from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.making.looking import arriving
from moldwright.making.looking import photos as looking
from moldwright.photos.ask import Ask, AskKind, AskName
from moldwright.photos.photographed import Photographed, PhotosAsked, SeenPhoto
from moldwright.photos.poses import PoseWarning
from moldwright.photos.poses.marks import Marks
from moldwright.photos.poses.so_far import SoFar
from moldwright.photos.reading.photo import Photos
from moldwright.photos.sheet.layout import photo_sheet
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.photos.tally import MissingArc, Ring, RingFault, Tally
from moldwright.photos.told import PhotoReason, PhotoTold
from moldwright.ranges import NO_SPREAD, Range

LOW = Ring(2, 20.4, (MissingArc(140.0, 215.0, 4),), None)
TALLY = Tally(LOW, Ring(0, 0.0, (), RingFault.MISSING), 0, 29)


def save(folder: Path, name: str, shade: int = 90) -> None:
    Image.fromarray(np.full((60, 80, 3), shade, np.uint8)).save(folder / name)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    home = tmp_path / "bear"
    home.mkdir()
    for number, name in enumerate(("a.jpg", "b.jpg", "c.jpg")):
        save(home, name, 60 * number)
    (home / "d.jpg").write_bytes(b"\xff\xd8\xff\xe0 torn")
    return home


def found(photos: Photos, asked: PhotosAsked, progress: object = None) -> Photographed:
    """Photo b is soft; the piece is a box in closed form; a bowl is asked for."""
    soft = {p.file: PhotoTold(p.file, False, PhotoReason.SOFT, 0.42, 0.55) for p in photos if p.file.startswith("b")}
    seen = [SeenPhoto(soft.get(p.file, PhotoTold(p.file, True)), np.array(p.rgb())) for p in photos]
    seen += [SeenPhoto(told, None) for told in photos.told]
    mesh = Mesh(
        np.array([(0.0, 0, 0), (120, 0, 0), (0, 80, 0), (0, 0, 160)]), np.array([[0, 2, 1], [0, 1, 3]], np.int32)
    )
    asks = (Ask(AskName.A, AskKind.BOWL, (10.0, -5.0, 140.0), 40.0, 25.0),)
    return Photographed(
        mesh, 1.0, photo_sheet(SheetSize.A3), TALLY, NO_SPREAD, Range(780.0, 812.0, 850.0), 820.0,
        tuple(sorted(seen, key=lambda one: one.told.file)), ((PoseWarning.SHEET_CURLED, asked.bar_mm - 97.1),), asks,
    )  # fmt: skip


def so_far(marks: tuple[Marks, ...]) -> SoFar:
    soft = [PhotoTold(m.photo.file, False, PhotoReason.SOFT) for m in marks if m.photo.file.startswith("b")]
    return SoFar(tuple(soft), TALLY)


@pytest.fixture(autouse=True)
def made_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(looking, "photograph", found)
    monkeypatch.setattr(arriving, "tally_so_far", so_far)


def looked(capsys: pytest.CaptureFixture[str], *given: Any) -> str:
    look_photos.run_look_photos(*given)
    return capsys.readouterr().out


def test_each_photo_is_told_with_what_is_missing(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told = looked(capsys, folder, "99.6 mm", False, True, None).splitlines()
    assert told[0] == "bear: 2 used, 2 dropped"
    assert "  a.jpg: used" in told
    assert "  b.jpg: dropped, soft or shaken: edges 42 % as sharp as most, at least 55 %" in told
    assert any(line.startswith("  d.jpg: dropped, ") for line in told)
    assert "    none from the back between 140° and 215°: 4 photos more" in told
    assert "  High ring: missing, no photo of it" in told
    assert any("bent by 2.5 mm" in line for line in told)
    assert any("A3, its bar 99.6 mm" in line for line in told)
    assert any(
        line.split() == ["size", "120", "mm", "wide,", "80", "mm", "deep,", "160", "mm", "tall"] for line in told
    )
    assert any(line.endswith("812 ml (780–850)") for line in told)
    assert any("A: is it hollow on top, 140 mm up" in line for line in told)


def test_json_is_one_object(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told = json.loads(looked(capsys, folder, "", True, False, None))
    assert [(photo["file"], photo["used"], photo["reason"]) for photo in told["photos"]][:2] == [
        ("a.jpg", True, None),
        ("b.jpg", False, "soft"),
    ]
    assert told["tally"]["more"] == 29
    assert told["sheet"] == "a3"
    assert told["volume_ml"] == {"low": 780.0, "likely": 812.0, "high": 850.0}
    assert told["asks"][0]["kind"] == "bowl"


@pytest.mark.parametrize("name", ["seen.pdf", "seen.PNG"])
def test_the_contact_sheet_shows_them_all(folder: Path, capsys: pytest.CaptureFixture[str], name: str) -> None:
    picture = folder.parent / name
    looked(capsys, folder, "", False, True, picture)
    if name.endswith("pdf"):
        (page,) = pypdf.PdfReader(io.BytesIO(picture.read_bytes())).pages
        text = page.extract_text()
        assert all(text.count(each) == 1 for each in ("a.jpg", "b.jpg", "c.jpg", "d.jpg"))
        assert len(page.images) == 3
    else:
        assert Image.open(io.BytesIO(picture.read_bytes())).size[0] == 210 * 6


@pytest.mark.parametrize(
    ("name", "code"), [("a.jpg", "picture-no-png"), ("none/a.png", "file-unwritable"), ("", "picture-no-png")]
)
def test_a_picture_that_cannot_be_is_refused_before_anything_is_read(
    folder: Path, monkeypatch: pytest.MonkeyPatch, name: str, code: str
) -> None:
    monkeypatch.setattr(looking, "read_photos", None)
    with pytest.raises(InputRefused) as refused:
        look_photos.run_look_photos(folder, "", False, True, folder.parent / name)
    assert refused.value.code == code


def test_options_of_the_other_kind_are_refused(folder: Path) -> None:
    run = CliRunner().invoke
    scan = folder.parent / "a.stl"
    scan.write_bytes(b"solid")
    for command in (
        [str(folder), "--height", "160 mm"],
        [str(folder), "--up", "+z"],
        [str(scan), "--bar", "99 mm"],
        [str(scan), "--watch"],
    ):
        done = run(app, ["look", *command])
        assert done.exit_code == 3, command
        assert "option-unfit" in done.output
    assert run(app, ["look", str(folder), "--bar", "80 mm"]).exit_code == 3
    for other in (["--json"], ["--bar", "99 mm"], ["--picture", "a.png"]):
        assert run(app, ["look", str(folder), "--watch", *other]).exit_code == 2
    assert run(app, ["look", str(folder), "-q"]).exit_code == 0


def test_the_watch_reads_what_has_settled_once_and_tells_what_is_missing(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[str] = []
    real = arriving.read_photos

    def reading(home: Path, leave_out: tuple[str, ...] = ()) -> Any:
        read.extend(path.name for path in home.iterdir() if path.name not in leave_out)
        return real(home, leave_out)

    monkeypatch.setattr(arriving, "read_photos", reading)
    watched = arriving.Watched(folder)
    assert watched.turn() == "", "nothing has kept its size yet"
    first = watched.turn()
    assert "a.jpg: used" in first
    assert "b.jpg: dropped, soft" in first
    assert "d.jpg: dropped" in first
    assert "none from the back" in first
    assert watched.turn() == ""
    save(folder, "e.jpg", 200)
    assert watched.turn() == "", "it may still be coming"
    told = watched.turn()
    assert told.splitlines()[0] == "e.jpg: used"
    assert "a.jpg" not in told
    assert sorted(read) == ["a.jpg", "b.jpg", "c.jpg", "d.jpg", "e.jpg"]
    (folder / "a.jpg").unlink()
    assert "Low ring" in watched.turn(), "one that went is missed"
    (folder / "f.jpg").write_bytes(b"\xff\xd8\xff\xe0 torn too")
    watched.turn()
    assert watched.turn().startswith("f.jpg: dropped, cannot be read")
    watched.close()


def test_the_watch_goes_on_until_it_is_stopped(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    class Enough(Exception):
        pass

    turns: list[float] = []

    def wait(pause_s: float) -> None:
        turns.append(pause_s)
        if len(turns) == 3:
            raise Enough

    with pytest.raises(Enough):
        watch_photos.watch(folder, wait)
    said = capsys.readouterr()
    assert said.out.count("a.jpg: used") == 1
    assert "Ctrl-C ends it" in said.err
