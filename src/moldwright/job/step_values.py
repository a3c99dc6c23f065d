"""Every quantity that a step may quote: as a number for its minutes, as words for its lines."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil
from types import MappingProxyType

from moldwright.job.plan import CoatPlan, FillSpot
from moldwright.job.step_context import StepContext
from moldwright.job.step_sheet import density_g_ml
from moldwright.job.step_waits import named_wait_s
from moldwright.ranges import Range
from moldwright.units import (
    show_duration,
    show_length,
    show_mass,
    show_range,
    show_share,
    show_temperature,
    show_volume,
)

OVERLAP_MM = 40.0
"""How far shell half 2 lies over half 1: common practice, no source."""
KEEP_FROM_WALL_MM = 15.0
"""What stays of the flange between its key cuts and the wall: common practice, no source."""
PATCH_TEST_G, CLIP_EVERY_MM = 20.0, 100.0
"""Rubber of a patch test, clips of the flange: common practice, no source."""
COAT_TOOLS = {"stipple": "short stiff brush", "brush": "soft brush", "stick": "wide stick"}
"""What a coat is laid with, by its gesture."""
TALC_SHARE_PER_CAST = 0.1
"""Talc for reseating, as a share of that for peeling: common practice, no source."""


class StepValues:
    """Numbers by name for labor, texts by name for lines; a child adds those of one coat or fill."""

    def __init__(self, numbers: Mapping[str, float], texts: Mapping[str, str]) -> None:
        self.numbers: Mapping[str, float] = MappingProxyType(dict(numbers))
        self.texts: Mapping[str, str] = MappingProxyType(dict(texts))

    def with_more(self, numbers: Mapping[str, float], texts: Mapping[str, str]) -> StepValues:
        return StepValues({**self.numbers, **numbers}, {**self.texts, **texts})


def job_values(context: StepContext) -> StepValues:
    """The quantities of the whole job.

    Parameters
    ----------
    context : the order, the materials and the quantities reckoned so far.
    """
    texts = _piece_texts(context) | _rubber_texts(context) | _shell_texts(context) | _cast_texts(context)
    return StepValues(_numbers(context), texts)


def coat_values(context: StepContext, place: int) -> StepValues:
    """The quantities of one coat beside the job's; `place` counts from 0."""
    coat, units = context.coats[place], context.commission.shop.units
    mixes = context.mixes_for(coat.name)
    share = coat.thickness_mm / sum(each.thickness_mm for each in context.coats)
    on_work = coat.net_g + share * context.flange.net_g
    numbers = {
        "coat.mix_min": len(mixes) * context.commission.shop.mix_min,
        "coat.lay_min": (coat.mixed_g.likely + share * context.flange.mixed_g.likely)
        / context.commission.shop.lay_g_per_min,
    }
    texts = {
        "coat.name": coat.name,
        "coat.number": str(place + 1),
        "coat.count": str(len(context.coats)),
        "coat.thickness": show_length(coat.thickness_mm, units),
        "coat.net": _mass(context, on_work),
        "coat.mixed": _mass(context, mixed_g(context, mixes)),
        "coat.cups": str(len(mixes)),
        "coat.cups.words": count_of(len(mixes), "cup"),
        "coat.pigment": coat.pigment,
        "coat.thixotrope": show_share(coat.thixotrope_pct / 100.0, 2),
        "coat.tool": COAT_TOOLS.get(coat.gesture, "brush"),
        "coat.work_by": show_duration(_work_by_s(context, mixes, context.rubber_pot_life_s)),
    }
    return job_values(context).with_more(numbers, texts)


def fill_values(context: StepContext, coat: CoatPlan | None, spots: tuple[FillSpot, ...]) -> StepValues:
    """The quantities of the spots that are packed after one coat."""
    units, net_g = context.commission.shop.units, sum(spot.net_g for spot in spots)
    deepest = max((spot.depth_mm for spot in spots), default=0.0)
    numbers = {"fill.count": float(len(spots)), "fill.lay_min": net_g / context.commission.shop.lay_g_per_min}
    texts = {
        "fill.after": f"coat {coat.name}" if coat else "the last coat",
        "fill.net": _mass(context, net_g),
        "fill.count.words": count_of(len(spots), "spot"),
        "fill.deepest": show_length(deepest, units),
    }
    return job_values(context).with_more(numbers, texts)


def count_of(count: int, noun: str) -> str:
    """A count with its noun.

    >>> count_of(1, "cup"), count_of(2, "cup")
    ('1 cup', '2 cups')
    """
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def lift_kg(name: str, context: StepContext) -> float | None:
    """What is lifted in a step [kg]: volumes times densities, likely values.

    Parameters
    ----------
    name : "" for nothing; "original" (on its plinth), "gloved", "shelled", "mold" (glove in its shell), "filled" or
        "cast".
    context : the quantities.

    A solid original is assumed: a hollow one weighs less. Densities of originals: class default, from memory.
    """
    original = original_g(context)
    glove, shell, cast = context.glove_g.likely, context.shell_g.likely, context.cast.mass_g.likely
    poured = mixed_g(context, context.mixes_for("skin") + context.mixes_for("back-fill"))
    masses = {
        "original": original,
        "gloved": original + glove,
        "shelled": original + glove + shell,
        "mold": glove + shell,
        "filled": glove + shell + max(cast, poured),
        "cast": cast,
    }
    return None if not name else round(masses[name] / 1000.0, 2)


def original_g(context: StepContext) -> float:
    """A solid original with its plinth [g]; the plinth at the same density."""
    density, _ = density_g_ml(context.commission.original.material)
    return (context.volumes.original_ml + context.volumes.plinth_ml) * density


def show_kg(kg: float, units: str) -> str:
    """A weight that someone lifts.

    >>> show_kg(5.24, "metric"), show_kg(2.0, "us")
    ('5.2 kg', '4 lb 6.5 oz')
    """
    return f"{kg:.1f} kg" if units == "metric" else show_mass(kg * 1000.0, units)


def _numbers(context: StepContext) -> dict[str, float]:
    volumes, mix_min = context.volumes, context.commission.shop.mix_min
    skin, fill = len(context.mixes_for("skin")), len(context.mixes_for("back-fill"))
    return {
        "fixed": 1.0,
        "area.dm2": volumes.cavity_area_mm2 / 1e4,
        "shell.dm2": volumes.shell_area_mm2 / 1e4,
        "height.dm": volumes.height_mm / 100.0,
        "plinth.height_mm": volumes.plinth_height_mm,
        "mouth.loops": 1.0,
        "handles.count": float(volumes.handles),
        "flange.m": _around_m(context),
        "seam.m": volumes.seam_mm / 1000.0,
        "half.strips": float(_half_strips(context)),
        "half.laid_dm2": 0.0 if context.bandage else volumes.shell_area_mm2 / 2e4,
        "skin.cups": float(skin),
        "skin.mix_min": skin * mix_min,
        "backfill.mix_min": fill * mix_min,
    }


def _around_m(context: StepContext) -> float:
    """Length of the flange's edge [m], as of a square round the widest part."""
    return 4.0 * (context.volumes.widest_mm + 2.0 * context.commission.mold.flange_mm) / 1000.0


def _half_strips(context: StepContext) -> int:
    return ceil(context.bandage.strips / 2) if context.bandage else 0


def _piece_texts(context: StepContext) -> dict[str, str]:
    order, volumes, units = context.commission, context.volumes, context.commission.shop.units
    return {
        "count": str(order.edition.count),
        "count.words": count_of(order.edition.count, "cast"),
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


def _rubber_texts(context: StepContext) -> dict[str, str]:
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
        "glove.low": _mass(context, context.glove_g.low),
        "glove.high": _mass(context, context.glove_g.high),
    }


def _shell_texts(context: StepContext) -> dict[str, str]:
    units, volumes, bandage = context.commission.shop.units, context.volumes, context.bandage
    texts = {
        "seam.length": show_length(volumes.seam_mm, units),
        "seam.flange": show_length(volumes.seam_flange_mm, units),
        "overlap": show_length(OVERLAP_MM, units),
        "shell.mass": _mass(context, context.shell_g.likely),
        "shell.half": _mass(context, context.shell_g.likely / 2.0),
        "shell.name": context.shell.name,
        "shell.thickness": show_length(context.shell.thickness_mm.likely, units),
    }
    if bandage is None:
        return texts
    return texts | {
        "strips": count_of(bandage.strips, "strip"),
        "half.strips": str(_half_strips(context)),
        "strip.size": f"{show_length(bandage.strip_length_mm, units)} by {show_length(bandage.strip_width_mm, units)}",
        "plies": str(bandage.plies),
        "layers": str(bandage.layers),
        "rolls": count_of(bandage.rolls, "roll"),
        "half.water": show_volume(bandage.water_ml / 2.0, units),
        "wax": _mass(context, bandage.wax_g),
        "talc": _mass(context, bandage.talc_g),
        "talc.little": _mass(context, bandage.talc_g * TALC_SHARE_PER_CAST),
        "clay": _mass(context, bandage.clay_g),
    }


def _cast_texts(context: StepContext) -> dict[str, str]:
    units, cast = context.commission.shop.units, context.cast
    skin, fill = context.mixes_for("skin"), context.mixes_for("back-fill")
    texts = {
        "cavity.volume": show_volume(context.volumes.cavity_ml, units),
        "skin.thickness": show_length(cast.skin.thickness_mm, units),
        "skin.mass": _mass(context, mixed_g(context, skin)),
        "skin.cups.words": count_of(len(skin), "cup"),
        "backfill.volume": show_volume(cast.backfill_ml, units),
        "backfill.mass": _mass(context, mixed_g(context, fill)),
        "backfill.cups.words": count_of(len(fill), "cup"),
        "resin.pot_life": show_range(context.resin_pot_life_s, "duration", units),
        "cast.demold": show_range(named_wait_s("cast.demold", context), "duration", units),
        "cast.mass": show_range(cast.mass_g, "mass", units),
        "cast.range": f"{_mass(context, cast.mass_g.low)} to {_mass(context, cast.mass_g.high)}",
        "cast.low": _mass(context, cast.mass_g.low),
        "cast.high": _mass(context, cast.mass_g.high),
        "shrinkage": show_range(cast.shrinkage_mm, "length", units),
    }
    if context.powder is None:
        return texts
    powder = {"powder.name": context.powder.name, "powder.mass": _mass(context, powder_g(context))}
    if context.powder.drying_temperature_c is not None:
        powder["powder.temperature"] = show_range(context.powder.drying_temperature_c.range, "temperature", units)
    return texts | powder | {"powder.part": context.mixes[skin[0]].parts[0].name if skin else "A"}


def mixed_g(context: StepContext, mixes: tuple[int, ...]) -> float:
    """What goes into these cups [g]."""
    return sum(part.mass_g for i in mixes for part in context.mixes[i].parts)


def powder_g(context: StepContext) -> float:
    """Powder of one cast [g]: what the skin's cups hold of it."""
    name = context.powder.name if context.powder else ""
    parts = [part for i in context.mixes_for("skin") for part in context.mixes[i].parts]
    return sum(part.mass_g for part in parts if part.name == name)


def _mass(context: StepContext, mass_g: float) -> str:
    return show_mass(mass_g, context.commission.shop.units)


def _work_by_s(context: StepContext, mixes: tuple[int, ...], pot_life_s: Range) -> float:
    return min((context.mixes[i].work_by_s for i in mixes), default=pot_life_s.low)
