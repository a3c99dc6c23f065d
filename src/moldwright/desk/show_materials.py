"""Sheets of materials as words or as JSON."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

from moldwright.commission.keys import nearest
from moldwright.desk.inputs import read_sheets, read_text
from moldwright.desk.say import say, say_json
from moldwright.errors import InputRefused
from moldwright.materials import Figure, Library, Sheet, check_sheet, library
from moldwright.materials.finding import SheetSeverity
from moldwright.materials.hazards import cautions_for
from moldwright.text.harmless import harmless
from moldwright.text.shown import number, short
from moldwright.units import show_range

SAFETY = "The supplier's safety data sheet and technical sheet go before every figure here."
SUFFIXES = ("g_ml", "kj_mol", "j_g", "pa_s", "vol_pct", "kn_m", "days", "mpa", "pct", "mm", "um", "ml", "s", "g", "c")
ELSEWHERE = ("id", "name", "provenance", "hazards", "cautions")


def listed(kind: str, sheets: Path | None, as_json: bool) -> str:
    """All materials of a kind, or of every kind.

    Parameters
    ----------
    kind : "rubber", "resin", ... or "" for all.
    sheets : folder of the shop's own sheets, or None.
    as_json : a list of `{kind, id, name, own_file}`, `own_file` null for a class that Moldwright ships.
    """
    known = _library(sheets)
    rows = [(k, sheet) for k in ([kind] if kind else sorted(known.sheets)) for sheet in known.all(k)]
    if as_json:
        told = [{"kind": k, "id": s.id, "name": s.name, "own_file": s.own_file} for k, s in rows]
        return json.dumps(told)
    wide = max((len(sheet.id) for _, sheet in rows), default=0)
    lines, last = [], ""
    for k, sheet in rows:
        lines += [f"{k}"] if k != last else []
        last = k
        own = f"  [{sheet.own_file}]" if sheet.own_file else ""
        lines.append(f"  {sheet.id:<{wide}}  {sheet.name}{own}")
    return "\n".join(lines)


def shown(id_: str, sheets: Path | None, as_json: bool) -> str:
    """One sheet.

    Parameters
    ----------
    id_ : the material's id or name.
    sheets : folder of the shop's own sheets, or None.
    as_json : the whole sheet as one object.
    """
    kind, sheet = _find(_library(sheets), id_)
    if as_json:
        return json.dumps({"kind": kind, **_tree(sheet)})
    rows = [(_plain(f.name), _words(getattr(sheet, f.name))) for f in fields(sheet) if f.name not in ELSEWHERE]
    lines = [f"  {name:<22} {text}" for name, text in rows if text]
    cautions = [f"  ! {text}" for text in cautions_for(sheet)]
    return "\n".join([f"{sheet.name}  ({kind}, {sheet.id})", *lines, *cautions, f"  {SAFETY}"])


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


def _find(known: Library, asked: str) -> tuple[str, Sheet]:
    wanted = asked.strip().casefold()
    for kind, sheets in known.sheets.items():
        for sheet in sheets.values():
            if wanted in (sheet.id.casefold(), sheet.name.casefold()):
                return kind, sheet
    near = nearest(asked, [sheet.id for sheets in known.sheets.values() for sheet in sheets.values()])
    remedy = f"Did you mean {near}?" if near else "`moldwright materials list` tells all ids."
    raise InputRefused("unknown-material", short(asked), near or "an id of the library", "", remedy)


def _plain(name: str) -> str:
    """A field's name without its unit: "pot_life_s" -> "pot life"."""
    suffix = next((f"_{unit}" for unit in SUFFIXES if name.endswith(f"_{unit}")), "")
    return name.removesuffix(suffix).replace("_", " ")


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
