"""Thirty tablets at one desk on SQLite: a real server, real calls, as the bench's page and its outbox make them.

Two tablets stand at each of fifteen runs of a real plan. Each asks every 3 s with the mark of what it knows, presses
what is next about every 10 s and has the answer tell how the run stands then, and asks far ahead once nobody has
pressed there for 6 s (`web/pages/bench/run/asking.ts`). Nobody waits for what is told far ahead: it is printed and has
no limit. Times are of a clock at the tablets' side and hold for a machine that does nothing else; what the server took
is beside.
"""

from __future__ import annotations

import asyncio
import os
import random
import statistics
import tempfile
import time
from collections import defaultdict
from collections.abc import Mapping
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import httpx2
from tests.browser.desk_process import DeskProcess

from benchmarks.report import line
from benchmarks.shop_cost import planned
from moldwright.log.ids import RunId
from moldwright.log.uuid7 import uuid7
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.runs.start import start_run
from moldwright.records.shop import open_shop
from moldwright.web.doors.file import DoorFile
from moldwright.web.doors.secrets import token_of
from moldwright.web.doors.sessions import Sessions
from moldwright.web.doors.state import CameBy
from moldwright.web.doors.visitor import Role

TABLETS, AT_A_RUN = 30, 2
WARM_S, MEASURED_S = 20.0, 60.0
EVERY_S, PRESS_S, QUIET_S = 3.0, 10.0, 6.0
LIMIT_MS = 200.0
Times = dict[str, list[float]]


@dataclass(slots=True)
class Measured:
    """How long each call took [ms], by what it was for, and what went wrong."""

    times_ms: Times = field(default_factory=lambda: defaultdict(list))
    wrong: list[str] = field(default_factory=list)
    from_s: float = 0.0


@dataclass(slots=True)
class Tablet:
    """One tablet at a run."""

    client: httpx2.AsyncClient
    run: RunId
    chance: random.Random
    measured: Measured
    told: Mapping[str, Any] = field(default_factory=dict)
    far_for: str = ""
    pressed_s: float = 0.0

    async def work(self, till_s: float) -> None:
        """Ask and press until then."""
        await asyncio.sleep(self.chance.uniform(0, EVERY_S))
        await asyncio.gather(self._asking(till_s), self._pressing(till_s))

    async def _asking(self, till_s: float) -> None:
        while time.monotonic() < till_s:
            mark = self.told.get("mark", "")
            quiet = bool(mark) and time.monotonic() - self.pressed_s > QUIET_S
            if quiet and self.far_for != mark:
                await self._ask("far ahead", {"far": "true"})
                self.far_for = self.told["mark"]
            else:
                await self._ask("poll", {"mark": mark} if mark else {})
            await asyncio.sleep(EVERY_S)

    async def _pressing(self, till_s: float) -> None:
        while True:
            await asyncio.sleep(self.chance.expovariate(1 / PRESS_S))
            if time.monotonic() >= till_s:
                return
            if self.told:
                self.pressed_s = time.monotonic()
                await self._call("press", "POST", "/events", {"told": "true"}, {"events": self._events()})

    async def _ask(self, what: str, query: Mapping[str, str]) -> None:
        await self._call(what, "GET", "", query, None)

    def _events(self) -> list[dict[str, Any]]:
        """What is next is pressed; where something is typed, or all must wait, a word is written."""
        at_ms, view = now_ms(), self.told["view"]
        next_ = [each for each in view["presses"] if each["main"] and not each["asks"] and each["events"]]
        note = {"kind": "noted", "body": {"text": "looks right", "step": "", "turn": 0}}
        made = next_[0]["events"] if next_ else [note]
        return [each | {"id": uuid7(at_ms, self.chance.getrandbits(74)), "at_ms": at_ms} for each in made]

    async def _call(self, what: str, method: str, path: str, query: Mapping[str, str], body: Any) -> None:
        began = time.perf_counter()
        try:
            answer = await self.client.request(method, f"/api/bench/{self.run}{path}", params=query, json=body)
        except httpx2.HTTPError as error:
            self.measured.wrong.append(f"{what}: {type(error).__name__}")
            return
        if time.monotonic() >= self.measured.from_s:
            self.measured.times_ms[what].append(1000 * (time.perf_counter() - began))
        self._took(what, answer)

    def _took(self, what: str, answer: httpx2.Response) -> None:
        if answer.status_code == 204:
            return
        if answer.status_code != 200:
            self.measured.wrong.append(f"{what}: {answer.status_code} {answer.text[:200]}")
            return
        tree = answer.json()
        refused = [each for each in tree.get("events", ()) if each["became"] != "kept"]
        self.measured.wrong += [f"{what}: {each}" for each in refused]
        self.told = tree["told"] if "events" in tree else tree


def run() -> bool:
    """Print every figure; whether each keeps its limit."""
    with tempfile.TemporaryDirectory() as folder:
        text = planned(Path(folder))
        desk = DeskProcess(Path(folder) / "desk", "--lan")
        secrets = [new_tablet(desk, f"tablet {number}") for number in range(TABLETS)]
        runs = begun(desk, text, TABLETS // AT_A_RUN)
        desk.start()
        try:
            measured = Measured()
            before_s = cpu_s(desk)
            asyncio.run(work(desk, secrets, runs, measured))
            busy = (cpu_s(desk) - before_s) / (WARM_S + MEASURED_S)
        finally:
            desk.kill()
    return told(measured, busy)


def new_tablet(desk: DeskProcess, name: str) -> str:
    """The secret of a tablet that was invited."""
    return Sessions(DoorFile(desk.home / "desk"), now_ms).begin(Role.BENCH, name, CameBy.INVITATION)


def begun(desk: DeskProcess, text: str, count: int) -> list[RunId]:
    """Runs of one plan, each of all its casts."""
    with closing(open_shop(str(desk.home / "shop.db"))) as shop:
        return [start_run(shop, BenchClock("desk"), text, None).id for _ in range(count)]


async def work(desk: DeskProcess, secrets: list[str], runs: list[RunId], measured: Measured) -> None:
    """All tablets at once."""
    begins_s = time.monotonic()
    measured.from_s = begins_s + WARM_S
    cookie = f"session-{desk.port}"
    clients = [
        httpx2.AsyncClient(
            base_url=desk.address,
            cookies={cookie: each},
            headers={"x-token": token_of(each)},
            timeout=60,
        )
        for each in secrets
    ]
    tablets = [
        Tablet(client, runs[number // AT_A_RUN], random.Random(number), measured)
        for number, client in enumerate(clients)
    ]
    await asyncio.gather(*(each.work(begins_s + WARM_S + MEASURED_S) for each in tablets))
    await asyncio.gather(*(each.aclose() for each in clients))


def cpu_s(desk: DeskProcess) -> float:
    """CPU that the desk has taken [s]: its process and those below it (Linux, proc(5), the 14th and 15th figure)."""
    assert desk.process is not None
    first = Path(f"/proc/{desk.process.pid}")
    below = [Path("/proc") / each for each in (first / "task" / first.name / "children").read_text().split()]
    figures = [(each / "stat").read_text().rpartition(")")[2].split() for each in (first, *below)]
    return sum(int(each[11]) + int(each[12]) for each in figures) / os.sysconf("SC_CLK_TCK")


def told(measured: Measured, busy: float) -> bool:
    """Every figure printed; whether each keeps its limit."""
    for what, times in sorted(measured.times_ms.items()):
        slow = statistics.quantiles(times, n=100)
        print(f"{what}: {len(times)} calls, p50 {slow[49]:.1f}, p95 {slow[94]:.1f}, p99 {slow[98]:.1f} ms", flush=True)
    print(f"the server took {busy:.2f} s of CPU a second; others on this machine: load {os.getloadavg()[0]:.1f}")
    for wrong in sorted(set(measured.wrong))[:5]:
        print(wrong)
    waited_for = [each for what in ("poll", "press") for each in measured.times_ms[what]]
    p95 = statistics.quantiles(waited_for, n=100)[94]
    return all(
        [
            line(f"{TABLETS} tablets, polls and presses, p95", p95, LIMIT_MS, "ms"),
            line(f"{TABLETS} tablets, calls that went wrong", float(len(measured.wrong)), 0.5, ""),
        ]
    )
