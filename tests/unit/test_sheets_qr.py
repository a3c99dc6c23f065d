"""Square codes: read back by OpenCV's detector, a reader that has no part in making them."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
import shapely

from moldwright.log.codes import urn_of
from moldwright.sheets.qr import QUIET, QrCode, qr_area, qr_code

ID = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"
"""RFC 9562, appendix A.6: the example of version 7."""


def picture(code: QrCode, dots: int = 8) -> np.ndarray:
    cells = np.pad(np.array(code.cells), QUIET)
    return np.where(np.kron(cells, np.ones((dots, dots), bool)), 0, 255).astype(np.uint8)


def test_a_code_holds_the_urn_of_rfc_9562() -> None:
    """RFC 9562, 4: "urn:uuid:" and the id in lower case."""
    code = qr_code(urn_of(ID))
    assert cv2.QRCodeDetector().detectAndDecode(picture(code))[0] == f"urn:uuid:{ID}"


def test_level_and_size_are_those_of_the_standard() -> None:
    """ISO/IEC 18004, table 7 (from memory): version 4 is the least for 45 bytes at M (62) and holds them at Q (46)."""
    code = qr_code(urn_of(ID))
    assert code.level == "Q"
    assert code.across == 17 + 4 * 4
    assert code.across_with_quiet == 41


@pytest.mark.parametrize("seed", range(4))
def test_a_code_is_read_through_stains(seed: int) -> None:
    """Level M restores 15 % of the code words (ISO/IEC 18004, 6.5.1; from memory): 6 % of the modules stained black."""
    code = qr_code(urn_of(ID))
    cells = np.array(code.cells)
    stained = np.random.default_rng(seed).permutation(np.argwhere(~_fixed(code.across)))[
        : round(0.06 * cells.size) // 4
    ]
    for row, column in stained:
        cells[row : row + 2, column : column + 2] = True
    odd = QrCode(code.text, code.level, tuple(tuple(map(bool, row)) for row in cells))
    assert cv2.QRCodeDetector().detectAndDecode(picture(odd))[0] == f"urn:uuid:{ID}"


def _fixed(across: int) -> np.ndarray:
    """Corners with their patterns and formats, and the two rows of timing, by which a reader finds the code at all."""
    fixed = np.zeros((across, across), bool)
    fixed[:10, :10] = fixed[:10, -10:] = fixed[-10:, :10] = fixed[-10:, -10:] = True
    fixed[5:8] = fixed[:, 5:8] = True
    return fixed


def test_the_drawn_area_is_the_dark_modules_to_scale() -> None:
    """By even and odd, as the form fills it: a module's middle lies in an odd number of rings where it is dark."""
    code = qr_code(urn_of(ID))
    area = qr_area(code, 0.5, (3.0, 4.0))
    rings = [shapely.Polygon(ring) for ring in area.rings]
    for row, cells in enumerate(code.cells):
        for column, dark in enumerate(cells):
            middle = shapely.Point(3.0 + 0.5 * (column + 0.5), 4.0 + 0.5 * (row + 0.5))
            assert sum(ring.contains(middle) for ring in rings) % 2 == dark
    every = np.array([at for ring in area.rings for at in ring])
    assert every.min(axis=0).tolist() == [3.0, 4.0]
    assert every.max(axis=0).tolist() == [3.0 + 16.5, 4.0 + 16.5]
