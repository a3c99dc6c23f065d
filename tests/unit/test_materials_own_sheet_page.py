"""The page about a shop's own sheets shows a sheet that works."""

from __future__ import annotations

import re
from pathlib import Path

from moldwright.materials import check_sheet, library

PAGE = Path(__file__).parents[2] / "docs" / "own-sheet.md"


def test_the_example_is_taken_without_a_finding() -> None:
    blocks = re.findall(r"```toml\n(.*?)```", PAGE.read_text(encoding="utf-8"), flags=re.S)
    assert len(blocks) == 1
    assert check_sheet(blocks[0]) == ()
    shop = library({"own.toml": blocks[0]})
    assert shop.resin("shop resin, white").ratio_weight == (100.0, 90.0)
    # 73 degF = (73 - 32) / 1.8 = 22.78 degC
    assert round(shop.rubber("addition-cure-a10-slow").pot_life_temperature_c.likely, 2) == 22.78
