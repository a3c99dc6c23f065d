"""`moldwright new`: the written commission reads back, bad answers are asked again."""

from __future__ import annotations

import io
import re
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from moldwright.commission.keys import keys
from moldwright.commission.orders import Commission, OriginalOrder
from moldwright.commission.reading import commission_from_toml
from moldwright.desk.command_new import LONGEST_ANSWER, MOST_TRIES, QUESTIONS, asked, run_new
from moldwright.desk.write_commission import commission_text
from moldwright.errors import InputRefused
from moldwright.materials import library


def answering(typed: list[str]) -> Iterator[str]:
    yield from typed


def test_answers_become_a_commission(tmp_path: Path) -> None:
    (tmp_path / "stag.stl").write_bytes(b"solid")
    typed = answering(["nowhere.stl", "stag.stl", "Stag", "8", "8 in", "up", "+y", "", "0", "12", "latexx", "latex",
                       "1/8 in", "", "brass", "72 °F", "us", "letter"])  # fmt: skip
    answers = asked(lambda prompt: next(typed), tmp_path, library())
    assert next(typed, "none left") == "none left"
    order = commission_from_toml(commission_text(answers))
    assert order.original == OriginalOrder("stag.stl", "Stag", pytest.approx(203.2), None, "+y", None, "unknown")
    assert (order.edition.count, order.mold.rubber, order.cast.powder) == (12, "latex", "brass")
    assert order.mold.thickness_mm == pytest.approx(3.175)
    assert (order.shop.units, order.shop.paper) == ("us", "letter")


def test_enter_all_the_way_asks_only_for_the_scan(tmp_path: Path) -> None:
    (tmp_path / "a.stl").write_bytes(b"solid")
    answers = asked(lambda prompt: "a.stl" if prompt == "Which scan: " else "", tmp_path, library())
    order = commission_from_toml(commission_text(answers))
    assert order.original == OriginalOrder("a.stl", unit="mm")
    assert (order.mold, order.cast, order.shop) == (Commission(order.original).mold, Commission(order.original).cast,
                                                    Commission(order.original).shop)  # fmt: skip


def test_every_line_left_out_holds_the_default_or_can_be_used() -> None:
    text = commission_text({"original.file": "a.stl"})
    loose = re.sub(r"^# (?=[a-z0-9-]+ = )", "", text, flags=re.MULTILINE)
    order = commission_from_toml(loose)
    plain = Commission(order.original)
    assert set(order.given) == {key.dotted for rows in keys().values() for key in rows.values()} | {
        "prices.addition-cure-a10-slow"
    }
    assert order.shop.lay_g_per_min == plain.shop.lay_g_per_min
    assert order.shop.mix_min == plain.shop.mix_min
    assert order.shop.waste == plain.shop.waste
    assert (replace(order.cast, release=""), order.edition) == (plain.cast, plain.edition)


def test_every_question_asks_a_key_that_exists() -> None:
    for question in QUESTIONS:
        table, _, name = question.dotted.partition(".")
        assert name in keys()[table]


STRANGE = [
    "9" * 5000,
    "-1",
    "٣٣٣٣٣٣٣٣٣٣٣٣",
    "1e999",
    "nan",
    "²",
    "\ud800",
    "\x1b[31m",
    "\u202e",
    "[]",
    "true",
    "a\x00b",
    "k" * 9000,
]


def test_strange_answers_are_asked_again(tmp_path: Path) -> None:
    """Each question but those for a name gets every strange answer, and then Enter."""
    (tmp_path / "a.stl").write_bytes(b"solid")
    for dotted in ("edition.count", "mold.thickness", "shop.temperature", "mold.rubber", "original.up", "shop.paper"):
        question = next(q.words for q in QUESTIONS if q.dotted == dotted)
        left = list(STRANGE)
        answers = asked(lambda prompt: strange_or_enter(prompt, question, left), tmp_path, library())  # noqa: B023
        assert left == []
        assert answers["original.file"] == "a.stl"


def strange_or_enter(prompt: str, question: str, left: list[str]) -> str:
    if prompt.startswith("Which scan"):
        return "a.stl"
    return left.pop() if prompt.startswith(question) and left else ""


def test_whoever_never_answers_is_told_in_the_end(tmp_path: Path) -> None:
    tries: list[str] = []
    with pytest.raises(InputRefused, match="answers-unclear"):
        asked(lambda prompt: tries.append(prompt) or "nowhere.stl", tmp_path, library())
    assert len(tries) == MOST_TRIES


@pytest.mark.parametrize(
    ("typed", "code"),
    [(b"", "answers-ended"), (b"\xff\xfe\n", "answers-no-text"), (b"x" * (LONGEST_ANSWER + 9), "answers-too-long")],
)
def test_what_is_no_answer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, typed: bytes, code: str) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(typed), encoding="utf-8"))
    with pytest.raises(InputRefused, match=code):
        run_new(tmp_path / "commission.toml")


@pytest.mark.parametrize("name", ["n" * 300, "n\x00"])
def test_a_name_that_no_system_takes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    (tmp_path / "a.stl").write_bytes(b"solid")
    monkeypatch.setattr(sys, "stdin", io.StringIO("a.stl\n" + "\n" * 20))
    with pytest.raises(InputRefused, match="file-unwritable"):
        run_new(tmp_path / name)


def test_the_longest_name_that_the_system_takes_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """255 bytes on the usual disks: the hidden file beside it has a shorter one."""
    (tmp_path / "a.stl").write_bytes(b"solid")
    monkeypatch.setattr(sys, "stdin", io.StringIO("a.stl\n" + "\n" * 20))
    run_new(tmp_path / ("n" * 250))
    assert (tmp_path / ("n" * 250)).is_file()
