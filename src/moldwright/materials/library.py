"""All sheets together: the shipped classes, with a shop's own sheets on top, field by field."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from functools import lru_cache
from types import MappingProxyType
from typing import Any, TypeVar

from moldwright.errors import InputRefused
from moldwright.materials import kinds
from moldwright.materials.check import check_fields
from moldwright.materials.finding import SheetFinding, SheetSeverity, stop
from moldwright.materials.nearest import did_you_mean, nearest
from moldwright.materials.overlay import merged
from moldwright.materials.read_sheet import MOST_FINDINGS, SheetEntry, read_tables, read_text
from moldwright.materials.shipped import SHEET_FILES, shipped
from moldwright.materials.spoken import heard, left_out, several
from moldwright.materials.words import WORDS
from moldwright.text.shown import short
from moldwright.ways import Deed

S = TypeVar("S", bound=kinds.Sheet)
NO_GUESS = frozenset((kinds.Powder.kind,))
"""Kinds of which a part of a name is asked about even where only one has it: glass is more powders than one."""


@dataclass(frozen=True, slots=True)
class Library:
    """Every sheet by kind and id. A lookup takes the id or the name as people write it (`materials.spoken`).

    findings : what is doubtful in the shop's own sheets.

    >>> library().powder("bronze").true_density_g_ml.likely
    8.78
    """

    sheets: Mapping[str, Mapping[str, kinds.Sheet]]
    findings: tuple[SheetFinding, ...] = ()

    def rubber(self, id_: str) -> kinds.Rubber:
        """The rubber of that id or name; refused where there is none.

        Parameters
        ----------
        id_ : its id or its name, as people write it.
        """
        return self._get(kinds.Rubber, "rubber", id_)

    def resin(self, id_: str) -> kinds.Resin:
        """The resin of that id or name; refused where there is none.

        Parameters
        ----------
        id_ : its id or its name, as people write it.
        """
        return self._get(kinds.Resin, "resin", id_)

    def powder(self, id_: str) -> kinds.Powder:
        """The powder of that id or name; refused where there is none.

        Parameters
        ----------
        id_ : its id or its name, as people write it.
        """
        return self._get(kinds.Powder, "powder", id_)

    def shell(self, id_: str) -> kinds.Shell:
        """The shell of that id or name; refused where there is none.

        Parameters
        ----------
        id_ : its id or its name, as people write it.
        """
        return self._get(kinds.Shell, "shell", id_)

    def release(self, id_: str) -> kinds.Release:
        """The release of that id or name; refused where there is none.

        Parameters
        ----------
        id_ : its id or its name, as people write it.
        """
        return self._get(kinds.Release, "release", id_)

    def sealer(self, id_: str) -> kinds.Sealer:
        """The sealer of that id or name; refused where there is none.

        Parameters
        ----------
        id_ : its id or its name, as people write it.
        """
        return self._get(kinds.Sealer, "sealer", id_)

    def wax(self, id_: str) -> kinds.Wax:
        """The wax of that id or name; refused where there is none.

        Parameters
        ----------
        id_ : its id or its name, as people write it.
        """
        return self._get(kinds.Wax, "wax", id_)

    def thixotrope(self, id_: str) -> kinds.Thixotrope:
        """The thixotrope of that id or name; refused where there is none.

        Parameters
        ----------
        id_ : its id or its name, as people write it.
        """
        return self._get(kinds.Thixotrope, "thixotrope", id_)

    def consumable(self, id_: str) -> kinds.Consumable:
        """The consumable of that id or name; refused where there is none.

        Parameters
        ----------
        id_ : its id or its name, as people write it.
        """
        return self._get(kinds.Consumable, "consumable", id_)

    def all(self, kind: str) -> tuple[kinds.Sheet, ...]:
        """All sheets of a kind, in the order of their ids.

        Parameters
        ----------
        kind : "rubber", "resin", "powder", "shell", "release", "sealer", "wax", "pigment", "thixotrope", "consumable".
        """
        if kind not in self.sheets:
            raise InputRefused("unknown-kind", short(kind), "a kind of sheet", "", did_you_mean(kind, self.sheets))
        return tuple(self.sheets[kind][id_] for id_ in sorted(self.sheets[kind]))

    def find(self, asked: str) -> tuple[str, kinds.Sheet]:
        """The kind and the sheet of that id or name, whatever its kind; refused where there is none, or more than one.

        Parameters
        ----------
        asked : its id or its name; where kinds share it, with the kind in front: "wax paste-wax".
        """
        first, _, rest = asked.strip().partition(" ")
        kinds_asked = [first.casefold()] if rest and first.casefold() in self.sheets else list(self.sheets)
        name = rest if len(kinds_asked) == 1 else asked
        found = [(kind, self._heard(kind, name)) for kind in kinds_asked]
        exact = [(kind, id_) for kind, (ids, whole) in found for id_ in ids if whole]
        hits = exact or [(kind, id_) for kind, (ids, _) in found for id_ in ids]
        if len(hits) == 1:
            return hits[0][0], self.sheets[hits[0][0]][hits[0][1]]
        if hits:
            raise several(asked, [f'"{kind} {id_}"' for kind, id_ in hits], "a material of the library")
        known = {spelled: id_ for kind in self.sheets for spelled, id_ in self._spelled(kind)}
        near = tuple(dict.fromkeys(known[hit] for hit in nearest(asked, known)))
        remedy = did_you_mean(asked, near) if near else "Look which there are"
        way = None if near else Deed.SEE_MATERIALS
        raise InputRefused("unknown-material", short(asked), "a material of the library", "", remedy, way)

    def _get(self, cls: type[S], kind: str, asked: str) -> S:
        ids, whole = self._heard(kind, asked)
        sure = len(ids) == 1 and (whole or kind not in NO_GUESS)
        found = self.sheets[kind][ids[0]] if sure else None
        if isinstance(found, cls):
            return found
        if ids:
            raise several(asked, [f'"{id_}" ({self.sheets[kind][id_].name})' for id_ in ids], f"one {kind}")
        known = dict(self._spelled(kind))
        near = tuple(dict.fromkeys(known[hit] for hit in nearest(asked, known)))
        told = f"Did you mean {' or '.join(near)}?" if near else did_you_mean("", self.sheets[kind])
        remedy = f"{told} {left_out(kind)}".strip()
        raise InputRefused("unknown-material", short(asked), f"a {kind} of the library", remedy=remedy)

    def _heard(self, kind: str, asked: str) -> tuple[tuple[str, ...], bool]:
        """The ids that are meant, and whether by a whole name: by the id, by the name, by the words in any order."""
        sheets, wanted = self.sheets[kind], asked.strip().casefold()
        exact = wanted if wanted in sheets else wanted.replace(" ", "-")
        by_name = (id_ for id_, sheet in sheets.items() if sheet.name.casefold() == wanted)
        id_ = exact if exact in sheets else next(by_name, "")
        if id_:
            return (id_,), True
        told = heard(asked, kind, {id_: (id_, sheet.name) for id_, sheet in sheets.items()})
        return told.ids, told.whole

    def _spelled(self, kind: str) -> Iterator[tuple[str, str]]:
        for id_, sheet in self.sheets[kind].items():
            yield sheet.name.casefold(), id_
            yield id_, id_


def library(overrides: Mapping[str, str] = MappingProxyType({})) -> Library:
    """The shipped classes with a shop's sheets on top; refused where a sheet cannot be true.

    Parameters
    ----------
    overrides : texts of the shop's own sheets (TOML) by file name; later names win over earlier ones.

    >>> text = '[powder.bronze]\\napparent_density = "3.1 g/cc"'
    >>> library({"own.toml": text}).powder("bronze").apparent_density_g_ml.source
    'sheet own.toml'

    Source: the sheets' own provenance, field by field.
    """
    base = _shipped_entries()
    if not overrides:
        return _shipped_library()
    entries, findings = _with_overrides(base, overrides)
    for finding in findings:
        if finding.severity is SheetSeverity.STOP:
            raise finding.refusal()
    return Library(_built(entries), tuple(findings))


def check_sheet(text: str) -> tuple[SheetFinding, ...]:
    """Everything that is wrong or doubtful in a shop's own sheet; empty where nothing is.

    Parameters
    ----------
    text : the sheet's TOML text.

    >>> [f.code for f in check_sheet('[rubber.latex]\\npot_lif = "9 min"')]
    ['unknown-key']

    Source: possible bounds and usual values as the schema's data file tells.
    """
    return tuple(_with_overrides(_shipped_entries(), {"sheet": text})[1])


SheetEntries = dict[tuple[str, str], SheetEntry]


def _with_overrides(base: SheetEntries, overrides: Mapping[str, str]) -> tuple[SheetEntries, list[SheetFinding]]:
    """The entries with every file's on top; what is wrong, and what is doubtful in each as its last file left it."""
    entries = dict(base)
    stops: list[SheetFinding] = []
    doubts: dict[tuple[str, str], list[SheetFinding]] = {}
    for own_file in sorted(overrides):
        read, wrong = read_text(overrides[own_file], own_file)
        stops += wrong
        for entry in read:
            if len(stops) + sum(map(len, doubts.values())) >= MOST_FINDINGS:
                break
            found = _lay_over(entries, entry)
            stops += [f for f in found if f.severity is SheetSeverity.STOP]
            doubts[entry.kind, entry.id] = [f for f in found if f.severity is not SheetSeverity.STOP]
    return entries, [*stops, *(f for found in doubts.values() for f in found)]


def _lay_over(entries: SheetEntries, entry: SheetEntry) -> list[SheetFinding]:
    """Put one entry on top of what is known of it, and say what is wrong with the result."""
    findings = list(entry.findings)
    like = entry.fields.get("like", entry.id)
    under = entries.get((entry.kind, like))
    if under is None and "like" in entry.fields:
        known = [id_ for kind, id_ in entries if kind == entry.kind]
        told = did_you_mean(like, known)
        findings.append(stop("unknown-material", f"{entry.where}.like", like, f"a {entry.kind}'s id", "", told))
    if findings:
        return findings
    whole = merged(under, entry)
    findings += check_fields(whole.kind, whole.where, whole.fields)
    if not any(f.severity is SheetSeverity.STOP for f in findings):
        entries[entry.kind, entry.id] = whole
    return findings


@lru_cache(maxsize=1)
def _shipped_entries() -> SheetEntries:
    entries: SheetEntries = {}
    for name in SHEET_FILES:
        for entry in read_tables(shipped(name), None)[0]:
            entries[entry.kind, entry.id] = entry
    return entries


@lru_cache(maxsize=1)
def _shipped_library() -> Library:
    return Library(_built(_shipped_entries()))


def _built(entries: SheetEntries) -> Mapping[str, Mapping[str, kinds.Sheet]]:
    sheets: dict[str, dict[str, kinds.Sheet]] = {kind: {} for kind in kinds.KINDS}
    for (kind, id_), entry in entries.items():
        sheets[kind][id_] = _sheet(entry)
    return MappingProxyType({kind: MappingProxyType(rows) for kind, rows in sheets.items()})


def _sheet(entry: SheetEntry) -> kinds.Sheet:
    cls = kinds.KINDS[entry.kind]
    values: dict[str, Any] = {"tags": (), "packs": (), "hazards": (), "cautions": (), **entry.fields}
    if "tack_earliest_s" in values:
        values["tack_window_s"] = (values.pop("tack_earliest_s"), values.pop("tack_latest_s"))
    names = {f.name for f in fields(cls)}
    said = tuple(sorted(entry.sources.items()))
    kept: dict[str, Any] = {
        key: WORDS[key](value) if key in WORDS else value for key, value in values.items() if key in names
    }
    return cls(**{**kept, "id": entry.id, "own_file": entry.own_file, "provenance": said})
