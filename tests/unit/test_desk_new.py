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
from moldwright.desk.asking import LONGEST_ANSWER, MOST_TRIES
from moldwright.desk.command_new import QUESTIONS, asked, run_new, told_of
from moldwright.errors import InputRefused
from moldwright.making.choices import choices_of
from moldwright.making.commission import commission_text
from moldwright.materials import library


def answering(typed: list[str]) -> Iterator[str]:
    yield from typed


def test_answers_become_a_commission(tmp_path: Path) -> None:
    (tmp_path / "stag.stl").write_bytes(b"solid")
    typed = answering(["nowhere.stl", "stag.stl", "Stag", "8", "8 in", "up", "+y", "", "0", "12", "latexx", "latex",
                       "1/8 in", "none", "", "fiber-reinforced gypsum", "lap", "urethane", "6", "brass", "3 mm",
                       "no", "none", "72 °F", "1 g", "16 fl oz", "us", "letter"])  # fmt: skip
    answers = asked(lambda prompt: next(typed), tmp_path, library())
    assert next(typed, "none left") == "none left"
    order = commission_from_toml(commission_text(answers))
    assert order.original == OriginalOrder("stag.stl", "Stag", pytest.approx(203.2), None, "+y", None, "unknown")
    assert (order.edition.count, order.mold.rubber, order.cast.powder) == (12, "latex", "brass")
    assert order.mold.thickness_mm == pytest.approx(3.175)
    assert (order.shop.units, order.shop.paper) == ("us", "letter")
    assert (order.mold.release, order.mold.sealer, order.mold.shell, order.mold.seam) == (
        "none",
        "",
        "fiber-gypsum",
        "lap",
    )
    assert (order.cast.resin, order.cast.skin_mm, order.cast.backfill) == ("urethane-standard", 3.0, "none")
    assert (order.shop.scale_g, order.shop.cup_ml) == (1.0, pytest.approx(473.2, rel=1e-3))


def test_who_has_neither_scan_nor_photos_nor_water_is_told_the_other_ways(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    prompts: list[str] = []

    def ask(prompt: str) -> str:
        prompts.append(prompt)
        return "1.90 l" if prompts.count(prompt) > 1 else ""

    answers = asked(ask, tmp_path, library())
    said = capsys.readouterr().err
    assert answers["original.displaced"] == "1.90 l"
    assert [way for way in ("moldwright photos", "tape", "weight", "docs/commission.md") if way not in said] == []
    assert not [prompt for prompt in prompts if "displace" in prompt and "Enter" in prompt]


def test_choices_are_shown_and_every_number_picks_its_own(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "a.stl").write_bytes(b"solid")
    for question in QUESTIONS:
        choices = choices_of(question.dotted, library())
        for number, word in enumerate(choices, start=1):
            typed = {"Which scan (Enter: there is none)": "a.stl", question.words: str(number)}
            answers = asked(lambda prompt: typed.get(re.split(r" \[|: $", prompt)[0], ""), tmp_path, library())  # noqa: B023
            assert answers[question.dotted] == {"yes": True, "no": False}.get(word, word)
            assert f"{number} {word}" in capsys.readouterr().out


def test_what_is_asked_and_shown_can_be_taken() -> None:
    """What Enter takes is one of the choices."""
    for question in QUESTIONS:
        choices = choices_of(question.dotted, library())
        assert not (choices and question.enter) or question.enter in choices, question.dotted


def test_a_material_that_is_none_is_told_what_it_counts_as(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "a.stl").write_bytes(b"solid")
    typed = {"Which scan (Enter: there is none)": "a.stl", "What is the original made of": "moon rock"}
    answers = asked(lambda prompt: typed.get(re.split(r" \[|: $", prompt)[0], ""), tmp_path, library())
    assert answers["original.material"] == "moon rock"
    assert "counts as unknown" in capsys.readouterr().err


def test_enter_all_the_way_asks_only_for_the_scan(tmp_path: Path) -> None:
    (tmp_path / "a.stl").write_bytes(b"solid")
    answers = asked(lambda prompt: "a.stl" if prompt.startswith("Which scan") else "", tmp_path, library())
    order = commission_from_toml(commission_text(answers))
    assert order.original == OriginalOrder("a.stl", unit="mm")
    plain = Commission(order.original)
    assert (order.cast, order.shop) == (plain.cast, plain.shop)
    assert (library().shell(order.mold.shell), order.mold.seam) == (library().shell(plain.mold.shell), plain.mold.seam)


def test_without_a_scan_photos_or_water_are_asked_for(tmp_path: Path) -> None:
    (tmp_path / "p").mkdir()
    by_photos = answering(["", "nowhere", "p", "99.6 mm", "1.90 l", *[""] * 40])
    order = commission_from_toml(commission_text(asked(lambda _: next(by_photos), tmp_path, library()))).original
    assert (order.file, order.photos, order.bar_mm) == ("", "p", 99.6)
    assert order.displaced_ml is not None
    assert order.displaced_ml.value == 1900.0
    by_water = answering(["", "", "", "1.90 l", *[""] * 40])
    order = commission_from_toml(commission_text(asked(lambda _: next(by_water), tmp_path, library()))).original
    assert (order.file, order.photos, order.displaced_ml is not None) == ("", "", True)
    assert "no mold" in told_of({"original.displaced": "1.90 l"})
    assert not told_of({"original.photos": "p", "original.displaced": "1.90 l"})


def test_every_line_left_out_holds_the_default_or_can_be_used() -> None:
    text = commission_text({"original.file": "a.stl"})
    loose = re.sub(r"^# (?=[a-z0-9_-]+ = )", "", text, flags=re.MULTILINE)
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
    monkeypatch.setattr(sys, "stdin", io.StringIO("a.stl\n" + "\n" * 40))
    with pytest.raises(InputRefused, match="file-unwritable"):
        run_new(tmp_path / name)


def test_the_longest_name_that_the_system_takes_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """255 bytes on the usual disks: the hidden file beside it has a shorter one."""
    (tmp_path / "a.stl").write_bytes(b"solid")
    monkeypatch.setattr(sys, "stdin", io.StringIO("a.stl\n" + "\n" * 40))
    run_new(tmp_path / ("n" * 250))
    assert (tmp_path / ("n" * 250)).is_file()
