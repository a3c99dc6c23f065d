"""The form to type a run's sheets into with any editor: a line for each row, in the sheets' order."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.paper import PaperEntry, rows_by_key
from moldwright.records.runs.paper_rows import PaperRow, RowKind, paper_rows
from moldwright.sheets.bench_words import BenchWords
from moldwright.text.harmless import harmless
from moldwright.text.shown import short
from moldwright.told.bench.paper_words import row_words

HEAD = """\
# What stands on the sheets of run {code}, {name}.
# Write behind the colon of a line; leave it as it is where nothing was written.
# A tick is x, or its time, 14:05. What the scale read, then the lot: 32.6 4711. Two times: 14:05 14:20.
# = is as printed; - stands for the empty one of two.
# Then: moldwright bench {code} --from-paper --form THIS-FILE. Reading it again adds nothing.
"""


def form_text(run: OpenRun) -> str:
    """The empty form of a run.

    Parameters
    ----------
    run : which.
    """
    words = BenchWords(run.plan)
    head = HEAD.format(code=short_code(run.id), name=harmless(run.plan.name))
    return head + "".join(f"{line}\n" for line in _lines(words, paper_rows(run)))


def _lines(words: BenchWords, rows: tuple[PaperRow, ...]) -> Iterator[str]:
    for row in rows:
        if row.kind is RowKind.DATE:
            yield ""
        yield f"[{row.key}] {row_words(words, row)}: "


def form_entries(run: OpenRun, text: str) -> tuple[PaperEntry, ...]:
    """What was typed into a form, in the order of the sheets.

    Parameters
    ----------
    run : whose.
    text : the form's.

    Raises InputRefused ("form-unreadable") with the numbers of all lines that are none of it.
    """
    rows = rows_by_key(paper_rows(run))
    found: dict[str, PaperEntry] = {}
    wrong = []
    for number, line in enumerate(text.splitlines(), start=1):
        plain = line.strip()
        if not plain or plain.startswith("#"):
            continue
        key, told = _parted(plain)
        if key not in rows or told is None or key in found:
            wrong.append(f"line {number}: {short(plain, 40)}")
            continue
        found[key] = PaperEntry(rows[key], told, f"line {number}")
    if wrong:
        remedy = "Each line begins with its own [step …] once, as `--paper-form` wrote it. Nothing was written."
        raise InputRefused("form-unreadable", "; ".join(wrong[:8]), "lines of this run's form", "", remedy)
    return tuple(found[key] for key in rows if key in found)


def _parted(line: str) -> tuple[str, str | None]:
    head, closed, rest = line.partition("]")
    _, colon, told = rest.partition(":")
    return (head[1:], told.strip() if closed and colon else None) if head.startswith("[") else ("", None)


def day_of_form(entries: tuple[PaperEntry, ...], today: date) -> date:
    """The day of a form's first sheet; where none is written, today.

    Parameters
    ----------
    entries : of the form.
    today : of whoever reads it in.
    """
    for entry in entries:
        if entry.row.kind is RowKind.DATE and entry.text:
            try:
                return date.fromisoformat(entry.text)
            except ValueError:
                return today
    return today
