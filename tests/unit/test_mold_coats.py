"""Coats of a glove. Three coats, a thin stippled one first, thixotropic agent rising, colors different: common
practice, no source."""

from itertools import pairwise

import pytest

from moldwright.commission.coats import MOST_COATS
from moldwright.commission.orders import CoatOrder
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.materials import Rubber, library
from moldwright.mold.coats import COLORS, laid_out

SILICONE, LATEX = library().rubber("addition-cure-a10-slow"), library().rubber("latex")


@pytest.mark.parametrize("thickness_mm", [2.0, 2.5, 4.0, 6.35, 12.0])
def test_the_usual_three_sum_to_the_thickness(thickness_mm: float) -> None:
    layers = laid_out(thickness_mm, (), SILICONE)
    assert sum(layer.thickness_mm for layer in layers) == pytest.approx(thickness_mm, abs=1e-6)
    assert [layer.gesture for layer in layers] == ["stipple", "brush", "stick"]
    assert layers[0].thickness_mm <= 1.0
    assert layers[0].thickness_mm < layers[1].thickness_mm < layers[2].thickness_mm


def test_thixotrope_rises_and_colors_differ() -> None:
    layers = laid_out(7.0, [CoatOrder(f"coat {i}", 1.0 + i % 2 * 1.5) for i in range(4)], SILICONE)
    shares = [layer.thixotrope_pct for layer in layers]
    assert shares == sorted(set(shares))
    assert len({layer.pigment for layer in layers}) == 4
    assert [layer.gesture for layer in layers] == ["stipple", "brush", "brush", "stick"]


def test_coats_that_do_not_add_up_are_refused_with_the_numbers() -> None:
    with pytest.raises(InputRefused) as refused:
        laid_out(4.0, [CoatOrder("detail", 1.0), CoatOrder("build", 2.5)], SILICONE)
    assert (refused.value.code, refused.value.actual, refused.value.limit) == ("coats-disagree", 3.5, 4.0)
    assert "1 mm + 2.5 mm = 3.5 mm" in refused.value.remedy


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
        laid_out(thickness_mm, coats, SILICONE)
    assert refused.value.code == code


@pytest.mark.parametrize("off_mm", [-0.02, -0.011, -0.009, 0.0, 0.009, 0.011, 0.02])
def test_the_order_and_the_mold_have_one_tolerance(off_mm: float) -> None:
    """Coats of 1 and 3 mm less or more than the thickness given: both take it or both refuse it."""
    coats = (CoatOrder("detail", 1.0), CoatOrder("build", 3.0 + off_mm))
    text = '[original]\nfile = "a.stl"\n[mold]\nthickness = "4 mm"\ncoats = [{name = "detail", thickness = "1 mm"}, '
    text += f'{{name = "build", thickness = "{3.0 + off_mm:.3f} mm"}}]'
    if abs(off_mm) < 0.01:
        assert laid_out(4.0, coats, SILICONE)
        assert commission_from_toml(text).mold.thickness_mm == pytest.approx(4.0 + off_mm)
        return
    for asked in (lambda: laid_out(4.0, coats, SILICONE), lambda: commission_from_toml(text)):
        with pytest.raises(InputRefused, match="coats-disagree"):
            asked()


@pytest.mark.parametrize("thick_mm", [0.19, 20.1])
def test_a_coat_has_the_same_bounds_in_both(thick_mm: float) -> None:
    coats = f'[{{name = "a", thickness = "{thick_mm} mm"}}, {{name = "b", thickness = "4 mm"}}]'
    text = f'[original]\nfile = "a.stl"\n[mold]\ncoats = {coats}'
    for asked in (
        lambda: laid_out(thick_mm + 4.0, (CoatOrder("a", thick_mm), CoatOrder("b", 4.0)), SILICONE),
        lambda: commission_from_toml(text),
    ):
        with pytest.raises(InputRefused, match="value-out-of-range") as refused:
            asked()
        assert refused.value.limit in (0.2, 20.0)


def test_as_many_coats_as_colors() -> None:
    assert len(COLORS) == MOST_COATS
    assert len(laid_out(8.0, [CoatOrder(f"c{n}", 1.0) for n in range(8)], SILICONE)) == 8


def test_the_usual_coats_in_millimeters() -> None:
    """15 % and 35 % of the thickness, to a tenth; a detail coat is never more than 1 mm: common practice, no source."""
    assert [layer.thickness_mm for layer in laid_out(4.0, (), SILICONE)] == pytest.approx([0.6, 1.4, 2.0])
    assert [layer.thickness_mm for layer in laid_out(10.0, (), SILICONE)] == pytest.approx([1.0, 3.5, 5.5])
    assert [layer.thickness_mm for layer in laid_out(3.1, (), SILICONE)] == pytest.approx([0.5, 1.1, 1.5])
    assert [(layer.id, layer.name) for layer in laid_out(4.0, (), SILICONE)] == [
        ("coat-1", "detail"), ("coat-2", "brushed"), ("coat-3", "stick"),
    ]  # fmt: skip


def test_thixotrope_is_a_little_and_rises_evenly() -> None:
    """From a few tenths of a percent to about 2 %, never above 2.5: common practice, no source."""
    for count in (2, 3, 4, 7):
        shares = [
            layer.thixotrope_pct
            for layer in laid_out(7.0, [CoatOrder(str(n), thick) for n, thick in enumerate(_like(count))], SILICONE)
        ]
        assert 0.1 <= shares[0] <= 0.5
        assert 1.5 <= shares[-1] <= 2.5
        steps = [after - before for before, after in pairwise(shares)]
        assert max(steps) - min(steps) <= 0.0101
        assert shares == [round(share, 2) for share in shares]


def test_gestures_of_few_coats() -> None:
    """One coat is brushed; of two the first is stippled, the last laid with a stick."""
    for coats, gestures in (([4.0], ["brush"]), ([1.0, 3.0], ["stipple", "stick"])):
        layers = laid_out(4.0, [CoatOrder(f"c{n}", thick) for n, thick in enumerate(coats)], SILICONE)
        assert [layer.gesture for layer in layers] == gestures
        assert layers[0].thixotrope_pct <= 0.5


def _like(count: int) -> list[float]:
    """So many coats, the first of 1 mm, 7 mm together."""
    return [1.0, *([6.0 / (count - 1)] * (count - 1))]


def test_latex_is_many_thin_layers() -> None:
    """10 to 20 layers of a few tenths of a millimeter, each dried, none laid with a stick: common practice, no
    source."""
    for thickness_mm in (3.0, 4.0, 5.0):
        coats = laid_out(thickness_mm, (), LATEX)
        assert 10 <= sum(coat.passes for coat in coats) <= 20
        assert all(0.15 <= coat.pass_mm <= 0.4 for coat in coats)
        assert [coat.gesture for coat in coats] == ["stipple", "brush", "brush"]
        assert sum(coat.passes * coat.pass_mm for coat in coats) == pytest.approx(thickness_mm)
    assert [coat.passes for coat in laid_out(4.0, (), SILICONE)] == [1, 1, 1]


@pytest.mark.parametrize("rubber", library().all("rubber"), ids=lambda sheet: sheet.id)
def test_a_glove_is_as_thick_as_its_class_is_laid(rubber: Rubber) -> None:
    """A glove of 1 mm and a detail coat of 3 mm are laid of no class; 3 mm of every one: common practice, no source."""
    with pytest.raises(InputRefused, match="glove-not-of-class") as thin:
        laid_out(1.0, (), rubber)
    assert rubber.name in thin.value.remedy
    assert "mold.thickness" in thin.value.remedy
    assert 1.0 < thin.value.limit <= 3.0
    with pytest.raises(InputRefused, match="glove-not-of-class"):
        laid_out(20.0, (), rubber)
    with pytest.raises(InputRefused, match="coat-not-of-class") as thick:
        laid_out(5.0, [CoatOrder("detail", 3.0), CoatOrder("build", 2.0)], rubber)
    assert "mold.coats" in thick.value.remedy
    assert thick.value.limit <= 1.5
    assert len(laid_out(3.0, (), rubber)) == 3


@pytest.mark.parametrize("rubber", library().all("rubber"), ids=lambda sheet: sheet.id)
def test_the_usual_coats_are_of_their_class(rubber: Rubber) -> None:
    """Whatever thickness a class takes, its usual three coats are none that it refuses."""
    low, high = rubber.glove_mm.low, rubber.glove_mm.high
    for n in range(41):
        thickness_mm = round(low + (high - low) * n / 40, 2)
        assert sum(coat.thickness_mm for coat in laid_out(thickness_mm, (), rubber)) == pytest.approx(thickness_mm)
