"""Quantities per quantity: how fast rubber is laid, how heavy a material is."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from moldwright import units
from moldwright.commission.keys import Key
from moldwright.commission.refusals import LONGEST_TEXT, wanted, within, wrong_type
from moldwright.errors import InputRefused
from moldwright.text.shown import shown
from moldwright.text.toml import toml_value
from moldwright.units.read_off import ReadOff, read_step
from moldwright.ways import stands, writes


def rate(key: Key, written: Any) -> float:
    """A mass per time, such as "25 g/min" [g/min].

    Parameters
    ----------
    key : the key that it was written under.
    written : what TOML gave.
    """
    grams, seconds, _ = _parts(key, written, "a mass per time", units.duration_s)
    return within(key, grams / (seconds / 60) if seconds > 0 else math.inf)


def density(key: Key, written: Any) -> ReadOff:
    """A mass per volume, such as "1.05 g/ml", with the step of its last digit [g/ml].

    Parameters
    ----------
    key : the key that it was written under.
    written : what TOML gave.
    """
    grams, ml, mass = _parts(key, written, "a mass per volume", units.volume_ml)
    value = within(key, grams / ml if ml > 0 else math.inf)
    return ReadOff(value, read_step(mass, "mass") / ml)


def _parts(key: Key, written: Any, words: str, divisor_of: Callable[[str, str], float]) -> tuple[float, float, str]:
    """The mass [g], what it is divided by, and the mass as it was written."""
    asked = wanted(key, words)
    if not isinstance(written, str):
        raise wrong_type(key.dotted, written, asked, key.example)
    head, slash, tail = written[: LONGEST_TEXT + 1].partition(" per ")
    mass, slash, each = (head, slash, tail) if slash else head.rpartition("/")
    remedy = f"Write {writes(key.dotted, toml_value(key.example))}."
    if not slash:
        raise InputRefused("quantity-unclear", stands(key.dotted, shown(written)), asked, "", remedy)
    per = each.strip() if each.strip()[:1].isdecimal() else f"1 {each}"
    try:
        return units.mass_g(mass, key.dotted), divisor_of(per, key.dotted), mass
    except InputRefused as refused:
        told = f"{refused.remedy} {remedy}"
        raise InputRefused(refused.code, stands(key.dotted, shown(written)), asked, "", told) from None
