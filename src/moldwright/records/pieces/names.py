"""Names of a piece's files, which others wrote: harmless on every system, and never a way out of their folder."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

from moldwright.errors import InputRefused
from moldwright.text.harmless import is_line
from moldwright.text.shown import short

COMMISSION = "commission.toml"
"""How the commission is called beside its files."""
LONGEST_PART, MOST_PARTS, MOST_FILES = 120, 4, 500
"""Letters of a name or of a folder's name, folders in one another, files of a piece; our own."""
STEERING = frozenset('\\:*?"<>|')
DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10)))
)
"""Names that some systems keep for themselves, whatever their ending; from memory."""
HARMLESS = "a name of letters, digits, blanks, dots and dashes"


def is_harmless(name: str) -> bool:
    """Whether a file may have that name in a folder of its own.

    Parameters
    ----------
    name : with "/" after each folder.

    >>> is_harmless("photos/left 1.jpg"), is_harmless("../a.stl"), is_harmless("/a.stl"), is_harmless("aux.stl")
    (True, False, False, False)
    """
    parts = name.split("/")
    return len(parts) <= MOST_PARTS and all(map(_is_part, parts))


def _is_part(part: str) -> bool:
    sound = is_line(part, LONGEST_PART) and len(part.encode()) <= 2 * LONGEST_PART and not STEERING & set(part)
    at_ends = part.startswith((".", " ", "-")) or part.endswith((".", " "))
    return sound and not at_ends and part.partition(".")[0].rstrip().casefold() not in DEVICES


def check_names(names: Iterable[str]) -> None:
    """Refuse names of which one is not harmless, stands twice, or is a folder of another.

    Parameters
    ----------
    names : of all files of a piece.

    Raises InputRefused ("file-name-unusable", "too-many-files").
    """
    taken: set[str] = {COMMISSION}
    folders: set[str] = set()
    every = list(names)
    if len(every) > MOST_FILES:
        raise InputRefused("too-many-files", len(every), MOST_FILES, "files", "Leave out what the plan does not need.")
    for name in every:
        if not is_harmless(name):
            raise _unusable(name, HARMLESS, "Rename the file, in the commission too.")
        key = _key(name)
        parts = key.split("/")
        above = {"/".join(parts[:count]) for count in range(1, len(parts))}
        if key in taken | folders or above & taken:
            raise _unusable(name, "each name once", "Give each file a name of its own.")
        taken.add(key)
        folders |= above


def _key(name: str) -> str:
    """What systems that know no capitals take for the same name."""
    return unicodedata.normalize("NFC", name).casefold()


def _unusable(name: str, limit: str, remedy: str) -> InputRefused:
    return InputRefused("file-name-unusable", short(name), limit, "", remedy)
