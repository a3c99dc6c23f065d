"""Where words leave the program: one place, and nothing that a stranger wrote steers the terminal."""

from __future__ import annotations

import ast
import json
import sys
import unicodedata
from pathlib import Path

import pytest

from moldwright.desk.exits import tell, words
from moldwright.desk.main import main
from moldwright.desk.say import say, say_json
from moldwright.errors import InputRefused
from moldwright.text.harmless import STEERING

SOURCE = Path(__file__).parents[2] / "src" / "moldwright"
ONE_EACH = {
    unicodedata.category(c): c
    for c in map(chr, range(sys.maxunicode, 0, -1))
    if unicodedata.category(c) in STEERING and c not in "\n\u200c\u200d"
}
STRANGE = "".join(ONE_EACH.values()) + "\x1b[31m\x9b2J\u202e\u2066\r\x07"


def steering(text: str) -> list[str]:
    return [hex(ord(c)) for c in text if unicodedata.category(c) in STEERING and c not in "\n\u200c\u200d"]


def test_the_strange_text_has_every_category() -> None:
    assert {unicodedata.category(c) for c in STRANGE} >= STEERING


def test_nothing_prints_but_say() -> None:
    """`typer` prints help and usage by itself, `rich` the bars of our own stages."""
    for path in SOURCE.rglob("*.py"):
        if path.name == "say.py":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                called = ast.unparse(node.func)
                assert called not in ("print", "typer.echo", "typer.secho", "typer.confirm"), f"{path}: {node.lineno}"
                assert not called.endswith(("stdout.write", "stderr.write", "console.print")), f"{path}: {node.lineno}"


def test_a_refusal_in_words_keeps_its_lines(capsys: pytest.CaptureFixture[str]) -> None:
    tell(InputRefused("made-up", f"a\n{STRANGE}", f"b\n{STRANGE}", "", f"c\n  found  forged\n{STRANGE}"), False)
    said = capsys.readouterr().err
    assert not steering(said)
    assert len(said.splitlines()) == 4


def test_a_refusal_as_json_is_ascii_and_loses_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    tell(InputRefused("made-up", STRANGE, STRANGE, "", STRANGE), True)
    said = capsys.readouterr().err
    assert said.isascii()
    assert said.rstrip("\n").isprintable()
    error = json.loads(said)["error"]
    assert error["actual"] == error["limit"] == error["remedy"] == STRANGE


def test_words_and_results(capsys: pytest.CaptureFixture[str]) -> None:
    say(f"one {STRANGE}\ntwo")
    say_json({"name": STRANGE})
    said = capsys.readouterr().out
    assert not steering(said)
    assert json.loads(said.splitlines()[-1]) == {"name": STRANGE}


@pytest.mark.parametrize(
    ("actual", "told"),
    [(10**5000, "beyond 10^15"), (-(10**20), "below -10^15"), (float("inf"), "inf"), (float("nan"), "nan"),
     (0.1 + 0.2, "0.3"), (1e300, "beyond 10^15"), (1e-9, "0.000000001"), (160.0, "160 "), ("x" * 10**6, "…")],
    ids=range(9),
)  # fmt: skip
def test_endless_numbers_and_texts_in_a_refusal(actual: float | int | str, told: str) -> None:
    refused = InputRefused("made-up", actual, actual, "mm", "Mend it.")
    assert told in words(refused)
    assert len(words(refused)) < 2000
    assert json.loads(json.dumps(refused.as_dict(), allow_nan=False))


def command(monkeypatch: pytest.MonkeyPatch, *arguments: str) -> int | str | None:
    """The exit code of the whole command, run here: its watching parent would split the tests in two."""
    monkeypatch.setattr(sys, "argv", ["moldwright", *arguments])
    monkeypatch.setattr("moldwright.desk.main.watched", lambda run, _as_json: run())
    with pytest.raises(SystemExit) as ended:
        main()
    return ended.value.code


NAMES = "".join(c for c in STRANGE if c not in "\x00/" and unicodedata.category(c) != "Cs")


@pytest.mark.parametrize("as_json", [False, True])
def test_names_of_files_and_words_in_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], as_json: bool
) -> None:
    """A sheet whose file name, key, value and broken line steer: told as text, exit 3."""
    path = tmp_path / f"{NAMES}.toml"
    raw = "".join(c for c in STRANGE if unicodedata.category(c) not in ("Cc", "Cs"))
    for text in (
        f'[powder."{raw}"]',
        f'[powder.bronze]\n"{raw}" = 1',
        f'[powder.bronze]\nname = "{raw}"',
        f"[{raw}",
        "\x1b",
    ):
        path.write_text(text, encoding="utf-8")
        assert command(monkeypatch, "materials", "check", str(path), *(["--json"] if as_json else [])) == 3
        said = "".join(capsys.readouterr())
        assert not steering(said)
        assert said.isascii() or not as_json


def test_what_the_shell_hands_over(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert command(monkeypatch, "materials", "show", STRANGE.replace("\x00", "")) == 3
    assert command(monkeypatch, "look", NAMES) == 3
    assert command(monkeypatch, "plan", NAMES, "--out", NAMES) == 3
    assert not steering("".join(capsys.readouterr()))
