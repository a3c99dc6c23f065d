"""How unsure a stack is between its levels, and what a maker is asked to measure besides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
import trimesh

from moldwright.commission.orders import GapOrder, LevelOrder, LimbOrder, LimbSide, TapeOrder
from moldwright.errors import InputRefused
from moldwright.geometry.section_shape import Hollows, SectionShape
from moldwright.tape.between import unsure_between
from moldwright.tape.doubts import form, reading
from moldwright.tape.narrower import Wanted
from moldwright.tape.taped import Taped, taped

SOURCE = ("Exact geometry: a cone's breadth is linear in its height",)
ROUND = 0.5


def tape(*girths: float, step: float = 40.0, hollows: Hollows | None = Hollows.NONE) -> TapeOrder:
    levels = tuple(LevelOrder(n * step, g, g / np.pi, g / np.pi) for n, g in enumerate(girths))
    return TapeOrder(levels, SectionShape.ROUND, hollows=hollows)


def asked(found: Taped) -> list[Wanted]:
    return [one.ask for one in found.narrower]


def test_a_cone_is_foretold_by_its_levels_and_a_waist_is_not() -> None:
    at = np.arange(6) * 40.0
    cone, waist = 120.0 - 12.0 * np.arange(6), np.array([120.0, 108.0, 96.0, 40.0, 72.0, 60.0])
    square = np.full(6, ROUND)
    sure, unsure = (unsure_between(at, np.stack([b, b]), square, reading(), form()) for b in (cone, waist))
    apart = np.diff(at) / ((cone[:-1] + cone[1:]) / 2.0)
    assert sure == pytest.approx(form().between_least * apart)
    assert unsure[2] > 3.0 * sure[2]


def waisted(at_mm: Sequence[float]) -> TapeOrder:
    """A round body of girth 300 mm with a waist of 150 mm at 180 mm."""
    girths = 300.0 - 150.0 * np.exp(-(((np.array(at_mm) - 180.0) / 40.0) ** 2))
    levels = tuple(
        LevelOrder(z, float(g), float(g / np.pi), float(g / np.pi)) for z, g in zip(at_mm, girths, strict=True)
    )
    return TapeOrder(levels, SectionShape.ROUND, hollows=Hollows.NONE)


def test_a_level_more_is_asked_for_at_the_waist_and_narrows_the_range() -> None:
    at_mm = [0.0, 60.0, 120.0, 180.0, 240.0, 300.0, 360.0]
    found = taped(waisted(at_mm))
    places = [one for one in found.narrower if one.ask is Wanted.LEVEL]
    assert {(one.low_mm, one.high_mm) for one in places} == {(60.0, 120.0), (240.0, 300.0)}
    again = taped(waisted(sorted([*at_mm, *(one.about_mm for one in places)])))
    assert again.volume_ml.high / again.volume_ml.low < found.volume_ml.high / found.volume_ml.low
    fine = np.linspace(0.0, 360.0, 2001)
    true_ml = np.trapezoid([v.girth_mm**2 / (4000.0 * np.pi) for v in waisted(list(fine)).levels], fine)
    assert again.volume_ml.low < true_ml < again.volume_ml.high


def test_what_was_not_told_is_asked_for() -> None:
    cone = tape(400, 380, 360, 340, hollows=None)
    assert asked(taped(cone))[:3] == [Wanted.TOP, Wanted.HOLLOWS, Wanted.GAPS]
    whole = taped(replace(cone, hollows=Hollows.NONE), 130.0, gaps=(GapOrder("mouth", 30.0, 40.0),))
    assert not {Wanted.TOP, Wanted.HOLLOWS, Wanted.GAPS, Wanted.CALIPERS} & set(asked(whole))
    girths = replace(cone, levels=tuple(LevelOrder(level.at_mm, level.girth_mm) for level in cone.levels))
    assert Wanted.CALIPERS in asked(taped(girths))
    assert Wanted.SMALL in asked(taped(tape(100, 90, 80, step=20.0)))


def test_a_girth_in_another_unit_and_a_limb_thicker_than_the_body_are_asked_after() -> None:
    slipped = tape(310, 300, 26, 280)
    one = next(one for one in taped(slipped).narrower if one.ask is Wanted.GIRTH)
    assert (one.low_mm, one.girth_mm) == (80.0, 26.0)
    thick = LimbOrder("arm", 60.0, (LevelOrder(0.0, 900.0), LevelOrder(200.0, 800.0)))
    assert Wanted.FAT_LIMB in asked(taped(replace(tape(310, 300, 290), limbs=(thick,))))


def test_a_top_far_over_the_last_level_is_refused() -> None:
    """A half ball over a level is half as high as that is wide; a dome as high as wide is let pass."""
    body = tape(310, 300, 280)
    assert taped(body, 80.0 + 80.0).height_mm == pytest.approx(160.0)
    with pytest.raises(InputRefused, match="tape-top-open"):
        taped(body, 300.0)


def test_a_head_told_as_a_limb_leaves_the_body_its_own_top() -> None:
    body = tape(310, 300, 280)
    neck = LimbOrder("neck", 75.0, (LevelOrder(0.0, 120.0), LevelOrder(200.0, 110.0)), 275.0, None, LimbSide.FRONT)
    found = taped(replace(body, limbs=(neck,)), 300.0)
    alone = taped(body, 80.0 + 280.0 / (2.0 * np.pi))
    assert found.volume_ml.likely < alone.volume_ml.likely + 1.2 * 200.0 * 120.0**2 / (4000.0 * np.pi)
    head = LimbOrder("head", 265.0, (LevelOrder(0.0, 110.0), LevelOrder(60.0, 80.0)), 265.0, None, LimbSide.FRONT)
    both = taped(replace(body, limbs=(neck, head)), 300.0)
    assert trimesh.Trimesh(both.mesh.vertices, both.mesh.faces).body_count == 1
    assert both.mesh.bounds_mm[0][1] < found.mesh.bounds_mm[0][1] - 20.0


def test_gaps_that_leave_next_to_nothing_are_refused_with_the_depth_that_would_do() -> None:
    body = tape(314.16, 314.16, 314.16)
    with pytest.raises(InputRefused, match="tape-gaps-too-large") as refused:
        taped(body, gaps=(GapOrder("bore", 80.0, 100.0),))
    deep = float(refused.value.remedy.split("(")[1].split(" mm")[0])
    assert taped(body, gaps=(GapOrder("bore", deep, 100.0),)).volume_ml.likely > 0.0


def test_a_limb_too_short_for_its_gap_is_refused() -> None:
    """From 150 down to 40 by a limb of 130: two straight lines stand off sqrt(130^2 - 110^2) / 2 = 34.6 mm."""
    body = tape(400, 400, 400, 400, 400, 400)
    arm = LimbOrder("arm", 150.0, (LevelOrder(0.0, 60.0), LevelOrder(130.0, 50.0)), 40.0, 30.0)
    taped(replace(body, limbs=(arm,)))
    with pytest.raises(InputRefused, match="tape-gap-too-wide"):
        taped(replace(body, limbs=(replace(arm, gap_mm=80.0),)))
