"""Making what a person typed plain: spaces, signs, primes and fraction characters of Unicode."""

from __future__ import annotations

import re
import unicodedata

_SIGNS = str.maketrans(
    {
        "−": "-", "‐": "-", "‑": "-", "﹣": "-", "－": "-",
        "′": "'", "’": "'", "‘": "'", "ʹ": "'", "`": "'", "´": "'",
        "″": '"', "”": '"', "“": '"', "ʺ": '"',
        "º": "°", "˚": "°", "⁄": "/", "∕": "/", "＋": "+",
    }
)  # fmt: skip
_INVISIBLE = dict.fromkeys(map(ord, "\u200b\u200c\u200d\u2060\ufeff\u00ad"))


def _vulgar(character: str) -> str:
    """ "½" -> " 1/2"; any other character as it is."""
    if unicodedata.decomposition(character).startswith("<fraction>"):
        return " " + unicodedata.normalize("NFKC", character).replace("⁄", "/")
    return character


def plain(text: str) -> str:
    """The same text with ASCII digits, signs, primes and single spaces.

    Parameters
    ----------
    text : what a person typed.

    >>> plain("7½ min"), plain("−4\\u202f°C"), plain("5′ 3″")
    ('7 1/2 min', '-4 °C', '5\\' 3"')
    """
    spelled = "".join(_vulgar(c) for c in text.translate(_INVISIBLE).replace("℃", "°C").replace("℉", "°F"))
    signs = spelled.translate(_SIGNS).replace("''", '"')
    digits = "".join(str(unicodedata.digit(c)) if c.isdecimal() else c for c in signs)
    return re.sub(r"' ?- ?(?=\d)", "' ", re.sub(r"\s+", " ", digits)).strip()
