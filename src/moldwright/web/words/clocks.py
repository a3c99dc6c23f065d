"""What a page's clocks say, by the names under which `parts/clocks/items.ts` asks for it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from moldwright.web.words.marked import Words, words

CLOCK_WORDS: Mapping[str, Words] = MappingProxyType(
    {
        "rests": words("{cup}: once its parts meet"),
        "on-work-in": words("{cup}: on the work in"),
        "stays-tacky": words("{of}: stays tacky"),
        "tacky-in": words("{of}: tacky in"),
        "was-tacky": words("{of}: tacky no more since"),
        "waits": words("{of}: not before"),
        "waits-likely": words("{of}: may be, likely in"),
        "waits-latest": words("{of}: likely, at the latest in"),
    }
)
