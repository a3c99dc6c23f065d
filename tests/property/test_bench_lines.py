"""Two benches type on one run at once: however their lines lie between each other, what was kept gives one state."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from conftest import Job
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from moldwright.bench.run import run_state
from moldwright.desk.bench_session import BenchSession
from moldwright.records.clock import BenchClock
from moldwright.records.runs.opened import open_run
from moldwright.records.runs.start import start_run
from moldwright.records.shop import open_shop
from moldwright.sheets.plan_text import plan_text

START = 1_800_000_000_000
LINES = ("", "", "", "12.5", "1", "2", "3", "-", "x", "x 50 %", "d", "o not wanted", "/9", "d 9", "t 24 C", "n note",
         "p 5", "*", "k 100 99", "r", "h", "+1.5", "c 31", "g 1.2", "q", "nonsense", "l 4711", "b 3 mm")  # fmt: skip
TYPED = st.lists(st.tuples(st.booleans(), st.sampled_from(LINES), st.integers(0, 40_000)), max_size=40)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(TYPED, st.randoms(use_true_random=False))
def test_lines_of_two_benches_give_one_state(
    small_job: Job, typed: list[tuple[bool, str, int]], chance: object
) -> None:
    """Both benches read one store; afterwards each sees the same, and so does who gets the entries in any order."""
    now = [START]
    with TemporaryDirectory() as folder:
        shop = open_shop(str(Path(folder) / "shop.db"))
        clocks = [BenchClock(name, "", lambda: now[0]) for name in ("tablet 1", "tablet 2")]
        run = start_run(shop, clocks[0], plan_text(small_job.planned.plan), 1)
        benches = [BenchSession(shop, clock, run.id) for clock in clocks]
        for which, line, later_ms in typed:
            now[0] += later_ms
            bench = benches[which]
            bench.look()
            assert list(bench.asking())
            list(bench.take(line))
        at_end = [open_run(shop, run.id, now[0]) for _ in benches]
        events = list(at_end[0].events)
        shop.close()
    assert at_end[0] == at_end[1]
    chance.shuffle(events)  # type: ignore[attr-defined]
    assert run_state(at_end[0].plan, [*events, *events[:5]], now[0]) == at_end[0].state
