"""The loop at the bench: lines in, lines out; while nothing is typed, clocks that run out are told."""

from __future__ import annotations

import os
import select
import sys
from collections.abc import Callable, Iterator

from moldwright.bench.cup_now import ClockStage
from moldwright.bench.now import LAST_SHARE, TackStage
from moldwright.desk.bench_session import BenchSession
from moldwright.desk.say import say
from moldwright.sheets.bench_tell import cup_clock, window_line

LONGEST = 10_000
"""Letters of a line: our own."""
AGAIN_S = 60.0
"""After how long a clock that is past is told again."""
Read = Callable[[float | None], str | None]
"""The next line; after so many seconds without one "" is told by raising `TimeoutError`; None at the end."""


def at_bench(session: BenchSession, read: Read, terminal: bool) -> None:
    """Step up to the bench, until it is left or the lines end.

    Parameters
    ----------
    session : at the bench.
    read : the lines.
    terminal : a person looks on: show where to type, and tell clocks while nothing is typed.
    """
    _say(session.opening())
    told: set[tuple[str, str]] = set()
    while not session.left:
        session.look()
        _say(session.asking())
        line = _line(session, read, terminal, told)
        if line is None:
            break
        _say(session.take(line))
    say("Left the bench. All that was kept is kept; the run goes on where it is.")


def _line(session: BenchSession, read: Read, terminal: bool, told: set[tuple[str, str]]) -> str | None:
    told |= {each for each, _ in urgent(session)}
    while True:
        if terminal:
            say("> ", end="")
        try:
            return read(waits_s(session) if terminal else None)
        except TimeoutError:
            session.look()
            fresh = [(each, line) for each, line in urgent(session) if each not in told or "past" in each[1]]
            told |= {each for each, _ in fresh}
            _say(["", *(line for _, line in fresh)] if fresh else [""])


def urgent(session: BenchSession) -> Iterator[tuple[tuple[str, str], str]]:
    """Clocks that are in their last fifth or past, and tack windows that close, each with its line.

    Parameters
    ----------
    session : at the bench.
    """
    state = session.run.state
    for cup in state.running:
        if cup.clock is not None and cup.clock.stage is not ClockStage.RUNNING:
            yield (str(cup.ref), cup.clock.stage.value), cup_clock(session.words, cup, state.now_ms)
    for window in state.windows:
        if window.stage in (TackStage.CLOSING, TackStage.TOO_LATE):
            yield (str(window.of), window.stage.value), window_line(session.words, window, state.now_ms)


def waits_s(session: BenchSession) -> float | None:
    """How long nothing has to be told [s]; None: nothing runs.

    Parameters
    ----------
    session : at the bench.
    """
    now = session.clock.now()
    at: list[float] = []
    for cup in session.run.state.running:
        if cup.clock is not None:
            by, since = cup.clock.out_by_ms, cup.clock.from_ms
            at += [by - LAST_SHARE * (by - since), by, *([now + 1000.0 * AGAIN_S] if by <= now else [])]
    for window in session.run.state.windows:
        at += [window.closing_ms, window.closes.likely_ms]
    ahead = [each - now for each in at if each > now]
    return min(ahead) / 1000.0 if ahead else None


def _say(lines: Iterator[str] | list[str]) -> None:
    for line in lines:
        say(line)


class BenchKeys:
    """Lines from the keyboard or a pipe, each as soon as it is there."""

    def __init__(self) -> None:
        self._held, self._ended = b"", False

    def __call__(self, wait_s: float | None) -> str | None:
        """The next line.

        Parameters
        ----------
        wait_s : for how long at the most, None: till it comes. Raises TimeoutError.
        """
        try:
            number = sys.stdin.fileno()
        except (OSError, ValueError):
            line = sys.stdin.readline(LONGEST)
            return line.rstrip("\n") if line else None
        while b"\n" not in self._held and not self._ended and len(self._held) < LONGEST:
            if wait_s is not None and not select.select([number], [], [], wait_s)[0]:
                raise TimeoutError
            more = os.read(number, LONGEST)
            self._held, self._ended = self._held + more, not more
        if not self._held:
            return None
        line, _, self._held = self._held.partition(b"\n")
        return line.decode("utf-8", "replace")
