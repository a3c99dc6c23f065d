"""The job's quantities in words, as a step's lines quote them."""

from __future__ import annotations

from math import ceil

from moldwright.steps.context import StepContext
from moldwright.steps.masses import lift_kg, mixed_g, powder_g, show_kg
from moldwright.steps.waits import named_wait_s
from moldwright.units import show_length, show_mass, show_range, show_temperature, show_volume

OVERLAP_MM = 40.0
"""How far the half laid last, shell 1, lies over half 2: common practice, no source."""
KEEP_FROM_WALL_MM = 15.0
"""What stays of the flange between its key cuts and the wall: common practice, no source."""
PATCH_TEST_G, CLIP_EVERY_MM = 20.0, 100.0
"""Rubber of a patch test, clips of the flange: common practice, no source."""
TALC_SHARE_PER_CAST = 0.1
"""Talc for reseating, as a share of that for peeling: common practice, no source."""


def piece_texts(context: StepContext) -> dict[str, str]:
    """Texts of the piece, its mount and the board.

    Parameters
    ----------
    context : the order, the materials and the quantities.
    """
    order, volumes, units = context.commission, context.volumes, context.commission.shop.units
    return {
        "count": str(order.edition.count),
        "height": show_length(volumes.height_mm, units),
        "original.material": order.original.material,
        "temperature": show_temperature(order.shop.temperature_c, units),
        "scale": show_mass(order.shop.scale_g, units, order.shop.scale_g),
        "sealer": context.sealer.name if context.sealer else "a sealer that the material takes",
        "release": context.release.name if context.release else "release agent",
        "plinth.height": show_length(volumes.plinth_height_mm, units),
        "plinth.volume": show_volume(volumes.plinth_ml, units),
        "board.width": show_length(volumes.widest_mm + 2 * (order.mold.flange_mm + volumes.base_lip_mm) + 50.0, units),
        "flange.width": show_length(order.mold.flange_mm, units),
        "flange.keep": show_length(KEEP_FROM_WALL_MM, units),
        "lip.width": show_length(volumes.base_lip_mm, units),
        "handles.words": count_of(volumes.handles, "through-hole"),
        "patch.mass": show_mass(PATCH_TEST_G, units, 1.0),
        "clip.every": show_length(CLIP_EVERY_MM, units),
        "lift.filled": show_kg(lift_kg("filled", context) or 0.0, units),
        "lift.cast": show_kg(lift_kg("cast", context) or 0.0, units),
    }


def rubber_texts(context: StepContext) -> dict[str, str]:
    """Texts of the rubber and the glove.

    Parameters
    ----------
    context : the order, the materials and the quantities.
    """
    units = context.commission.shop.units
    mixed = sum((coat.mixed_g for coat in context.coats), context.flange.mixed_g + context.fill.mixed_g)
    earliest, latest = (named_wait_s(name, context) for name in ("rubber.tack_window", "rubber.tack_latest"))
    return {
        "rubber.mixed": show_range(mixed, "mass", units),
        "rubber.pot_life": show_range(context.rubber_pot_life_s, "duration", units),
        "rubber.demold": show_range(named_wait_s("rubber.demold", context), "duration", units),
        "rubber.full_cure": show_range(named_wait_s("rubber.full_cure", context), "duration", units),
        "tack.from": show_range(earliest, "duration", units),
        "tack.until": show_range(latest, "duration", units),
        "glove.mass": show_range(context.glove_g, "mass", units),
        "glove.low": mass_text(context, context.glove_g.low),
        "glove.high": mass_text(context, context.glove_g.high),
    }


def shell_texts(context: StepContext) -> dict[str, str]:
    """Texts of the seam, the shell and its bandage.

    Parameters
    ----------
    context : the order, the materials and the quantities.
    """
    units, volumes, bandage = context.commission.shop.units, context.volumes, context.bandage
    texts = {
        "seam.length": show_length(volumes.seam_mm, units),
        "seam.flange": show_length(volumes.seam_flange_mm, units),
        "overlap": show_length(OVERLAP_MM, units),
        "shell.mass": mass_text(context, context.shell_g.likely),
        "shell.half": mass_text(context, context.shell_g.likely / 2.0),
        "shell.name": context.shell.name,
        "shell.thickness": show_length(context.shell.thickness_mm.likely, units),
    }
    if bandage is None:
        return texts
    return texts | {
        "strips": count_of(bandage.strips, "strip"),
        "half.strips": str(half_strips(context)),
        "strip.size": f"{show_length(bandage.strip_length_mm, units)} by {show_length(bandage.strip_width_mm, units)}",
        "plies": str(bandage.plies),
        "layers": str(bandage.layers),
        "rolls": count_of(bandage.rolls, "roll"),
        "half.water": show_volume(bandage.water_ml / 2.0, units),
        "wax": mass_text(context, bandage.wax_g),
        "talc": mass_text(context, bandage.talc_g),
        "talc.little": mass_text(context, bandage.talc_g * TALC_SHARE_PER_CAST),
        "clay": mass_text(context, bandage.clay_g),
    }


def cast_texts(context: StepContext) -> dict[str, str]:
    """Texts of the skin, the back-fill, the powder and the finished piece.

    Parameters
    ----------
    context : the order, the materials and the quantities.
    """
    units, cast = context.commission.shop.units, context.cast
    skin, fill = context.mixes_for("skin"), context.mixes_for("back-fill")
    texts = {
        "cavity.volume": show_volume(context.volumes.cavity_ml, units),
        "skin.thickness": show_length(cast.skin.thickness_mm, units),
        "skin.mass": mass_text(context, mixed_g(context, skin)),
        "skin.cups.words": count_of(len(skin), "cup"),
        "backfill.volume": show_volume(cast.backfill_ml, units),
        "backfill.mass": mass_text(context, mixed_g(context, fill)),
        "backfill.cups.words": count_of(len(fill), "cup"),
        "resin.pot_mass": mass_text(context, context.resin.pot_life_mass_g.likely),
        "resin.pot_life": show_range(context.resin_pot_life_s, "duration", units),
        "cast.demold": show_range(named_wait_s("cast.demold", context), "duration", units),
        "cast.mass": show_range(cast.mass_g, "mass", units),
        "cast.range": f"{mass_text(context, cast.mass_g.low)} to {mass_text(context, cast.mass_g.high)}",
        "cast.low": mass_text(context, cast.mass_g.low),
        "cast.high": mass_text(context, cast.mass_g.high),
        "shrinkage": show_range(cast.shrinkage_mm, "length", units),
    }
    if context.powder is None:
        return texts
    powder = {"powder.name": context.powder.name, "powder.mass": mass_text(context, powder_g(context))}
    if context.powder.drying_temperature_c is not None:
        powder["powder.temperature"] = show_range(context.powder.drying_temperature_c.range, "temperature", units)
    return texts | powder | {"powder.part": context.mixes[skin[0]].parts[0].name if skin else "A"}


def half_strips(context: StepContext) -> int:
    """Bandage strips of one half of the shell; none without bandage.

    Parameters
    ----------
    context : the bandage.
    """
    return ceil(context.bandage.strips / 2) if context.bandage else 0


def mass_text(context: StepContext, mass_g: float) -> str:
    """A mass in the shop's units.

    Parameters
    ----------
    context : the shop.
    mass_g : mass [g].
    """
    return show_mass(mass_g, context.commission.shop.units)


def count_of(count: int, noun: str) -> str:
    """A count with its noun.

    Parameters
    ----------
    count : how many.
    noun : of what, in the singular.

    >>> count_of(1, "cup"), count_of(2, "cup")
    ('1 cup', '2 cups')
    """
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
