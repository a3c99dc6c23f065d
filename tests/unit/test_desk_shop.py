"""`moldwright shop check` at the command line, and how a store that cannot be used is told there."""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from store_events import RUN, notes

from moldwright.desk.shop_at import opened
from moldwright.log.any_events import Noted
from moldwright.log.event import About
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.shop import open_shop

DAY_MS = 86_400_000


def run(*words: str, **env: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "moldwright", *words]
    return subprocess.run(command, capture_output=True, text=True, check=False, env={**os.environ, **env})


def spoil(place: Path, order: str) -> None:
    with closing(sqlite3.connect(place)) as raw:
        raw.execute(order)
        raw.commit()


def test_a_sound_store_is_told_and_ends_with_0(tmp_path: Path) -> None:
    place = tmp_path / "shop.db"
    with closing(open_shop(str(place))) as shop:
        shop.append(notes(3))
    said = run("shop", "check", MOLDWRIGHT_SHOP=str(place))
    assert (said.returncode, said.stderr) == (0, "")
    assert said.stdout == f"{place}: 3 events about 1 thing\nSound. Nothing to heed.\n"


def test_what_contradicts_ends_with_6_and_is_told_in_words_and_as_json(tmp_path: Path) -> None:
    place = tmp_path / "shop.db"
    sent = notes(3)
    with closing(open_shop(str(place))) as shop:
        shop.append(sent)
    spoil(place, f"UPDATE event SET mass_g = 5 WHERE id = '{sent[1].id}'")
    said = run("shop", "check", "--shop", str(place))
    assert said.returncode == 6
    assert f"(event-altered)\n     {sent[1].id}: mass_g\n" in said.stdout
    assert said.stdout.endswith("Not sound.\n")
    told = run("shop", "check", "--shop", str(place), "--json")
    assert told.returncode == 6
    found = json.loads(told.stdout)
    assert (found["sound"], found["events"], found["version"]) == (False, 3, "0001")
    assert [(each["code"], each["gravity"], each["count"]) for each in found["findings"]] == [
        ("event-altered", "contradiction", 1)
    ]


def test_a_newer_store_is_refused_by_every_command(tmp_path: Path) -> None:
    place = tmp_path / "shop.db"
    open_shop(str(place)).close()
    spoil(place, "UPDATE moldwright_version SET version_num = '0200'")
    for words in (("shop", "check"), ("lot", "list")):
        said = run(*words, "--json", "--shop", str(place))
        assert said.returncode == 3
        assert json.loads(said.stderr)["error"]["code"] == "shop-newer"


def test_a_clock_that_is_days_ahead_is_told_at_the_bench(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    clock = BenchClock("tablet 1", now=lambda: now_ms() + 3 * DAY_MS + 5000)
    with opened(str(tmp_path / "shop.db")) as shop:
        shop.append([clock.event(About.RUN, RUN, Noted(f"{number}")) for number in range(2)])
    told = capsys.readouterr()
    assert (
        told.err == "Look at the clock of tablet 1: what it wrote just now stands 3 days in the future. It is kept.\n"
    )
    with opened(str(tmp_path / "shop.db")) as shop:
        shop.append(notes(2))
    assert capsys.readouterr().err == ""
