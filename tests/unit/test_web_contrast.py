"""The colors of the desk, measured again: what is read on what, in every look.

Source: Web Content Accessibility Guidelines 2.2 (W3C): relative luminance and contrast ratio, success criteria 1.4.3
(text, 4.5), 1.4.6 (enhanced, 7) and 1.4.11 (what is not text, 3).
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

PARTS = Path(__file__).parents[2] / "src" / "moldwright" / "web" / "parts"
TOKENS = (PARTS / "tokens.css").read_text(encoding="utf-8")
LOOKS = ("light", "dark", "contrast")
TEXT, ENHANCED, DRAWN = 4.5, 7.0, 3.0
READ = [
    ("ink", "sheet", ENHANCED), ("ink", "ground", ENHANCED), ("ink", "well", ENHANCED), ("ink", "soft", ENHANCED),
    ("ink2", "sheet", ENHANCED), ("ink2", "ground", ENHANCED), ("sheet", "ink", ENHANCED),
    ("do", "sheet", ENHANCED), ("do", "ground", TEXT), ("on-do", "do", ENHANCED),
    ("on-heed", "heed", ENHANCED), ("heed-ink", "sheet", ENHANCED), ("heed-ink", "ground", TEXT),
    ("stop", "sheet", ENHANCED), ("stop", "ground", TEXT), ("on-stop", "stop", ENHANCED),
    ("edge", "sheet", DRAWN), ("edge", "ground", DRAWN), ("edge", "well", DRAWN),
    ("focus", "sheet", DRAWN), ("focus", "ground", DRAWN),
    ("mark1", "coat1", DRAWN), ("mark2", "coat2", DRAWN), ("mark3", "coat3", DRAWN),
]  # fmt: skip
ROWS = re.compile(r"--([a-z0-9-]+): " + " ".join(rf"var\(--{look}, (#[0-9a-f]{{6}})\)" for look in LOOKS) + ";")
COLORS = {look: {row[0]: row[at] for row in ROWS.findall(TOKENS)} for at, look in enumerate(LOOKS, start=1)}


def luminance(color: str) -> float:
    """WCAG 2.2, "relative luminance"."""
    parts = [int(color[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def ratio(one: str, other: str) -> float:
    """WCAG 2.2, "contrast ratio"."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_measure_is_right() -> None:
    """White on black is 21 by the definition; #767676 is the well known lightest gray that text may have on white."""
    assert ratio("#ffffff", "#000000") == pytest.approx(21)
    assert ratio("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert ratio("#777777", "#ffffff") < TEXT


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize(("what", "on", "least"), READ, ids=str)
def test_what_is_read_stands_out(look: str, what: str, on: str, least: float) -> None:
    colors = COLORS[look]
    assert ratio(colors[what], colors[on]) >= least


def test_every_color_stands_in_all_looks() -> None:
    """None is left out by the pattern that reads them; that each look is shown is tried in a browser."""
    assert len(ROWS.findall(TOKENS)) == TOKENS.count(": var(--light, #") > 20


def test_no_color_stands_outside_the_tokens() -> None:
    """What is drawn by the GHS's own colors, the weave and paper may; nothing else."""
    own = {"#fff", "#111", "#c8102e", "#000", "#5b564a"}
    for path in PARTS.glob("*.css"):
        found = set(re.findall(r"#[0-9a-f]{3,6}\b", path.read_text(encoding="utf-8")))
        assert path.name == "tokens.css" or found <= own, path.name


def test_every_color_that_is_used_is_a_token() -> None:
    """A page may name measures of its own in its style."""
    shared = "".join(path.read_text(encoding="utf-8") for path in PARTS.glob("*.css"))
    for path in [*PARTS.glob("*.css"), *(PARTS.parent / "pages").glob("*/*.css")]:
        text = path.read_text(encoding="utf-8")
        known = set(re.findall(r"(--[a-z0-9-]+):", shared + text))
        used = set(re.findall(r"var\((--[a-z0-9-]+)", text))
        assert used <= known, f"{path.parent.name}/{path.name}: {sorted(used - known)}"
