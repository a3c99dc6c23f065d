"""The sheets of a run, printed again into a folder of their own."""

from __future__ import annotations

from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.making.folder import check_out, whole_folder
from moldwright.making.places import real_path
from moldwright.sheets.run.printed import run_sheets
from moldwright.sheets.run.shown import RunShown
from moldwright.sheets.typesetting import PAPERS
from moldwright.told.run_print import refuse_cast

NAMES = {paper: f"run-{paper}.pdf" for paper in PAPERS}
"""The file of each paper."""


def print_run(shown: RunShown, out: Path, cast: int | None = None) -> tuple[Path, ...]:
    """Write run-a4.pdf and run-letter.pdf, both or neither; the files.

    Parameters
    ----------
    shown : the run.
    out : the folder: new, empty or of sheets printed earlier, which are replaced.
    cast : of which cast; None: the mold's sheets, a cast's to fill in, and the log of casts.

    Raises InputRefused ("cast-not-in-run", "out-not-empty", "out-no-folder", "out-in-use", "out-not-writable").
    """
    refuse_cast(shown.state, cast)
    _check(out)
    sheets = run_sheets(shown, cast)
    with whole_folder(out, own=only_sheets) as folder:
        for paper, pdf in sheets.items():
            (folder / NAMES[paper]).write_bytes(pdf)
    return tuple(real_path(out) / name for name in NAMES.values())


def only_sheets(folder: Path) -> bool:
    """Whether a folder holds sheets of a run and nothing else.

    Parameters
    ----------
    folder : one that is there.
    """
    return {entry.name for entry in folder.iterdir()} <= set(NAMES.values())


def _check(out: Path) -> None:
    """What is no sheet of a run is not replaced by one: not a plan either."""
    try:
        check_out(out, own=only_sheets)
    except InputRefused as refused:
        if refused.code != "out-not-empty":
            raise
        limit = "a new folder, an empty one or one of printed sheets"
        remedy = "Name a new or empty folder, or one that holds sheets of a run and nothing else: they are replaced."
        raise InputRefused(refused.code, refused.actual, limit, "", remedy) from None
