"""Names of materials as people write them: any letter case, order of words, hyphens, commas, one or many."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.materials.shipped import shipped
from moldwright.text.shown import short

LONGEST_READ = 200
"""Of endless names only the beginning is read: our own."""
Words = frozenset[str]
_WORD = re.compile(r"[^\W_]+")
_FREE = re.compile(r"([^\W_]+)[\s-]+free\b|\b(?:without|no|non|free of|free from)[\s-]+([^\W_]+)")
_SHORE = re.compile(r"\b(?:shore[\s-]*)?a[\s-]*(\d+)\b|\b(\d+)[\s-]*(?:shore[\s-]*)?a\b")
_JOINED = re.compile(r"\b(\d)-(d)\b")


@dataclass(frozen=True, slots=True)
class Heard:
    """What a name may mean: ids of the known, and whether every word of one of their names was written."""

    ids: tuple[str, ...]
    whole: bool


def words_of(text: str) -> Words:
    """The words of a name, each in one spelling: "sulphur-free oil clays" -> clay, oil, sulfur-free.

    Parameters
    ----------
    text : what was written; of endless ones only the beginning is read.

    >>> words_of("Oil clay, sulfur-free") == words_of("sulphur free oil clays")
    True
    >>> sorted(words_of("Addition-cure silicone, Shore A 10, slow"))
    ['a10', 'addition', 'cure', 'silicone', 'slow']
    """
    said = _JOINED.sub(r"\1\2", text[:LONGEST_READ].casefold())
    said = _SHORE.sub(lambda found: f" a{found[1] or found[2]} ", said)
    free = [_one(found[1] or found[2]) + "-free" for found in _FREE.finditer(said)]
    return frozenset((*free, *(_one(word) for word in _WORD.findall(_FREE.sub(" ", said)))))


def _one(word: str) -> str:
    """A word in one spelling, without the s of many."""
    same: Mapping[str, str] = shipped("spoken")["same"]
    if word in same:
        return same[word]
    single = word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")) else word
    return same.get(single, single)


def heard(asked: str, kind: str, names: Mapping[str, Iterable[str]]) -> Heard:
    """Which of the known a name means: those all of whose words were written, else those with every word written.

    Parameters
    ----------
    asked : what was written.
    kind : the kind of thing, whose own words say nothing more.
    names : the names of each, by its id.

    >>> heard("Agent, bronze powder", "powder", {"bronze": ["bronze"], "bronze-flake": ["bronze flake"]})
    Heard(ids=(), whole=False)
    >>> heard("powder of bronze", "powder", {"bronze": ["bronze"], "bronze-flake": ["bronze flake"]})
    Heard(ids=('bronze',), whole=True)
    >>> heard("silicone", "rubber", {"a": ["silicone, slow"], "b": ["silicone, fast"]})
    Heard(ids=('a', 'b'), whole=False)
    """
    more = shipped("spoken")["more"]
    known = {id_: [words_of(name) for name in named] for id_, named in names.items()}
    written = words_of(asked)
    for wanted in (written, written - {*more["any"]}, written - {*more["any"], *more[kind]}):
        whole = tuple(id_ for id_, named in known.items() if wanted and wanted in named)
        if whole:
            return Heard(whole, True)
    told = written - {*more["any"], *more[kind]} or written
    return Heard(tuple(id_ for id_, named in known.items() if told and any(told <= each for each in named)), False)


def left_out(kind: str) -> str:
    """How a commission leaves a kind of thing out; empty where it cannot.

    Parameters
    ----------
    kind : the kind of thing.

    >>> left_out("sealer"), left_out("rubber")
    ('For no sealer: ⟦mold.sealer="none"⟧.', '')
    """
    said: Mapping[str, str] = shipped("spoken")["none"]
    return said.get(kind, "")


def several(asked: str, choices: Sequence[str], limit: str) -> InputRefused:
    """The refusal of a name that may mean several, with what to write for each.

    Parameters
    ----------
    asked : what was written.
    choices : what to write instead.
    limit : what is wanted.
    """
    told = f"Write {'it as' if len(choices) == 1 else 'one of:'} {'; '.join(choices)}."
    return InputRefused("material-unclear", short(asked), limit, "", told)
