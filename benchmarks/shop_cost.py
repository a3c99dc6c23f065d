"""What the records cost: one event appended, and a shop of ten years (5,000 runs, 1 M events) opened and added up.

Appending is set against a raw `sqlite3` that writes the same rows into a table with the same columns and indexes, WAL
and synchronous=FULL, one transaction each, taken in turn with ours. The other limits are those of the issue, in seconds
of a clock. Where MOLDWRIGHT_BENCH_URL names an empty PostgreSQL database, the same is done there, without a peer.
"""

from __future__ import annotations

import os
import random
import sqlite3
import statistics
import subprocess
import tempfile
import time
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path

from benchmarks.originals import otter_of
from benchmarks.plan_cost import COMMAND, COMMISSION
from benchmarks.report import line
from benchmarks.shop_years import EVENTS, RUNS, MadeUp, fill
from moldwright.bench.frame import frame_of
from moldwright.bench.run import run_state
from moldwright.log.codes import short_code
from moldwright.log.event import About, Event
from moldwright.log.ids import RunId
from moldwright.log.run_events import CupRef, Weighed
from moldwright.materials import library
from moldwright.plan.json_text import plan_from_json
from moldwright.plan.mixes import PartKind
from moldwright.records.check.whole import checked
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.find import find
from moldwright.records.shop import Shop, open_shop
from moldwright.records.stock.ahead import forecast
from moldwright.records.stock.shelf import on_shelf
from moldwright.records.store.rows import row_of

URL = "MOLDWRIGHT_BENCH_URL"
APPENDS, OPENED = 400, 60
MOST_MS, MOST_AGAINST_PEER = 10.0, 4.0
"""100 events a second; and so many times what the bare database takes."""
TODAY = "2026-10-20"
TRIANGLES = 60_000
LOOKED_MS = 1_792_500_000_000
"""When the forecast is asked for: 20 October 2026."""
MB = 1e6


def run() -> bool:
    """Print every figure; whether each keeps its limit."""
    with tempfile.TemporaryDirectory() as folder:
        kept = [appending(Path(folder))]
        text = planned(Path(folder))
        places = {"SQLite": str(Path(folder) / "years.db"), "PostgreSQL": os.environ.get(URL, "")}
        kept += [ten_years(engine, place, text) for engine, place in places.items() if place]
    return all(kept)


def appending(folder: Path) -> bool:
    """One event at a time, ours and the peer's in turn."""
    clock = BenchClock("tablet 1")
    subject = clock.new_id()
    body = Weighed(CupRef("coat-1.cup-1"), PartKind.A, 82.8, 83.0, 83.0)  # type: ignore[arg-type]
    events = [clock.event(About.RUN, RunId(subject), body) for _ in range(2 * APPENDS)]  # type: ignore[arg-type]
    with closing(open_shop(str(folder / "ours.db"))) as shop, closing(peer_of(folder)) as peer:
        ours, theirs = [], []
        for one, other in zip(events[::2], events[1::2], strict=True):
            ours.append(timed_ms(lambda one=one: shop.append([one])))
            theirs.append(timed_ms(lambda other=other: peer_append(peer, other)))
    told("appending one event, SQLite FULL", ours)
    told("raw sqlite3, the same rows", theirs)
    return all(
        [
            line("append, mean", statistics.mean(ours), MOST_MS, "ms"),
            line("append, median, ours / raw sqlite3", median(ours) / median(theirs), MOST_AGAINST_PEER, "x"),
        ]
    )


def peer_of(folder: Path) -> sqlite3.Connection:
    """A raw database with the tables of ours."""
    open_shop(str(folder / "peer.db")).close()
    peer = sqlite3.connect(folder / "peer.db", isolation_level=None)
    peer.execute("PRAGMA synchronous=FULL")
    return peer


def peer_append(peer: sqlite3.Connection, event: Event) -> None:
    row = row_of(event)
    peer.execute("BEGIN IMMEDIATE")
    names, marks = ", ".join(f'"{name}"' for name in row), ", ".join("?" * len(row))
    peer.execute(f"INSERT INTO event ({names}) VALUES ({marks})", tuple(row.values()))
    peer.execute("COMMIT")


def planned(folder: Path) -> str:
    """The text of a real plan.json, of the demo's otter from few triangles."""
    from moldwright.sheets.model_files import write_stl  # noqa: PLC0415

    write_stl(otter_of(TRIANGLES), folder / "otter.stl")
    (folder / "commission.toml").write_text(COMMISSION, encoding="utf-8")
    call = [*COMMAND, str(folder / "commission.toml"), "--out", str(folder / "plan"), "--no-cache", "--quiet"]
    subprocess.run(call, check=True, stdout=subprocess.DEVNULL)
    return (folder / "plan" / "plan.json").read_text(encoding="utf-8")


def ten_years(engine: str, place: str, text: str) -> bool:
    """A shop of ten years on one engine."""
    with closing(open_shop(place)) as shop:
        made = MadeUp(plan_from_json(text), shop.keep_plan(text))
        start = time.perf_counter()
        count = fill(shop, made, lambda words: print(words, flush=True))
        print(f"{engine}: {count:,} events, {len(made.runs):,} runs, made in {time.perf_counter() - start:.0f} s")
        settle(shop)
    if "://" not in place:
        size = Path(place).stat().st_size
        print(f"{engine}: the file has {size / MB:,.0f} MB, {size / count:,.0f} bytes an event")
    with closing(open_shop(place)) as shop:
        kept = figures(engine, shop, made)
    seconds = timed_ms(lambda: print(f"{engine}: {[each.kind.code for each in checked(place).findings]}")) / 1000
    print(f"{engine}: shop check takes {seconds:.0f} s")
    return count >= 0.98 * EVENTS and len(made.runs) == RUNS and kept


def settle(shop: Shop) -> None:
    """What a server that has run for years has done long since: it knows what is in it."""
    if shop.engine.dialect.name != "sqlite":
        with shop.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.exec_driver_sql("VACUUM ANALYZE")


def figures(engine: str, shop: Shop, made: MadeUp) -> bool:
    """Opening runs, lists and sums, in seconds of a clock, each the quickest of three."""
    runs = random.Random(1).sample(made.runs, OPENED)
    opened = [quickest_s(lambda each=each: open_run(shop, each)) for each in runs]
    listed = quickest_s(lambda: shop.events_about(About.RUN, ["started"]))
    shelf = quickest_s(lambda: on_shelf(shop, TODAY, gone=False))
    foretold = quickest_s(lambda: forecast(shop, library(), TODAY, LOOKED_MS))
    found = quickest_s(lambda: find(shop, About.RUN, short_code(runs[0])))
    clock = BenchClock("tablet 2")
    sent = [clock.event(About.RUN, runs[0], Weighed(CupRef("x"), PartKind.A, 1.0, 1.0)) for _ in range(100)]  # type: ignore[arg-type]
    appended = [timed_ms(lambda each=each: shop.append([each])) for each in sent]
    told(f"{engine}: appending one event to it", appended)
    return all(
        [
            line(f"{engine}: opening a run, median of {OPENED}", statistics.median(opened), 0.2, "s"),
            line(f"{engine}: opening a run, slowest of {OPENED}", max(opened), 0.2, "s"),
            line(f"{engine}: listing all runs", listed, 1.0, "s"),
            line(f"{engine}: finding a run by its short code", found, 0.2, "s"),
            line(f"{engine}: the shelf, lots that are not gone", shelf, 1.0, "s"),
            line(f"{engine}: stock forecast", foretold, 1.0, "s"),
            line(f"{engine}: appending one event, mean", statistics.mean(appended), MOST_MS, "ms"),
        ]
    )


def open_run(shop: Shop, run: RunId) -> None:
    """As a bench opens it: its events, its plan, its state now."""
    events = shop.events_of(run)
    run_state(shop.plan(frame_of(events).plan), events, now_ms())


def timed_ms(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return 1000 * (time.perf_counter() - start)


def quickest_s(work: Callable[[], object]) -> float:
    """Of three: what else runs on the machine is not counted."""
    return min(timed_ms(work) for _ in range(3)) / 1000


def median(times: Sequence[float]) -> float:
    return statistics.median(times)


def told(what: str, times_ms: Sequence[float]) -> None:
    """The usual and the slow ones, and how many that makes in a second."""
    slow = statistics.quantiles(times_ms, n=100)[98]
    rate = 1000 / statistics.mean(times_ms)
    print(f"{what}: p50 {median(times_ms):.2f} ms, p99 {slow:.2f} ms, {rate:,.0f} events/s", flush=True)
