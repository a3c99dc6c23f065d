"""Reading an archive, which anybody may have made: every part is checked before it is handed on."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import sha256
from io import BufferedReader
from pathlib import Path
from typing import Any, BinaryIO, TypeVar, cast
from zipfile import ZipInfo

from moldwright.archive import layout
from moldwright.archive.container import BLOCK
from moldwright.archive.lines import EventLine, FileLine, PlanLine, TornLine, event_in, row_in
from moldwright.archive.parts import ANOTHER, ARCHIVE, breaking, check_seal, damaged, parts_of, zip_in
from moldwright.errors import InputRefused
from moldwright.log.ids import FileHash
from moldwright.log.uuid7 import is_uuid7
from moldwright.progress import Progress, silent

T = TypeVar("T")
R = TypeVar("R", PlanLine, FileLine)
UPDATE = "Use a version of Moldwright that is at least as new as the one that wrote it. Nothing was written."
SUM = re.compile(r"([0-9a-f]{64})  (.+)")
AT_ONCE = 1000
READING = "reading the archive"


@dataclass(frozen=True, slots=True)
class ShopTold:
    """Which store an archive is of, and since when there is one [ms]."""

    id: str
    made_ms: int


class ShopArchive:
    """An open archive whose seal holds and whose parts are those that its sums name.

    Parameters
    ----------
    file : open for reading.
    """

    def __init__(self, file: BinaryIO) -> None:
        self._zip = zip_in(file)
        self._parts = parts_of(self._zip)
        about = _about(self._whole(layout.ABOUT, layout.LONGEST_ABOUT))
        self.shop: ShopTold | None = about["shop"]
        self.counts: dict[str, int] = about["counts"]
        self.missing = frozenset(about["missing"])
        self._check_counts()
        self._sums = _sums(self._whole(layout.SUMS, len(self._parts) * 200))
        if set(self._sums) != set(self._parts) - {layout.SUMS}:
            raise damaged("parts are missing, or there are more than it tells")
        for name in self._sums:
            if name not in layout.FIXED and self._sums[name] not in name:
                raise damaged(f"{name[:19]} does not fit its sum")
        if sha256(self._whole(layout.ABOUT, layout.LONGEST_ABOUT)).hexdigest() != self._sums[layout.ABOUT]:
            raise damaged(f"{layout.ABOUT} does not fit its sum")

    def _check_counts(self) -> None:
        """Lists are as long as there are parts, so that none of them is read without end."""
        plans, files = (sum(name.startswith(start) for name in self._parts) for start in ("plans/", "files/"))
        if (self.counts["plans"], self.counts["files"]) != (plans, files + len(self.missing)):
            raise damaged("there are more or fewer plans or files than it tells")

    def events(self, progress: Progress = silent) -> Iterator[EventLine]:
        """Every event, by rising ids.

        Parameters
        ----------
        progress : told how far it is; may raise to cancel.
        """
        every, last, count = self.counts["events"], "", 0
        for text in self._lines(layout.EVENTS):
            line = _read(event_in, text)
            if line.id <= last:
                raise damaged(f"event {line.id[:36]} stands out of its order")
            last, count = line.id, count + 1
            if count % AT_ONCE == 0:
                progress(READING, min(1.0, count / max(every, 1)))
            yield line
        self._counted("events", count)

    def plans(self) -> Iterator[tuple[PlanLine, bytes]]:
        """Every plan with its text."""
        lines = self._rows(layout.PLANS, "plans", PlanLine)
        self._all_there("plans/", {layout.PLAN.format(line.sha256) for line in lines})
        for line in lines:
            text = self._whole(layout.PLAN.format(line.sha256), layout.LONGEST_PLAN)
            _is(sha256(text).hexdigest(), len(text), line)
            _text(text, "a plan")
            yield line, text

    def files(self) -> Iterator[tuple[FileLine, Iterator[bytes] | None]]:
        """Every file with its bytes piece by piece, which must be read to their end: that they are whole is known then.

        None for one that was lost or damaged before the archive was written.
        """
        lines = self._rows(layout.FILES, "files", FileLine)
        told = {line.sha256 for line in lines} - self.missing
        self._all_there("files/", {layout.FILE.format(each) for each in told})
        for line in lines:
            if line.sha256 in self.missing:
                yield line, None
                continue
            yield line, self._blocks(layout.FILE.format(line.sha256), line)

    def _rows(self, name: str, what: str, kind: type[R]) -> list[R]:
        rows: list[R] = []
        for text in self._lines(name):
            rows.append(_read(lambda told: row_in(told, kind), text))
            if len(rows) > self.counts[what]:
                break
        self._counted(what, len(rows))
        return rows

    def _all_there(self, folder: str, told: set[str]) -> None:
        if told != {name for name in self._parts if name.startswith(folder)}:
            raise damaged(f"what is in {folder} is not what is listed")

    def _counted(self, what: str, count: int) -> None:
        if self.counts[what] != count:
            raise damaged(f"{count} {what}, and it tells {self.counts[what]}")

    def _lines(self, name: str) -> Iterator[str]:
        found = sha256()
        with breaking(name), BufferedReader(cast(Any, self._zip.open(self._parts[name])), BLOCK) as part:
            while line := part.readline(layout.LONGEST_LINE + 1):
                found.update(line)
                if len(line) > layout.LONGEST_LINE or not line.endswith(b"\n"):
                    raise damaged(f"a line of {name} has no end")
                yield _text(line[:-1], name)
        if found.hexdigest() != self._sums[name]:
            raise damaged(f"{name} does not fit its sum")

    def _blocks(self, name: str, line: FileLine) -> Iterator[bytes]:
        found, size = sha256(), 0
        with breaking(name), self._zip.open(self._bounded(name, layout.LONGEST_FILE)) as part:
            while block := part.read(BLOCK):
                found.update(block)
                size += len(block)
                yield block
        _is(found.hexdigest(), size, line)

    def _whole(self, name: str, longest: int) -> bytes:
        with breaking(name):
            return self._zip.read(self._bounded(name, longest))

    def _bounded(self, name: str, longest: int) -> ZipInfo:
        info = self._parts[name]
        if info.file_size > longest:
            raise InputRefused("archive-too-large", info.file_size, longest, f"bytes in {name}", ANOTHER)
        return info


@contextmanager
def opened_archive(path: Path, progress: Progress = silent) -> Iterator[ShopArchive]:
    """An archive, open till the body ends.

    Parameters
    ----------
    path : the file.
    progress : told how far it is; may raise to cancel.

    Raises InputRefused ("archive-missing", "archive-foreign", "archive-damaged", "archive-newer", "archive-bomb",
    "archive-too-large").
    """
    try:
        file = path.open("rb")
    except (OSError, ValueError) as error:
        told = (error.strerror if isinstance(error, OSError) else None) or "no usable name"
        raise InputRefused("archive-missing", f"{path}: {told}", ARCHIVE, "", "Check its name and folder.") from None
    with file:
        progress(READING, 0.0)
        yield archive_in(file)


def archive_in(file: BinaryIO) -> ShopArchive:
    """The archive in an open file.

    Parameters
    ----------
    file : open for reading.
    """
    check_seal(file)
    return ShopArchive(file)


def _about(data: bytes) -> dict[str, Any]:
    try:
        tree = json.loads(data)
        told, version = tree["format"], tree["version"]
    except (ValueError, RecursionError, KeyError, TypeError):
        raise damaged(f"{layout.ABOUT} cannot be read") from None
    if told != layout.FORMAT or type(version) is not int:
        raise InputRefused("archive-foreign", "another kind of file", ARCHIVE, "", "Give the backup's file.")
    if version > layout.VERSION:
        raise InputRefused("archive-newer", f"version {version}", f"version {layout.VERSION}", "", UPDATE)
    try:
        return _about_read(tree)
    except (KeyError, TypeError, ValueError):
        raise damaged(f"{layout.ABOUT} cannot be read") from None


def _about_read(tree: dict[str, Any]) -> dict[str, Any]:
    shop = tree["shop"]
    if shop is not None and not (is_uuid7(shop["id"]) and 0 <= shop["made_ms"] < layout.LATEST_MS):
        raise ValueError
    counts = {name: int(tree[name]) for name in ("events", "plans", "files")}
    missing = [FileHash(each) for each in tree["files_missing"]]
    told = None if shop is None else ShopTold(str(shop["id"]), int(shop["made_ms"]))
    return {"shop": told, "counts": counts, "missing": missing}


def _sums(data: bytes) -> dict[str, str]:
    text = _text(data, layout.SUMS)
    found = [SUM.fullmatch(line) for line in text.removesuffix("\n").split("\n")]
    if not text.endswith("\n") or None in found:
        raise damaged(f"{layout.SUMS} cannot be read")
    return {each[2]: each[1] for each in found if each is not None}


def _text(data: bytes, name: str) -> str:
    try:
        return data.decode()
    except UnicodeDecodeError:
        raise damaged(f"{name} is no UTF-8") from None


def _read(reader: Callable[[str], T], text: str) -> T:
    try:
        return reader(text)
    except TornLine:
        raise damaged(f"a line is not as this format writes it: {text[:80]}") from None


def _is(digest: str, size: int, line: PlanLine | FileLine) -> None:
    if digest != line.sha256 or size != line.bytes:
        raise damaged(f"what is called {line.sha256[:12]} is not that")
