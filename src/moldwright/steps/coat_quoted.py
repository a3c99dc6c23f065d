"""The quantities of one coat, or of the spots packed after it, that a sentence may quote; and what labor counts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import fsum

from moldwright.mixing.rubber import packing_pct
from moldwright.plan.cast import CastWay
from moldwright.plan.coats import CoatPlan
from moldwright.plan.mixes import BACK_FILL, SKIN, MixFor, MixKind, MixPlan
from moldwright.plan.mold import SmallSpots, SpotPlan
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.quantities.quantities import Quantities
from moldwright.quantities.rubber import packed_layers
from moldwright.steps.cup_quoted import cup_minutes, cup_quoted, mixed
from moldwright.steps.lifts import mixed_g
from moldwright.steps.quoted import Quoted

Numbers = Mapping[str, float]


def coat_quoted(job: Quantities, coat: CoatPlan) -> Quoted:
    """The quantities of one coat.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    coat : one of its coats.
    """
    mixes = job.mixes_for(MixFor(MixKind.COAT, coat.id))
    share, flange = _flange_share(job, coat), job.rubber.flange
    number = [each.id for each in job.rubber.coats].index(coat.id) + 1
    every = (
        Quantity("coat.name", Dimension.WORD, coat.name),
        Quantity("coat.number", Dimension.COUNT, number),
        Quantity("coat.count", Dimension.COUNT, len(job.rubber.coats)),
        Quantity("coat.thickness", Dimension.LENGTH, coat.thickness_mm),
        _on_work(job, "coat.net", coat.net_g + share * flange.net_g, coat.volume_ml + share * flange.volume_ml),
        _left(mixes, coat.net_g + share * flange.net_g),
        Quantity("coat.passes", Dimension.COUNT, coat.passes),
        Quantity("coat.pass", Dimension.LENGTH, round(coat.pass_mm, 1)),
        mixed("coat.portion", mixes, coat.passes),
        Quantity("coat.pigment", Dimension.WORD, coat.pigment),
        Quantity("coat.thixotrope", Dimension.FINE_SHARE, coat.thixotrope_pct / 100.0),
        Quantity("coat.tool", Dimension.TOOL, coat.gesture),
        *cup_quoted("coat", mixes),
    )
    return {quantity.name: quantity for quantity in every}


def coat_numbers(job: Quantities, coat: CoatPlan) -> Numbers:
    """What the labor of one coat counts, in minutes.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    coat : one of its coats.
    """
    return {
        **cup_minutes("coat", job.mixes_for(MixFor(MixKind.COAT, coat.id))),
        "coat.more_passes": coat.passes - 1.0,
        "coat.between": coat.passes - 1.0,
    }


def _flange_share(job: Quantities, coat: CoatPlan) -> float:
    return coat.thickness_mm / fsum(each.thickness_mm for each in job.rubber.coats)


def _left(mixes: Sequence[MixPlan], on_work_g: float) -> Quantity:
    """What stays in the pots and on the brush."""
    return Quantity("coat.left", Dimension.MASS, max(mixed_g(mixes) - on_work_g, 0.0))


def _on_work(job: Quantities, name: str, net_g: float, volume_ml: float) -> Quantity:
    """Rubber on the work, cured, as the shop measures."""
    by_volume = job.commission.shop.by_volume
    return Quantity(name, Dimension.VOLUME, volume_ml) if by_volume else Quantity(name, Dimension.MASS, net_g)


def fill_quoted(job: Quantities, coat: CoatPlan, spots: Sequence[SpotPlan]) -> Quoted:
    """The quantities of the spots that are packed after one coat.

    Parameters
    ----------
    job : the rubber.
    coat : the coat they follow.
    spots : those that have a number.
    """
    small = [each for each in job.rubber.small_spots if each.after == coat.id]
    places: tuple[SpotPlan | SmallSpots, ...] = (*spots, *small)
    every = (
        Quantity("fill.after", Dimension.WORD, coat.name),
        _on_work(job, "fill.net", fsum(p.net_g for p in places), fsum(p.volume_ml for p in places)),
        _on_work(job, "fill.small", fsum(each.net_g for each in small), fsum(each.volume_ml for each in small)),
        Quantity("fill.count", Dimension.COUNT, len(spots)),
        Quantity("fill.deepest", Dimension.LENGTH, max((spot.depth_mm for spot in spots), default=0.0)),
        Quantity("fill.layers", Dimension.COUNT, _layers(job, spots)),
        Quantity("fill.pigment", Dimension.WORD, coat.pigment),
        Quantity("fill.thixotrope", Dimension.FINE_SHARE, packing_pct(job.basis.chosen.thixotrope) / 100.0),
        *_layer(job),
        *cup_quoted("fill", job.mixes_for(MixFor(MixKind.FILL, coat.id))),
    )
    return {quantity.name: quantity for quantity in every}


def fill_numbers(job: Quantities, coat: CoatPlan, spots: Sequence[SpotPlan]) -> Numbers:
    """What the labor of packing counts: minutes, and layers that dry.

    Parameters
    ----------
    job : the rubber.
    coat : the coat they follow.
    spots : the spots.
    """
    return {
        **cup_minutes("fill", job.mixes_for(MixFor(MixKind.FILL, coat.id))),
        "fill.layers": float(max(_layers(job, spots), 1)),
    }


def _layers(job: Quantities, spots: Sequence[SpotPlan]) -> int:
    """Layers that must dry in the deepest of these spots; none where the rubber cures in depth."""
    return max((packed_layers(job.basis.chosen.rubber, spot.depth_mm) for spot in spots), default=0)


def _layer(job: Quantities) -> Iterable[Quantity]:
    if job.basis.chosen.rubber.pack_mm is not None:
        yield Quantity("fill.layer", Dimension.LENGTH, job.basis.chosen.rubber.pack_mm.likely)


def _lifts(mixes: Sequence[MixPlan]) -> int:
    """Waits between cups that go in one on the other."""
    return max(len(mixes) - 1, 0)


def job_numbers(job: Quantities) -> Numbers:
    """What the labor of all other steps counts.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    """
    measures, slit = job.measures, job.measures.peel.slit
    skin, back = job.mixes_for(SKIN), job.mixes_for(BACK_FILL)
    return {
        "fixed": 1.0,
        "area.dm2": measures.cavity.area_mm2 / 1e4,
        "shell.dm2": measures.shell.area_mm2 / 1e4,
        "height.dm": measures.piece.height_mm / 100.0,
        "plinth.height_mm": measures.cavity.plinth_height_mm,
        "handles.count": float(len(measures.piece.holes)),
        "flange.m": measures.flange.edge_mm / 1000.0,
        "seam.m": measures.shell.seam_mm / 1000.0,
        "slit.dm": (slit.length_mm if slit else 0.0) / 100.0,
        "slit.cast_dm": (slit.on_cast_mm if slit else 0.0) / 100.0,
        "shell.pieces": float(measures.shell.pieces),
        "skin.cups": float(len(skin)),
        "skin.tacks": 1.0 if back else float(_lifts(skin)) if job.cast.cast.way is CastWay.SOLID else 0.0,
        "backfill.tacks": float(_lifts(back)),
        **cup_minutes("skin", skin),
        **cup_minutes("backfill", back),
    }
