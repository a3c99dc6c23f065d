"""Whether original, sealer, release, rubber, resin, powder and shell go together, by the rules of the data file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from moldwright.materials.kinds import Sheet, TwoPart
from moldwright.materials.library import Library
from moldwright.materials.originals import OriginalMaterial
from moldwright.materials.originals import original_material as class_of
from moldwright.materials.shipped import shipped

NONE_WORDS = ("", "none", "no")
WORST_FIRST = {"stop": 0, "doubt": 1, "clear": 2}
MUST_BE_KNOWN = (("original", "rubber"), ("rubber", "resin"), ("rubber", "shell"), ("resin", "powder"))


@dataclass(frozen=True, slots=True)
class Finding:
    """One word on two things that meet. `severity`: "clear", "doubt" or "stop"; `patch_test`: try it first, small.

    "clear" says only that no rule speaks against it; it does not say that anything is safe.
    """

    severity: str
    between: str
    reason: str
    remedy: str
    source: str
    patch_test: bool


@dataclass(frozen=True, slots=True)
class _Thing:
    name: str
    tags: frozenset[str]


@dataclass(frozen=True, slots=True)
class _Rule:
    pair: tuple[str, str]
    when: tuple[tuple[str, frozenset[str]], ...]
    severity: str
    reason: str
    remedy: str
    source: str
    patch_test: bool

    def holds(self, things: Mapping[str, _Thing]) -> bool:
        """Whether every slot of the rule has one of its tags among the things."""
        return all(things[slot].tags & tags for slot, tags in self.when)


def judge(
    original_material: str,
    sealer: str,
    release: str,
    rubber: str,
    resin: str,
    powder: str,
    shell: str,
    library: Library,
) -> tuple[Finding, ...]:
    """Every finding on what meets in this job, the worst first. Doubt means a patch test before the mold.

    Parameters
    ----------
    original_material : what the original is made of; a word that is not known counts as unknown.
    sealer : id, or "" where there is none.
    release : id, or "" where there is none.
    rubber : id.
    resin : id.
    powder : id, or "" where there is none.
    shell : id.
    library : where the ids are looked up; an unknown one is refused.

    >>> from moldwright.materials import library
    >>> judge("sulfur clay", "", "", "latex", "polyester", "", "printed", library())[0].remedy
    'Take a silicone mold, or cast gypsum.'

    Source: the rules' own, rule by rule.
    """
    material = class_of(original_material)
    things = {
        "original": _Thing(material.name, frozenset((material.name, *material.tags))),
        "sealer": _thing("no sealer", sealer, library.sealer),
        "release": _thing("no release", release, library.release),
        "rubber": _thing("no rubber", rubber, library.rubber),
        "resin": _thing("no resin", resin, library.resin),
        "powder": _thing("no powder", powder, library.powder),
        "shell": _thing("no shell", shell, library.shell),
    }
    return _sorted((*_unnamed(original_material, material), *_found(things)))


def _thing(nothing: str, asked: str, look_up: Any) -> _Thing:
    if asked.strip().casefold() in NONE_WORDS:
        return _Thing(nothing, frozenset(("none",)))
    sheet: Sheet = look_up(asked)
    return _Thing(sheet.name, frozenset(("some", sheet.id, *sheet.tags, *_implied(sheet))))


def _implied(sheet: Sheet) -> tuple[str, ...]:
    """Tags that follow from the chemistry and cannot be taken away by a shop's sheet."""
    if not isinstance(sheet, TwoPart):
        return ()
    isocyanate = ("isocyanate",) if sheet.isocyanate_part else ()
    return sheet.chemistry, *isocyanate, *shipped("compatibility")["implied"].get(sheet.chemistry, ())


def _unnamed(asked: str, material: OriginalMaterial) -> tuple[Finding, ...]:
    if material.known:
        return ()
    near = f" Nearest known: {', '.join(material.near)}." if material.near else ""
    reason = f'"{asked[:60]}" is no class of originals known here, so it counts as unknown.'
    remedy = f"Name its class in the commission.{near}"
    return (Finding("doubt", "original", reason, remedy, "computed: no such class", True),)


def _found(things: Mapping[str, _Thing]) -> tuple[Finding, ...]:
    held = [rule for rule in _rules() if rule.holds(things)]
    spoken = {rule.pair for rule in held}
    doubted = {rule.pair for rule in held if rule.severity != "clear"}
    said = [_finding(rule, things) for rule in held if rule.severity != "clear" or rule.pair not in doubted]
    silent = [pair for pair in MUST_BE_KNOWN if pair not in spoken and not _empty(pair, things)]
    return (*said, *(_not_known(pair, things) for pair in silent))


def _empty(pair: tuple[str, str], things: Mapping[str, _Thing]) -> bool:
    return any("none" in things[slot].tags for slot in pair)


def _finding(rule: _Rule, things: Mapping[str, _Thing]) -> Finding:
    return Finding(rule.severity, _between(rule.pair, things), rule.reason, rule.remedy, rule.source, rule.patch_test)


def _not_known(pair: tuple[str, str], things: Mapping[str, _Thing]) -> Finding:
    reason = "No rule speaks of these two together."
    return Finding("doubt", _between(pair, things), reason, "Make a patch test.", "computed: no rule", True)


def _between(pair: tuple[str, str], things: Mapping[str, _Thing]) -> str:
    """ "plaster + mold latex, one part"; a slot that is no material of the commission keeps its word."""
    return " + ".join(things[slot].name if slot in things else slot for slot in pair)


def _sorted(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    return tuple(sorted(findings, key=lambda f: (WORST_FIRST[f.severity], not f.patch_test)))


@lru_cache(maxsize=1)
def _rules() -> tuple[_Rule, ...]:
    return tuple(_rule(row) for row in shipped("compatibility")["rule"])


def _rule(row: dict[str, Any]) -> _Rule:
    when = tuple((slot, frozenset(tags)) for slot, tags in row["when"].items())
    first, second = row["pair"]
    words = (row["severity"], row["reason"], row["remedy"], row["source"])
    return _Rule((first, second), when, *words, row["patch_test"])
