"""`moldwright look`: options read like a commission's keys, the look told in words and as JSON."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from moldwright.commission.orders import OriginalOrder
from moldwright.desk import command_look
from moldwright.errors import InputRefused
from moldwright.job.look import Looked
from moldwright.making.looking.scan import order_of
from moldwright.plan.assumptions import Assumption
from moldwright.plan.look import Look
from moldwright.plan.original import Hole, HoleTreat, MouthPlan, PlinthPlan
from moldwright.scan.repairs import Repair, RepairCode
from moldwright.store.stage import Kept

LOOK = Look(
    file="stag.off",
    format="off",
    size_mm=(100.0, 80.5, 160.0),
    triangles=1234,
    bodies=2,
    watertight=False,
    volume_ml=812.4,
    area_cm2=640.0,
    mouth=MouthPlan(1250.0, 15.0, 1, PlinthPlan(20.0, 40.0, 35.0, ((0.0, 0.0), (40.0, 0.0), (40.0, 35.0)), 30.0)),
    undercut_one_ml=41.2,
    undercut_two_ml=3.4,
    holes=(Hole(1, (0.0, 0.0, 50.0), 12.0, HoleTreat.DIVIDER, (18.0, 12.0)),),
    repairs=(Repair(RepairCode.HOLE_CLOSED, 35.0, "mm"),),
    said=(Assumption("original.up", "+z", "", "found"),),
)
NONE = {"height": "", "unit": "", "up": "", "board": ""}


def test_options_are_a_commissions_keys() -> None:
    order = order_of(Path("deep/stag.off"), {**NONE, "height": "8 in", "up": "0, 0,1", "board": "2 mm"})
    assert order == OriginalOrder("stag.off", height_mm=pytest.approx(203.2), up=(0.0, 0.0, 1.0), board_mm=2.0)
    assert order_of(Path("a.stl"), NONE) == OriginalOrder("a.stl")


@pytest.mark.parametrize(
    "options", [{"height": "8"}, {"up": "left"}, {"up": "1,2"}, {"up": "a,b,c"}, {"unit": "miles"}]
)
def test_unclear_options_are_refused(options: dict[str, str]) -> None:
    with pytest.raises(InputRefused) as refused:
        order_of(Path("a.stl"), {**NONE, **options})
    assert refused.value.remedy


def test_words_tell_every_finding() -> None:
    told = command_look.in_words(LOOK)
    for part in (
        "100 mm wide",
        "812 ml",
        "open",
        "narrowest 15 mm",
        "20 mm high",
        "41.2 ml",
        "cut the web",
        "35 mm",
        "+z",
    ):
        assert part in told, part


def test_json_is_one_object(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(command_look, "scan_of", lambda path, store: Kept("scan", lambda: None))
    monkeypatch.setattr(command_look, "look", lambda scan, order, progress: Looked(LOOK, None))
    command_look.run_look(tmp_path / "stag.off", NONE, as_json=True)
    said = capsys.readouterr()
    assert said.err == ""
    assert json.loads(said.out)["mouth"]["plinth"] == {
        "height_mm": 20.0,
        "length_mm": 40.0,
        "breadth_mm": 35.0,
        "outline": [[0.0, 0.0], [40.0, 0.0], [40.0, 35.0]],
        "volume_ml": 30.0,
    }
