"""Whether original, sealer, release, rubber, resin, powder and shell go together, by the rules of the data file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Any

from moldwright.materials.kinds import Sheet, TwoPart
from moldwright.materials.library import Library
from moldwright.materials.originals import OriginalMaterial
from moldwright.materials.originals import original_material as class_of
from moldwright.materials.shipped import shipped
from moldwright.materials.words import Presence, Tag, Trait, trait


class Verdict(StrEnum):
    """What a finding says, the worst first; "clear" only that no rule speaks against it, never that it is safe."""

    STOP = "stop"
    DOUBT = "doubt"
    CLEAR = "clear"


class Slot(StrEnum):
    """A place of the job that one thing fills; the last four are no material of a commission."""

    ORIGINAL = "original"
    SEALER = "sealer"
    RELEASE = "release"
    RUBBER = "rubber"
    RESIN = "resin"
    POWDER = "powder"
    SHELL = "shell"
    CUPS = "cups"
    GLOVES = "gloves"
    TOOLS = "tools"
    ISOPROPANOL = "isopropanol"


Pair = tuple[Slot, Slot]
WORST_FIRST = {verdict: place for place, verdict in enumerate(Verdict)}
MUST_BE_KNOWN: tuple[Pair, ...] = (
    (Slot.ORIGINAL, Slot.RUBBER),
    (Slot.RUBBER, Slot.RESIN),
    (Slot.RUBBER, Slot.SHELL),
    (Slot.RESIN, Slot.POWDER),
)
NO_RULE, UNNAMED = "no-rule", "original-unnamed"


@dataclass(frozen=True, slots=True)
class Finding:
    """One word on two things that meet.

    Parameters
    ----------
    rule : the rule's id; its reason and remedy stand under it in the data, see `rule_words`.
    verdict : what it says.
    slots : the two places it is about.
    names : what fills them here; a slot that is no material of the commission keeps its word.
    source : the rule's own.
    patch_test : try it first, small.
    told_by : the caution of a step that says it already, "" for none.
    near : the known classes nearest to a material that is not known.
    """

    rule: str
    verdict: Verdict
    slots: Pair
    names: tuple[str, str]
    source: str
    patch_test: bool
    told_by: str = ""
    near: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Thing:
    name: str
    traits: frozenset[Trait]


@dataclass(frozen=True, slots=True)
class _Rule:
    id: str
    pair: Pair
    when: tuple[tuple[Slot, frozenset[Trait]], ...]
    verdict: Verdict
    source: str
    patch_test: bool
    told_by: str

    def holds(self, things: Mapping[Slot, _Thing]) -> bool:
        """Whether every slot of the rule has one of its traits among the things."""
        return all(things[slot].traits & traits for slot, traits in self.when)


@dataclass(frozen=True, slots=True)
class RuleWords:
    """What a rule says, with {one} and {two} for the names of the two things: why, and what to do."""

    reason: str
    remedy: str


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
    >>> judge("sulfur clay", "", "", "latex", "polyester", "", "printed", library())[0].rule
    'latex-polyester'

    Source: the rules' own, rule by rule.
    """
    material = class_of(original_material)
    things = {
        Slot.ORIGINAL: _Thing(material.name, frozenset(material.tags)),
        Slot.SEALER: _thing("no sealer", sealer, library.sealer),
        Slot.RELEASE: _thing("no release", release, library.release),
        Slot.RUBBER: _thing("no rubber", rubber, library.rubber),
        Slot.RESIN: _thing("no resin", resin, library.resin),
        Slot.POWDER: _thing("no powder", powder, library.powder),
        Slot.SHELL: _thing("no shell", shell, library.shell),
    }
    return _sorted((*_unnamed(original_material, material), *_found(things)))


def _thing(nothing: str, asked: str, look_up: Any) -> _Thing:
    if not asked:
        return _Thing(nothing, frozenset((Presence.NONE,)))
    sheet: Sheet = look_up(asked)
    return _Thing(sheet.name, frozenset((Presence.SOME, *sheet.tags, *implied_traits(sheet))))


def implied_traits(sheet: Sheet) -> tuple[Trait, ...]:
    """Traits that follow from the chemistry and cannot be taken away by a shop's sheet.

    Parameters
    ----------
    sheet : any sheet of the library.

    Source: the classes' chemistry, common practice, no source.
    """
    if not isinstance(sheet, TwoPart):
        return ()
    isocyanate = (Tag.ISOCYANATE,) if sheet.isocyanate_part else ()
    words = shipped("compatibility")["implied"].get(sheet.chemistry, ())
    return sheet.chemistry, *isocyanate, *map(trait, words)


def _unnamed(asked: str, material: OriginalMaterial) -> tuple[Finding, ...]:
    if material.known:
        return ()
    pair, names = (Slot.ORIGINAL, Slot.RUBBER), (asked[:60], "")
    return (Finding(UNNAMED, Verdict.DOUBT, pair, names, "computed: no such class", True, near=material.near),)


def _found(things: Mapping[Slot, _Thing]) -> tuple[Finding, ...]:
    held = [rule for rule in _rules() if rule.holds(things)]
    spoken = {rule.pair for rule in held}
    doubted = {rule.pair for rule in held if rule.verdict is not Verdict.CLEAR}
    said = [_finding(rule, things) for rule in held if rule.verdict is not Verdict.CLEAR or rule.pair not in doubted]
    silent = [pair for pair in MUST_BE_KNOWN if pair not in spoken and not _empty(pair, things)]
    return (*said, *(_not_known(pair, things) for pair in silent))


def _empty(pair: Pair, things: Mapping[Slot, _Thing]) -> bool:
    return any(Presence.NONE in things[slot].traits for slot in pair)


def _finding(rule: _Rule, things: Mapping[Slot, _Thing]) -> Finding:
    names = _names(rule.pair, things)
    return Finding(rule.id, rule.verdict, rule.pair, names, rule.source, rule.patch_test, rule.told_by)


def _not_known(pair: Pair, things: Mapping[Slot, _Thing]) -> Finding:
    return Finding(NO_RULE, Verdict.DOUBT, pair, _names(pair, things), "computed: no rule", True)


def _names(pair: Pair, things: Mapping[Slot, _Thing]) -> tuple[str, str]:
    one, two = (things[slot].name if slot in things else str(slot) for slot in pair)
    return one, two


def _sorted(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    return tuple(sorted(findings, key=lambda f: (WORST_FIRST[f.verdict], not f.patch_test)))


def rule_words() -> Mapping[str, RuleWords]:
    """What each rule says, by its id.

    >>> rule_words()["latex-polyester"].remedy
    'Take a silicone mold, or cast gypsum.'

    Source: the rules' own, rule by rule.
    """
    rows = (*shipped("compatibility")["rule"], *shipped("compatibility")["unruled"])
    return {row["id"]: RuleWords(row["reason"], row["remedy"]) for row in rows}


@lru_cache(maxsize=1)
def _rules() -> tuple[_Rule, ...]:
    return tuple(_rule(row) for row in shipped("compatibility")["rule"])


def _rule(row: dict[str, Any]) -> _Rule:
    when = tuple((Slot(slot), frozenset(map(trait, words))) for slot, words in row["when"].items())
    first, second = (Slot(slot) for slot in row["pair"])
    verdict, told_by = Verdict(row["severity"]), row.get("told_by", "")
    return _Rule(row["id"], (first, second), when, verdict, row["source"], row["patch_test"], told_by)
