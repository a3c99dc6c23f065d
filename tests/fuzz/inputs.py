"""Strangers' commissions, own sheets and own steps, one after the other, each under a time limit.

    python -m tests.fuzz.inputs --count 10000

Each case ends as a job that can be reckoned or as a refusal that can be shown. Anything else (an exception that is no
refusal, a fault of ours, a refusal without limit or remedy, one that would steer a terminal or is no JSON, no end in
time) is a failure: its files are kept under `corpus/inputs`, which an ordinary test replays.
"""

from __future__ import annotations

import argparse
import json
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import FrameType

from tests.fuzz.input_cases import Case, case
from tests.fuzz.input_reckon import reckoned

from moldwright.desk.exits import words
from moldwright.desk.show_materials import shown
from moldwright.errors import ComputationFailed, MoldwrightError
from moldwright.making.order import Order, gather
from moldwright.quantities.chosen import chosen
from moldwright.steps.own_file import own_steps
from moldwright.text.harmless import steers

CORPUS = Path(__file__).parent / "corpus" / "inputs"
NAMES = ("commission.toml", "sheets/own.toml", "steps.toml")
LIMIT_S = 10.0
"""Processor time of one case: a busy machine is no failure."""


class TooLongError(BaseException):
    """The case did not end in time."""


def outcome(folder: Path, limit_s: float = LIMIT_S) -> str:
    """How the job in a folder ends: "planned", or the code of its refusal; raises AssertionError for a failure.

    Parameters
    ----------
    folder : holds commission.toml and the files that it names.
    limit_s : processor time [s] until it counts as a hang.
    """
    try:
        with limited(limit_s):
            order = gather(folder / "commission.toml")
            own_steps(order.own_steps)
            _show(order, folder / "sheets")
            chosen(order.commission, order.library)
            return _ended(order)
    except MoldwrightError as refused:
        check_refusal(refused)
        return refused.code


def _show(order: Order, folder: Path) -> None:
    """Every own sheet as `materials show` tells it."""
    sheets = (sheet for rows in order.library.sheets.values() for sheet in rows.values())
    own = [sheet.id for sheet in sheets if sheet.own_file]
    for id_ in own[:3]:
        assert id_ in shown(id_, folder, False)
        assert json.loads(shown(id_, folder, True))["id"]


def _ended(order: Order) -> str:
    reckoned(order)
    return "planned"


def check_refusal(refused: MoldwrightError) -> None:
    """A refusal is a stranger's to mend: it has a limit and a remedy, and can be shown to a person and a program.

    Parameters
    ----------
    refused : the refusal.
    """
    assert not isinstance(refused, ComputationFailed), refused.sentence()
    assert refused.remedy, refused.sentence()
    assert refused.actual is not None, refused.sentence()
    assert refused.limit not in (None, ""), refused.sentence()
    said = words(refused)
    assert len(said) < 3000, said
    assert not [c for c in said if steers(c) and c != "\n"], repr(said)
    assert json.loads(json.dumps(refused.as_dict(), allow_nan=False)) == refused.as_dict()


@contextmanager
def limited(seconds: float) -> Iterator[None]:
    """Raise TooLongError in the body when the time is over.

    Parameters
    ----------
    seconds : processor time.
    """

    def ring(_number: int, _frame: FrameType | None) -> None:
        raise TooLongError

    before = signal.signal(signal.SIGPROF, ring)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0.0)
        signal.signal(signal.SIGPROF, before)


def write(one: Case, folder: Path) -> None:
    """The files of a case.

    Parameters
    ----------
    one : the case.
    folder : where they go; what was there of an earlier case goes away.
    """
    (folder / "sheets").mkdir(parents=True, exist_ok=True)
    for name, raw in zip(NAMES, (one.commission, one.sheet, one.steps), strict=True):
        (folder / name).unlink(missing_ok=True)
        if raw or name == NAMES[0]:
            (folder / name).write_bytes(raw)


def run(seeds: range, keep: bool = True) -> tuple[Counter[str], list[tuple[int, str]], float]:
    """How the cases of these seeds end, those that failed with why, and the slowest one's processor time [s].

    Parameters
    ----------
    seeds : the numbers of the cases.
    keep : keep the files of what failed in the corpus.
    """
    ends, failed, slowest = Counter[str](), list[tuple[int, str]](), 0.0
    with tempfile.TemporaryDirectory() as home:
        for seed in seeds:
            one, start = case(seed), time.process_time()
            write(one, Path(home))
            try:
                ends[outcome(Path(home))] += 1
            except (Exception, TooLongError) as error:
                failed.append((seed, "".join(traceback.format_exception(error)[-6:])))
                if keep:
                    write(one, CORPUS / f"{seed}")
            slowest = max(slowest, time.process_time() - start)
    return ends, failed, slowest


def main() -> None:
    """Run from the command line."""
    options = argparse.ArgumentParser(
        prog="python -m tests.fuzz.inputs", description="Fuzz commissions, sheets, steps."
    )
    options.add_argument("--count", type=int, default=1000, help="how many cases")
    options.add_argument("--first", type=int, default=0, help="the first case's number")
    chosen_ = options.parse_args()
    start = time.monotonic()
    ends, failed, slowest = run(range(chosen_.first, chosen_.first + chosen_.count))
    for code, count in ends.most_common():
        print(f"{count:6}  {code}")
    for seed, why in failed:
        print(f"FAILED {seed}\n{why}")
    spent = time.monotonic() - start
    print(f"{chosen_.count} cases in {spent:.0f} s, slowest {slowest:.1f} s, {len(failed)} failed")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
