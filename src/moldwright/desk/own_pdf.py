"""A PDF that a command writes: refused where the name is no PDF's, or another file's."""

from __future__ import annotations

from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.making.filename import check_can_be
from moldwright.making.inputs import is_file

LARGEST_BYTES = 40_000_000
"""A page of ours has a hundredth of that without its photos; what is larger is none."""


def check_own_pdf(out: Path, mark: bytes, what: str, like: str) -> None:
    """Refuse a name that no such sheet should have, or that another file has.

    Parameters
    ----------
    out : the PDF to write; an earlier one of its sort is replaced.
    mark : what a PDF of its sort says of itself.
    what : what its sort is called.
    like : a name that would do, for the remedy.

    Raises InputRefused ("sheet-no-pdf", "file-exists", "file-unwritable").
    """
    if out.suffix.lower() != ".pdf":
        raise InputRefused("sheet-no-pdf", out.name, "a name that ends in .pdf", "", f"Name it as in {like}.")
    check_can_be(out)
    if out.exists() and not _is_ours(out, mark):
        remedy = f"Another file has this name: give the {what} a name of its own."
        raise InputRefused("file-exists", str(out), f"a new file or an earlier {what}", "", remedy)


def _is_ours(path: Path, mark: bytes) -> bool:
    try:
        return is_file(path) and path.stat().st_size <= LARGEST_BYTES and mark in path.read_bytes()
    except OSError:
        return False
