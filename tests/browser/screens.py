"""The sizes at which pages are looked at: a phone, a tablet beside the cup, a screen in the evening."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest


@dataclass(frozen=True, slots=True)
class Screen:
    """One size [CSS px], and whether it is touched."""

    name: str
    wide_px: int
    tall_px: int
    touched: bool

    def context(self, look: str = "light") -> dict[str, Any]:
        """What a browser's context is made with."""
        return {
            "viewport": {"width": self.wide_px, "height": self.tall_px},
            "has_touch": self.touched,
            "color_scheme": look,
            "locale": "en-US",
            "timezone_id": "UTC",
            "reduced_motion": "reduce",
        }


PHONE = Screen("phone", 390, 844, True)
TABLET = Screen("tablet", 1024, 768, True)
DESKTOP = Screen("desktop", 1440, 900, False)
SCREENS = (PHONE, TABLET, DESKTOP)
FROM_PHONE = [pytest.param(each, id=each.name, marks=() if each is PHONE else pytest.mark.slow) for each in SCREENS]
"""The narrowest at every run, the others in `make test-all`."""
