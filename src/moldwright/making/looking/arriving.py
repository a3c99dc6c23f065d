"""Photos as they arrive in a folder: which are used, and what is still missing, told anew."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import ExitStack
from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.photos.poses.detect import marks_in
from moldwright.photos.poses.marks import Marks
from moldwright.photos.poses.so_far import tally_so_far
from moldwright.photos.reading.limits import PhotoLimits
from moldwright.photos.reading.names import named_in
from moldwright.photos.reading.read import read_photos
from moldwright.photos.told import PhotoReason, PhotoTold
from moldwright.sheets.photo_told import photo_line, tally_lines

Sizes = Mapping[str, tuple[int, int]]


class Watched:
    """The photos of a folder as they come and go, each read once; close it to give their arrays back."""

    def __init__(self, folder: Path) -> None:
        """Watch a folder.

        Parameters
        ----------
        folder : where the photos arrive.
        """
        self._folder = folder
        self._held = ExitStack()
        self._before: Sizes = {}
        self._read: dict[str, tuple[tuple[int, int], Marks | PhotoTold]] = {}

    def close(self) -> None:
        """Remove what was read."""
        self._held.close()

    def turn(self) -> str:
        """What is told after another look at the folder; "" where nothing has changed."""
        now = sizes_in(self._folder)
        settled = {name: size for name, size in now.items() if self._before.get(name) == size}
        self._before = now
        gone = [name for name, (size, _) in self._read.items() if now.get(name) != size]
        for name in gone:
            del self._read[name]
        new = [name for name in settled if name not in self._read]
        if new:
            self._read |= {name: (now[name], answer) for name, answer in self._answers(new, now).items()}
        return self._told(new) if new or gone else ""

    def _answers(self, new: list[str], now: Sizes) -> dict[str, Marks | PhotoTold]:
        """The new ones and no others; where none of them can be read, that is told of each."""
        others = tuple(name for name in now if name not in new)
        try:
            read = self._held.enter_context(read_photos(self._folder, others))
        except InputRefused:
            return {name: PhotoTold(name, False, PhotoReason.UNREADABLE) for name in new}
        told = {each.file: each for each in read.told if each.file in new}
        return {photo.file: marks_in(photo) for photo in read} | told

    def _told(self, new: list[str]) -> str:
        answers = [answer for _, (_, answer) in sorted(self._read.items())]
        so_far = tally_so_far(tuple(answer for answer in answers if isinstance(answer, Marks)))
        told = {each.file: each for each in (*answers, *so_far.told) if isinstance(each, PhotoTold)}
        shown = [photo_line(told.get(name, PhotoTold(name, True))) for name in sorted(new)]
        return "\n".join([*shown, *(f"  {line}" for line in tally_lines(so_far.tally))])


def sizes_in(folder: Path) -> dict[str, tuple[int, int]]:
    """Size and time of every photo of a folder by its name; one that goes meanwhile is left out.

    Parameters
    ----------
    folder : where the photos arrive.
    """
    found: dict[str, tuple[int, int]] = {}
    for named in named_in(folder, (), PhotoLimits()):
        try:
            state = (folder / named.photo).stat()
        except OSError:
            continue
        found[named.photo] = (state.st_size, state.st_mtime_ns)
    return found
