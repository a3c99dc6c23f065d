"""A piece's log for scripts: its entries, lines through them, sheets typed in and printed."""

from __future__ import annotations

from datetime import date

from fastapi import APIRouter
from starlette.responses import Response

from moldwright.errors import InputRefused
from moldwright.log.event import About
from moldwright.log.ids import FileHash
from moldwright.records.clock import now_ms
from moldwright.records.files.keep import attach
from moldwright.records.files.kept import size_of
from moldwright.records.pieces.write import note_on_piece
from moldwright.records.runs.opened import open_run
from moldwright.records.runs.paper_in import paper_in
from moldwright.records.runs.paper_rows import paper_rows
from moldwright.records.runs.write import strike as strike_in_run
from moldwright.records.strike import strike_out
from moldwright.records.told import day_of, day_told, line_told
from moldwright.sheets.run.data import run_data
from moldwright.sheets.typesetting import PAPERS, typeset
from moldwright.text.shown import short
from moldwright.told.piece_log import LOG_HEADS, log_cells, piece_log
from moldwright.told.run_print import refuse_cast, run_to_print
from moldwright.web.answers import csv_answer, pdf_answer
from moldwright.web.at_hand import Clock, OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.of_piece import of_piece
from moldwright.web.pages.log.asked import (
    LinesTold,
    LineTold,
    LogStrike,
    PaperAsked,
    PaperTaken,
    PieceNote,
    RowsTold,
    RowTold,
)
from moldwright.web.pages.log.paper import entries_of, told_row
from moldwright.web.piece_runs import in_units, open_runs, run_of

router = APIRouter(prefix="/api", tags=["pieces"])
ACT = [needs(Role.BENCH)]
WHAT = "what it shows"


@router.get("/pieces/{id_}/log")
def log_told(id_: str, shop: OpenShop, reader: Reading) -> LinesTold:
    """All entries of a piece and its runs, the newest first."""
    of = of_piece(shop, id_)
    lines = piece_log(of.story, open_runs(shop, of), reader.units)
    return LinesTold(
        entries=[
            LineTold(
                id=each.id,
                code=each.code,
                at_ms=each.at_ms,
                bench=each.bench,
                by=each.by,
                run=each.run,
                told=each.told,
                struck=each.gone,
                file=each.file,
            )
            for each in lines
        ]
    )


@router.get("/pieces/{id_}/log.csv")
def log_csv(id_: str, shop: OpenShop, reader: Reading) -> Response:
    """The same as a table for a spreadsheet."""
    of = of_piece(shop, id_)
    lines = piece_log(of.story, open_runs(shop, of), reader.units)
    return csv_answer("log.csv", LOG_HEADS, map(log_cells, lines))


@router.post("/pieces/{id_}/log/strike", dependencies=ACT)
def strike(id_: str, asked: LogStrike, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """Draw a line through an entry: it stays readable and counts in nothing."""
    of = of_piece(shop, id_)
    if asked.run:
        run = run_of(of, shop, asked.run)
        return {"event": strike_in_run(shop, clock, run, asked.event, asked.why).events[0].id}
    return {"event": strike_out(shop, clock, About.PIECE, asked.event, asked.why, of.piece.id).id}


@router.post("/pieces/{id_}/log/notes", dependencies=ACT)
def note(id_: str, asked: PieceNote, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """Write a note on the piece, or lay a kept photo to it."""
    piece = of_piece(shop, id_).piece.id
    if not asked.file:
        return {"event": note_on_piece(shop, clock, piece, asked.text).id}
    size_of(shop.files, FileHash(asked.file))
    return {
        "event": attach(
            shop, clock, About.PIECE, piece, FileHash(asked.file), line_told(asked.text, WHAT, may_lack=True)
        ).id
    }


@router.get("/pieces/{id_}/runs/{run}/sheets.pdf")
def sheets(id_: str, run: str, shop: OpenShop, reader: Reading, paper: str = "a4", cast: int | None = None) -> Response:
    """A run's sheets printed again with all that is done on them: the mold's, or those of one `cast`."""
    if paper not in PAPERS:
        raise InputRefused("unknown-choice", short(paper), " or ".join(PAPERS), "", "Name the paper in the printer.")
    found = in_units(open_run(shop, run_of(of_piece(shop, id_), shop, run), now_ms()), reader.units)
    refuse_cast(found.state, cast)
    data = run_data(run_to_print(shop, found, now_ms()), PAPERS[paper][0], cast)
    return pdf_answer(typeset("run", data, {}), f"run-{paper}.pdf")


@router.get("/pieces/{id_}/runs/{run}/paper")
def paper_told(id_: str, run: str, shop: OpenShop) -> RowsTold:
    """Every row of a run's sheets, with what the log holds of it."""
    found = open_run(shop, run_of(of_piece(shop, id_), shop, run), now_ms())
    return RowsTold(rows=[RowTold.model_validate(told_row(found, row, now_ms())) for row in paper_rows(found)])


@router.post("/pieces/{id_}/runs/{run}/paper", dependencies=ACT)
def paper_taken(id_: str, run: str, asked: PaperAsked, shop: OpenShop, clock: Clock) -> PaperTaken:
    """Take in what stands on the sheets: all of it, or nothing where a row cannot be read. Once more adds nothing."""
    found = run_of(of_piece(shop, id_), shop, run)
    entries = entries_of(open_run(shop, found, clock.now()), asked.rows)
    day = date.fromisoformat(day_told(asked.day, day_of(clock.now())))
    kept = paper_in(shop, clock, found, entries, day)
    return PaperTaken(new=len(kept.new), known=kept.known, struck=len(kept.struck))
