"""Whatever script a name is written in, there is a sheet: by another face, or by the character's escape."""

from __future__ import annotations

import io
import unicodedata
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdf
import pytest
from sheets_fixture import pictures
from sheets_fixture import plan as made_up

from moldwright.plan.lines import own_line
from moldwright.sheets import typesetting
from moldwright.sheets.heading import heading
from moldwright.sheets.typesetting import typeset
from moldwright.sheets.writing import write_sheets

SET = {
    "Cyrillic": "Выдра",
    "Greek": "Βίδρα",
    "Hebrew": "לוטרה",
    "Arabic": "قضاعة",
    "Vietnamese": "Rái cá Việt",
    "signs": "№ 5 ✓",
    "ligature": "ﬁne ẞ ĳ",
}
LACKING = {
    "kana": ("カワウソ", "\\u30ab"), "emoji": ("🦦 otter", "\\U0001f9a6"), "mixed": ("Выдра 卡", "\\u5361"),
    "private": ("\ue000", "\\ue000"), "half a pair": ("a\udcff", "\\udcff"), "a mark that turns": ("\u202e", "\\u202e"),
}  # fmt: skip


def printed(name: str) -> str:
    data = heading(replace(made_up(), name=name), "shopping list", "a4") | {
        "below": "Shopping list", "say": "", "groups": [], "at_hand": {"groups": []}, "assumed": {"rows": []}
    }  # fmt: skip
    pdf = typeset("shopping", data, {})
    assert pdf.startswith(b"%PDF")
    return str(pypdf.PdfReader(io.BytesIO(pdf)).pages[0].extract_text())


@pytest.mark.parametrize("script", SET)
def test_a_script_that_another_face_has_is_set(script: str) -> None:
    assert "\\u" not in printed(SET[script])


@pytest.mark.parametrize("script", LACKING)
def test_a_character_that_no_face_has_stands_as_its_escape(script: str) -> None:
    name, escape = LACKING[script]
    assert escape in printed(name)


def test_cyrillic_is_read_back_from_the_page() -> None:
    assert "Выдра" in printed("Выдра")


def test_letters_of_many_scripts_side_by_side_do_not_stop_the_compiler(capfd: pytest.CaptureFixture[str]) -> None:
    """Typst 0.15 panics, and says so, where some marks stand beside what no face has."""
    printed("".join(c for c in map(chr, range(0x5D0, 0x700)) if unicodedata.category(c)[0] in "LMNPS"))
    assert "panicked" not in capfd.readouterr().err


def test_a_text_that_the_compiler_stops_at_is_set_again_with_every_script_escaped(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    class PanicMadeUp(BaseException):
        pass

    compiled: list[str] = []
    real = typesetting._compiled

    class Stopping:
        def __init__(self, compiler: Any) -> None:
            self.compiler = compiler

        def compile(self, **asked: Any) -> Any:
            compiled.append("")
            if len(compiled) == 2:
                raise PanicMadeUp
            return self.compiler.compile(**asked)

    monkeypatch.setattr(typesetting, "_compiled", lambda compiler, make: real(Stopping(compiler), make))
    typesetting._lacking.cache_clear()
    assert "\\u0436" in printed("ж")
    assert len(compiled) == 3


def test_all_sheets_of_a_plan_are_set(tmp_path: Path) -> None:
    """Through what a plan calls: its name, and the title of a step of the maker's own, in scripts of all kinds."""
    its = made_up()
    name = " ".join([*SET.values(), *(each for each, _ in LACKING.values())])
    steps = (replace(its.steps[0], title=own_line(name[:80])), *its.steps[1:])
    write_sheets(replace(its, name=name, steps=steps), pictures(), (), tmp_path)
    made = list((tmp_path / "sheets").iterdir())
    assert len(made) == 4
    assert all(path.read_bytes().startswith(b"%PDF") for path in made)
