"""The document that lists the steps tells the truth: its table and its example are run."""

from __future__ import annotations

import re
from pathlib import Path

from steps_context import context, work_steps

from moldwright.steps.list import WORDS, step_list
from moldwright.steps.sheet import step_sheets

DOC = Path(__file__).parents[2] / "docs" / "steps.md"


def test_the_table_is_the_datas() -> None:
    assert step_list() in DOC.read_text(encoding="utf-8")


def test_every_conditions_word_is_explained_and_used() -> None:
    assert {word for sheet in step_sheets() for word in sheet.when} == set(WORDS)


def test_the_example_works() -> None:
    example = re.findall(r"```toml\n(.*?)```", DOC.read_text(encoding="utf-8"), re.DOTALL)[0]
    made = {step.id: step for step in work_steps(context(), example)}
    assert "base-felt" not in made
    assert made["clean"].labor_min == 20.0
    assert made["show-it-to-the-client"].labor_min == 15.0
