"""Whether original, sealer, release, rubber, resin, powder and shell go together, by the rules of the data file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from moldwright.materials.kinds import Sheet
from moldwright.materials.library import Library
from moldwright.materials.originals import OriginalMaterial
from moldwright.materials.originals import original_material as class_of
from moldwright.materials.rules import Filling, Pair, Rule, Slot, Verdict, filled, rules
from moldwright.materials.words import Presence


class Trial(StrEnum):
    """A small test of two things that meet, before the whole is made: which pair it tries.

    Rubber on the treated original, resin on cured rubber, powder in the resin, the shell's material on cured rubber.
    """

    ORIGINAL = "rubber on original"
    RESIN = "resin on rubber"
    POWDER = "powder in resin"
    SHELL = "shell on rubber"


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
    patch_test : try it first, small; `trial` says what is tried.
    told_by : the caution of a step that says it already, "" for none.
    near : the known classes nearest to a material that is not known.
    barrier : its remedy asks for a sealer that keeps the two apart, not for one that closes pores.
    """

    rule: str
    verdict: Verdict
    slots: Pair
    names: tuple[str, str]
    source: str
    patch_test: bool
    told_by: str = ""
    near: tuple[str, ...] = ()
    barrier: bool = False

    @property
    def trial(self) -> Trial | None:
        """Which test tries these two, None where none is asked for."""
        if not self.patch_test:
            return None
        if Slot.POWDER in self.slots:
            return Trial.POWDER
        if Slot.RESIN in self.slots or Slot.CAST_RELEASE in self.slots:
            return Trial.RESIN
        return Trial.SHELL if Slot.SHELL in self.slots else Trial.ORIGINAL


def judge(
    original_material: str,
    sealer: str,
    release: str,
    rubber: str,
    resin: str,
    powder: str,
    shell: str,
    library: Library,
    cast_release: str = "",
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
    cast_release : id of what goes into the mold before each cast, or "" where there is none.

    >>> from moldwright.materials import library
    >>> judge("sulfur clay", "", "", "latex", "polyester", "", "printed", library())[0].rule
    'latex-polyester'

    Source: the rules' own, rule by rule.
    """
    material = class_of(original_material)
    things = {
        Slot.ORIGINAL: Filling(material.name, frozenset(material.tags)),
        Slot.SEALER: _thing("no sealer", sealer, library.sealer),
        Slot.RELEASE: _thing("no release", release, library.release),
        Slot.RUBBER: _thing("no rubber", rubber, library.rubber),
        Slot.RESIN: _thing("no resin", resin, library.resin),
        Slot.CAST_RELEASE: _thing("no release in the mold", cast_release, library.release),
        Slot.POWDER: _thing("no powder", powder, library.powder),
        Slot.SHELL: _thing("no shell", shell, library.shell),
    }
    return _sorted((*_unnamed(original_material, material), *_found(things)))


def _thing(nothing: str, asked: str, look_up: Any) -> Filling:
    if not asked:
        return Filling(nothing, frozenset((Presence.NONE,)))
    sheet: Sheet = look_up(asked)
    return filled(sheet)


def _unnamed(asked: str, material: OriginalMaterial) -> tuple[Finding, ...]:
    if material.known:
        return ()
    pair, names = (Slot.ORIGINAL, Slot.RUBBER), (asked[:60], "")
    return (Finding(UNNAMED, Verdict.DOUBT, pair, names, "computed: no such class", True, near=material.near),)


def _found(things: Mapping[Slot, Filling]) -> tuple[Finding, ...]:
    held = [rule for rule in rules() if rule.holds(things)]
    spoken = {rule.pair for rule in held}
    doubted = {rule.pair for rule in held if rule.verdict is not Verdict.CLEAR}
    said = [_finding(rule, things) for rule in held if rule.verdict is not Verdict.CLEAR or rule.pair not in doubted]
    silent = [pair for pair in MUST_BE_KNOWN if pair not in spoken and not _empty(pair, things)]
    return (*said, *(_not_known(pair, things) for pair in silent))


def _empty(pair: Pair, things: Mapping[Slot, Filling]) -> bool:
    return any(Presence.NONE in things[slot].traits for slot in pair)


def _finding(rule: Rule, things: Mapping[Slot, Filling]) -> Finding:
    names = _names(rule.pair, things)
    return Finding(
        rule.id,
        rule.verdict,
        rule.pair,
        names,
        rule.source,
        rule.patch_test,
        rule.told_by,
        barrier=rule.barrier,
    )


def _not_known(pair: Pair, things: Mapping[Slot, Filling]) -> Finding:
    return Finding(NO_RULE, Verdict.DOUBT, pair, _names(pair, things), "computed: no rule", True)


def _names(pair: Pair, things: Mapping[Slot, Filling]) -> tuple[str, str]:
    one, two = (things[slot].name if slot in things else str(slot) for slot in pair)
    return one, two


def _sorted(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    return tuple(sorted(findings, key=lambda f: (WORST_FIRST[f.verdict], not f.patch_test)))
