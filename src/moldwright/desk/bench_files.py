"""Files of a run that are read in or written: entries of another bench, the paper's form, the sheets printed again."""

from __future__ import annotations

import sys
from pathlib import Path

from moldwright.desk.bench_read import BenchKeys
from moldwright.desk.paper_form import day_of_form, form_entries, form_text
from moldwright.desk.paper_typed import PaperSession, typed_in
from moldwright.desk.print_run import print_run
from moldwright.desk.say import say, say_json
from moldwright.disk.whole_file import write_file
from moldwright.errors import InputRefused
from moldwright.log.ids import RunId
from moldwright.making.inputs import read_text
from moldwright.records.clock import BenchClock
from moldwright.records.runs.from_bench import take_in
from moldwright.records.runs.opened import open_run
from moldwright.records.runs.paper_in import paper_in
from moldwright.records.shop import Shop
from moldwright.records.told import day_of
from moldwright.told.run_print import run_to_print

TYPED = "-"
"""In a file's place: what is typed, or piped in."""


def took(shop: Shop, name: str, as_json: bool) -> None:
    """Take in entries of another bench, and tell how many are new.

    Parameters
    ----------
    shop : the store.
    name : the file's, "-" for what is piped in.
    as_json : print one JSON object.
    """
    text = sys.stdin.read() if name == TYPED else read_text(Path(name), "file of entries")
    done = take_in(shop, text.split("\n"))
    if as_json:
        say_json({"new": list(done.new), "known": list(done.known)})
    else:
        say(f"{len(done.new)} entries are new, {len(done.known)} were there already.")


def on_paper(shop: Shop, clock: BenchClock, run: RunId, name: str, form: Path | None, as_json: bool) -> None:
    """Write the form of a run's sheets, read one in, or ask for each row.

    Parameters
    ----------
    shop, clock : the store and the bench.
    run : which run.
    name : the form's to read in, "-" to be asked.
    form : the form to write; None: none.
    as_json : print one JSON object.
    """
    if form is not None:
        _write(form, form_text(open_run(shop, run, clock.now())))
        say_json({"run": run, "form": str(form)}) if as_json else say(f"{form} is written.")
    elif name == TYPED:
        typed_in(PaperSession(shop, clock, run), BenchKeys(), say)
    else:
        today = day_of(clock.now())
        entries = form_entries(open_run(shop, run, clock.now()), read_text(Path(name), "form"))
        kept = paper_in(shop, clock, run, entries, day_of_form(entries, today))
        told = {"new": len(kept.new), "known": kept.known, "struck": len(kept.struck)}
        said = f"{told['new']} entries are new, {told['known']} were there already, {told['struck']} are struck out."
        say_json({"run": run, **told}) if as_json else say(said)


def _write(file: Path, text: str) -> None:
    if file.exists():
        raise InputRefused(
            "file-exists", str(file), "a new file", "", "Choose another name; that one may be filled in."
        )
    try:
        write_file(file, text)
    except (OSError, ValueError) as error:
        told = (error.strerror if isinstance(error, OSError) else None) or "no usable name"
        raise InputRefused("file-unwritable", f"{file}: {told}", "a new file", "", "Choose another place.") from None


def printed(shop: Shop, clock: BenchClock, run: RunId, out: Path, cast: int | None, as_json: bool) -> None:
    """Print a run's sheets again, with all that is done on them.

    Parameters
    ----------
    shop, clock : the store and the bench.
    run : which run.
    out : the folder.
    cast : of which cast; None: the mold's.
    as_json : print one JSON object.
    """
    shown = run_to_print(shop, open_run(shop, run, clock.now()), clock.now())
    files = print_run(shown, out, cast)
    told = [str(file) for file in files]
    say_json({"run": run, "files": told}) if as_json else say(f"Printed: {', '.join(told)}.")
