"""How a command ends: exit codes, and a refusal as words or as one JSON object."""

from __future__ import annotations

import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType

from moldwright.desk.say import ReaderGoneError, say, say_json
from moldwright.desk.ways import remedy_line
from moldwright.errors import ComputationFailed, MoldwrightError, spoken
from moldwright.found_at import FoundAt
from moldwright.making.folder import UNDER_WAY
from moldwright.text.harmless import harmless
from moldwright.text.shown import number

DONE, STOPPED, ENDED = 0, 130, 143
TITLES = {
    "InputRefused": "This cannot be used as it is",
    "NoSafePlan": "No plan that works was found",
    "ComputationFailed": "The computation failed; this is a fault of the software, not yours",
    "RecordConflict": "Two records contradict each other",
}
STOPPED_WORDS = {STOPPED: "Stopped. Nothing half written is left.\n", ENDED: ""}


class EndedBySystem(BaseException):
    """SIGTERM came: clean up and go."""


def tell(error: MoldwrightError, as_json: bool) -> None:
    """The refusal on stderr: one JSON object, or what was found, the limit and the remedy in words.

    Parameters
    ----------
    error : the refusal.
    as_json : print `{"error": {family, code, actual, limit, unit, remedy}}`, and where they are known the place and the
        picture of it.
    """
    if as_json:
        say_json({"error": error.as_dict() | {"remedy": remedy_line(error)}}, to_stderr=True)
        return
    say(words(error), to_stderr=True)


def words(error: MoldwrightError) -> str:
    """The refusal for a person, every value on one line whatever stands in it.

        Parameters
        ----------
        error : the refusal.
    >>> from moldwright.errors import InputRefused
        >>> print(words(InputRefused("value-out-of-range", 0.2, 1.0, "mm", "At least 1 mm.")))
        This cannot be used as it is (value-out-of-range).
          found   0.2 mm
          limit   1 mm
          remedy  At least 1 mm.
    """
    unit = f" {error.unit}" if error.unit else ""
    lines = [f"{TITLES[error.family]} ({error.code})."]
    for name, value in (("found", error.actual), ("limit", error.limit)):
        if value is not None:
            lines.append(f"  {name:<7} {harmless(spoken(value))}{unit}")
    lines += [f"  place   {place_line(error.place)}"] if error.place else []
    lines.append(f"  remedy  {harmless(remedy_line(error))}")
    return "\n".join([*lines, *([f"  picture {harmless(error.picture)}"] if error.picture else [])])


def place_line(place: FoundAt) -> str:
    """Where on the piece something was found.

    Parameters
    ----------
    place : there.

    >>> place_line(FoundAt((1.0, 2.0, 30.0), 8.0, "left"))
    '30 mm over the board, on the left, 8 mm across'
    """
    side = f"on the {place.side}" if place.side in ("left", "right") else f"at the {place.side or 'middle'}"
    return f"{number(place.height_mm)} mm over the board, {side}, {number(place.across_mm)} mm across"


@contextmanager
def ending(as_json: bool, save_fault: Callable[[BaseException], str]) -> Iterator[None]:
    """Run a command's body; whatever ends it becomes an exit code and never a traceback.

    Parameters
    ----------
    as_json : refusals as one JSON object on stderr.
    save_fault : keeps what reproduces an unforeseen error and returns where.
    """
    handlers = {signal.SIGTERM: _end, signal.SIGINT: _stop}
    before = {number: signal.signal(number, handler) for number, handler in handlers.items()}
    try:
        yield
    except MoldwrightError as error:
        if isinstance(error, ComputationFailed):
            error.remedy = f"{error.remedy} Saved to reproduce it: {save_fault(error)}".strip()
        tell(error, as_json)
        sys.exit(error.exit_code)
    except KeyboardInterrupt:
        if not UNDER_WAY:
            say(STOPPED_WORDS[STOPPED], to_stderr=True, end="")
        sys.exit(STOPPED)
    except EndedBySystem:
        sys.exit(ENDED)
    except ReaderGoneError:
        sys.stderr.close()
        sys.exit(DONE)
    except Exception as error:
        tell(unforeseen(error, save_fault(error)), as_json)
        sys.exit(ComputationFailed.exit_code)
    finally:
        for number, handler in before.items():
            signal.signal(number, signal.SIG_DFL if handler is None else handler)


def unforeseen(error: Exception, saved: str) -> ComputationFailed:
    """An error that nobody foresaw, as a `ComputationFailed` that tells where its details are.

    Parameters
    ----------
    error : what was raised.
    saved : where what reproduces it is kept.
    """
    if isinstance(error, MemoryError):
        return ComputationFailed(
            "out-of-memory", "memory ran out", remedy="Close other programs or use a smaller scan."
        )
    actual = f"{type(error).__name__}: {error}"[:300]
    return ComputationFailed("unforeseen", actual, remedy=f"Please report it with the file {saved}")


def _end(_number: int, _frame: FrameType | None) -> None:
    raise EndedBySystem


def _stop(number: int, _frame: FrameType | None) -> None:
    """Once: a second Ctrl-C comes while the first one is being obeyed."""
    signal.signal(number, signal.SIG_IGN)
    raise KeyboardInterrupt
