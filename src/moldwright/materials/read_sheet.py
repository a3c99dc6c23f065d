"""A sheet's text -> entries: the values of each material that it names, with what is wrong about them."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from typing import Any

from moldwright.materials import read_value
from moldwright.materials.finding import SheetFinding, stop
from moldwright.materials.nearest import did_you_mean
from moldwright.materials.sheet_fields import RATIOS, KindRule, figure_rules, kind_rules, plain_keys
from moldwright.materials.shipped import shipped

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
LONGEST_TEXT = 1_000_000
LONGEST_WORD = 400


@dataclass(frozen=True, slots=True)
class Entry:
    """What one sheet says of one material: only the fields that it holds."""

    kind: str
    id: str
    origin: str
    fields: dict[str, Any]
    sources: dict[str, str]
    findings: tuple[SheetFinding, ...] = field(default=())

    @property
    def where(self) -> str:
        """Kind and id, as findings name them."""
        return f"{self.kind}.{self.id}"


def read_text(text: str, origin: str) -> tuple[tuple[Entry, ...], tuple[SheetFinding, ...]]:
    """Entries of a sheet's TOML text, and what is wrong with the text as a whole.

    Parameters
    ----------
    text : TOML with tables [kind.id].
    origin : the sheet's file name, which the figures keep as their source.

    >>> read_text("[powder.bronze]\\napparent_density_g_ml = 3.1", "own.toml")[0][0].where
    'powder.bronze'
    """
    if len(text) > LONGEST_TEXT:
        return (), (stop("sheet-too-long", origin, len(text), LONGEST_TEXT, "characters", "Split it."),)
    try:
        tables = tomllib.loads(text)
    except (ValueError, RecursionError) as wrong:
        return (), (stop("sheet-unreadable", origin, str(wrong)[:200], remedy="The text is not TOML: mend that line."),)
    return read_tables(tables, origin)


def read_tables(tables: dict[str, Any], origin: str) -> tuple[tuple[Entry, ...], tuple[SheetFinding, ...]]:
    """Entries of parsed tables `[kind.id]`, and what is wrong with them as a whole.

    Parameters
    ----------
    tables : what the TOML reader returned.
    origin : the sheet's file name, or "class default".

    >>> read_tables({"powdr": {}}, "own.toml")[1][0].remedy
    'Did you mean powder?'
    """
    entries, findings = [], []
    for kind, rows in tables.items():
        rule = kind_rules().get(kind)
        if rule is None:
            findings.append(stop("unknown-kind", kind, kind, remedy=did_you_mean(kind, kind_rules())))
        elif not isinstance(rows, dict):
            findings.append(stop("sheet-unreadable", kind, str(rows)[:60], remedy=f"Write a table [{kind}.its-id]."))
        else:
            entries += [_entry(kind, rule, id_, row, origin) for id_, row in rows.items()]
    return tuple(entries), tuple(findings)


def _entry(kind: str, rule: KindRule, id_: str, row: Any, origin: str) -> Entry:
    where = f"{kind}.{id_}"
    if not _ID.fullmatch(id_):
        wrong = stop("id-unclear", where, id_[:60], "a-z, 0-9, -", remedy="Write the id in small letters with hyphens.")
        return Entry(kind, id_, origin, {}, {}, (wrong,))
    if not isinstance(row, dict):
        wrong = stop(
            "sheet-unreadable", where, str(row)[:60], remedy=f"Write it as a table: [{where}] and one key a line."
        )
        return Entry(kind, id_, origin, {}, {}, (wrong,))
    return _Reader(kind, rule, id_, origin, row).entry()


class _Reader:
    """Reads one table, key by key, and collects what is wrong."""

    def __init__(self, kind: str, rule: KindRule, id_: str, origin: str, row: dict[str, Any]) -> None:
        self.kind, self.rule, self.id, self.origin, self.row = kind, rule, id_, origin, row
        self.shipped = origin == "class default"
        self.source = str(row.get("source", f"sheet {origin}"))
        self.fields: dict[str, Any] = {}
        self.sources: dict[str, str] = {}
        self.findings: list[SheetFinding] = []

    def entry(self) -> Entry:
        """The table as an entry, with everything that is wrong about it."""
        for written, raw in self.row.items():
            self._key(self._full_key(written), written, raw)
        return Entry(self.kind, self.id, self.origin, self.fields, self.sources, tuple(self.findings))

    def _full_key(self, written: str) -> str:
        full = plain_keys().get(written, written)
        return full if full in self.rule.figures else written

    def _key(self, key: str, written: str, raw: Any) -> None:
        where = f"{self.kind}.{self.id}.{written}"
        if key not in self.rule.keys:
            known = set(self.rule.keys)
            self.findings.append(stop("unknown-key", where, written, remedy=did_you_mean(written, known)))
            return
        if key in self.fields:
            self.findings.append(stop("key-twice", where, written, remedy=f"It is the same as {key}: write one."))
            return
        try:
            self.fields[key] = self._value(key, written, raw)
        except read_value.BadValueError as wrong:
            self.findings.append(stop("value-unclear", where, str(raw)[:80], remedy=f"{wrong}."))

    def _value(self, key: str, written: str, raw: Any) -> Any:
        if key in RATIOS:
            value, self.sources[key] = read_value.ratio(raw, self.source)
            return value
        if key in self.rule.figures:
            return self._figure(key, written, raw)
        self.sources[key] = self.source
        if key == "packs":
            return read_value.packs(raw, placeholder=self.shipped)
        if key in ("tags", "hazards", "cautions"):
            return _texts(raw)
        if key == "weight_only":
            return _flag(raw)
        return self._word(key, raw)

    def _figure(self, key: str, written: str, raw: Any) -> Any:
        if written != key and not isinstance(raw, (str, dict)):
            raise read_value.BadValueError(f"give the unit with the number, or write the key as {key}")
        read = read_value.figure(raw, figure_rules()[key], self.source)
        rule = figure_rules()[key]
        if read.low < rule.lowest or read.high > rule.highest:
            limit = f"{rule.lowest} to {rule.highest}"
            shown = f"{read.low:g} to {read.high:g}" if read.low != read.high else f"{read.low:g}"
            text = "No material of the trade has this: check the unit and the decimal point."
            self.findings.append(
                stop("not-possible", f"{self.kind}.{self.id}.{written}", shown, limit, rule.unit, text)
            )
        return read

    def _word(self, key: str, raw: Any) -> str:
        if not _is_line(raw) or (key == "name" and not raw.strip()):
            raise read_value.BadValueError(f"a text of one line and at most {LONGEST_WORD} characters is needed here")
        allowed = shipped("schema")["words"].get(key)
        if allowed is not None and raw not in allowed:
            raise read_value.BadValueError(did_you_mean(raw, [a for a in allowed if a]).removesuffix("."))
        return str(raw)


def _texts(raw: Any) -> tuple[str, ...]:
    if not isinstance(raw, list) or not all(_is_line(t) for t in raw):
        raise read_value.BadValueError(f"a list of one-line texts of at most {LONGEST_WORD} characters is needed here")
    return tuple(raw)


def _is_line(raw: Any) -> bool:
    return isinstance(raw, str) and len(raw) <= LONGEST_WORD and raw.isprintable()


def _flag(raw: Any) -> bool:
    if not isinstance(raw, bool):
        raise read_value.BadValueError("write true or false")
    return raw
