"""`moldwright look --picture`: a whole picture or none, and the ways to stand where up is not clear."""

from __future__ import annotations

from pathlib import Path

import pytest
from original_files import box, frustum, off, stl
from PIL import Image

from moldwright.desk.command_look import run_look
from moldwright.disk import whole_file
from moldwright.disk.whole_file import write_whole
from moldwright.errors import InputRefused

NONE = {"height": "", "unit": "", "up": "", "board": ""}
PNG = b"\x89PNG\r\n\x1a\n"


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("cone.off").write_bytes(off(*frustum(30, 20, 80)))
    Path("box.stl").write_bytes(stl(*box()))
    return tmp_path


def size_px(name: str) -> tuple[int, int]:
    with Image.open(name) as picture:
        picture.load()
        assert picture.format == "PNG"
        return picture.size


def names() -> set[str]:
    return {path.name for path in Path().iterdir()}


def test_a_look_draws_how_it_will_stand(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("look.png").write_text("an earlier one")
    run_look(Path("cone.off"), {**NONE, "unit": "mm"}, quiet=True, picture=Path("look.png"))
    assert size_px("look.png")[0] > 300
    assert names() == {"cone.off", "box.stl", "look.png"}
    assert "80 mm tall" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("given", "code", "wide"),
    [
        ({"unit": "mm"}, "up-unclear", True),
        ({}, "size-unclear", True),
        ({"up": "+z"}, "size-unclear", False),
    ],
)
def test_where_up_is_not_clear_the_ways_are_drawn(here: Path, given: dict[str, str], code: str, wide: bool) -> None:
    """A box of 20 x 30 x 40 stands as well on either of its largest sides."""
    with pytest.raises(InputRefused) as caught:
        run_look(Path("box.stl"), {**NONE, **given}, quiet=True, picture=Path("look.png"))
    assert caught.value.code == code
    assert "drawn in look.png" in caught.value.remedy
    width, height = size_px("look.png")
    assert (width > 2 * height) == wide


def test_a_refusal_that_no_picture_explains_writes_none(here: Path) -> None:
    with pytest.raises(InputRefused) as caught:
        run_look(
            Path("box.stl"),
            {**NONE, "unit": "mm", "up": "+z", "board": "39.5 mm"},
            quiet=True,
            picture=Path("look.png"),
        )
    assert caught.value.code == "too-thin"
    assert names() == {"cone.off", "box.stl"}


@pytest.mark.parametrize(
    ("name", "code"),
    [("look.jpg", "picture-no-png"), ("box.stl", "picture-no-png"), ("nowhere/look.png", "file-unwritable"),
     ("folder.png", "file-unwritable"), ("scan.png", "picture-is-scan")],
)  # fmt: skip
def test_a_name_that_no_picture_should_have_is_refused_first(here: Path, name: str, code: str) -> None:
    Path("folder.png").mkdir()
    Path("scan.png").symlink_to("cone.off")
    with pytest.raises(InputRefused) as caught:
        run_look(Path("cone.off"), {**NONE, "unit": "mm"}, quiet=True, picture=Path(name))
    assert caught.value.code == code
    assert Path("cone.off").read_bytes() == off(*frustum(30, 20, 80))


def test_a_picture_that_cannot_be_finished_leaves_the_earlier_one(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    Path("look.png").write_bytes(PNG)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(whole_file.os, "fsync", full)
    with pytest.raises(InputRefused) as caught:
        write_whole(Path("look.png"), b"new")
    assert caught.value.code == "file-unwritable"
    assert Path("look.png").read_bytes() == PNG
    assert names() == {"cone.off", "box.stl", "look.png"}
