"""A coat's mix from its sheet: shares by hand. Order and traces: common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest

from moldwright.materials import Rubber, library
from moldwright.mixing.recipe import Recipe
from moldwright.mixing.rubber import rubber_density_g_ml, rubber_parts, rubber_recipe
from moldwright.plan.coats import PigmentColor
from moldwright.plan.mixes import PartKind
from moldwright.ranges import Range

EVEN, LATEX = library().rubber("addition-cure-a10-slow"), library().rubber("latex")
TEN_TO_ONE = replace(EVEN, ratio_weight=(10.0, 1.0))
AGENT = library().thixotrope("silicone-thixotrope")
RED = next(iter(PigmentColor))


def shares(mix: Recipe) -> dict[PartKind, float]:
    return {part.kind: part.share for part in mix.ingredients}


def test_two_parts_by_weight() -> None:
    a, b = rubber_parts(TEN_TO_ONE)
    assert b is not None
    assert (a.share, b.share) == (10.0, 1.0)
    assert (a.density_g_ml, b.density_g_ml) == (EVEN.density_a_g_ml.likely, EVEN.density_b_g_ml.likely)


@pytest.mark.parametrize("sheet", [LATEX, replace(EVEN, density_b_g_ml=None), replace(EVEN, ratio_weight=(1.0, 0.0))])
def test_one_part(sheet: Rubber) -> None:
    assert rubber_parts(sheet)[1] is None
    assert list(shares(rubber_recipe(sheet, None, 0.0, AGENT))) == [PartKind.A]


def test_shares_of_a_whole() -> None:
    """Of 100 g: 2 g of thixotropic agent, a trace of 0.1 g of pigment, the rest 97.9 g as 10 : 1."""
    mix = shares(rubber_recipe(TEN_TO_ONE, RED, 2.0, AGENT))
    assert mix == pytest.approx(
        {PartKind.B: 0.089, PartKind.PIGMENT: 0.001, PartKind.A: 0.89, PartKind.THIXOTROPE: 0.02}, abs=1e-9
    )


def test_nothing_that_is_not_asked_for() -> None:
    assert shares(rubber_recipe(EVEN, None, 0.0, AGENT)) == pytest.approx({PartKind.B: 0.5, PartKind.A: 0.5})
    assert list(shares(rubber_recipe(EVEN, RED, 0.0, AGENT))) == [PartKind.B, PartKind.PIGMENT, PartKind.A]
    assert list(shares(rubber_recipe(EVEN, None, 0.1, AGENT))) == [PartKind.B, PartKind.A, PartKind.THIXOTROPE]
    assert list(shares(rubber_recipe(LATEX, RED, 1.0, AGENT))) == [PartKind.A, PartKind.PIGMENT, PartKind.THIXOTROPE]
    assert sum(shares(rubber_recipe(LATEX, RED, 1.0, AGENT)).values()) == pytest.approx(1.0)


def test_densities_of_a_coat() -> None:
    """Pigment paste is denser than its oil and lighter than twice it; a liquid thixotropic agent is about as water."""
    parts = {part.kind: part for part in rubber_recipe(EVEN, RED, 2.0, AGENT).ingredients}
    assert 0.97 < parts[PartKind.PIGMENT].density_g_ml < 1.9
    assert parts[PartKind.THIXOTROPE].density_g_ml == pytest.approx(1.0, abs=0.1)
    assert parts[PartKind.PIGMENT].name == RED


def test_density_of_the_mixed_rubber() -> None:
    """Additive volumes: 2 g in 1 / 1.0 + 1 / 1.25 = 1.8 ml."""
    assert EVEN.density_b_g_ml is not None
    sheet = replace(
        EVEN,
        density_a_g_ml=replace(EVEN.density_a_g_ml, range=Range.exactly(1.0)),
        density_b_g_ml=replace(EVEN.density_b_g_ml, range=Range.exactly(1.25)),
        ratio_weight=(1.0, 1.0),
    )
    assert rubber_density_g_ml(sheet) == pytest.approx(2 / 1.8)
