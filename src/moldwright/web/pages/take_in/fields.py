"""What is asked where a piece is taken in: the keys of a commission, in the order in which one thinks of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from moldwright.commission.keys import Key, ValueKind, keys
from moldwright.making.choices import choices_of
from moldwright.making.commission import shown_default
from moldwright.materials import Library
from moldwright.materials.library import library
from moldwright.units import show_length, show_mass, show_temperature, show_volume
from moldwright.units.system import UnitSystem
from moldwright.web.words.asked import GROUPS
from moldwright.web.words.marked import Words
from moldwright.words.speaker import say

UNIT_OF = {
    UnitSystem.METRIC: {"length": "mm", "mass": "g", "volume": "ml", "temperature": "°C", "duration": "min"},
    UnitSystem.US: {"length": "in", "mass": "oz", "volume": "fl oz", "temperature": "°F", "duration": "min"},
}
"""What a bare number is read in, by the reader's units; it stands behind the field."""
SHOWN: dict[ValueKind, Callable[[float, str], str]] = {
    ValueKind.LENGTH: show_length,
    ValueKind.MASS: show_mass,
    ValueKind.VOLUME: show_volume,
    ValueKind.TEMPERATURE: show_temperature,
}


@dataclass(frozen=True, slots=True)
class AskedField:
    """One thing that is asked.

    Parameters
    ----------
    key : of the commission.
    label : what stands over it.
    value : what was answered, "" where nothing was.
    default : what holds if nothing is answered, in words; "" where nothing does.
    choices : words to answer with their names; none: it is typed.
    unit : in which a bare number is read; "" where it is none.
    hint : what it means.
    """

    key: Key
    label: Words
    value: str
    default: str
    choices: dict[str, str]
    unit: str
    hint: str

    @property
    def holds(self) -> str:
        """What holds now, in words: what was answered, else the default; "" where neither is."""
        if self.choices:
            return self.choices.get(self.value) or self.value or self.default
        told = self.value or self.default
        return f"{told} {self.unit}" if told and self.unit and not told[-1].isalpha() else told


ALIKE = {"cast.release": "mold.release"}
"""A key that is answered with the same words as another."""


def asked_fields(answers: dict[str, Any], units: UnitSystem) -> dict[str, list[AskedField]]:
    """All that is asked, by the groups in which it stands.

    Parameters
    ----------
    answers : what was answered already, by dotted key.
    units : of who reads.
    """
    known = library()
    return {
        group: [_field(dotted, label, answers, units, known) for dotted, label in rows]
        for group, rows in GROUPS.items()
    }


def key_of(dotted: str) -> Key:
    """A key of a commission by its name with its table.

    Parameters
    ----------
    dotted : such as "mold.rubber".
    """
    table, _, name = dotted.partition(".")
    return keys()[table][name]


def _field(dotted: str, label: Words, answers: dict[str, Any], units: UnitSystem, known: Library) -> AskedField:
    key = key_of(dotted)
    value = answers.get(dotted, "")
    chosen = {"yes": True, "no": False}
    shown = next((word for word, truth in chosen.items() if truth is value), None) or str(value)
    unit = UNIT_OF[units].get(key.kind.value, "")
    default = _default(key, units, known).removesuffix(f" {unit}") if unit else _default(key, units, known)
    choices = choices_of(ALIKE.get(dotted, dotted), known)
    return AskedField(key, label, shown, default, choices, unit, hint(key))


def hint(key: Key) -> str:
    """What a key means, as a sentence."""
    told = key.about.replace("`", "").removeprefix("true: ")
    sentence = f"{told[:1].upper()}{told[1:]}."
    return say(sentence)


def _default(key: Key, units: UnitSystem, known: Library) -> str:
    """The default in the reader's units; a material by its name."""
    default = key.default
    if default in (None, "", ()):
        return ""
    if key.kind in SHOWN:
        return SHOWN[key.kind](float(default), units)
    if isinstance(default, bool):
        return "yes" if default else "no"
    named = choices_of(key.dotted, known).get(str(default))
    return named or str(shown_default(key))
