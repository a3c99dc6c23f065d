"""The tables of `make mutants` fit the code: a fault whose text is gone would be tried no more."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
FAULTS = tomllib.loads((ROOT / "tests" / "faults.toml").read_text(encoding="utf-8"))["fault"]
MUTANTS = tomllib.loads((ROOT / "tests" / "mutants.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault["name"])
def test_a_fault_can_be_made(fault: dict) -> None:
    assert (ROOT / fault["file"]).read_text(encoding="utf-8").count(fault["old"]) == 1
    assert fault["new"] != fault["old"]
    assert all((ROOT / test).is_file() for test in fault["tests"])


def test_every_room_has_code_and_tests() -> None:
    rooms = {name: row for name, row in MUTANTS.items() if isinstance(row, dict)}
    assert set(rooms) == {"mixing", "cast", "cure", "units", "quantities", "mold", "cut"}
    assert MUTANTS["count"] >= 400
    assert MUTANTS["least_caught"] >= 0.9
    for row in rooms.values():
        assert row["code"]
        assert row["tests"]
        assert all((ROOT / path).exists() for path in (*row["code"], *row["tests"]))
