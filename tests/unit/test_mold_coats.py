"""Coats of a glove. Three coats, a thin stippled one first, thixotropic agent rising, colors different: common
practice, no source."""

import pytest

from moldwright.commission.orders import CoatOrder
from moldwright.errors import InputRefused
from moldwright.mold.coats import coat_layers


@pytest.mark.parametrize("thickness_mm", [1.0, 2.5, 4.0, 6.35, 12.0, 30.0])
def test_the_usual_three_sum_to_the_thickness(thickness_mm: float) -> None:
    layers = coat_layers(thickness_mm)
    assert sum(layer.thickness_mm for layer in layers) == pytest.approx(thickness_mm, abs=1e-6)
    assert [layer.gesture for layer in layers] == ["stipple", "brush", "stick"]
    assert layers[0].thickness_mm <= 1.0
    assert layers[0].thickness_mm < layers[1].thickness_mm < layers[2].thickness_mm


def test_thixotrope_rises_and_colors_differ() -> None:
    layers = coat_layers(8.0, [CoatOrder(f"coat {i}", 2.0) for i in range(4)])
    shares = [layer.thixotrope_pct for layer in layers]
    assert shares == sorted(set(shares))
    assert len({layer.pigment for layer in layers}) == 4
    assert [layer.gesture for layer in layers] == ["stipple", "brush", "brush", "stick"]


def test_coats_that_do_not_add_up_are_refused_with_the_numbers() -> None:
    with pytest.raises(InputRefused) as refused:
        coat_layers(4.0, [CoatOrder("detail", 1.0), CoatOrder("build", 2.5)])
    assert (refused.value.code, refused.value.actual, refused.value.limit) == ("coats-disagree", 3.5, 4.0)
    assert "1 + 2.5 = 3.5 mm" in refused.value.remedy


@pytest.mark.parametrize(
    ("thickness_mm", "coats", "code"),
    [
        (0.5, (), "value-out-of-range"),
        (4.0, (CoatOrder("a", 2.0), CoatOrder("a", 2.0)), "coat-twice"),
        (4.0, (CoatOrder("a", 4.5), CoatOrder("b", -0.5)), "value-out-of-range"),
        (9.0, tuple(CoatOrder(str(i), 1.0) for i in range(9)), "value-out-of-range"),
    ],
)
def test_refused(thickness_mm: float, coats: tuple[CoatOrder, ...], code: str) -> None:
    with pytest.raises(InputRefused) as refused:
        coat_layers(thickness_mm, coats)
    assert refused.value.code == code
