"""The sheets of a run, printed again into a folder of their own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import tzinfo
from pathlib import Path

from moldwright.bench.run import RunState
from moldwright.errors import InputRefused
from moldwright.log.event import Event
from moldwright.log.ids import LotId, RunId
from moldwright.making.folder import check_out, whole_folder
from moldwright.making.places import real_path
from moldwright.plan.plan import Plan
from moldwright.sheets.run.printed import run_sheets
from moldwright.sheets.run.shown import run_shown
from moldwright.sheets.typesetting import PAPERS

NAMES = {paper: f"run-{paper}.pdf" for paper in PAPERS}
"""The file of each paper."""


def print_run(
    plan: Plan,
    run: RunId,
    state: RunState,
    events: Iterable[Event],
    out: Path,
    at_ms: int,
    cast: int | None = None,
    lots: Mapping[LotId, str] | None = None,
    numbers: Mapping[int, str] | None = None,
    zone: tzinfo | None = None,
) -> tuple[Path, ...]:
    """Write run-a4.pdf and run-letter.pdf, both or neither; the files.

    Parameters
    ----------
    plan : by which the run goes on.
    run, state, events : the run, as it stands, and all that was written of it.
    out : the folder: new, empty or of sheets printed earlier, which are replaced.
    at_ms : when it is printed.
    cast : of which cast; None: the mold's sheets, a cast's to fill in, and the log of casts.
    lots : what each lot is called; others are told by their short code.
    numbers : the edition's number of each cast that has one.
    zone : in which times are told, None: this machine's.

    Raises InputRefused ("cast-not-in-run", "out-not-empty", "out-no-folder", "out-in-use", "out-not-writable").
    """
    _refuse_cast(state, cast)
    _check(out)
    sheets = run_sheets(run_shown(plan, run, state, events, at_ms, lots, numbers, zone), cast)
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


def _refuse_cast(state: RunState, cast: int | None) -> None:
    casts = max((act.act.turn for act in state.acts), default=0)
    if cast is not None and not 1 <= cast <= casts:
        remedy = "Name a cast of this run, from 1; without --cast the mold's sheets and the log are printed."
        raise InputRefused("cast-not-in-run", cast, casts, "casts", remedy)


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
