"""The rules of what may touch what, as the data file has them, and what each asks of the things of a job."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Any

from moldwright.materials.kinds import Resin, Rubber, Sheet, TwoPart
from moldwright.materials.shipped import shipped
from moldwright.materials.words import Presence, Tag, Trait, trait


class Verdict(StrEnum):
    """What a finding says, the worst first; "clear" only that no rule speaks against it, never that it is safe."""

    STOP = "stop"
    DOUBT = "doubt"
    CLEAR = "clear"


class Slot(StrEnum):
    """A place of the job that one thing fills; the last four are no material of a commission.

    `release` lies between original and rubber, `cast-release` in the mold before each cast."""

    ORIGINAL = "original"
    SEALER = "sealer"
    RELEASE = "release"
    RUBBER = "rubber"
    RESIN = "resin"
    CAST_RELEASE = "cast-release"
    POWDER = "powder"
    SHELL = "shell"
    CUPS = "cups"
    GLOVES = "gloves"
    TOOLS = "tools"
    ISOPROPANOL = "isopropanol"


Pair = tuple[Slot, Slot]


@dataclass(frozen=True, slots=True)
class Filling:
    """What fills a slot: its name and all that a rule may ask of it."""

    name: str
    traits: frozenset[Trait]


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the data file.

    Parameters
    ----------
    id : under which its words stand.
    pair : the two places it is about.
    when : for each slot the traits of which its thing must have one.
    verdict, source, patch_test, told_by, barrier : as a finding has them.
    release_each_cast : the usual release in the mold where rubber and resin bond, "" where they let go.
    """

    id: str
    pair: Pair
    when: tuple[tuple[Slot, frozenset[Trait]], ...]
    verdict: Verdict
    source: str
    patch_test: bool
    told_by: str
    barrier: bool
    release_each_cast: str

    def holds(self, things: Mapping[Slot, Filling]) -> bool:
        """Whether every slot of the rule has one of its traits among the things."""
        return all(things[slot].traits & traits for slot, traits in self.when)

    def binds(self, things: Mapping[Slot, Filling]) -> bool:
        """Whether it asks for a release before every cast of these two, whatever the job has for a release."""
        asked = [things[slot].traits & traits for slot, traits in self.when if slot in things]
        return bool(self.release_each_cast) and len(asked) == len(things) and all(asked)


@dataclass(frozen=True, slots=True)
class RuleWords:
    """What a rule says, with {one} and {two} for the names of the two things: why, and what to do."""

    reason: str
    remedy: str


def release_each_cast(rubber: Rubber, resin: Resin) -> str:
    """The usual release before every cast where this resin bonds to this rubber, by its id; "" where it lets go.

    Parameters
    ----------
    rubber, resin : their sheets.

    >>> from moldwright.materials import library
    >>> known = library()
    >>> release_each_cast(known.rubber("urethane-a30"), known.resin("urethane-fast"))
    'wax-release'

    Source: the rules' own, rule by rule.
    """
    things = {Slot.RUBBER: filled(rubber), Slot.RESIN: filled(resin)}
    return next((rule.release_each_cast for rule in rules() if rule.binds(things)), "")


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


def filled(sheet: Sheet) -> Filling:
    """A sheet as what fills a slot.

    Parameters
    ----------
    sheet : any sheet of the library.
    """
    return Filling(sheet.name, frozenset((Presence.SOME, *sheet.tags, *implied_traits(sheet))))


def rule_words() -> Mapping[str, RuleWords]:
    """What each rule says, by its id.

    >>> rule_words()["latex-polyester"].remedy
    'Take a silicone mold, or cast gypsum.'

    Source: the rules' own, rule by rule.
    """
    rows = (*shipped("compatibility")["rule"], *shipped("compatibility")["unruled"])
    return {row["id"]: RuleWords(row["reason"], row["remedy"]) for row in rows}


@lru_cache(maxsize=1)
def rules() -> tuple[Rule, ...]:
    """All rules, in the data's order."""
    return tuple(_rule(row) for row in shipped("compatibility")["rule"])


def _rule(row: dict[str, Any]) -> Rule:
    when = tuple((Slot(slot), frozenset(map(trait, words))) for slot, words in row["when"].items())
    first, second = (Slot(slot) for slot in row["pair"])
    return Rule(
        row["id"],
        (first, second),
        when,
        Verdict(row["severity"]),
        row["source"],
        row["patch_test"],
        row.get("told_by", ""),
        row.get("barrier", False),
        row.get("release_each_cast", ""),
    )
