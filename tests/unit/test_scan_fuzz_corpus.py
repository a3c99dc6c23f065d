"""A small seeded sample of changed scans, and every scan that ever failed, end as they should: placed or refused."""

from __future__ import annotations

import sys
import warnings
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.fuzz.mutate import FORMATS, mutated
from tests.fuzz.scans import CORPUS, main, outcome

KEPT = sorted(path for path in CORPUS.iterdir() if path.suffix != ".md")


@pytest.mark.parametrize("first", range(0, 280, 28))
def test_changed_scans_are_placed_or_refused(first: int) -> None:
    """28 seeds each: every format four times."""
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for seed in range(first, first + 28):
            assert outcome(*mutated(seed), seed), seed


@pytest.mark.parametrize("path", KEPT, ids=lambda path: path.name)
@pytest.mark.parametrize("seed", [0, 1, 2, 3, 4, 6])
def test_what_ever_failed_is_placed_or_refused(path: Path, seed: int) -> None:
    """The seed chooses how it is placed."""
    assert outcome(path.name.partition("-")[2], path.read_bytes(), seed)


def test_the_sample_reaches_what_it_is_meant_to() -> None:
    """All seven formats, and enough that is sound for placing to be tried."""
    names = [mutated(seed)[0] for seed in range(70)]
    assert {name.rpartition(".")[2] for name in names} == {"stl", "ply", "obj", "off", "glb", "3mf"}
    assert len(FORMATS) == 7
    assert sum(outcome(*mutated(seed), 1) == "placed" for seed in range(140)) >= 7


def test_the_same_seed_is_the_same_scan() -> None:
    assert all(mutated(seed) == mutated(seed) for seed in range(20))


def test_a_failure_is_told_and_kept(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The harness itself can fail: an error of ours is counted and its scan is kept."""

    def broken(*_: object) -> str:
        raise ZeroDivisionError("ours")

    monkeypatch.setattr("tests.fuzz.scans.outcome", broken)
    monkeypatch.setattr("tests.fuzz.scans.CORPUS", tmp_path)
    monkeypatch.setattr(sys, "argv", ["scans", "--count", "2"])
    assert main() == 1
    assert "failed 2" in capsys.readouterr().out
    assert len(list(tmp_path.iterdir())) == 2
