"""Every quantity that a step may quote: as a number for its minutes, as words for its lines."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from moldwright.plan.plan import CoatPlan, FillSpot
from moldwright.ranges import Range
from moldwright.steps.context import StepContext
from moldwright.steps.masses import mixed_g
from moldwright.steps.texts import (
    cast_texts,
    count_of,
    half_strips,
    mass_text,
    piece_texts,
    rubber_texts,
    shell_texts,
)
from moldwright.units import show_duration, show_length, show_share

COAT_TOOLS = {"stipple": "short stiff brush", "brush": "soft brush", "stick": "wide stick"}
"""What a coat is laid with, by its gesture."""


@dataclass(frozen=True, slots=True)
class StepValues:
    """Numbers by name for labor, texts by name for lines."""

    numbers: Mapping[str, float]
    texts: Mapping[str, str]

    def with_more(self, numbers: Mapping[str, float], texts: Mapping[str, str]) -> StepValues:
        """These and those of one coat or fill."""
        return StepValues({**self.numbers, **numbers}, {**self.texts, **texts})


def job_values(context: StepContext) -> StepValues:
    """The quantities of the whole job.

    Parameters
    ----------
    context : the order, the materials and the quantities reckoned so far.
    """
    texts = piece_texts(context) | rubber_texts(context) | shell_texts(context) | cast_texts(context)
    return StepValues(_numbers(context), texts)


def coat_values(context: StepContext, place: int) -> StepValues:
    """The quantities of one coat beside the job's.

    Parameters
    ----------
    context : the order, the materials and the quantities reckoned so far.
    place : which coat, from 0.
    """
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
        "coat.net": mass_text(context, on_work),
        "coat.mixed": mass_text(context, mixed_g(context, mixes)),
        "coat.cups": str(len(mixes)),
        "coat.cups.words": count_of(len(mixes), "cup"),
        "coat.pigment": coat.pigment,
        "coat.thixotrope": show_share(coat.thixotrope_pct / 100.0, 2),
        "coat.tool": COAT_TOOLS.get(coat.gesture, "brush"),
        "coat.work_by": show_duration(_work_by_s(context, mixes, context.rubber_pot_life_s)),
    }
    return job_values(context).with_more(numbers, texts)


def fill_values(context: StepContext, coat: CoatPlan, spots: tuple[FillSpot, ...]) -> StepValues:
    """The quantities of the spots that are packed after one coat.

    Parameters
    ----------
    context : the shop.
    coat : the coat they follow.
    spots : the spots.
    """
    units, net_g = context.commission.shop.units, sum(spot.net_g for spot in spots)
    deepest = max((spot.depth_mm for spot in spots), default=0.0)
    numbers = {"fill.count": float(len(spots)), "fill.lay_min": net_g / context.commission.shop.lay_g_per_min}
    texts = {
        "fill.after": f"coat {coat.name}",
        "fill.net": mass_text(context, net_g),
        "fill.count.words": count_of(len(spots), "spot"),
        "fill.deepest": show_length(deepest, units),
    }
    return job_values(context).with_more(numbers, texts)


def _numbers(context: StepContext) -> dict[str, float]:
    volumes, mix_min = context.volumes, context.commission.shop.mix_min
    skin, fill = len(context.mixes_for("skin")), len(context.mixes_for("back-fill"))
    return {
        "fixed": 1.0,
        "area.dm2": volumes.cavity_area_mm2 / 1e4,
        "shell.dm2": volumes.shell_area_mm2 / 1e4,
        "height.dm": volumes.height_mm / 100.0,
        "plinth.height_mm": volumes.plinth_height_mm,
        "handles.count": float(volumes.handles),
        "flange.m": _around_m(context),
        "seam.m": volumes.seam_mm / 1000.0,
        "half.strips": float(half_strips(context)),
        "half.laid_dm2": 0.0 if context.bandage else volumes.shell_area_mm2 / 2e4,
        "skin.cups": float(skin),
        "skin.mix_min": skin * mix_min,
        "backfill.mix_min": fill * mix_min,
    }


def _around_m(context: StepContext) -> float:
    """Length of the flange's edge [m], as of a square round the widest part."""
    return 4.0 * (context.volumes.widest_mm + 2.0 * context.commission.mold.flange_mm) / 1000.0


def _work_by_s(context: StepContext, mixes: tuple[int, ...], pot_life_s: Range) -> float:
    return min((context.mixes[i].work_by_s for i in mixes), default=pot_life_s.low)
