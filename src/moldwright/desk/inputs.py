"""The files that the desk reads for the computing rooms: the commission, the shop's own sheets and steps."""

from __future__ import annotations

from pathlib import Path

from moldwright.errors import InputRefused

LONGEST_BYTES = 2_000_000
MOST_SHEETS = 200


def read_text(path: Path, what: str) -> str:
    """A text file of ours, refused where it is missing, too long or no text.

    Parameters
    ----------
    path : the file.
    what : what it should hold, as a person calls it ("commission").
    """
    try:
        with path.open("rb") as file:
            raw = file.read(LONGEST_BYTES + 1)
    except IsADirectoryError:
        raise InputRefused(
            "not-a-file", str(path), f"a {what}", "", f"Give the {what}'s file, not its folder."
        ) from None
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


def read_sheets(folder: Path) -> dict[str, str]:
    """The texts of a shop's own sheets by file name, in the order of their names.

    Parameters
    ----------
    folder : the folder that the commission names; its *.toml files are read.
    """
    try:
        files = sorted(folder.glob("*.toml")) if folder.is_dir() else None
    except (OSError, ValueError):
        files = None
    if files is None:
        remedy = "Check shop.sheets in the commission: a folder, relative to the commission's file."
        raise InputRefused("sheets-missing", str(folder), "a folder with sheets", "", remedy)
    if not 1 <= len(files) <= MOST_SHEETS:
        remedy = "Put the shop's own sheets there as .toml files, or leave shop.sheets out."
        raise InputRefused("sheets-missing", len(files), f"1 to {MOST_SHEETS} .toml files", "", remedy)
    return {path.name: read_text(path, "sheet") for path in files}
