"""What originals are made of, as plain classes."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.materials.nearest import nearest
from moldwright.materials.shipped import shipped
from moldwright.materials.words import Tag

UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class OriginalMaterial:
    """A class of originals and the density of a solid piece of it.

    `known` False: the word is none of ours and counts as unknown; `near` are the nearest.
    """

    name: str
    tags: tuple[Tag, ...]
    density_g_ml: float
    known: bool = True
    near: tuple[str, ...] = ()


def original_material(asked: str) -> OriginalMaterial:
    """The class of a material as a person names it; a word that is not known counts as unknown, never as sound.

    Parameters
    ----------
    asked : "plastic", "resin print", "sulphur clay", ...

    >>> original_material("Resin Print").name, original_material("moon rock").tags
    ('photopolymer print', (<Tag.UNKNOWN: 'unknown'>,))

    Source: common practice, no source.
    """
    wanted = " ".join(asked.casefold().replace("_", " ").split())
    for name, row in shipped("originals").items():
        if wanted in (name, name.replace(" ", "-"), *row["also"]):
            return OriginalMaterial(name, tuple(map(Tag, row["tags"])), float(row["density_g_ml"]))
    words = [name for name in shipped("originals") if name != UNKNOWN]
    density = float(shipped("originals")[UNKNOWN]["density_g_ml"])
    return OriginalMaterial(UNKNOWN, (Tag.UNKNOWN,), density, known=False, near=nearest(wanted, words))
