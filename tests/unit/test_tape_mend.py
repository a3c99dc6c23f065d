"""Girth, breadth and depth that contradict each other: the smallest change, against a plain search over all three."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from moldwright.commission.orders import LevelOrder, LimbOrder, TapeOrder
from moldwright.errors import InputRefused
from moldwright.tape.check import checked
from moldwright.tape.doubts import reading
from moldwright.tape.mend import clash
from moldwright.tape.taped import taped

GOOD = tuple(LevelOrder(at, 300.0, 100.0, 90.0) for at in (0.0, 50.0, 100.0))


def fits(girth: float, breadth: float, depth: float) -> bool:
    """Whether a convex line can be so long in a box that it touches on all four sides (plane geometry)."""
    return 2 * math.hypot(breadth, depth) <= girth + 1e-6 and girth <= 2 * (breadth + depth) + 1e-6


def least_change(measures: tuple[float, float, float]) -> float:
    """By bisection on the share, over each measure alone, up and down."""
    best = math.inf
    for place in range(3):
        for way in (-1.0, 1.0):
            changed = [
                share
                for share in np.linspace(0.0, 1.5, 6001)
                if fits(*(v * (1 + way * share) if n == place else v for n, v in enumerate(measures)))
            ]
            best = min([best, *changed])
    return best


@pytest.mark.parametrize(
    ("measures", "key"),
    [
        ((420.0, 110.0, 80.0), "girth"),
        ((250.0, 110.0, 80.0), "girth"),
        ((200.0, 130.0, 20.0), "breadth"),
        ((200.0, 15.0, 120.0), "depth"),
        ((260.0, 124.0, 100.0), "girth"),
    ],
)
def test_the_smallest_change_is_the_smallest(measures: tuple[float, float, float], key: str) -> None:
    found = clash(*measures, reading())
    assert found is not None
    assert found.mend.share == pytest.approx(least_change(measures), abs=1.5e-3)
    mended = dict(zip(("girth", "breadth", "depth"), measures, strict=True)) | {found.mend.key: found.mend.mended_mm}
    assert fits(*mended.values())
    assert clash(*mended.values(), reading()) is None
    assert found.mend.key == key


@given(st.floats(20, 900), st.floats(10, 300), st.floats(10, 300))
def test_what_is_refused_cannot_be_and_the_change_mends_it(girth: float, breadth: float, depth: float) -> None:
    found = clash(girth, breadth, depth, reading())
    if fits(girth, breadth, depth):
        assert found is None
        return
    assume(found is not None)
    assert found is not None
    mended = {"girth": girth, "breadth": breadth, "depth": depth} | {found.mend.key: found.mend.mended_mm}
    assert fits(*mended.values())


def test_the_refusal_tells_the_place_the_bound_and_the_change_and_the_change_is_taken() -> None:
    wrong = (*GOOD[:2], LevelOrder(100.0, 402.0, 100.0, 90.0))
    with pytest.raises(InputRefused) as refused:
        taped(TapeOrder(wrong))
    assert refused.value.code == "tape-contradiction"
    assert "original.tape.levels[2]" in refused.value.sentence()
    assert "380 mm" in str(refused.value.limit)  # 2 (100 + 90)
    assert 'girth = "380 mm"' in refused.value.remedy
    assert checked(TapeOrder((*wrong[:2], replace(wrong[2], girth_mm=380.0))), 120.0) == 120.0


def test_one_width_alone_contradicts_a_girth_that_is_less_than_twice_as_long() -> None:
    with pytest.raises(InputRefused, match=r'breadth = "100 mm", or girth = "240 mm"'):
        checked(TapeOrder((*GOOD[:2], LevelOrder(90.0, 200.0, 120.0))), 100.0)


@pytest.mark.parametrize(
    ("tape", "height", "code"),
    [
        (TapeOrder(GOOD[:2]), 100.0, "tape-too-few-levels"),
        (TapeOrder((GOOD[0], GOOD[2], GOOD[1])), 100.0, "tape-levels-order"),
        (TapeOrder((GOOD[0], GOOD[0], GOOD[1])), 100.0, "tape-levels-order"),
        (TapeOrder(GOOD), 80.0, "tape-above-height"),
        (TapeOrder((LevelOrder(0.0, 0.0), *GOOD[1:])), 100.0, "tape-tip-inside"),
        (TapeOrder(GOOD, limbs=(LimbOrder("arm", 50.0, GOOD[:1]),)), 100.0, "tape-too-few-levels"),
        (TapeOrder(GOOD, limbs=(LimbOrder("arm", 150.0, GOOD[:2]),)), 100.0, "tape-above-height"),
        (TapeOrder(GOOD, limbs=(LimbOrder("arm", 90.0, (LevelOrder(0.0, 60.0), LevelOrder(20.0, 40.0)), 0.0),)), 100.0,
         "tape-limb-too-short"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_a_remedy(tape: TapeOrder, height: float, code: str) -> None:
    with pytest.raises(InputRefused) as refused:
        checked(tape, height)
    assert refused.value.code == code
    assert refused.value.remedy
    assert refused.value.limit is not None
