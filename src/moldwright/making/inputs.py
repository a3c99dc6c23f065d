"""The files that are read for the computing rooms: the commission, the shop's own sheets and steps."""

from __future__ import annotations

import stat
from itertools import islice
from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.text.harmless import harmless
from moldwright.ways import named_key

LONGEST_BYTES = 2_000_000
"""A file of ours at most, and all own sheets together: far more than a shop writes; our own."""
MOST_SHEETS = 200


def read_text(path: Path, what: str) -> str:
    """A text file of ours, refused where it is missing, too long or no text.

    Parameters
    ----------
    path : the file.
    what : what it should hold, as a person calls it ("commission").
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            remedy = f"Give the {what}'s file, not its folder, a pipe or a device."
            raise InputRefused("not-a-file", str(path), f"a {what}", "", remedy)
        with path.open("rb") as file:
            raw = file.read(LONGEST_BYTES + 1)
    except FileNotFoundError:
        raise InputRefused("file-missing", str(path), f"a {what}", "", f"Check the {what}'s name and folder.") from None
    except (OSError, ValueError) as error:
        told = error.strerror if isinstance(error, OSError) else "no usable name"
        raise InputRefused("file-unreadable", f"{path}: {told}", f"a {what}", "", "May you read this file?") from None
    if len(raw) > LONGEST_BYTES:
        raise InputRefused("file-too-long", len(raw), LONGEST_BYTES, "bytes", f"Is this the {what}'s file?")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputRefused("file-no-text", str(path), "UTF-8 text", "", f"Save the {what} as UTF-8 text.") from None


def is_file(path: Path) -> bool:
    """Whether there is a file of that name; a name that no system takes has none.

    Parameters
    ----------
    path : the file.
    """
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def is_folder(path: Path) -> bool:
    """Whether there is a folder of that name; a name that no system takes has none.

    Parameters
    ----------
    path : the folder.
    """
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False


def read_sheets(folder: Path) -> dict[str, str]:
    """The texts of a shop's own sheets by file name, in the order of their names.

    Parameters
    ----------
    folder : the folder that the commission names; its *.toml files are read.
    """
    try:
        files = sorted(islice(folder.glob("*.toml"), MOST_SHEETS + 1)) if folder.is_dir() else None
    except (OSError, ValueError):
        files = None
    if files is None:
        remedy = f"Check {named_key('shop.sheets')} in the commission: a folder, relative to the commission's file."
        raise InputRefused("sheets-missing", str(folder), "a folder with sheets", "", remedy)
    if not 1 <= len(files) <= MOST_SHEETS:
        remedy = f"Put the shop's own sheets there as .toml files, or leave {named_key('shop.sheets')} out."
        found = "none" if not files else f"more than {MOST_SHEETS}"
        raise InputRefused("sheets-missing", f"{folder}: {found}", f"1 to {MOST_SHEETS} .toml files", "", remedy)
    return _texts(files)


def _texts(files: list[Path]) -> dict[str, str]:
    """The texts by file name, as long together as one file may be; a name is printed, so it is made harmless."""
    texts: dict[str, str] = {}
    for path in files:
        name = harmless(path.name)
        texts[name if name not in texts else f"{name} ({len(texts) + 1})"] = read_text(path, "sheet")
        together = sum(map(len, texts.values()))
        if together > LONGEST_BYTES:
            remedy = "Leave in the folder only the sheets that the shop uses."
            raise InputRefused("sheets-too-long", together, LONGEST_BYTES, "characters together", remedy)
    return texts
