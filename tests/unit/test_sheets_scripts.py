"""Whatever script a name is written in, there is a sheet: by another face, or by the character's escape."""

from __future__ import annotations

import io
from dataclasses import replace

import pypdf
import pytest
from sheets_fixture import plan as made_up

from moldwright.sheets.bench_data import heading
from moldwright.sheets.typesetting import typeset

SET = {
    "Cyrillic": "Выдра",
    "Greek": "Βίδρα",
    "Hebrew": "לוטרה",
    "Arabic": "قضاعة",
    "Vietnamese": "Rái cá Việt",
    "signs": "№ 5 ✓",
    "ligature": "ﬁne ẞ ĳ",
}
LACKING = {"kana": ("カワウソ", "\\u30ab"), "emoji": ("🦦 otter", "\\U0001f9a6"), "mixed": ("Выдра 卡", "\\u5361")}


def printed(name: str) -> str:
    data = heading(replace(made_up(), name=name), "shopping list", "a4") | {
        "below": "Shopping list", "say": "", "groups": []
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
