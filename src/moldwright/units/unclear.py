"""Why a text is no quantity, and how one is written: sentences of the refusal."""

from __future__ import annotations

from types import MappingProxyType

from moldwright.words.marked import Words, words


class UnclearError(Exception):
    """Why a text is no quantity, as a sentence without its point, in the reader's language."""


WANTED: MappingProxyType[str, Words] = MappingProxyType(
    {
        "length": words("a length with its unit"),
        "mass": words("a mass with its unit"),
        "volume": words("a volume with its unit"),
        "duration": words("a duration with its unit"),
        "temperature": words("a temperature with its unit"),
        "share": words("a share with its unit"),
        "number": words("a number"),
    }
)
"""What is wanted, by dimension."""
EXAMPLE: MappingProxyType[str, Words] = MappingProxyType(
    {
        "length": words('"4 mm" or "1/2 in"'),
        "mass": words('"250 g" or "3 lb 4 oz"'),
        "volume": words('"500 ml" or "12 fl oz"'),
        "duration": words('"7½ min" or "1 h 30 min"'),
        "temperature": words('"22 °C" or "72 °F"'),
        "share": words('"8 %"'),
        "number": words('"12" or "2.5"'),
    }
)
"""How one is written."""
CALLED: MappingProxyType[str, Words] = MappingProxyType(
    {
        "length": words("length"),
        "mass": words("mass"),
        "volume": words("volume"),
        "duration": words("duration"),
        "temperature": words("temperature"),
        "share": words("share"),
    }
)
"""What a dimension is called."""
