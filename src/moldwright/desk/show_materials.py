"""Sheets of materials printed, in words or as JSON."""

from __future__ import annotations

import json
from collections.abc import Sequence
from itertools import groupby
from pathlib import Path

from moldwright.desk.say import say, say_json
from moldwright.making.inputs import read_sheets, read_text
from moldwright.materials import Library, Sheet, check_sheet, library
from moldwright.materials.finding import SheetSeverity
from moldwright.materials.hazards import cautions_for
from moldwright.materials.originals import ORIGINAL
from moldwright.materials.spoken import left_out
from moldwright.text.harmless import harmless
from moldwright.told.material_words import (
    SAFETY,
    SheetRow,
    kind_meant,
    original_meant,
    original_rows,
    original_tree,
    originals_of_kind,
    plain_tree,
    sheet_rows,
    sheet_tree,
    sheets_of_kind,
)
from moldwright.ways import as_keys


def listed(kind: str, sheets: Path | None, as_json: bool) -> str:
    """All materials of a kind, or of every kind.

    Parameters
    ----------
    kind : "rubber", "resin", ... or "" for all.
    sheets : folder of the shop's own sheets, or None.
    as_json : a list of `{kind, id, name, own_file}`, `own_file` null for a class that Moldwright ships.
    """
    wanted = kind_meant(kind)
    rows, originals = sheets_of_kind(_library(sheets), wanted), originals_of_kind(wanted)
    if as_json:
        told = [{"kind": k, "id": s.id, "name": s.name, "own_file": s.own_file} for k, s in rows]
        told += [{"kind": ORIGINAL, "id": m.name, "name": m.name, "own_file": None} for m in originals]
        return json.dumps(told)
    wide = max((len(id_) for id_ in (*(s.id for _, s in rows), *(m.name for m in originals))), default=0)
    lines = []
    for k, same in groupby(rows, key=lambda row: row[0]):
        lines += [k, *(_listed(sheet, wide) for _, sheet in same)]
        lines += [f"  {as_keys(none)}"] if (none := left_out(k)) else []
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
    original = original_meant(id_, known)
    if original is not None:
        if as_json:
            return json.dumps(original_tree(original))
        return "\n".join([f"{original.name}  ({ORIGINAL})", *map(_line, original_rows(original))])
    kind, sheet = known.find(id_)
    if as_json:
        return json.dumps(sheet_tree(kind, sheet))
    cautions = [f"  ! {text}" for text in cautions_for(sheet) if text not in sheet.cautions]
    own = f", {sheet.own_file}" if sheet.own_file else ""
    head = f"{sheet.name}  ({kind}, {sheet.id}{own})"
    return "\n".join([head, *map(_line, sheet_rows(sheet)), *cautions, f"  {SAFETY}"])


def _line(row: SheetRow) -> str:
    source = f"  · {row.source}" if row.source else ""
    return f"  {row.name:<22} {row.text}{source}"


def check(files: Sequence[Path], as_json: bool) -> None:
    """Print what is wrong or doubtful in own sheets; raises the first refusal when one of them cannot be used.

    Parameters
    ----------
    files : the sheets.
    as_json : a list of findings.
    """
    found = [(path, finding) for path in files for finding in check_sheet(read_text(path, "sheet"))]
    if as_json:
        say_json([{"file": str(path), **plain_tree(finding)} for path, finding in found])
    for path, finding in found if not as_json else ():
        say(harmless(f"{path}: {finding.severity}: {finding.refusal().sentence()}"))
    stops = [finding for _, finding in found if finding.severity is SheetSeverity.STOP]
    if stops:
        raise stops[0].refusal()
    if not as_json:
        say(f"{len(files)} sheet{'s' * (len(files) != 1)} checked, {len(found)} to read again. {SAFETY}")


def _library(sheets: Path | None) -> Library:
    return library(read_sheets(sheets)) if sheets else library()
