"""From data, pictures and a page's form to the bytes of a PDF; the same input gives the same bytes."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Callable, Iterable, Mapping
from functools import cache, lru_cache
from importlib import resources
from pathlib import Path
from typing import Any

import fontpkg_atkinson_hyperlegible as font
import typst

from moldwright.sheets.words import plain
from moldwright.text.harmless import escaped, steers
from moldwright.units.constants import INCH_MM

Make = Callable[[Any], list[bytes]]
"""What is made with a compiler."""

PAPERS = {"a4": ("a4", 297.0), "letter": ("us-letter", 279.4)}
"""Name of a paper in the page's form, and its height [mm]: ISO 216, ANSI Y14.1 (from memory)."""


@cache
def _fonts() -> Any:
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=[str(font.ROOT / "files")])


def typeset(form: str, data: Mapping[str, Any], pictures: Mapping[str, bytes]) -> bytes:
    """The PDF of one sheet; a character that no face has stands as its escape.

    Parameters
    ----------
    form : "bench" or "shopping", a form of this package.
    data : what the form prints.
    pictures : PNG or JPEG bytes by the file names that `data` uses.
    """
    return _typeset(form, data, pictures, _pdf)[0]


def typeset_png(form: str, data: Mapping[str, Any], pictures: Mapping[str, bytes], dots_per_mm: float) -> list[bytes]:
    """The same as PNG, one for each page.

    Parameters
    ----------
    form : a form of this package.
    data : what the form prints.
    pictures : PNG or JPEG bytes by the file names that `data` uses.
    dots_per_mm : how fine.
    """

    def pngs(compiler: Any) -> list[bytes]:
        made = compiler.compile(format="png", ppi=dots_per_mm * INCH_MM)
        return made if isinstance(made, list) else [made]

    return _typeset(form, data, pictures, pngs)


def _typeset(form: str, data: Mapping[str, Any], pictures: Mapping[str, bytes], make: Make) -> list[bytes]:
    text = json.dumps(plain(dict(data)), ensure_ascii=False)
    beyond = frozenset(c for c in text if not c.isascii())
    steering = frozenset(filter(steers, beyond))
    lacking = steering | _lacking(beyond - steering)
    try:
        return _set(form, _with_escapes(text, lacking), pictures, make)
    except CannotBeSetError:
        unsure = frozenset(c for c in beyond if ord(c) > LAST_SURE)
        return _set(form, _with_escapes(text, lacking | unsure), pictures, make)


class CannotBeSetError(Exception):
    """The compiler cannot set a text."""


LAST_SURE = 0x024F
"""The last of the Latin letters that the sheets' own face has: Unicode, Latin Extended-B."""


def _with_escapes(text: str, characters: Iterable[str]) -> str:
    """JSON text with some characters written as their escapes, whose backslash JSON doubles."""
    return text.translate({ord(c): "\\" + escaped(c) for c in characters})


@lru_cache(maxsize=4096)
def _lacking(characters: frozenset[str]) -> frozenset[str]:
    """Those of some characters that no face has, found by halves: setting a line takes milliseconds."""
    if not characters or _can_be_set(characters):
        return frozenset()
    if len(characters) == 1:
        return characters
    every = sorted(characters)
    half = len(every) // 2
    return _lacking(frozenset(every[:half])) | _lacking(frozenset(every[half:]))


def _can_be_set(characters: frozenset[str]) -> bool:
    try:
        _set("probe", json.dumps({"characters": sorted(characters)}, ensure_ascii=False), {}, _pdf)
    except CannotBeSetError:
        return False
    return True


def _set(form: str, text: str, pictures: Mapping[str, bytes], make: Make) -> list[bytes]:
    forms = resources.files("moldwright.sheets").joinpath("press")
    with tempfile.TemporaryDirectory(prefix="moldwright-sheet-") as place:
        folder = Path(place)
        for part in forms.iterdir():
            folder.joinpath(part.name).write_text(part.read_text("utf-8"), "utf-8")
        folder.joinpath("data.json").write_text(text, "utf-8")
        for name, png in pictures.items():
            folder.joinpath(name).write_bytes(png)
        compiler = typst.Compiler(str(folder / f"{form}.typ"), root=str(folder), font_paths=_fonts())
        return _compiled(compiler, make)


def _pdf(compiler: Any) -> list[bytes]:
    return [compiler.compile(format="pdf", timestamp=0, pdf_standards=["ua-1"])]


def _compiled(compiler: Any, make: Make) -> list[bytes]:
    """What is made. The compiler's own panic is no `Exception`; it is told like what the compiler refuses."""
    try:
        return make(compiler)
    except typst.TypstError as error:
        raise CannotBeSetError(str(error)) from error
    except (Exception, KeyboardInterrupt, SystemExit, GeneratorExit):
        raise
    except BaseException as panic:
        raise CannotBeSetError(str(panic)) from panic
