"""The page of a tape: every level and limb is on it, drawn where it is, as PDF (pypdf) and as PNG (Pillow)."""

from __future__ import annotations

import io
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pypdf
import pytest
from PIL import Image

from moldwright.commission.orders import GapOrder, LevelOrder, LimbOrder, LimbSide, TapeOrder
from moldwright.desk.look_tape import run_look_tape
from moldwright.errors import InputRefused
from moldwright.sheets.tape_drawing import LABELS_MM, TALL_MM, WIDE_MM, tape_drawing
from moldwright.sheets.tape_sheet import ANSWERED, TapeFacts, more_lines, tape_files, tape_sheet
from moldwright.tape.drawn import Facing
from moldwright.tape.narrower import Narrower, Wanted
from moldwright.tape.taped import Taped, taped
from moldwright.units.system import UnitSystem

LEVELS = (
    LevelOrder(0.0, 310.0, 110.0, 84.0),
    LevelOrder(60.0, 296.0, 106.0, 82.0),
    LevelOrder(110.0, 250.0),
    LevelOrder(112.0, 248.0),
    LevelOrder(150.0, 120.0),
)
ARM = LimbOrder("left arm", 110.0, (LevelOrder(0.0, 90.0), LevelOrder(80.0, 70.0)), 60.0, 20.0, LimbSide.LEFT)
LIMBS = (ARM, LimbOrder("horn \x1b[31m", 140.0, (LevelOrder(0.0, 40.0), LevelOrder(30.0, 0.0)), 160.0))
GAPS = (GapOrder("under the chin", 12.0, 20.0, None, 2),)
TOML = """[original]
name = "Otter"
height = "160 mm"
{more}
[original.tape]
levels = [{{at = 0, girth = "310 mm", breadth = "110 mm", depth = "84 mm"}},
          {{at = "60 mm", girth = "{girth}", breadth = "106 mm", depth = "82 mm"}}, {{at = "150 mm", girth = "120 mm"}}]
"""


@pytest.fixture(scope="module")
def found() -> Taped:
    return taped(TapeOrder(LEVELS, limbs=LIMBS), 160.0, GAPS)


def facts(found: Taped, units: UnitSystem = UnitSystem.METRIC) -> TapeFacts:
    return TapeFacts("Otter", found.height_mm, found.volume_ml, found.area_cm2, GAPS, None, units)


def text_of(pdf: bytes) -> str:
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    assert len(reader.pages) == 1
    return " ".join("\n".join(page.extract_text() for page in reader.pages).split())


def test_every_measure_is_on_the_page_and_what_was_not_read_is_marked(found: Taped) -> None:
    text = text_of(tape_sheet(found.drawn, facts(found), "a4"))
    for level in LEVELS:
        assert f"{level.girth_mm:.0f} mm" in text
    assert "110 mm" in text
    assert "mm*" in text
    assert "left arm" in text
    assert "20 mm" in text
    assert "\x1b" not in text
    assert "under the chin (2 × 12 mm × 20 mm)" in text


def test_us_units_are_told_in_inches(found: Taped) -> None:
    """150 mm are 5.9055 in: 5 29/32, told in sixteenths as 5 7/8 or 5 15/16 (inch of 25.4 mm)."""
    text = text_of(tape_sheet(found.drawn, facts(found, UnitSystem.US), "letter"))
    assert " mm" not in text
    assert "5 7/8 in" in text or "5 15/16 in" in text


def test_numbers_of_levels_stand_apart_and_at_their_heights(found: Taped) -> None:
    for facing in Facing:
        drawn = tape_drawing(found.drawn, facing, "front")
        notes = [s for s in drawn["shapes"] if s["kind"] == "note"]
        numbers = [s for s in notes if s["text"].isdecimal()]
        heights = [s["at"][1] for s in numbers]
        assert [s["text"] for s in numbers] == ["1", "2", "3", "4", "5"]
        assert all(a - b >= 4.0 for a, b in pairwise(heights))
        assert {s["text"] for s in notes} >= {"A", "B"}
        points = [p for s in drawn["shapes"] if s["kind"] == "patch" for ring in s["rings"] for p in ring]
        assert all(LABELS_MM <= x <= WIDE_MM and 0 <= y <= TALL_MM for x, y in points)


def test_the_level_that_was_measured_is_as_broad_as_the_drawing_there(found: Taped) -> None:
    """The outline is that which the tape goes round: at 60 mm it is 82 mm deep, seen from the side without limbs."""
    side = next(one for one in found.drawn.outlines if one.facing is Facing.SIDE)
    near = [x for ring in side.rings for x, z in ring if 50 < z < 70]
    assert max(near) - min(near) == pytest.approx(82.0, abs=3.0)


def test_the_files_of_a_plan(found: Taped) -> None:
    files = tape_files(found.drawn, facts(found))
    assert set(files) == {"sheets/tape-a4.pdf", "sheets/tape-letter.pdf", "sheets/tape.png"}
    assert Image.open(io.BytesIO(files["sheets/tape.png"])).size[0] == pytest.approx(210 * 6, abs=2)
    assert tape_files(found.drawn, facts(found)) == files


def test_a_commission_with_a_tape_is_looked_at(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "a.toml").write_text(TOML.format(more="", girth="296 mm"))
    alone = run_look_tape(tmp_path / "a.toml", picture=tmp_path / "a.png")
    assert "Volume" in capsys.readouterr().out
    assert (tmp_path / "a.png").read_bytes()[:4] == b"\x89PNG"
    assert alone.together_ml == alone.volume_ml
    water = f'displaced = "{alone.volume_ml.likely * 1.03:.0f} ml"'
    (tmp_path / "b.toml").write_text(TOML.format(more=water, girth="296 mm"))
    both = run_look_tape(tmp_path / "b.toml", as_json=True, picture=tmp_path / "b.pdf")
    assert '"together_ml"' in capsys.readouterr().out
    assert (both.together_ml.high - both.together_ml.low) / 2 / both.together_ml.likely <= 0.04
    assert (tmp_path / "b.pdf").read_bytes()[:4] == b"%PDF"


@pytest.mark.parametrize(
    ("more", "girth", "code"),
    [("", "400 mm", "tape-contradiction"), ('displaced = "90 ml"', "296 mm", "sources-disagree")],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(tmp_path: Path, more: str, girth: str, code: str) -> None:
    (tmp_path / "a.toml").write_text(TOML.format(more=more, girth=girth))
    with pytest.raises(InputRefused) as refused:
        run_look_tape(tmp_path / "a.toml", picture=tmp_path / "a.png")
    assert refused.value.code == code
    assert not (tmp_path / "a.png").exists()


def test_a_commission_without_a_tape_is_told_so(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text('[original]\nfile = "a.stl"\n')
    with pytest.raises(InputRefused, match=r"original\.tape is left out"):
        run_look_tape(tmp_path / "a.toml")


def test_what_to_measure_besides_is_told_in_the_house_s_units(found: Taped) -> None:
    asked = tuple(Narrower(ask, "arm" if "limb" in ask else "", 25.4, 76.2, 254.0) for ask in Wanted)
    lines = more_lines(replace(facts(found, UnitSystem.US), more=asked))
    assert len(lines) == len(Wanted)
    assert "between 1 in and 3 in" in next(line for line in lines if line.startswith("Measure one more"))
    assert "10 in" in next(line for line in lines if "unit" in line)
    assert sum(line.startswith("Arm: ") for line in lines) == 2
    assert not any("{" in line for line in lines)


def test_water_answers_what_it_can_answer(found: Taped) -> None:
    asked = tuple(Narrower(ask) for ask in Wanted)
    alone = facts(found)
    wet = replace(alone, narrowed_ml=found.volume_ml)
    assert len(more_lines(replace(wet, more=asked))) == len(Wanted) - len(ANSWERED)
    assert "bucket" in text_of(tape_sheet(found.drawn, alone, "a4"))
    assert "bucket" not in text_of(tape_sheet(found.drawn, wet, "a4"))
