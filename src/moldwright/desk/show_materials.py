"""Sheets of materials as words or as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass
from decimal import Decimal
from itertools import groupby
from pathlib import Path
from typing import Any

from moldwright.desk.say import say, say_json
from moldwright.errors import InputRefused
from moldwright.making.inputs import read_sheets, read_text
from moldwright.materials import Figure, Library, Sheet, check_sheet, library
from moldwright.materials.finding import SheetSeverity
from moldwright.materials.hazards import cautions_for
from moldwright.materials.kinds import KINDS as SHEET_KINDS
from moldwright.materials.nearest import did_you_mean
from moldwright.materials.originals import ORIGINAL, OriginalMaterial, original_material, original_materials
from moldwright.materials.sheet_fields import told
from moldwright.materials.spoken import left_out
from moldwright.text.harmless import harmless
from moldwright.text.shown import number, short
from moldwright.units import show_range

SAFETY = "The supplier's safety data sheet and technical sheet go before every figure here."
KINDS = (*sorted(SHEET_KINDS), ORIGINAL)
ELSEWHERE = ("id", "own_file", "provenance")
"""What a sheet's heading tells, or stands beside each figure."""


def listed(kind: str, sheets: Path | None, as_json: bool) -> str:
    """All materials of a kind, or of every kind.

    Parameters
    ----------
    kind : "rubber", "resin", ... or "" for all.
    sheets : folder of the shop's own sheets, or None.
    as_json : a list of `{kind, id, name, own_file}`, `own_file` null for a class that Moldwright ships.
    """
    wanted = kind.strip().casefold()
    wanted = wanted.removesuffix("s") if wanted not in KINDS and wanted.removesuffix("s") in KINDS else wanted
    if wanted and wanted not in KINDS:
        raise InputRefused("unknown-kind", short(kind), "a kind of material", "", did_you_mean(short(kind), KINDS))
    known = _library(sheets)
    of_kind = [wanted] if wanted else KINDS
    rows = [(k, sheet) for k in of_kind if k != ORIGINAL for sheet in known.all(k)]
    originals = original_materials() if ORIGINAL in of_kind else ()
    if as_json:
        told = [{"kind": k, "id": s.id, "name": s.name, "own_file": s.own_file} for k, s in rows]
        told += [{"kind": ORIGINAL, "id": m.name, "name": m.name, "own_file": None} for m in originals]
        return json.dumps(told)
    wide = max((len(id_) for id_ in (*(s.id for _, s in rows), *(m.name for m in originals))), default=0)
    lines = []
    for k, same in groupby(rows, key=lambda row: row[0]):
        lines += [k, *(_listed(sheet, wide) for _, sheet in same)]
        lines += [f"  {none}"] if (none := left_out(k)) else []
    lines += [ORIGINAL] if originals else []
    lines += [f"  {material.name:<{wide}}  {', '.join(material.also)}".rstrip() for material in originals]
    return "\n".join(lines)


def _listed(sheet: Sheet, wide: int) -> str:
    own = f"  [{sheet.own_file}]" if sheet.own_file else ""
    return f"  {sheet.id:<{wide}}  {sheet.name}{own}"


def shown(id_: str, sheets: Path | None, as_json: bool) -> str:
    """One sheet.

    Parameters
    ----------
    id_ : the material's id or name.
    sheets : folder of the shop's own sheets, or None.
    as_json : the whole sheet as one object.
    """
    known = _library(sheets)
    original = _original(id_, known)
    if original is not None:
        return _shown_original(original, as_json)
    kind, sheet = known.find(id_)
    rows = [(name, value) for name, value in _rows(sheet) if name not in ELSEWHERE]
    if as_json:
        heading = {"kind": kind, "id": sheet.id, "own_file": sheet.own_file, "provenance": sheet.provenance}
        return json.dumps({**heading, **{name: _tree(value) for name, value in rows}})
    lines = [f"  {told(name):<22} {text}" for name, value in rows if (text := _words(value))]
    cautions = [f"  ! {text}" for text in cautions_for(sheet) if text not in sheet.cautions]
    own = f", {sheet.own_file}" if sheet.own_file else ""
    return "\n".join([f"{sheet.name}  ({kind}, {sheet.id}{own})", *lines, *cautions, f"  {SAFETY}"])


def _rows(sheet: Sheet) -> Iterator[tuple[str, Any]]:
    """Each field under the key by which an own sheet gives it."""
    for each in fields(sheet):
        value = getattr(sheet, each.name)
        if each.name == "tack_window_s":
            yield from zip(("tack_earliest_s", "tack_latest_s"), value, strict=True)
        else:
            yield each.name, value


def _original(asked: str, known: Library) -> OriginalMaterial | None:
    """What originals are made of, where the word is no sheet's: "oil clay", "original bronze"."""
    first, _, rest = asked.strip().partition(" ")
    if first.casefold() == ORIGINAL and rest:
        return original_material(rest)
    try:
        known.find(asked)
    except InputRefused as refused:
        found = original_material(asked) if refused.code == "unknown-material" else None
        return found if found is not None and found.known else None
    return None


def _shown_original(material: OriginalMaterial, as_json: bool) -> str:
    tags, also = [str(tag) for tag in material.tags], list(material.also)
    if as_json:
        row = {"name": material.name, "also": also, "tags": tags, "density_g_ml": material.density_g_ml}
        return json.dumps({"kind": ORIGINAL, "id": material.name, **row})
    rows = [("also", "; ".join(also)), ("tags", "; ".join(tags)), ("density", f"{number(material.density_g_ml)} g/ml")]
    return "\n".join([f"{material.name}  ({ORIGINAL})", *(f"  {name:<22} {text}" for name, text in rows if text)])


def check(files: Sequence[Path], as_json: bool) -> None:
    """Print what is wrong or doubtful in own sheets; raises the first refusal when one of them cannot be used.

    Parameters
    ----------
    files : the sheets.
    as_json : a list of findings.
    """
    found = [(path, finding) for path in files for finding in check_sheet(read_text(path, "sheet"))]
    if as_json:
        say_json([{"file": str(path), **_tree(finding)} for path, finding in found])
    for path, finding in found if not as_json else ():
        say(harmless(f"{path}: {finding.severity}: {finding.refusal().sentence()}"))
    stops = [finding for _, finding in found if finding.severity is SheetSeverity.STOP]
    if stops:
        raise stops[0].refusal()
    if not as_json:
        say(f"{len(files)} sheet{'s' * (len(files) != 1)} checked, {len(found)} to read again. {SAFETY}")


def _library(sheets: Path | None) -> Library:
    return library(read_sheets(sheets)) if sheets else library()


def _words(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Figure) and value.unit == "s":
        return f"{show_range(value.range, 'duration')}  · {value.source}"
    if isinstance(value, Figure):
        spread = f" ({number(value.low)}–{number(value.high)})" if value.low != value.high else ""
        return f"{number(value.likely)} {value.unit}{spread}  · {value.source}"
    if isinstance(value, tuple):
        joined = " : " if value and all(isinstance(v, float | int) for v in value) else "; "
        return joined.join(_words(v) for v in value)
    if hasattr(value, "placeholder"):
        return f"{number(value.amount)} {value.unit} at {value.price}{' (placeholder)' if value.placeholder else ''}"
    return "" if value is None else number(value) if isinstance(value, float) else str(value)


def _tree(value: Any) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return {f.name: _tree(getattr(value, f.name)) for f in fields(value)}
    if isinstance(value, tuple | list):
        return [_tree(item) for item in value]
    return str(value) if isinstance(value, Decimal) else value
