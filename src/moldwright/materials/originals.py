"""What originals are made of, as plain classes."""

from __future__ import annotations

from dataclasses import dataclass, replace

from moldwright.materials.nearest import nearest
from moldwright.materials.shipped import shipped
from moldwright.materials.spoken import heard, several
from moldwright.materials.words import Tag
from moldwright.ranges import Range

UNKNOWN = "unknown"
ORIGINAL = "original"
"""What these are called beside the kinds of sheets."""


@dataclass(frozen=True, slots=True)
class OriginalMaterial:
    """A class of originals and the density of a solid piece of it.

    `density` : its range at 90 %, None where a class is too loose to weigh a volume by. `known` False: the word is none
    of ours and counts as unknown; `near` are the nearest. `also`: other words for it.
    """

    name: str
    tags: tuple[Tag, ...]
    density_g_ml: float
    known: bool = True
    near: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    density: Range | None = None


def original_material(asked: str) -> OriginalMaterial:
    """The class of a material as a person names it; a word that is not known counts as unknown, never as sound; one
    that only several classes share is refused with them.

    Parameters
    ----------
    asked : "plastic", "resin print", "sulphur clay", ...

    >>> original_material("Resin Print").name, original_material("moon rock").tags
    ('photopolymer print', (<Tag.UNKNOWN: 'unknown'>,))

    Source: common practice, no source.
    """
    names = {name: (name, *row["also"]) for name, row in shipped("originals").items()}
    told = heard(asked, ORIGINAL, names)
    if asked.strip() in shipped("originals")[UNKNOWN]["also"] or (told.whole and len(told.ids) == 1):
        return _class(told.ids[0] if told.whole else UNKNOWN)
    if len(told.ids) > 1:
        raise several(asked, [f'"{name}"' for name in (*told.ids, UNKNOWN)], "what the original is made of")
    spelled = {spelling: name for name, named in names.items() for spelling in named if name != UNKNOWN}
    near = (*told.ids, *(spelled[hit] for hit in nearest(asked, spelled)))
    return replace(_class(UNKNOWN), known=False, near=tuple(dict.fromkeys(near)))


def original_materials() -> tuple[OriginalMaterial, ...]:
    """Every class of originals, as a commission may name it."""
    return tuple(_class(name) for name in shipped("originals"))


def _class(name: str) -> OriginalMaterial:
    row = shipped("originals")[name]
    also = tuple(word for word in row["also"] if len(word) > 1)
    likely, ends = float(row["density_g_ml"]), row.get("density_range_g_ml")
    density = Range(float(ends[0]), likely, float(ends[1])) if ends is not None else None
    return OriginalMaterial(name, tuple(map(Tag, row["tags"])), likely, also=also, density=density)
