"""Words that others wrote, made harmless to a terminal: what steers one is shown as text."""

from __future__ import annotations

import unicodedata

STEERING = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
"""Unicode's general categories that steer a terminal, turn the writing round, or are no character for all to see."""
JOINERS = "\u200c\u200d"
"""Format characters that only join or part their two neighbors; Persian and many emoji need them."""


def harmless(text: str, keep: str = "") -> str:
    """The text with every steering character written out as its escape; all other characters as they are.

    Parameters
    ----------
    text : what is to be shown.
    keep : steering characters that may pass ("\\n" where lines are ours).

    >>> harmless("red \\x1b[31m, turned \\u202egnp.")
    'red \\\\x1b[31m, turned \\\\u202egnp.'

    Source: Unicode Standard, general categories (annex 44); control functions of terminals: ECMA-48, which C0 and C1
    (category Cc) begin.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(escaped(c) if steers(c) and c not in keep else c for c in text)


def steers(character: str) -> bool:
    """Whether a character does more than stand where it is.

    Parameters
    ----------
    character : one character.

    >>> steers("\\u009b"), steers("é")
    (True, False)
    """
    return character not in JOINERS and unicodedata.category(character) in STEERING


def is_line(text: str, longest: int) -> bool:
    """Whether a text is one line that has something to read and nothing that steers.

    Parameters
    ----------
    text : what was written.
    longest : the most characters it may have.

    >>> is_line("Größe", 80), is_line("two\\nlines", 80)
    (True, False)
    """
    return 0 < len(text) <= longest and not text.isspace() and not any(steers(c) for c in text)


def escaped(character: str) -> str:
    """A character's escape.

    Parameters
    ----------
    character : one character.

    >>> escaped("\\x1b"), escaped("\\u202e")
    ('\\\\x1b', '\\\\u202e')
    """
    code = ord(character)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
