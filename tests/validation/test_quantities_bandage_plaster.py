"""Setting plaster: CaSO4.1/2H2O + 3/2 H2O -> CaSO4.2H2O binds 18.62 g of water per 100 g of hemihydrate and makes
1.1862 g of gypsum per g, whatever the mixing water was, with Ca 40.078, S 32.06, O 15.999, H 1.008. Tolerance 0.1 %."""

import pytest

from moldwright.quantities.bandage import BOUND_WATER, dry_shell_g

SOURCE = ("Stoichiometry with IUPAC abridged standard atomic weights (from memory)",)

WATER = 2 * 1.008 + 15.999
ANHYDRITE = 40.078 + 32.06 + 4 * 15.999


def test_bound_water() -> None:
    assert pytest.approx(18.62, rel=1e-3) == 100 * BOUND_WATER
    assert pytest.approx(1.5 * WATER / (ANHYDRITE + 0.5 * WATER), rel=1e-3) == BOUND_WATER
    assert pytest.approx((ANHYDRITE + 2 * WATER) / (ANHYDRITE + 0.5 * WATER), rel=1e-3) == 1 + BOUND_WATER


def test_a_dry_shell_gains_only_its_bound_water() -> None:
    """Between all gauze (no gain) and all plaster (18.62 %)."""
    assert 1000.0 < dry_shell_g(1000.0) < 1186.2
