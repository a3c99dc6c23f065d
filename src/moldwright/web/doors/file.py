"""The file that the doors are kept in: of this machine alone, written whole, readable by its user only."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from moldwright.disk.lock import locked
from moldwright.disk.whole_file import write_file
from moldwright.errors import InputRefused
from moldwright.web.doors.state import DoorState, state_of, state_text

FOLDER = "doors"
Stamp = tuple[int, int, int]


def private_folder(data: Path) -> Path:
    """The folder that only this user may look into, made where it is missing.

    Parameters
    ----------
    data : the desk's data folder.
    """
    folder = data / FOLDER
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    folder.chmod(0o700)
    return folder


def write_private(path: Path, content: str | bytes) -> None:
    """Write a file of the private folder whole; its folder keeps others out even before its own mode does.

    Parameters
    ----------
    path : the file.
    content : what it shall hold.
    """
    write_file(path, content)
    path.chmod(0o600)


class DoorFile:
    """What is kept of the doors. Two desks on one folder see each other's changes."""

    def __init__(self, data: Path) -> None:
        self._data = data
        self._known: tuple[Stamp, DoorState] | None = None

    @property
    def path(self) -> Path:
        """Where it lies."""
        return self._data / FOLDER / "doors.json"

    def read(self) -> DoorState:
        """What it holds now; nothing where there is none yet.

        Raises InputRefused ("doors-damaged").
        """
        try:
            status = self.path.stat()
        except FileNotFoundError:
            return DoorState()
        stamp = (status.st_ino, status.st_mtime_ns, status.st_size)
        known = self._known
        if known is None or known[0] != stamp:
            known = self._known = (stamp, self._read())
        return known[1]

    def change(self, how: Callable[[DoorState], DoorState]) -> DoorState:
        """Change it: one at a time, whole or not at all.

        Parameters
        ----------
        how : is given what it holds and gives what it shall hold.
        """
        folder = private_folder(self._data)
        with locked(folder / "doors.lock", wait=True):
            before = self.read()
            after = how(before)
            if after != before:
                write_private(self.path, state_text(after))
        return after

    def _read(self) -> DoorState:
        try:
            return state_of(self.path.read_text(encoding="utf-8"))
        except (ValueError, KeyError, TypeError):
            remedy = "Remove this file; then set the passphrase again, and everybody signs in again."
            raise InputRefused("doors-damaged", str(self.path), "a file that this desk wrote", "", remedy) from None
