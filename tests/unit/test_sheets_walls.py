"""Where steps stand in the wall: the order of the work (coats outward, wax, shell; then skin, back-fill)."""

from __future__ import annotations

import tomllib
from importlib import resources

import pytest
from sheets_fixture import plan

from moldwright.plan.mold import MOST_PIECES
from moldwright.plan.steps import Phase
from moldwright.sheets.walls import ALL, places, walls
from moldwright.sheets.words import plain


def test_layers_stand_in_the_order_in_which_they_are_made() -> None:
    drawn = walls(plan())
    assert [layer.name for layer in drawn["mold"]] == [
        "Original", "Coat 1", "Coat 2", "Coat 3", "Wax", "Shell 2", "Shell 1",
    ]  # fmt: skip
    assert [layer.pattern for layer in drawn["mold"][1:4]] == ["stipple", "brush", "stick"]
    assert [layer.notches for layer in drawn["mold"][1:4]] == [1, 2, 3]
    assert drawn["mold"][5].pattern != drawn["mold"][6].pattern
    assert [layer.name for layer in drawn["cast"]] == ["Shell", "Glove", "Skin", "Back-fill"]


def test_the_wall_only_grows() -> None:
    its = plan()
    for wall in ("mold", "cast"):
        hands = [place.layer for place in places(its) if place.wall == wall]
        assert hands == sorted(hands)


@pytest.mark.parametrize(
    ("step", "layer"),
    [("receive", 0), ("coat-1-mix", 1), ("coat-2", 2), ("coat-3-look", 3), ("wax-rubber", 4),
     ("shell-2", 5), ("shell-1", 6), ("peel", ALL), ("skin", 2), ("back-fill", 3)],
)  # fmt: skip
def test_each_step_has_its_layer_in_hand(step: str, layer: int) -> None:
    its = plan()
    ids = [s.id for s in its.steps]
    assert places(its)[ids.index(step)].layer == layer


def test_every_stage_of_the_work_has_its_wall_and_layer() -> None:
    table = tomllib.loads(resources.files("moldwright.sheets").joinpath("walls.toml").read_text("utf-8"))
    drawn = {name: {layer.key for layer in layers} for name, layers in walls(plan()).items()}
    assert set(table["phase"]) == set(Phase)
    named = {"coat", "last-coat", "last-shell", "all", *(f"shell-{n}" for n in range(1, MOST_PIECES + 1))}
    for phase in table["phase"].values():
        assert phase["layer"] in {*drawn[phase["wall"]], *named}


def test_signs_that_the_face_lacks_are_replaced() -> None:
    assert plain({"a": ["1\u202f→ 2"]}) == {"a": ["1\u00a0to 2"]}
