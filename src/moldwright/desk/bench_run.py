"""What `moldwright bench` was asked to do with a run."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from moldwright.desk import show_bench as show
from moldwright.desk.bench_files import on_paper, printed, took
from moldwright.desk.bench_open import RunAsked, RunMeant, plan_text_of, run_meant
from moldwright.desk.bench_read import LONGEST, BenchKeys, at_bench
from moldwright.desk.bench_rests import rest_told
from moldwright.desk.bench_session import BenchSession
from moldwright.desk.say import say, say_json
from moldwright.desk.show_replan import changes_shown
from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.ids import RunId
from moldwright.plan.json_text import tree_of
from moldwright.records.clock import BenchClock
from moldwright.records.runs.listing import runs
from moldwright.records.runs.opened import open_run
from moldwright.records.runs.replan import replan as replanned
from moldwright.records.runs.write import Logged, end_run, strike
from moldwright.records.shop import Shop


@dataclass(frozen=True, slots=True)
class BenchJob:
    """What is asked for besides stepping up to the bench."""

    every: bool = False
    show: bool = False
    lines: tuple[str, ...] = ()
    strike: str = ""
    end: bool = False
    why: str = ""
    replan: Path | None = None
    from_paper: str = ""
    paper_form: Path | None = None
    events: str = ""
    print_to: Path | None = None
    cast: int | None = None
    left: tuple[str, ...] = ()

    @property
    def starts(self) -> bool:
        """Whether a plan's folder may start a run for it: looking, printing, striking and ending start nothing."""
        return not (self.show or self.strike or self.end or self.replan is not None or self.print_to is not None)


def run_bench(shop: Shop, clock: BenchClock, asked: RunAsked, job: BenchJob, as_json: bool) -> None:
    """Do it.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    asked : which run.
    job : what with it.
    as_json : print one JSON object.
    """
    if job.every:
        rows = runs(shop)
        say_json({"runs": [show.row_tree(row) for row in rows]}) if as_json else say(show.rows_shown(rows, clock.now()))
        return
    if job.events:
        took(shop, job.events, as_json)
        return
    meant = run_meant(
        shop, clock, replace(asked, start=job.starts), _ask if sys.stdin.isatty() and not as_json else None
    )
    if not as_json:
        _tell(meant)
    if job.replan is not None:
        _replan(shop, clock, meant.id, job.replan, as_json)
    elif job.strike or job.end:
        _frame(shop, clock, meant.id, job, as_json)
    elif job.lines:
        _lines(shop, clock, meant.id, job.lines, as_json)
    elif job.from_paper or job.paper_form is not None:
        on_paper(shop, clock, meant.id, job.from_paper, job.paper_form, as_json)
    elif job.print_to is not None:
        printed(shop, clock, meant.id, job.print_to, job.cast, as_json)
    elif job.left:
        rest_told(open_run(shop, meant.id, clock.now()), job.left, as_json)
    elif job.show or as_json:
        run = open_run(shop, meant.id, clock.now())
        say_json(show.run_tree(run)) if as_json else _say(show.run_shown(run))
    else:
        at_bench(BenchSession(shop, clock, meant.id), BenchKeys(), sys.stdin.isatty())


def _tell(meant: RunMeant) -> None:
    if meant.started:
        say(f"Run {short_code(meant.id)} is started.")
    for row in meant.other:
        say(
            f"Run {short_code(row.id)} of the same piece goes by another plan. To let that one go on by this plan: "
            f"moldwright bench {short_code(row.id)} --replan PLAN."
        )


def _replan(shop: Shop, clock: BenchClock, run: RunId, folder: Path, as_json: bool) -> None:
    text = plan_text_of(folder)
    before = open_run(shop, run, clock.now())
    other = replanned(shop, clock, before, text)
    if as_json:
        say_json({"run": run, "same": other.same, "kept": other.kept, "changes": tree_of(other.changes)})
    else:
        _say(changes_shown(other))


def _frame(shop: Shop, clock: BenchClock, run: RunId, job: BenchJob, as_json: bool) -> None:
    done = strike(shop, clock, run, job.strike, job.why) if job.strike else end_run(shop, clock, run, job.why)
    if as_json:
        say_json(_logged(done))
        return
    session = BenchSession(shop, clock, run)
    say("The entry is struck out." if job.strike else "The run is over.")
    _say(session.findings(done.found))


def _logged(done: Logged) -> dict[str, object]:
    return {
        "run": done.run.id,
        "events": [show.event_tree(event) for event in done.events],
        "found": tree_of(done.found),
        "gone": tree_of(done.gone),
    }


def _lines(shop: Shop, clock: BenchClock, run: RunId, lines: Sequence[str], as_json: bool) -> None:
    """What each line does at the bench; the first one that is refused ends it with its exit code."""
    session = BenchSession(shop, clock, run)
    before = {event.id for event in session.run.events}
    told = [said for line in lines for said in session.do(line)]
    session.look()
    if not as_json:
        _say(told)
        return
    new = [show.event_tree(event) for event in session.run.events if event.id not in before]
    say_json({"run": run, "events": new, "told": told, "next": show.run_tree(session.run)["next"]})


def _say(lines: Iterable[str]) -> None:
    for line in lines:
        say(line)


def _ask(lines: Sequence[str]) -> str:
    _say(lines)
    say("> ", end="")
    typed = sys.stdin.readline(LONGEST)
    if not typed:
        raise InputRefused("answers-ended", "the input ended", "a number", "", "Write the run's code: bench CODE.")
    return typed
