"""A seeded sample of strangers' files, and every case that ever failed (`python -m tests.fuzz.inputs` runs many)."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.fuzz.input_cases import case
from tests.fuzz.inputs import CORPUS, TooLongError, check_refusal, limited, outcome, run

from moldwright.errors import ComputationFailed, InputRefused

SAMPLE = range(240)


def test_a_sample_ends_as_it_should() -> None:
    ends, failed, _ = run(SAMPLE, keep=False)
    assert not failed
    assert ends["planned"] > len(SAMPLE) // 6, "sound cases reach the quantities"
    assert len(ends) > 12, "many ways to be refused"


@pytest.mark.parametrize("folder", sorted(CORPUS.iterdir()), ids=lambda folder: folder.name)
def test_what_once_failed(folder: Path) -> None:
    assert outcome(folder)


def test_a_case_comes_again_by_its_number() -> None:
    assert [case(seed) for seed in range(30)] == [case(seed) for seed in range(30)]


def test_the_check_can_fail() -> None:
    for refused in (
        InputRefused("made-up", 1, 2, "", ""),
        InputRefused("made-up", 1, None, "", "Mend it."),
        ComputationFailed("made-up", 1, 2, "", "Mend it."),
    ):
        with pytest.raises(AssertionError):
            check_refusal(refused)
    with pytest.raises(TooLongError):
        endless()


def endless() -> None:
    with limited(0.01):
        while True:
            pass
