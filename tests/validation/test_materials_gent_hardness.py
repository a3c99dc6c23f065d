"""Young's modulus from Shore A.

Source: A. N. Gent, Rubber Chem. Technol. 31 (1958) 896, formula as printed there; the log form is the usual regression,
log10 E = 0.0235 S - 0.6403 (both formulas from memory; expected values reckoned apart from the software). Tolerance
0.1 %. In use Gent's holds within 30 %, so up to Shore A 40 the two must agree within that; above, they part (40 % at
50).
"""

from __future__ import annotations

import pytest

from moldwright.errors import InputRefused
from moldwright.materials.hardness import youngs_modulus_mpa


@pytest.mark.parametrize(("shore_a", "modulus"), [(10, 0.4127), (20, 0.7319), (30, 1.1424), (40, 1.6896)])
def test_gent(shore_a: float, modulus: float) -> None:
    assert youngs_modulus_mpa(shore_a) == pytest.approx(modulus, rel=1e-3)


def test_log_form_is_ten_to_the_power() -> None:
    assert youngs_modulus_mpa(30, "log") == pytest.approx(1.161, rel=1e-3)


@pytest.mark.parametrize("shore_a", [10, 20, 30, 40])
def test_the_two_forms_agree_within_their_spread(shore_a: float) -> None:
    assert youngs_modulus_mpa(shore_a, "log") == pytest.approx(youngs_modulus_mpa(shore_a), rel=0.30)


@pytest.mark.parametrize("shore_a", [-1.0, 100.0, float("nan")])
def test_outside_its_range_it_is_refused(shore_a: float) -> None:
    with pytest.raises(InputRefused, match="hardness-out-of-range"):
        youngs_modulus_mpa(shore_a)
