"""From data, pictures and a page's form to the bytes of a PDF; the same input gives the same bytes."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Mapping
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any

import fontpkg_atkinson_hyperlegible as font
import typst

from moldwright.sheets.words import plain

PAPERS = {"a4": ("a4", 297.0), "letter": ("us-letter", 279.4)}
"""Name of a paper in the page's form, and its height [mm]: ISO 216, ANSI Y14.1 (from memory)."""


@cache
def _fonts() -> Any:
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(font.ROOT / "files")])


def typeset(form: str, data: Mapping[str, Any], pictures: Mapping[str, bytes]) -> bytes:
    """The PDF of one sheet.

    Parameters
    ----------
    form : "bench" or "shopping", a form of this package.
    data : what the form prints.
    pictures : PNG bytes by the file names that `data` uses.
    """
    forms = resources.files("moldwright.sheets").joinpath("press")
    with tempfile.TemporaryDirectory(prefix="moldwright-sheet-") as place:
        folder = Path(place)
        for name in ("house.typ", f"{form}.typ"):
            folder.joinpath(name).write_text(forms.joinpath(name).read_text("utf-8"), "utf-8")
        folder.joinpath("data.json").write_text(json.dumps(plain(dict(data)), ensure_ascii=False), "utf-8")
        for name, png in pictures.items():
            folder.joinpath(name).write_bytes(png)
        compiler = typst.Compiler(str(folder / f"{form}.typ"), root=str(folder), font_paths=_fonts())
        pdf = compiler.compile(format="pdf", timestamp=0, pdf_standards=["ua-1"])
    return pdf if isinstance(pdf, bytes) else b""
