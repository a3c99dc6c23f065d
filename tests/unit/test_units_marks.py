"""Numbers in the marks of who types them. Source: Unicode's CLDR (https://cldr.unicode.org), as Babel prints and reads
it (`format_decimal`, `parse_decimal`)."""

from __future__ import annotations

from itertools import product

import pytest
from babel.numbers import NumberFormatError, format_decimal, get_decimal_symbol, get_group_symbol, parse_decimal

from moldwright.errors import InputRefused
from moldwright.units import mass_g, show_mass
from moldwright.web.words.said import languages, speaker_of
from moldwright.words.speaker import in_house_marks, spoken_by

VALUES = (0.125, 0.5, 1.5, 12.25, 1.125, 12.345, 999.999, 1500.0, 1234.5, 40000.0)
PARTS = ("0", "05", "1", "12", "125", "500", "1500")
ODD = ["".join(each) for each in (*product(PARTS, ".,", PARTS), *product(PARTS, ".,", PARTS, ".,", PARTS))]
"""Numbers with one mark or two, well and badly placed."""


def _read(language: str, typed: str) -> float | None:
    """What is read of a mass that somebody types who reads that language; None: it is refused."""
    with spoken_by(speaker_of(language)):
        try:
            return mass_g(in_house_marks(f"{typed} g"))
        except InputRefused:
            return None


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("value", VALUES)
def test_a_number_as_its_language_writes_it_is_read(language: str, value: float) -> None:
    """Decimals of three digits too: they are unmistakable behind the language's own decimal mark, if they are not what
    the other mark would make thousands of."""
    typed = format_decimal(value, locale=language, group_separator=False, format="#0.######")
    assert get_decimal_symbol(language) in typed or value == int(value)
    assert _read(language, typed) == value


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("value", [1500, 12345, 999999, 1234567])
def test_thousands_in_its_marks_are_asked_about(language: str, value: int) -> None:
    typed = format_decimal(value, locale=language)
    assert get_group_symbol(language) in typed
    assert _read(language, typed) is None


@pytest.mark.parametrize("language", languages())
def test_no_number_is_read_as_another_than_its_language_means(language: str) -> None:
    """Refused, or what the CLDR reads; what the CLDR's strict reading does not know is not held here."""
    held = 0
    for typed in ODD:
        try:
            meant = float(parse_decimal(typed, locale=language, strict=True))
        except NumberFormatError:
            continue
        held += 1
        assert _read(language, typed) in (None, meant), typed
    assert held > len(PARTS)


def test_a_refusal_tells_both_readings_in_the_readers_marks() -> None:
    """1.500 is 1500 to who reads German, and 1.5 to who copies it from a scale in the other marks (CLDR, de)."""
    with spoken_by(speaker_of("de")), pytest.raises(InputRefused) as found:
        mass_g(in_house_marks("1.500 kg"), "amount")
    said = f"{found.value.actual} {found.value.remedy}"
    assert format_decimal(1.5, locale="de") in said
    assert "1500" in said
    assert "1.500 kg" in said
    with pytest.raises(InputRefused, match=r"1500 or 1\.5"):
        mass_g(in_house_marks("1,500 kg"), "amount")


@pytest.mark.parametrize("language", languages())
def test_what_is_shown_reads_back(language: str) -> None:
    """Of our own: a figure may be typed as the page prints it."""
    with spoken_by(speaker_of(language)):
        for grams in (3.6, 12.5, 434.0):
            assert mass_g(in_house_marks(show_mass(grams))) == grams
