"""Which sheets the commission means."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.job.commission import Commission
from moldwright.materials import Library, Powder, Release, Resin, Rubber, Sealer, Shell

NONE = ("none", "-", "no")
"""How a maker leaves a release, a sealer, a powder or a back-fill out."""
USUAL_RELEASE = "wax-release"
"""Between a sealed original and any rubber: common practice, no source."""
LATEX_RELEASE = "soap-release"
"""Under latex, which wax and grease soften: common practice, no source."""
USUAL_SEALER = "shellac"
"""For a porous original: common practice, no source."""
POROUS = ("plaster", "gypsum", "wood", "stone", "concrete", "clay", "terracotta", "paper", "card", "plasticine", "foam")
"""Words in the original's material that ask for a sealer: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """The sheets of one job; None where the commission leaves a material out."""

    rubber: Rubber
    resin: Resin
    backfill: Resin | None
    powder: Powder | None
    shell: Shell
    release: Release | None
    sealer: Sealer | None


def chosen(commission: Commission, library: Library) -> Chosen:
    """The sheets that the commission names, with the usual release and sealer where it names none.

    Parameters
    ----------
    commission : the order
    library : all sheets

    Raises InputRefused ("unknown-material") with the nearest ids. Source: common practice, no source.
    """
    mold, cast = commission.mold, commission.cast
    rubber = library.rubber(mold.rubber)
    return Chosen(
        rubber=rubber,
        resin=library.resin(cast.resin),
        backfill=library.resin(cast.backfill) if named(cast.backfill) else None,
        powder=library.powder(cast.powder) if named(cast.powder) else None,
        shell=library.shell(mold.shell.strip().lower().replace(" ", "-")),
        release=_release(mold.release, rubber, library),
        sealer=_sealer(mold.sealer, commission.original.material, library),
    )


def named(word: str) -> bool:
    """Whether a material is named: not left empty and not "none".

    Parameters
    ----------
    word : what the commission says

    Source: house rule.

    >>> named("bronze"), named("none"), named("")
    (True, False, False)
    """
    return word.strip().lower() not in ("", *NONE)


def _release(word: str, rubber: Rubber, library: Library) -> Release | None:
    if word.strip():
        return library.release(word) if named(word) else None
    return library.release(LATEX_RELEASE if rubber.chemistry == "latex" else USUAL_RELEASE)


def _sealer(word: str, material: str, library: Library) -> Sealer | None:
    if word.strip():
        return library.sealer(word) if named(word) else None
    porous = any(name in material.lower() for name in POROUS)
    return library.sealer(USUAL_SEALER) if porous else None
