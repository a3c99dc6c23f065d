"""Whatever a shop writes is taken or refused in words, and a ratio turned round comes back."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from moldwright.cure.potlife import rate_ratio
from moldwright.errors import InputRefused
from moldwright.materials import check_sheet, library
from moldwright.materials.mixture import mixture_density_g_ml, volume_from_weight, weight_from_volume
from moldwright.materials.sheet_fields import kind_rules

densities = st.floats(0.5, 9.0)
shares = st.floats(0.01, 200.0)
keys = st.sampled_from(sorted({k for rule in kind_rules().values() for k in rule.keys}))
values = st.sampled_from(
    ["1", "-1", "nan", "inf", '"9 min"', '"x"', "[1, 2]", "[3, 2, 1]", "[]", "{}", "true", "{ value = 2 }", "[[1]]",
     "2026-01-01", '"1:1"', "1e400", "9" * 400, '""', '"5 to 3 min"', "[{ amount = 1 }]", '"1/0 min"', '"½"']
)  # fmt: skip


@given(shares, shares, densities, densities)
def test_a_ratio_turned_round_comes_back(a: float, b: float, rho_a: float, rho_b: float) -> None:
    back = volume_from_weight(weight_from_volume((a, b), rho_a, rho_b), rho_a, rho_b)
    assert back[1] / back[0] == pytest.approx(b / a)


@given(shares, shares, densities, densities)
def test_a_mixture_lies_between_its_parts(a: float, b: float, rho_a: float, rho_b: float) -> None:
    low, high = sorted((rho_a, rho_b))
    assert low * (1 - 1e-9) <= mixture_density_g_ml([a, b], [rho_a, rho_b]) <= high * (1 + 1e-9)


@given(st.floats(15, 150), st.floats(0, 60), st.floats(0, 60))
def test_there_and_back_is_once(activation: float, one: float, two: float) -> None:
    assert rate_ratio(activation, one, two) * rate_ratio(activation, two, one) == pytest.approx(1.0)


@settings(max_examples=150)
@given(st.text(max_size=200))
def test_any_text_is_answered_by_findings(text: str) -> None:
    assert isinstance(check_sheet(text), tuple)


@settings(max_examples=300)
@given(
    st.sampled_from(sorted(kind_rules())), st.sampled_from(["latex", "bronze", "paste-wax", "new-one"]), keys, values
)
def test_a_sheet_is_taken_or_refused_in_words(kind: str, id_: str, key: str, value: str) -> None:
    text = f"[{kind}.{id_}]\n{key} = {value}\n"
    stopped = any(f.severity == "stop" for f in check_sheet(text))
    if not stopped:
        assert library({"own.toml": text}).all(kind)
        return
    with pytest.raises(InputRefused) as refused:
        library({"own.toml": text})
    assert refused.value.remedy
