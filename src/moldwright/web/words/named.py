"""A key of the commission that a refusal names, as pages call it."""

from __future__ import annotations

import re

from moldwright.ways import worded
from moldwright.web.words.asked import CALLED, OF_ROWS
from moldwright.words.speaker import say, say_marked, speaker

_QUANTITY = re.compile(r"(\d+(?:\.\d+)?) (mm|g|ml)")
_ROW = re.compile(r"(?:\.(limbs))?(?:\[(\d+)\])?(?:\.(levels)\[(\d+)\])?(?:\.([a-z_]+))?")


def in_page_words(text: str) -> str:
    """A refusal's sentence in the reader's words: keys that it names as the page's fields are called, its figures
    in the reader's units. It is translated as a whole, with what it names in its places.

    Parameters
    ----------
    text : as a refusal has it (`moldwright.ways`).
    """
    return say_marked(text, _worded)


def _worded(text: str) -> str:
    return worded(text, _field, lambda value, unit: speaker().measured((value,), unit)[0], say)


def called(key: str) -> str:
    """What a field is called, in the reader's words; the key itself where no page knows it.

    Parameters
    ----------
    key : with its table, and where it stands in a list.

    >>> called("mold.flange"), called("original.tape.levels[2].girth")
    ('Flange round the base', 'Tape and calipers, row 3: Around')
    """
    if key in CALLED:
        return say(CALLED[key])
    if key in OF_ROWS:
        return say(OF_ROWS[key])
    table, _, rest = key.partition(".")
    name = re.match(r"[a-z_-]+", rest)
    known = CALLED.get(f"{table}.{name[0]}") if name else None
    if name is None or known is None:
        return key
    return _in_rows(say(known), rest[name.end() :])


def _in_rows(whole: str, rest: str) -> str:
    """A place in what stands in rows: in a limb, its row, its cell."""
    found = _ROW.fullmatch(rest)
    if found is None:
        return whole
    limb, first, _, second, cell = found.groups()
    if limb and first:
        whole = say("{whole}, limb {number}", whole=whole, number=int(first) + 1)
        first = None
    row = second or first
    if row:
        whole = say("{whole}, row {number}", whole=whole, number=int(row) + 1)
    return say("{whole}: {cell}", whole=whole, cell=say(OF_ROWS[cell])) if cell in OF_ROWS else whole


def _field(key: str, there: str, to: str) -> str:
    value = (there or to).strip('"')
    field = called(key)
    return say("“{field}”: {value}", field=field, value=_in_units(value)) if value else say("“{field}”", field=field)


def _in_units(value: str) -> str:
    """What stands in a commission, in the reader's units where it is a quantity in the house's."""
    found = _QUANTITY.fullmatch(value)
    return speaker().measured((float(found[1]),), found[2])[0] if found else value
