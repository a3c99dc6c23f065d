"""A sheet's text -> entries: the values of each material that it names, with what is wrong about them."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from moldwright.errors import InputRefused
from moldwright.materials import read_value
from moldwright.materials.finding import SheetFinding, stop
from moldwright.materials.nearest import did_you_mean
from moldwright.materials.sheet_fields import RATIOS, KindRule, as_key, figure_rules, kind_rules, plain_keys
from moldwright.materials.shipped import shipped
from moldwright.materials.words import LEFT_OUT, Fit, Tag
from moldwright.text.harmless import is_line
from moldwright.text.shown import kind_of, number, short, shown
from moldwright.text.toml import toml_tables

_FLAGS = {"yes": True, "true": True, "no": False, "false": False}
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
LONGEST_TEXT, LONGEST_WORD, LONGEST_ID, LONGEST_LABEL = 200_000, 400, 80, 16
MOST_TEXTS, MOST_FINDINGS = 60, 100
"""Our own bounds: a shop's sheet has a page; what is wrong a hundred times need not be told more often."""


@dataclass(frozen=True, slots=True)
class SheetEntry:
    """What one sheet says of one material: only the fields that it holds."""

    kind: str
    id: str
    own_file: str | None
    fields: dict[str, Any]
    sources: dict[str, str]
    findings: tuple[SheetFinding, ...] = field(default=())

    @property
    def where(self) -> str:
        """Kind and id, as findings name them."""
        return f"{self.kind}.{self.id}"


def read_text(text: str, own_file: str) -> tuple[tuple[SheetEntry, ...], tuple[SheetFinding, ...]]:
    """SheetEntries of a sheet's TOML text, and what is wrong with the text as a whole.

    Parameters
    ----------
    text : TOML with tables [kind.id], at most 200,000 characters.
    own_file : the sheet's file name, which the figures keep as their source.

    >>> read_text("[powder.bronze]\\napparent_density_g_ml = 3.1", "own.toml")[0][0].where
    'powder.bronze'
    """
    try:
        return read_tables(toml_tables(text, "sheet", "sheet-unreadable", LONGEST_TEXT), own_file)
    except InputRefused as wrong:
        return (), (stop(wrong.code, own_file, wrong.actual, wrong.limit, wrong.unit, wrong.remedy),)


def read_tables(
    tables: dict[str, Any], own_file: str | None
) -> tuple[tuple[SheetEntry, ...], tuple[SheetFinding, ...]]:
    """SheetEntries of parsed tables `[kind.id]`, and what is wrong with them as a whole.

    Parameters
    ----------
    tables : what the TOML reader returned.
    own_file : the sheet's file name; None: the classes that Moldwright ships.

    >>> read_tables({"powdr": {}}, "own.toml")[1][0].remedy
    'Did you mean powder?'
    """
    entries: list[SheetEntry] = []
    findings: list[SheetFinding] = []
    for kind, rows in tables.items():
        rule = kind_rules().get(kind)
        if len(findings) >= MOST_FINDINGS:
            break
        if rule is None:
            told = did_you_mean(kind, kind_rules())
            findings.append(stop("unknown-kind", short(kind), short(kind), ", ".join(kind_rules()), "", told))
        elif not isinstance(rows, dict):
            remedy = f"Write a table [{kind}.its-id]."
            findings.append(stop("sheet-unreadable", kind, kind_of(rows), "a table", remedy=remedy))
        else:
            entries += [_entry(kind, rule, id_, row, own_file) for id_, row in rows.items()]
    return tuple(entries), tuple(findings)


def _entry(kind: str, rule: KindRule, id_: str, row: Any, own_file: str | None) -> SheetEntry:
    where = f"{kind}.{short(id_)}"
    if id_ in LEFT_OUT:
        told = f"A commission that says {id_!r} leaves the material out: give this one another id."
        return SheetEntry(kind, id_, own_file, {}, {}, (stop("id-unclear", where, id_, "another id", remedy=told),))
    if len(id_) > LONGEST_ID or not _ID.fullmatch(id_):
        limit = f"a-z, 0-9 and -, at most {LONGEST_ID}"
        wrong = stop("id-unclear", where, short(id_), limit, remedy="Write the id in small letters with hyphens.")
        return SheetEntry(kind, short(id_), own_file, {}, {}, (wrong,))
    if not isinstance(row, dict):
        remedy = f"Write it as a table: [{where}] and one key a line."
        wrong = stop("sheet-unreadable", where, kind_of(row), "a table", remedy=remedy)
        return SheetEntry(kind, id_, own_file, {}, {}, (wrong,))
    return _Reader(kind, rule, id_, own_file, row).entry()


class _Reader:
    """Reads one table, key by key, and collects what is wrong."""

    def __init__(self, kind: str, rule: KindRule, id_: str, own_file: str | None, row: dict[str, Any]) -> None:
        self.kind, self.rule, self.id, self.own_file, self.row = kind, rule, id_, own_file, row
        self.shipped = own_file is None
        self.heading = {"kind": kind, "id": id_}
        self.source = row["source"] if isinstance(row.get("source"), str) else f"sheet {own_file}"
        self.fields: dict[str, Any] = {}
        self.sources: dict[str, str] = {}
        self.findings: list[SheetFinding] = []

    def entry(self) -> SheetEntry:
        """The table as an entry, with everything that is wrong about it."""
        for written, raw in self.row.items():
            if len(self.findings) >= MOST_FINDINGS:
                break
            if self.heading.get(written) != raw:
                self._key(self._full_key(written), written, raw)
        return SheetEntry(self.kind, self.id, self.own_file, self.fields, self.sources, tuple(self.findings))

    def _full_key(self, written: str) -> str:
        name = as_key(written)
        known = (key for key in (name, *plain_keys().get(name, ())) if key in self.rule.keys)
        return next(known, written)

    def _key(self, key: str, written: str, raw: Any) -> None:
        where = f"{self.kind}.{self.id}.{short(written)}"
        if key not in self.rule.keys:
            told = did_you_mean(written, set(self.rule.keys))
            limit = f"a key of a {self.kind}"
            self.findings.append(stop("unknown-key", where, short(written), limit, remedy=told))
            return
        if key in self.fields:
            told = f"It is the same as {key}: write one."
            self.findings.append(stop("key-twice", where, written, "each key once", remedy=told))
            return
        try:
            self.fields[key] = self._value(key, written, raw)
        except read_value.BadValueError as wrong:
            self.findings.append(stop("value-unclear", where, shown(raw, 80), self._limit(key), "", f"{wrong}."))

    def _limit(self, key: str) -> str:
        """What the key takes, in words."""
        rule = figure_rules().get(key)
        return read_value.bounds(rule) if rule else read_value.RATIO if key in RATIOS else "as docs/own-sheet.md tells"

    def _value(self, key: str, written: str, raw: Any) -> Any:
        if key in RATIOS:
            value, self.sources[key] = read_value.ratio(raw, self.source)
            return value
        if key in self.rule.figures:
            return self._figure(key, written, raw)
        self.sources[key] = self.source
        if key == "packs":
            return read_value.packs(raw, placeholder=self.shipped)
        return _OTHERS[key](raw) if key in _OTHERS else self._word(key, raw)

    def _figure(self, key: str, written: str, raw: Any) -> Any:
        if as_key(written) != key and not isinstance(raw, (str, dict)):
            raise read_value.BadValueError(f"give the unit with the number, or write the key as {key}")
        rule = figure_rules()[key]
        read = read_value.figure(raw, rule, self.source)
        if read.low < rule.lowest or read.high > rule.highest:
            limit = f"{number(rule.lowest)} to {number(rule.highest)}"
            told = number(read.low) if read.low == read.high else f"{number(read.low)} to {number(read.high)}"
            text = "No material of the trade has this: check the unit and the decimal point."
            self.findings.append(stop("not-possible", f"{self.kind}.{self.id}.{written}", told, limit, rule.unit, text))
        return read

    def _word(self, key: str, raw: Any) -> str:
        if not _is_line(raw) or (key == "name" and not raw.strip()):
            raise read_value.BadValueError(f"a text of one line and at most {LONGEST_WORD} characters is needed here")
        if key == "name" and raw.strip().casefold() in LEFT_OUT:
            raise read_value.BadValueError(f"a commission that says {raw.strip()!r} leaves the material out")
        allowed = shipped("schema")["words"].get(key)
        if allowed is not None and raw not in allowed:
            raise read_value.BadValueError(did_you_mean(raw, [a for a in allowed if a]).removesuffix("."))
        return str(raw)


def _texts(raw: Any) -> tuple[str, ...]:
    """A list of lines, or one text in which semicolons part them, as `materials show` prints it."""
    if isinstance(raw, str) and raw.strip() and is_line(raw, LONGEST_TEXT):
        raw = raw.split("; ")
    if not isinstance(raw, list) or len(raw) > MOST_TEXTS or not all(_is_line(t) for t in raw):
        told = f"a list of at most {MOST_TEXTS} one-line texts of at most {LONGEST_WORD} characters is needed here"
        raise read_value.BadValueError(told)
    return tuple(raw)


def _tags(raw: Any) -> tuple[Tag, ...]:
    """Words of our list, in any letter case: a tag that no rule knows would do nothing."""
    known = {str(tag): tag for tag in Tag}
    words = ["-".join(text.casefold().split()) for text in _texts(raw)]
    for word in words:
        if word not in known:
            raise read_value.BadValueError(f"{short(word)} is no tag: {did_you_mean(word, known)}".removesuffix("."))
    return tuple(known[word] for word in words)


def _fit(raw: Any) -> tuple[Fit, ...]:
    """What a resin may be used for: one of our words at least."""
    known = {str(use): use for use in Fit}
    words = _texts(raw)
    if not words or any(word not in known for word in words):
        raise read_value.BadValueError(f"write a list of one or more of {', '.join(known)}")
    return tuple(known[word] for word in words)


def _label(raw: Any) -> str:
    """What stands on a pot and on a mix card, beside the part's letter."""
    if not isinstance(raw, str) or not (raw == "" or is_line(raw, LONGEST_LABEL)):
        raise read_value.BadValueError(f"a word or two of at most {LONGEST_LABEL} characters is needed here")
    return raw.strip()


def _is_line(raw: Any) -> bool:
    return isinstance(raw, str) and (raw == "" or is_line(raw, LONGEST_WORD))


def _flag(raw: Any) -> bool:
    word = _FLAGS.get(raw.strip().casefold()) if isinstance(raw, str) else raw
    if not isinstance(word, bool):
        raise read_value.BadValueError("write true or false")
    return word


_OTHERS: dict[str, Callable[[Any], Any]] = {
    "source": read_value.source_of,
    "tags": _tags,
    "hazards": _texts,
    "cautions": _texts,
    "weight_only": _flag,
    "fit": _fit,
    "part_a": _label,
    "part_b": _label,
}
