"""Sheets of materials in words, as JSON and as a table: the same at the terminal and on pages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass
from decimal import Decimal
from typing import Any

from moldwright.errors import InputRefused
from moldwright.materials import Figure, Library, Sheet
from moldwright.materials.kinds import KINDS as SHEET_KINDS
from moldwright.materials.nearest import did_you_mean
from moldwright.materials.originals import ORIGINAL, OriginalMaterial, original_material, original_materials
from moldwright.materials.sheet_fields import told
from moldwright.text.shown import number, short
from moldwright.told.csv_text import Cell
from moldwright.units import show_range
from moldwright.words.marked import words
from moldwright.words.speaker import say, with_mark

SAFETY = words("The supplier's safety data sheet and technical sheet go before every figure here.")
KINDS = (*sorted(SHEET_KINDS), ORIGINAL)
ELSEWHERE = ("id", "own_file", "provenance")
"""What a sheet's heading tells, or stands beside each figure."""
MATERIAL_HEADS = ("kind", "id", "name", "own_file", "figure", "low", "likely", "high", "unit", "source")
"""Of the table, in its order."""


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One figure or word of a sheet: what it is called, how it reads, where it comes from."""

    name: str
    text: str
    source: str = ""


def kind_meant(written: str) -> str:
    """The kind that a word means, one or many; "" for all.

    Parameters
    ----------
    written : "rubber", "rubbers", "".

    Raises InputRefused ("unknown-kind").
    """
    wanted = written.strip().casefold()
    wanted = wanted.removesuffix("s") if wanted not in KINDS and wanted.removesuffix("s") in KINDS else wanted
    if wanted and wanted not in KINDS:
        raise InputRefused(
            "unknown-kind", short(written), "a kind of material", "", did_you_mean(short(written), KINDS)
        )
    return wanted


def sheets_of_kind(known: Library, kind: str) -> tuple[tuple[str, Sheet], ...]:
    """Sheets with their kinds.

    Parameters
    ----------
    known : the library.
    kind : one of `KINDS`, or "" for all.
    """
    return tuple((each, sheet) for each in ([kind] if kind else KINDS) if each != ORIGINAL for sheet in known.all(each))


def originals_of_kind(kind: str) -> tuple[OriginalMaterial, ...]:
    """What originals are made of, where that is asked for.

    Parameters
    ----------
    kind : one of `KINDS`, or "" for all.
    """
    return original_materials() if kind in ("", ORIGINAL) else ()


def original_meant(asked: str, known: Library) -> OriginalMaterial | None:
    """What originals are made of, where the word is no sheet's: "oil clay", "original bronze".

    Parameters
    ----------
    asked : as somebody writes it.
    known : the library.
    """
    first, _, rest = asked.strip().partition(" ")
    if first.casefold() == ORIGINAL and rest:
        return original_material(rest)
    try:
        known.find(asked)
    except InputRefused as refused:
        found = original_material(asked) if refused.code == "unknown-material" else None
        return found if found is not None and found.known else None
    return None


def sheet_rows(sheet: Sheet, without: Sequence[str] = ()) -> tuple[SheetRow, ...]:
    """What a sheet holds, in words.

    Parameters
    ----------
    sheet : it.
    without : keys that whoever shows it tells elsewhere.
    """
    rows = ((name, value) for name, value in sheet_values(sheet) if name not in (*ELSEWHERE, *without))
    return tuple(row for name, value in rows if (row := _row(name, value)).text)


def original_rows(material: OriginalMaterial) -> tuple[SheetRow, ...]:
    """What is known of what an original is made of, in words.

    Parameters
    ----------
    material : it.
    """
    also, tags = "; ".join(material.also), "; ".join(str(tag) for tag in material.tags)
    density = f"{with_mark(number(material.density_g_ml))} g/ml"
    rows = (("also", also), ("tags", tags), ("density", density))
    return tuple(SheetRow(name, text) for name, text in rows if text)


def sheet_values(sheet: Sheet) -> Iterator[tuple[str, Any]]:
    """Each field under the key by which an own sheet gives it.

    Parameters
    ----------
    sheet : it.
    """
    for each in fields(sheet):
        value = getattr(sheet, each.name)
        if each.name == "tack_window_s":
            yield from zip(("tack_earliest_s", "tack_latest_s"), value, strict=True)
        else:
            yield each.name, value


def sheet_tree(kind: str, sheet: Sheet) -> dict[str, Any]:
    """A whole sheet as plain values.

    Parameters
    ----------
    kind : of it.
    sheet : it.
    """
    heading = {"kind": kind, "id": sheet.id, "own_file": sheet.own_file, "provenance": plain_tree(sheet.provenance)}
    return {**heading, **{name: plain_tree(v) for name, v in sheet_values(sheet) if name not in ELSEWHERE}}


def original_tree(material: OriginalMaterial) -> dict[str, Any]:
    """What an original is made of, as plain values.

    Parameters
    ----------
    material : it.
    """
    row = {"name": material.name, "also": list(material.also), "tags": [str(tag) for tag in material.tags]}
    return {"kind": ORIGINAL, "id": material.name, **row, "density_g_ml": material.density_g_ml}


def material_cells(rows: Iterable[tuple[str, Sheet]]) -> list[Sequence[Cell]]:
    """Every figure of every sheet as a row of a table.

    Parameters
    ----------
    rows : sheets with their kinds.
    """
    return [
        (kind, sheet.id, sheet.name, sheet.own_file, told(name), *_figure_cells(value))
        for kind, sheet in rows
        for name, value in sheet_values(sheet)
        if isinstance(value, Figure)
    ]


def _figure_cells(figure: Figure) -> tuple[Cell, ...]:
    return figure.low, figure.likely, figure.high, figure.unit, figure.source


def plain_tree(value: Any) -> Any:
    """A value of a sheet as plain values.

    Parameters
    ----------
    value : any.
    """
    if is_dataclass(value) and not isinstance(value, type):
        return {f.name: plain_tree(getattr(value, f.name)) for f in fields(value)}
    if isinstance(value, tuple | list):
        return [plain_tree(item) for item in value]
    return str(value) if isinstance(value, Decimal) else value


def _row(name: str, value: Any) -> SheetRow:
    if isinstance(value, Figure):
        return SheetRow(told(name), _figure(value), value.source)
    return SheetRow(told(name), _words(value))


def _figure(value: Figure) -> str:
    if value.unit == "s":
        return show_range(value.range, "duration")
    spread = f" ({number(value.low)}–{number(value.high)})" if value.low != value.high else ""
    return f"{with_mark(number(value.likely))} {value.unit}{with_mark(spread)}"


def _words(value: Any) -> str:
    if isinstance(value, bool):
        return say("yes") if value else say("no")
    if isinstance(value, Figure):
        return f"{_figure(value)}  · {value.source}"
    if isinstance(value, tuple):
        joined = " : " if value and all(isinstance(v, float | int) for v in value) else "; "
        return joined.join(_words(v) for v in value)
    if hasattr(value, "placeholder"):
        amount = f"{with_mark(number(value.amount))} {value.unit}"
        told = say("{amount} at {price}", amount=amount, price=with_mark(str(value.price)))
        return f"{told} ({say('placeholder')})" if value.placeholder else told
    if value is None:
        return ""
    return with_mark(number(value)) if isinstance(value, float) else say(str(value))
