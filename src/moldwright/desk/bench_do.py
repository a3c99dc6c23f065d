"""What each line at the bench does."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from moldwright.desk import bench_enter, bench_notes, bench_rests, bench_steps
from moldwright.desk.bench_line import HELP, BenchLine, LineWord
from moldwright.desk.bench_session import BenchSession

Told = Iterator[str]


def do(session: BenchSession, line: BenchLine) -> Told:
    """Do what a line asks for, and tell what was kept.

    Parameters
    ----------
    session : at the bench.
    line : as it was understood.
    """
    return DOES[line.word](session, line.rest)


def _help(_session: BenchSession, _rest: str) -> Told:
    yield HELP


def _quit(session: BenchSession, _rest: str) -> Told:
    session.left = True
    yield from ()


DOES: Mapping[LineWord, Callable[[BenchSession, str], Told]] = {
    LineWord.ENTER: bench_enter.enter,
    LineWord.FIGURE: bench_enter.figure,
    LineWord.STRIKE: bench_steps.strike_line,
    LineWord.NOTE: bench_notes.note,
    LineWord.PROBLEM: bench_notes.problem,
    LineWord.AIR: bench_notes.air,
    LineWord.GAUGE: bench_notes.gauge,
    LineWord.CUP: bench_notes.cup,
    LineWord.LOT: bench_notes.lot,
    LineWord.SCALE: bench_notes.scale,
    LineWord.LEAVE_OUT: bench_steps.leave_out,
    LineWord.PHOTO: bench_notes.photo,
    LineWord.TURN_TO: bench_steps.turn_to,
    LineWord.AGAIN: bench_steps.again,
    LineWord.GELLED: bench_notes.gelled,
    LineWord.DONE: bench_steps.done,
    LineWord.BOX: bench_notes.box,
    LineWord.RIGHT: bench_enter.right,
    LineWord.MOLD: bench_steps.register,
    LineWord.HELP: _help,
    LineWord.QUIT: _quit,
    LineWord.HAND: bench_steps.begin,
    LineWord.TEXT: bench_enter.text,
    LineWord.PROOF: bench_enter.proof,
    LineWord.REST: bench_rests.rests,
}
