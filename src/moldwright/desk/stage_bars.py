"""Long work as it goes: a bar for each named stage at a terminal, one plain line for each elsewhere."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

from moldwright.desk.say import say
from moldwright.progress import Progress, silent


@contextmanager
def stages(quiet: bool = False) -> Iterator[Progress]:
    """The progress to hand to long work; always on stderr, so that stdout stays for results.

    Parameters
    ----------
    quiet : show nothing.
    """
    if quiet:
        yield silent
    elif sys.stderr.isatty():
        with _bars() as progress:
            yield progress
    else:
        yield _lines()


def _lines() -> Progress:
    told: set[str] = set()

    def progress(stage: str, fraction: float) -> None:
        if stage not in told:
            told.add(stage)
            say(f"… {stage}", to_stderr=True)

    return progress


@contextmanager
def _bars() -> Iterator[Progress]:
    from rich.console import Console  # noqa: PLC0415
    from rich.progress import BarColumn, SpinnerColumn, TextColumn, TimeElapsedColumn  # noqa: PLC0415
    from rich.progress import Progress as Bars  # noqa: PLC0415

    columns = (SpinnerColumn(), TextColumn("{task.description}"), BarColumn(bar_width=24), TimeElapsedColumn())
    with Bars(*columns, console=Console(stderr=True)) as bars:
        tasks: dict[str, int] = {}

        def progress(stage: str, fraction: float) -> None:
            if stage not in tasks:
                for earlier in tasks.values():
                    bars.update(earlier, completed=1.0)  # type: ignore[arg-type]
                tasks[stage] = bars.add_task(stage, total=1.0)
            bars.update(tasks[stage], completed=min(max(fraction, 0.0), 1.0))  # type: ignore[arg-type]

        yield progress
