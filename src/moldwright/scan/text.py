"""Numbers out of large texts, line by line, without a loop over lines."""

from __future__ import annotations

import re
import warnings
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.refuse import damaged

NEWLINE, SLASH, SPACE = 10, 47, 32


@dataclass(frozen=True, slots=True, eq=False)
class Rows:
    """Numbers of many lines: all in one row, and how many each line has."""

    values: NDArray[np.float64 | np.int64]
    counts: NDArray[np.int64]

    @property
    def starts(self) -> NDArray[np.int64]:
        starts: NDArray[np.int64] = np.concatenate([[0], np.cumsum(self.counts)[:-1]]).astype(np.int64)
        return starts

    def columns(self, first: int, last: int) -> NDArray[np.float64]:
        """Columns `first` to `last` (not included) of every line; each line must be that long.

        Parameters
        ----------
        first, last : columns, counted from 0.
        """
        if not len(self.counts):
            return np.zeros((0, last - first))
        short = np.flatnonzero(self.counts < last)
        if len(short):
            raise damaged(f"{int(self.counts[short[0]])} numbers on a line", f"at least {last}")
        if len(self.counts) and (self.counts == self.counts[0]).all():
            return np.asarray(self.values.reshape(len(self.counts), -1)[:, first:last], np.float64)
        return np.asarray(self.values[self.starts[:, None] + np.arange(first, last)], np.float64)

    def cut(self, lines: int) -> tuple[Rows, Rows]:
        """The first `lines` lines, and the rest.

        Parameters
        ----------
        lines : how many come first.
        """
        at = int(self.counts[:lines].sum())
        return Rows(self.values[:at], self.counts[:lines]), Rows(self.values[at:], self.counts[lines:])


def plain_lines(data: bytes, comment: bytes = b"#") -> bytes:
    """The text with one kind of line end and without comments.

    Parameters
    ----------
    data : a text in any one-byte code.
    comment : what begins a comment, empty for none.

    >>> plain_lines(b"1 2 # two\\r\\n3")
    b'1 2 \\n\\n3'
    """
    if b"\0" in data:
        raise damaged("a zero byte in a text")
    if b"\r" in data:
        data = data.replace(b"\r", b"\n")
    return re.sub(comment + rb"[^\n]*", b"", data) if comment and comment in data else data


def blocks(data: bytes, size: int = 1 << 24) -> Iterator[bytes]:
    """The text in pieces of whole lines, each of about `size` bytes, with one kind of line end.

    Parameters
    ----------
    data : a text in any one-byte code.
    size : about how long a piece is [bytes].
    """
    if b"\0" in data:
        raise damaged("a zero byte in a text")
    if b"\n" not in data:
        data = data.replace(b"\r", b"\n")
    at = 0
    while at < len(data):
        end = data.find(b"\n", min(at + size, len(data) - 1)) + 1 or len(data)
        yield data[at:end]
        at = end


def first_letters(chars: NDArray[np.uint8]) -> NDArray[np.int64]:
    """Where the first word of every line that has one begins.

    Parameters
    ----------
    chars : (n,) the text's bytes.
    """
    dark = chars > SPACE
    dark[1:] &= ~dark[:-1]
    words = np.flatnonzero(dark)
    line = np.searchsorted(np.flatnonzero(chars == NEWLINE), words)
    first = np.ones(len(words), bool)
    first[1:] = line[1:] != line[:-1]
    picked: NDArray[np.int64] = words[first]
    return picked


def cut_out(chars: NDArray[np.uint8], starts: NDArray[np.int64]) -> bytes:
    """The text from each start to the end of its line.

    Parameters
    ----------
    chars : (n,) the text's bytes.
    starts : (k,) places in it, rising.
    """
    newlines = np.append(np.flatnonzero(chars == NEWLINE), len(chars) - 1)
    keep = np.zeros(len(chars) + 1, np.int8)
    keep[starts] = 1
    keep[newlines[np.searchsorted(newlines, starts)] + 1] -= 1
    return chars[np.cumsum(keep[:-1], dtype=np.int8).view(np.bool_)].tobytes()


def rows(data: bytes, integers: bool = False) -> Rows:
    """The numbers of every line that has any; `integers` reads whole numbers only.

    Parameters
    ----------
    data : lines of numbers between blanks.
    integers : only whole numbers are numbers.

    >>> rows(b"1 2\\n\\n3 4 5\\n").counts.tolist()
    [2, 3]
    """
    counts = token_counts(data)
    counts = counts[counts > 0]
    return Rows(numbers(data, int(counts.sum()), integers), counts)


def whole(values: NDArray[np.float64 | np.int64]) -> NDArray[np.int64]:
    """The same numbers as integers; refused where one is no whole number.

    Parameters
    ----------
    values : (n,) numbers.
    """
    if values.dtype.kind == "f" and not ((values == np.floor(values)) & (np.abs(values) < 1 << 53)).all():
        raise damaged("an index or count that is not a whole number")
    return values.astype(np.int64)


def token_counts(data: bytes) -> NDArray[np.int64]:
    """How many words each line has, empty lines included.

    Parameters
    ----------
    data : a text in any one-byte code.
    """
    chars = np.frombuffer(data, np.uint8)
    if not len(chars):
        return np.zeros(0, np.int64)
    dark = chars > SPACE
    begins = dark.copy()
    begins[1:] &= ~dark[:-1]
    counts: NDArray[np.int64] = np.add.reduceat(begins, line_starts(chars), dtype=np.int64)
    return counts


def line_starts(chars: NDArray[np.uint8]) -> NDArray[np.int64]:
    """Where the lines of a text begin.

    Parameters
    ----------
    chars : (n,) the text's bytes.
    """
    after = np.flatnonzero(chars == NEWLINE) + 1
    return np.concatenate([[0], after[after < len(chars)]]).astype(np.int64)


def numbers(data: bytes, wanted: int, integers: bool = False) -> NDArray[np.float64 | np.int64]:
    """All numbers of a text; refused unless there are just `wanted` of them.

    Parameters
    ----------
    data : numbers between blanks.
    wanted : how many there must be.
    integers : only whole numbers are numbers.
    """
    if wanted == 0:
        return np.zeros(0, np.int64 if integers else np.float64)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        try:
            found: NDArray[np.float64 | np.int64] = np.fromstring(
                data, dtype=np.int64 if integers else np.float64, sep=" "
            )
        except ValueError:
            found = np.zeros(0)
    if len(found) != wanted:
        raise damaged(f"a word that is not a{' whole' if integers else ''} number among {wanted}")
    return found
