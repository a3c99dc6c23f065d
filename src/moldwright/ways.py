"""What a remedy leads to, as a value: something that is done, or a change of what is asked for.

Whoever shows it words it: a command line as a command, a page as a field or as a link.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType
from typing import Any

from moldwright.text.shown import number


class Deed(Enum):
    """Something that a person does or looks up."""

    SEE_MATERIALS = 1
    SEE_PIECES = 2
    SEE_RUNS = 3
    SEE_LOTS = 4
    SEE_MOLDS = 5
    SEE_EDITIONS = 6
    SEE_NUMBERS = 7
    SEE_RECIPES = 8
    SEE_LABEL_SHEETS = 9
    SEE_RUN_LOG = 10
    SEE_PIECE_LOG = 11
    SEE_LOT_LOG = 12
    SEE_MOLD_LOG = 13
    SEE_EDITION_LOG = 14
    SEE_RECIPE_LOG = 15
    ADD_LOT = 16
    KEEP_RECIPE = 17
    CHANGE_PIECE = 18
    BEGIN_RUN = 19
    END_RUN = 20
    GIVE_NUMBER = 21
    VOID_NUMBER = 22
    BRING_BACK = 23
    CHECK_SHOP = 24
    LOOK_AT_PHOTOS = 25
    PRINT_PHOTO_SHEET = 26
    RESTORE_SHOP = 27
    TELL_PLAN = 28
    OPEN_TO_TABLETS = 29


@dataclass(frozen=True, slots=True)
class Change:
    """A key of the commission, and the value that it may have instead; "": whoever asks chooses it."""

    key: str
    to: str | int = ""


Way = Deed | Change
Called = Callable[[str, str, str], str]
"""What is shown in place of a named key: by the key, what stands there, what may be written there ("": neither)."""
Measured = Callable[[float, str], str]
"""What is shown in place of a figure: by its value and its unit."""
_NAMED = re.compile(r"⟦([^⟦⟧=:|]*)(?:([=:|])([^⟦⟧]*))?⟧")
_GIVEN = "given"
_NO_MARK = str.maketrans("⟦⟧|", "[]/")
SAID_AS = MappingProxyType({"degC": "°C"})
"""Units of the house that are written in another way."""


def named_key(key: str) -> str:
    """A key of the commission within a refusal's sentence: a command line shows the key, a page what it calls it.

    Parameters
    ----------
    key : with its table, and where it stands in a list: "original.tape.levels[2].girth".
    """
    return f"⟦{key}⟧"


def stands(key: str, value: str) -> str:
    """A key, and what stands there.

    Parameters
    ----------
    key : as for `named_key`.
    value : in words.
    """
    return f"⟦{key}:{value}⟧"


def writes(key: str, value: str) -> str:
    """A key, and what may be written there.

    Parameters
    ----------
    key : as for `named_key`.
    value : as TOML has it.
    """
    return f"⟦{key}={value}⟧"


def figure(value: float, unit: str) -> str:
    """A figure within a refusal's sentence: who reads it has it in their own units and with their own mark.

    Parameters
    ----------
    value : in the unit.
    unit : "mm", "g", "ml", "degC", any other that is the same everywhere, or "" for a bare number.

    >>> as_keys(f"At least {figure(12.0, 'mm')} at {figure(21.5, 'degC')}, {figure(2, '')} of {word('a wax')}.")
    'At least 12 mm at 21.5 °C, 2 of a wax.'
    """
    return f"⟦{float(value)!r}|{unit}⟧"


def word(text: str) -> str:
    """A name within a refusal's sentence, of a material or a part: the sentence around it can be translated.

    Parameters
    ----------
    text : the name; it is translated where a catalog has it.
    """
    return f"⟦|{text.translate(_NO_MARK)}⟧" if text else ""


def own_name(text: str) -> str:
    """A name that somebody here gave, of a coat or a limb: it stays as they wrote it, in every language.

    `text` : the name.
    """
    return f"⟦{_GIVEN}|{text.translate(_NO_MARK)}⟧" if text else ""


def worded(text: str, called: Called, measured: Measured, named: Callable[[str], str]) -> str:
    """A sentence with the keys, figures and names in it in other words.

    Parameters
    ----------
    text : as `named_key`, `stands`, `writes`, `figure` and `word` made it.
    called : words a key.
    measured : words a figure.
    named : words a name.
    """

    def one(found: re.Match[str]) -> str:
        key, sign, value = found[1], found[2], found[3] or ""
        if sign == "|":
            return value if key == _GIVEN else measured(float(key), value) if key else named(value)
        return called(key, value if sign == ":" else "", value if sign == "=" else "")

    return _NAMED.sub(one, text)


def parted(text: str) -> tuple[str, tuple[str, ...]]:
    """A sentence's template, places numbered from 0 where something is named, and what is named there.

    Parameters
    ----------
    text : as for `worded`.

    >>> parted(f"Write {named_key('mold.skin')} from {figure(2.0, 'mm')} on.")
    ('Write {0} from {1} on.', ('⟦mold.skin⟧', '⟦2.0|mm⟧'))
    """
    marks = tuple(found[0] for found in _NAMED.finditer(text))
    numbers = iter(range(len(marks)))
    return _NAMED.sub(lambda _: f"{{{next(numbers)}}}", text), marks


def as_keys(text: str) -> str:
    """A sentence with the keys that it names as a commission has them.

    Parameters
    ----------
    text : as for `worded`.

    >>> as_keys(f"{stands('mold.skin', '4')}: write {writes('mold.skin', '5')}, or leave {named_key('mold.skin')} out")
    'mold.skin = 4: write skin = 5, or leave mold.skin out'
    """
    return worded(text, plain_key, plain_figure, str)


def plain_figure(value: float, unit: str) -> str:
    """A figure in the house's units.

    Parameters
    ----------
    value, unit : as for `figure`.

    >>> plain_figure(0.1 + 0.2, "mm")
    '0.3 mm'
    """
    return f"{number(value)} {SAID_AS.get(unit, unit)}".strip()


def plain_key(key: str, there: str, to: str) -> str:
    """A named key as a commission has it.

    Parameters
    ----------
    key : with its table.
    there, to : what stands there, what may be written there; "" for neither.
    """
    if there:
        return f"{key} = {there}"
    return f"{key.rpartition('.')[2]} = {to}" if to else key


def keys_named(text: str) -> tuple[str, ...]:
    """The keys that a sentence names, in their order.

    Parameters
    ----------
    text : as for `worded`.
    """
    return tuple(found[1] for found in _NAMED.finditer(text) if found[2] != "|")


COMMANDS: Mapping[Deed, str] = MappingProxyType(
    {
        Deed.SEE_MATERIALS: "materials list",
        Deed.SEE_PIECES: "piece list",
        Deed.SEE_RUNS: "bench --list",
        Deed.SEE_LOTS: "lot list",
        Deed.SEE_MOLDS: "mold list",
        Deed.SEE_EDITIONS: "edition list",
        Deed.SEE_NUMBERS: "edition show EDITION",
        Deed.SEE_RECIPES: "recipe list",
        Deed.SEE_LABEL_SHEETS: "label --sheets",
        Deed.SEE_RUN_LOG: "bench RUN --show",
        Deed.SEE_PIECE_LOG: "piece show PIECE",
        Deed.SEE_LOT_LOG: "lot show LOT",
        Deed.SEE_MOLD_LOG: "mold show MOLD",
        Deed.SEE_EDITION_LOG: "edition show EDITION",
        Deed.SEE_RECIPE_LOG: "recipe show RECIPE",
        Deed.ADD_LOT: "lot add",
        Deed.KEEP_RECIPE: "recipe keep",
        Deed.CHANGE_PIECE: "piece change",
        Deed.BEGIN_RUN: "bench PLAN",
        Deed.END_RUN: "bench RUN --end WHY",
        Deed.GIVE_NUMBER: "edition number",
        Deed.VOID_NUMBER: "edition void",
        Deed.BRING_BACK: "edition back",
        Deed.CHECK_SHOP: "shop check",
        Deed.LOOK_AT_PHOTOS: "look FOLDER",
        Deed.PRINT_PHOTO_SHEET: "photos",
        Deed.RESTORE_SHOP: "shop restore FILE",
        Deed.TELL_PLAN: "piece planned PIECE PLAN",
        Deed.OPEN_TO_TABLETS: "desk --lan",
    }
)
"""The command of each deed, behind the program's name."""


def command(deed: Deed) -> str:
    """The line that does a deed, as it is typed.

    Parameters
    ----------
    deed : it.

    >>> command(Deed.RESTORE_SHOP)
    'moldwright shop restore FILE'
    """
    return f"moldwright {COMMANDS[deed]}"


def way_tree(way: Way | None) -> dict[str, Any] | None:
    """A way as plain values.

    Parameters
    ----------
    way : it.

    >>> way_tree(Change("mold.flange", "12 mm")), way_tree(Deed.ADD_LOT)
    ({'key': 'mold.flange', 'to': '12 mm'}, {'deed': 'ADD_LOT'})
    """
    match way:
        case Deed():
            return {"deed": way.name}
        case Change(key, to):
            return {"key": key, "to": to}
        case None:
            return None


def way_of(tree: Mapping[str, Any] | None) -> Way | None:
    """A way from plain values.

    Parameters
    ----------
    tree : as `way_tree` made it.

    >>> way_of({"deed": "ADD_LOT"})
    <Deed.ADD_LOT: 16>
    """
    if not tree:
        return None
    return Deed[tree["deed"]] if "deed" in tree else Change(tree["key"], tree["to"])
