"""From file units to millimeters: by a unit, by the true height, or not at all."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.units.constants import INCH_MM
from moldwright.ways import figure, writes

UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": INCH_MM, "ft": 12 * INCH_MM, "um": 0.001}
WORDS = {
    "millimeter": "mm",
    "centimeter": "cm",
    "meter": "m",
    "inch": "in",
    "inche": "in",
    '"': "in",
    "foot": "ft",
    "feet": "ft",
    "micron": "um",
    "micrometer": "um",
    "µm": "um",
    "μm": "um",
}
SMALLEST_MM, LARGEST_MM, THINNEST_MM = 10.0, 3000.0, 1.0
AGREE = 0.01
SIZE_UNCLEAR = "size-unclear"


def unit_mm(unit: str) -> float:
    """Millimeters in one unit of the file.

    International inch 25.4 mm and foot 304.8 mm, exact by definition.

    Parameters
    ----------
    unit : "mm", "cm", "m", "in", "ft" or "um", or their names as words.

    Source: the units' definitions.

    >>> unit_mm("in")
    25.4
    """
    word = unit.strip().lower()
    word = WORDS.get(word.removesuffix("s"), word)
    if word not in UNITS:
        raise InputRefused("unit-unknown", unit, ", ".join(UNITS), "", f"Write one of these, as in {_unit('mm')}.")
    return UNITS[word]


def candidates(size: float) -> tuple[str, ...]:
    """The units in which a size makes a piece between 10 mm and 3 m, the usual ones first.

    Common practice, no source.

    Parameters
    ----------
    size : in file units, above 0.

    >>> candidates(0.19)
    ('m', 'ft')
    """
    return tuple(unit for unit, factor in UNITS.items() if SMALLEST_MM <= size * factor <= LARGEST_MM)


def unclear(size: float, way: str) -> InputRefused:
    """The refusal where nothing tells how large the piece is.

    Parameters
    ----------
    size : in file units.
    way : what that size is, "tall" or "at its longest".

    Source: our own.
    """
    fitting = candidates(size)
    shown = " or ".join(f"{size:.4g} {unit}" for unit in fitting)
    said = " or ".join(_unit(unit) for unit in fitting)
    remedy = f"This is {shown} {way}; say {said}, or its true height." if fitting else "Say its true height."
    return InputRefused(SIZE_UNCLEAR, f"{size:.4g} {way}", None, "", remedy)


def scale_of(above_board: float, height_mm: float | None, stated: str | None, own: str | None) -> float | None:
    """Millimeters in one file unit; None where nothing tells it.

    Parameters
    ----------
    above_board : height of the piece above its cut, in file units.
    height_mm : its true height after the cut [mm].
    stated, own : the unit that the commission and the format tell; the commission's goes first.

    Source: our own.
    """
    unit = stated or own
    by_unit = unit_mm(unit) if unit else None
    if height_mm is None:
        return by_unit
    if by_unit is not None and abs(above_board * by_unit / height_mm - 1) > AGREE:
        raise _disagree(above_board, height_mm, by_unit, stated, own)
    return height_mm / above_board


def _disagree(above_board: float, height_mm: float, factor: float, stated: str | None, own: str | None) -> InputRefused:
    fitting = [name for name, other in UNITS.items() if abs(above_board * other / height_mm - 1) <= AGREE]
    hint = f"say {_unit(fitting[0])}" if fitting else "correct the height or the unit, or leave one of them out"
    if not fitting and not stated:
        hint = "correct the height or leave it out; if the file's numbers have no true unit, export it as STL or OBJ"
    by = stated or f"the file's own unit, {own},"
    return InputRefused(
        "height-and-unit-disagree",
        round(above_board * factor, 3),
        round(height_mm, 3),
        "mm",
        f"By {by} it is {figure(round(above_board * factor, 1), 'mm')} tall: {hint}.",
    )


def _unit(name: str) -> str:
    return writes("original.unit", f'"{name}"')
