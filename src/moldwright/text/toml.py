"""TOML of a stranger, parsed within bounds: length, depth, dots of a key and digits of a number.

The parser of the standard library takes time that grows with the square of a key's dots, recurses as deep as brackets
nest, and gives up with a bare `ValueError` on integers of more than 4,300 digits. So what stands outside quotes and
comments is looked over first.
"""

from __future__ import annotations

import json
import re
import tomllib
from typing import Any

from moldwright.errors import InputRefused
from moldwright.text.shown import short

DEEPEST, MOST_DOTS, MOST_DIGITS = 24, 12, 400
"""Our own bounds: what we read is three tables deep. A number of 400 digits is past every float and every key."""
_QUOTED = (
    r'"""(?:[^"\\]++|\\.|"(?!""))*+(?:"{3,5}|\\?\Z)'
    r"|'''(?:[^']++|'(?!''))*+(?:'{3,5}|\Z)"
    r'|"(?:[^"\\\n]++|\\[^\n])*+(?:"|\\?$)'
    r"|'[^'\n]*+(?:'|$)"
    r"|\#[^\n]*+"
)
_PARTS = re.compile(rf"(?P<quoted>{_QUOTED})|(?P<digits>[0-9][0-9_]{{{MOST_DIGITS},}})", re.DOTALL | re.MULTILINE)


def toml_tables(text: str, what: str, unreadable: str, longest: int) -> dict[str, Any]:
    """The tables of a TOML text; refused where it is no TOML or larger than anything that we read.

    Parameters
    ----------
    text : the file's text.
    what : what it should be, as a person calls it ("commission"); `what`-too-long is the code where it is too long.
    unreadable : the code of the refusal where it is no TOML.
    longest : the most characters.

    >>> toml_tables("a = 1", "list", "list-unreadable", 80)
    {'a': 1}

    Source: TOML 1.0.0; the bounds are our own.
    """
    if len(text) > longest:
        remedy = f"Is this the right file? A {what} is far shorter; split it where it is not."
        raise InputRefused(f"{what.replace(' ', '-')}-too-long", len(text), longest, "characters", remedy)
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n")
    _refuse_tangles(plain, unreadable)
    try:
        return tomllib.loads(_PARTS.sub(_cut, plain))
    except (ValueError, RecursionError) as error:
        remedy = "It is not TOML: each line is a [table], or key = value with text and quantities in quotes."
        raise InputRefused(unreadable, short(str(error), 200), "a TOML file", "", remedy) from None


def toml_value(value: Any) -> str:
    """A value as TOML, on one line: text in quotes, lists and tables in brackets.

    Parameters
    ----------
    value : text, number, true or false, or a list or table of them.

    >>> print(toml_value([{"name": 'a 5" rod', "of": [1, True]}]))
    [{ name = "a 5\\" rod", of = [1, true] }]

    Source: TOML 1.0.0.
    """
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{name} = {toml_value(own)}' for name, own in value.items())} }}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(toml_value, value))}]"
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value) if isinstance(value, int | float) else json.dumps(value, ensure_ascii=False)


def _cut(part: re.Match[str]) -> str:
    """A number of endless digits as one of 400, which is past every bound just the same."""
    return part[0] if part["quoted"] is not None else part[0][:MOST_DIGITS].rstrip("_")


def _refuse_tangles(text: str, unreadable: str) -> None:
    bare = _PARTS.sub('"', text)
    depth = deepest = 0
    for bracket in re.findall(r"[\[\]{}]", bare):
        depth = depth + 1 if bracket in "[{" else max(depth - 1, 0)
        deepest = max(deepest, depth)
    if deepest > DEEPEST:
        raise InputRefused(
            unreadable, deepest, DEEPEST, "brackets deep", "Write it with fewer brackets in one another."
        )
    dots = max((piece.count(".") for piece in re.split(r"[\n=,\[\]{}]", bare)), default=0)
    if dots > MOST_DOTS:
        raise InputRefused(unreadable, dots, MOST_DOTS, "dots in a key", "Write the key with fewer dots.")
