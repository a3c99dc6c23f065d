"""Looking at a scan without a command line: its figures in the reader's units, and the ways that it may stand."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from original_files import box, stl
from PIL import Image

from moldwright.errors import InputRefused
from moldwright.job.look import Looked, look
from moldwright.making.looking.scan import figures, order_of, picture_of
from moldwright.making.looking.ways import drawn, ways_to_stand
from moldwright.making.order import scan_of
from moldwright.progress import silent
from moldwright.scan.scan import Scan
from moldwright.store.memory import NoStore
from moldwright.units.system import UnitSystem


@pytest.fixture
def scan(tmp_path: Path) -> Scan:
    (tmp_path / "box.stl").write_bytes(stl(*box()))
    return scan_of(tmp_path / "box.stl", NoStore()).value


def upright(scan: Scan) -> Looked:
    return look(scan, order_of(Path("box.stl"), {"unit": "mm", "up": "+z"}), silent)


def test_figures_are_told_in_the_units_of_the_reader(scan: Scan) -> None:
    """By hand: 40 mm = 1.575 in, nearest to 1 9/16 in (1.5625) of all sixteenths; 20 x 30 mm = 6.0 cm² = 0.93
    in²; the sides 2 (600 + 800 + 1200) mm² = 52 cm² = 8.1 in²."""
    looked = upright(scan)
    metric, us = (dict(figures(looked.found, units)) for units in (UnitSystem.METRIC, UnitSystem.US))
    assert metric["size"].endswith("40 mm tall")
    assert "52 cm²" in metric["body"]
    assert metric["mouth"].startswith("6.0 cm²")
    assert us["size"].endswith("1 9/16 in tall")
    assert "8.1 in²" in us["body"]
    assert us["mouth"].startswith("0.93 in²")
    assert not any(unit in text for text in (us["size"], us["body"], us["mouth"]) for unit in (" mm", "cm²", " ml"))


def test_the_picture_is_a_png_of_one_piece(scan: Scan) -> None:
    with Image.open(io.BytesIO(picture_of(upright(scan)))) as picture:
        assert picture.format == "PNG"


def test_a_box_may_stand_on_any_of_its_largest_sides(scan: Scan) -> None:
    """Each way is told as the commission writes it, so that it can be chosen: every one of them is then taken."""
    order = order_of(Path("box.stl"), {"unit": "mm"})
    with pytest.raises(InputRefused) as refused:
        look(scan, order, silent)
    ways = ways_to_stand(refused.value, scan, order)
    assert len(ways) >= 2
    assert drawn(ways).startswith(b"\x89PNG")
    for way in ways:
        chosen = look(scan, order_of(Path("box.stl"), {"unit": "mm", "up": way.up.strip('"')}), silent)
        assert chosen.mesh.bounds_mm[1][2] == pytest.approx(way.stood.mesh.bounds_mm[1][2])


def test_what_no_way_to_stand_answers_has_none(scan: Scan) -> None:
    refused = InputRefused("too-thin", 0.5, 1.0, "mm", "Cut it lower.")
    assert ways_to_stand(refused, scan, order_of(Path("box.stl"), {"unit": "mm"})) == ()
