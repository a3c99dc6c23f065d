"""Which sheets the commission means."""

from __future__ import annotations

from dataclasses import dataclass, replace

from moldwright.commission.orders import Commission, MoldOrder
from moldwright.errors import InputRefused
from moldwright.materials import Library, Powder, Release, Resin, Rubber, Sealer, Shell
from moldwright.materials.figure import Figure
from moldwright.materials.kinds import Thixotrope, Wax
from moldwright.materials.originals import OriginalMaterial, original_material
from moldwright.materials.rules import release_each_cast
from moldwright.materials.words import LEFT_OUT, Chemistry, Tag
from moldwright.ranges import Range
from moldwright.units import show_length
from moldwright.ways import Change

USUAL_RELEASE, LATEX_RELEASE = "petroleum-jelly", "soap-release"
"""Without solvent, so that few originals are harmed by it; latex swells in grease: common practice, no source."""
USUAL_SEALER, URETHANE_SEALER = "shellac", "acrylic"
"""For a porous original; under urethane rubber a film without alcohol: common practice, no source."""

SILICONE_THIXOTROPE, URETHANE_THIXOTROPE = "silicone-thixotrope", "urethane-thixotrope"
LATEX_THIXOTROPE = "latex-thickener"
"""What thickens a coat, by the rubber's class."""
WALL_ORDERED = "the order"
"""Where the wall of a printed shell is told."""
SHELL_WAX, FINISH_WAX = "paste-wax", "dark-wax"
"""Wax on rubber and shell, wax on the cast."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """The sheets of one job and what its original is made of; None where the commission leaves a material out.

    `release` lies between original and rubber, `cast_release` in the mold before each cast.
    """

    rubber: Rubber
    resin: Resin
    backfill: Resin | None
    powder: Powder | None
    shell: Shell
    release: Release | None
    sealer: Sealer | None
    cast_release: Release | None
    material: OriginalMaterial
    thixotrope: Thixotrope
    shell_wax: Wax
    finish_wax: Wax


def chosen(commission: Commission, library: Library) -> Chosen:
    """The sheets that the commission names, with the usual release and sealer where it names none.

    Parameters
    ----------
    commission : the order
    library : all sheets

    Raises InputRefused ("unknown-material") with the nearest ids, ("wall-of-laid-shell") where the wall of a print is
    told of a shell that is laid by hand. Source: common practice, no source.
    """
    mold, cast = commission.mold, commission.cast
    rubber = library.rubber(mold.rubber)
    material = original_material(commission.original.material)
    resin = library.resin(cast.resin)
    backfill = library.resin(cast.backfill) if named(cast.backfill) and not cast.solid else None
    return Chosen(
        rubber=rubber,
        resin=resin,
        backfill=backfill,
        powder=library.powder(cast.powder) if named(cast.powder) else None,
        shell=_shell(mold, library),
        release=_release(mold.release, rubber, library),
        sealer=_sealer(mold.sealer, material, rubber, library),
        cast_release=_cast_release(cast.release, rubber, (resin, backfill), library),
        material=material,
        thixotrope=_thixotrope(rubber, library),
        shell_wax=library.wax(SHELL_WAX),
        finish_wax=library.wax(FINISH_WAX),
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
    return word.strip().lower() not in LEFT_OUT | {""}


def _shell(mold: MoldOrder, library: Library) -> Shell:
    """The named sheet, its wall as thick as the order tells: whatever asks the sheet gets that."""
    shell, wall_mm = library.shell(mold.shell), mold.printed_wall_mm
    if wall_mm is None:
        return shell
    if shell.making.by_hand:
        remedy = "Leave it out: what is laid by hand is as thick as its layers; or choose a printed shell"
        told = f"{show_length(wall_mm, step_mm=0.1)}, {shell.name}"
        raise InputRefused("wall-of-laid-shell", told, "a printed shell", "", remedy, Change("mold.printed-wall"))
    return replace(shell, thickness_mm=Figure(Range.exactly(wall_mm), shell.thickness_mm.unit, WALL_ORDERED))


def _release(word: str, rubber: Rubber, library: Library) -> Release | None:
    if word.strip():
        return library.release(word) if named(word) else None
    return library.release(LATEX_RELEASE if rubber.chemistry is Chemistry.LATEX else USUAL_RELEASE)


def _cast_release(word: str, rubber: Rubber, resins: tuple[Resin, Resin | None], library: Library) -> Release | None:
    """What the maker names; else the usual one where a resin bonds to the rubber, none where both let go."""
    if word.strip():
        return library.release(word) if named(word) else None
    usual = [release_each_cast(rubber, resin) for resin in resins if resin is not None]
    return next((library.release(id_) for id_ in usual if id_), None)


def _thixotrope(rubber: Rubber, library: Library) -> Thixotrope:
    """The agent that thickens this class of rubber."""
    chemistry = rubber.chemistry
    usual = URETHANE_THIXOTROPE if chemistry is Chemistry.URETHANE_RUBBER else SILICONE_THIXOTROPE
    return library.thixotrope(LATEX_THIXOTROPE if chemistry is Chemistry.LATEX else usual)


def _sealer(word: str, material: OriginalMaterial, rubber: Rubber, library: Library) -> Sealer | None:
    """The usual sealer for what is porous; for all else, and for what is not known, only what the maker names."""
    if word.strip():
        return library.sealer(word) if named(word) else None
    if Tag.POROUS not in material.tags:
        return None
    return library.sealer(URETHANE_SEALER if rubber.isocyanate_part else USUAL_SEALER)
