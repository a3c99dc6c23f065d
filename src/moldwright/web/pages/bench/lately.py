"""What was told of runs within the last seconds: the tablets that stand at one run ask the same."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from threading import Lock
from typing import Any

from moldwright.log.ids import RunId
from moldwright.plan.json_text import tree_of
from moldwright.records.runs.mark import lots_mark, run_mark
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.place import BenchPlace
from moldwright.records.shop import Shop
from moldwright.told.bench.told import bench_told, strikes_shown
from moldwright.words.speaker import speaker

KEPT_MS = 15_000
"""So long is an answer kept for others: a screen counts its moments by itself; our own."""
MOST = 40
"""Answers that are kept at the most, a few megabytes each where much is told ahead; our own."""


@dataclass(frozen=True, slots=True)
class AskedFor:
    """What a screen asks of a run: where it is, how many presses, tables of too much and turns are told ahead."""

    run: RunId
    place: BenchPlace
    presses: int
    overs: int
    turns: int = 0


@dataclass(frozen=True, slots=True)
class _Kept:
    at_ms: int
    run: OpenRun
    tree: dict[str, Any]


class ToldLately:
    """The last answers. A run's id is no other run's in the world, so that shops need not be told apart."""

    def __init__(self) -> None:
        self._kept: dict[Hashable, _Kept] = {}
        self._lock = Lock()

    def tree(self, shop: Shop, asked: AskedFor, bench: str, now_ms: int) -> dict[str, Any]:
        """How a run stands, as JSON's values: as it was told to another device where nothing was written since.

        Parameters
        ----------
        shop : the store.
        asked : of which run, and how much.
        bench : the name of the device that looks.
        now_ms : the moment.

        Raises as `records.runs.opened.open_run`.
        """
        lots = lots_mark(shop)
        kept = self._of(_key(asked, run_mark(shop, asked.run), lots), now_ms)
        if kept is None:
            kept = _told(shop, asked, now_ms)
            self._keep(_key(asked, kept.tree["mark"], lots), kept)
        return kept.tree | {"now_ms": now_ms, "strikes": tree_of(strikes_shown(kept.run, bench))}

    def _of(self, key: Hashable, now_ms: int) -> _Kept | None:
        with self._lock:
            kept = self._kept.get(key)
        return kept if kept is not None and 0 <= now_ms - kept.at_ms < KEPT_MS else None

    def _keep(self, key: Hashable, kept: _Kept) -> None:
        with self._lock:
            young = {at: each for at, each in self._kept.items() if 0 <= kept.at_ms - each.at_ms < KEPT_MS}
            self._kept = {**dict(list(young.items())[-MOST + 1 :]), key: kept}


def _told(shop: Shop, asked: AskedFor, now_ms: int) -> _Kept:
    run, told = bench_told(shop, asked.run, now_ms, asked.place, asked.presses, asked.overs, asked.turns)
    return _Kept(now_ms, run, tree_of(told))


def _key(asked: AskedFor, mark: str, lots: int) -> Hashable:
    place = asked.place
    chosen = frozenset(place.chosen.items())
    at = place.wanted, place.passed, chosen
    return asked.run, mark, lots, at, asked.presses, asked.overs, asked.turns, speaker().language
