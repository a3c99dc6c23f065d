"""What strangers wrote is shown as text: held by categories of Unicode over every code point, not by examples.

References: ECMA-48 (control functions: C0, DEL and C1), Unicode Standard Annex 9 (the explicit formatting characters of
the bidirectional algorithm, as `unicodedata.bidirectional` tells them), Annex 44 (general categories).
"""

from __future__ import annotations

import sys
import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from moldwright.text.harmless import harmless, is_line

EVERY = [chr(code) for code in range(sys.maxunicode + 1)]
CONTROLS = [chr(code) for code in (*range(0x20), 0x7F, *range(0x80, 0xA0))]
TURNING = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}
MARKS = ("\u200e", "\u200f", "\u061c")
SHOWN = {"Lu", "Ll", "Lt", "Lm", "Lo", "Mn", "Mc", "Me", "Nd", "Nl", "No", "Pc", "Pd", "Ps", "Pe", "Pi", "Pf", "Po",
         "Sm", "Sc", "Sk", "So", "Zs"}  # fmt: skip
ESCAPED = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
JOINING = ("\u200c", "\u200d")


def test_every_control_function_is_shown_as_text() -> None:
    assert all(harmless(c).isprintable() and harmless(c) != c for c in CONTROLS)


def test_what_turns_the_writing_round_is_shown_as_text() -> None:
    turning = [c for c in EVERY if unicodedata.bidirectional(c) in TURNING or c in MARKS]
    assert len(turning) == 12
    assert all(harmless(c).isascii() for c in turning)


def test_every_code_point_by_its_category() -> None:
    by_category: dict[str, list[str]] = {}
    for c in EVERY:
        by_category.setdefault(unicodedata.category(c), []).append(c)
    assert set(by_category) == SHOWN | ESCAPED
    for category in SHOWN:
        text = "".join(by_category[category])
        assert harmless(text) == text, category
    for category in ESCAPED:
        text = "".join(c for c in by_category[category] if c not in JOINING)
        assert harmless(text).isascii(), category
        assert harmless(text).isprintable(), category
        assert harmless(text).count("\\") == len(text), category
    assert harmless("".join(JOINING)) == "".join(JOINING)


@given(st.text(alphabet=st.characters(exclude_characters="\\"), max_size=40))
def test_nothing_is_lost(text: str) -> None:
    assert harmless(text).encode("ascii", "backslashreplace").decode("unicode_escape") == text


@given(st.text(max_size=40))
def test_what_is_harmless_stays_as_it_is(text: str) -> None:
    once = harmless(text)
    assert harmless(once) == once
    assert harmless(text, keep="\n") == "\n".join(harmless(line) for line in text.split("\n"))


@given(st.text(max_size=20))
def test_a_line_holds_something_and_nothing_that_steers(text: str) -> None:
    assert is_line(text, 10) == (0 < len(text) <= 10 and text.strip() != "" and harmless(text) == text)
