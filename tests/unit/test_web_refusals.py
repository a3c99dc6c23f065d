"""A refusal is told in its reader's language, units and decimal mark, whatever was kept of it meanwhile.

The inch is 25.4 mm, the pound 453.59237 g, both exact (NIST Special Publication 811, B.8); degrees Fahrenheit are 1.8
degrees Celsius and 32 (ibid., B.1.2.4). German sentences: common practice, no source.
"""

from __future__ import annotations

import json
from dataclasses import replace
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldwright.errors import InputRefused, MoldwrightError, refusal_of
from moldwright.units.system import UnitSystem
from moldwright.ways import as_keys, figure, named_key, own_name, parted, word
from moldwright.web.refusals import said
from moldwright.web.words.measured import SMALL, measured
from moldwright.web.words.said import speaker_of
from moldwright.words.speaker import spoken_by

US, METRIC = UnitSystem.US, UnitSystem.METRIC


def told_to(error: MoldwrightError, language: str = "en", units: UnitSystem = METRIC) -> dict[str, str]:
    """As a page says it once the refusal was kept with the work that it ended."""
    kept = refusal_of(json.loads(json.dumps(error.as_kept())))
    with spoken_by(replace(speaker_of(language), measured=partial(measured, units))):
        return said(kept)


def wide(found_mm: float, least_mm: float) -> InputRefused:
    remedy = f"Coat {own_name('one')} is {figure(least_mm, 'mm')} to {figure(25.4, 'mm')} thick."
    return InputRefused("value-out-of-range", found_mm, least_mm, "mm", remedy)


def test_who_reads_in_inches_has_figures_in_inches() -> None:
    told = told_to(wide(6.35, 12.7), units=US)
    assert (told["found"], told["wanted"]) == ("1/4 in", "1/2 in")
    assert told["remedy"] == "Coat one is 1/2 in to 1 in thick."


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    [(453.59237, "g", "1 lb 0.0 oz"), (21.0, "degC", "70 °F"), (30.0, "%", "30 %"), (2.0, "", "2")],
)
def test_each_unit_of_the_house_and_no_other_is_read_in_the_reader_s(value: float, unit: str, shown: str) -> None:
    remedy = f"Write {figure(value, unit)}."
    assert told_to(InputRefused("some", 1, 2, "", remedy), units=US)["remedy"] == f"Write {shown}."


def test_a_sentence_with_figures_and_names_is_said_whole_in_another_language() -> None:
    told = told_to(wide(0.5, 1.5), "de")
    assert told["found"] == "0,5 mm"
    assert told["remedy"] == "Schicht one ist 1,5 mm bis 25,4 mm dick."


def test_a_sentence_that_no_catalog_has_stays_whole_in_english_with_the_reader_s_figures() -> None:
    remedy = f"No catalog tells of {word('a {0} thing')} at {figure(1.5, 'mm')}."
    assert (
        told_to(InputRefused("some", 1, 2, "", remedy), "de")["remedy"] == "No catalog tells of a {0} thing at 1,5 mm."
    )


def test_without_a_page_it_reads_in_the_house_s_units() -> None:
    error = wide(0.5, 1.5)
    assert str(error) == ("value-out-of-range: 0.5 mm (limit: 1.5 mm). Coat one is 1.5 mm to 25.4 mm thick.")
    assert not error.keys()


@given(st.sampled_from(sorted(SMALL)), st.floats(0.5, 4000.0), st.floats(0.001, 0.5))
def test_what_was_found_never_reads_like_what_is_allowed(unit: str, limit: float, less: float) -> None:
    """A thousandth of a millimeter, a gram or a milliliter apart is apart still."""
    found, allowed = measured(US, (limit - less, limit), unit)
    assert found != allowed


@given(st.lists(st.sampled_from(["a", "{0}", "⟦", "|", "wax"]), min_size=1, max_size=4))
def test_whatever_is_named_a_sentence_has_its_places(names: list[str]) -> None:
    text = ", ".join(map(word, names)) + f" and {named_key('mold.skin')}"
    template, marks = parted(text)
    assert len(marks) == len(names) + 1
    assert template == ", ".join(f"{{{n}}}" for n in range(len(names))) + f" and {{{len(names)}}}"
    assert as_keys(text).endswith("and mold.skin")
