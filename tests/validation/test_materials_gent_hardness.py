"""Young's modulus from Shore A.

Gent's formula as printed; the log form is the usual regression, log10 E = 0.0235 S - 0.6403. Expected values reckoned
apart from the software, tolerance 0.1 %. Measured on addition-cure silicone of 44 to 54 Shore A: 1.32 to 2.97 MPa.
"""

from __future__ import annotations

import pytest

from moldwright.errors import InputRefused
from moldwright.materials.hardness import regressed_modulus_mpa, youngs_modulus_mpa

SOURCE = (
    "A. N. Gent, Rubber Chem. Technol. 31 (1958) 896 (formula read): modulus from hardness",
    "log10 E = 0.0235 S - 0.6403, a usual regression (form read, author from memory)",
    "J. Micromech. Microeng. 24 (2014) 035017, doi 10.1088/0960-1317/24/3/035017 (abstract): 1.32 to 2.97 MPa at 44 to "
    "54 Shore A",
)


@pytest.mark.parametrize(("shore_a", "modulus"), [(10, 0.4127), (20, 0.7319), (30, 1.1424), (40, 1.6896)])
def test_gent(shore_a: float, modulus: float) -> None:
    assert youngs_modulus_mpa(shore_a) == pytest.approx(modulus, rel=1e-3)


def test_log_form_is_ten_to_the_power() -> None:
    assert regressed_modulus_mpa(30) == pytest.approx(1.161, rel=1e-3)


@pytest.mark.parametrize(("shore_a", "modulus"), [(10, 0.3933), (20, 0.6756), (40, 1.9939)])
def test_log_form(shore_a: float, modulus: float) -> None:
    """10^(0.0235 S - 0.6403) by hand: 10^-0.4053, 10^-0.1703, 10^0.2997."""
    assert regressed_modulus_mpa(shore_a) == pytest.approx(modulus, rel=1e-3)


@pytest.mark.parametrize("shore_a", [44.0, 54.0])
def test_silicone_as_measured(shore_a: float) -> None:
    """What was measured at these hardnesses spans both ends: 1.32 to 2.97 MPa."""
    assert 1.32 <= youngs_modulus_mpa(shore_a) <= 2.97


@pytest.mark.parametrize("shore_a", [-1.0, 100.0, float("nan")])
def test_outside_its_range_it_is_refused(shore_a: float) -> None:
    with pytest.raises(InputRefused, match="hardness-out-of-range"):
        youngs_modulus_mpa(shore_a)
