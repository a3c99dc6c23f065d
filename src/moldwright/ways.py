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
_NAMED = re.compile(r"⟦([^⟦⟧=:]+)(?:([=:])([^⟦⟧]*))?⟧")


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


def worded(text: str, called: Called) -> str:
    """A sentence with the keys that it names in other words.

    Parameters
    ----------
    text : as `named_key`, `stands` and `writes` made it.
    called : words one of them.
    """

    def one(found: re.Match[str]) -> str:
        key, sign, value = found[1], found[2], found[3] or ""
        return called(key, value if sign == ":" else "", value if sign == "=" else "")

    return _NAMED.sub(one, text)


def as_keys(text: str) -> str:
    """A sentence with the keys that it names as a commission has them.

    Parameters
    ----------
    text : as `named_key`, `stands` and `writes` made it.

    >>> as_keys(f"{stands('mold.skin', '4')}: write {writes('mold.skin', '5')}, or leave {named_key('mold.skin')} out")
    'mold.skin = 4: write skin = 5, or leave mold.skin out'
    """
    return worded(text, _as_key)


def _as_key(key: str, there: str, to: str) -> str:
    if there:
        return f"{key} = {there}"
    return f"{key.rpartition('.')[2]} = {to}" if to else key


def keys_named(text: str) -> tuple[str, ...]:
    """The keys that a sentence names, in their order.

    Parameters
    ----------
    text : as `named_key`, `stands` and `writes` made it.
    """
    return tuple(found[1] for found in _NAMED.finditer(text))


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
