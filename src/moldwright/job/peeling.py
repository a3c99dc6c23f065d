"""Stages: the glove is peeled over its inner surface, and what that asks of its rubber is told."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from moldwright.commission.orders import SlitSide
from moldwright.errors import NoSafePlan
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.on_body import found_on
from moldwright.job.plan_of_solids import holes_of
from moldwright.job.shelling import stiff_packing_mm
from moldwright.job.standing import Gaps
from moldwright.mold.glove import CoatedBody
from moldwright.mold.mouth import Mounted
from moldwright.mold.peel_places import Peeled, peeled_of, tight_places
from moldwright.mold.peel_surface import peel_surface
from moldwright.mold.shell import BuiltShell
from moldwright.mold.slit import slit_plan
from moldwright.mold.slit_path import corner_costs, opened, slit_paths
from moldwright.plan.original import divided
from moldwright.plan.peel import PeelShape, SlitPlan, TightPlace, elongation_pct
from moldwright.plan.seam import ViewSide
from moldwright.ways import Change, figure, named_key

SIDES: Mapping[SlitSide, ViewSide | None] = MappingProxyType(
    {
        SlitSide.AUTO: None,
        SlitSide.NONE: None,
        SlitSide.FRONT: ViewSide.FRONT,
        SlitSide.RIGHT: ViewSide.RIGHT,
        SlitSide.BACK: ViewSide.BACK,
        SlitSide.LEFT: ViewSide.LEFT,
    }
)


def peeled_off(mounted: Mounted, gaps: Gaps, coated: CoatedBody, shell: BuiltShell, peels_mm: float) -> Peeled:
    """How each place of the glove stretches as it comes off the body.

    Parameters
    ----------
    mounted : the original on its plinth.
    gaps : its through-holes.
    coated : its coats.
    shell : knows what was packed.
    peels_mm : thicker rubber, coats and packing together, does not peel [mm].
    """
    total_mm = coated.flange_mm
    surface = peel_surface(mounted.body, shell.gloved, total_mm + stiff_packing_mm(total_mm, peels_mm))
    return peeled_of(surface, divided(holes_of(gaps.handles, total_mm)))


def peel_shape(peeled: Peeled) -> PeelShape:
    """What the peeling asks of the glove.

    Parameters
    ----------
    peeled : how each place of it stretches.
    """
    surface, stretch = peeled.surface, float(peeled.stretch.max(initial=1.0))
    return PeelShape(stretch, peeled.farthest_mm, tight_places(peeled), surface.stiff_mm, surface.error_mm)


def refuse_a_glove_not_slit(tightest: TightPlace, allowed: float, body: Mesh) -> None:
    """A glove that is not to be slit must widen.

    Parameters
    ----------
    tightest : where it must widen most.
    allowed : how many times its own length it may be stretched.
    body : what the rubber is on.

    Raises NoSafePlan ("slit-not-wanted").
    """
    place = found_on(body, np.array(tightest.at), tightest.around_mm / np.pi)
    height, around = figure(round(tightest.at[2]), "mm"), figure(round(tightest.around_mm), "mm")
    remedy = (
        f"At {height} over the board the glove is {around} round and must pass over "
        f"{figure(round(tightest.over_mm), 'mm')}; a third of the rubber's elongation at break is the limit. Let it be "
        f"slit: change {named_key('mold.slit')}, or take a rubber that stretches farther"
    )
    needed, limit = round(elongation_pct(tightest.stretch)), round(elongation_pct(allowed))
    raise NoSafePlan("slit-not-wanted", needed, limit, "%", remedy, Change("mold.slit", SlitSide.AUTO.value), place)


def slit_of(
    peeled: Peeled, mounted: Mounted, coated: CoatedBody, shell: BuiltShell, allowed: float, side: SlitSide
) -> SlitPlan:
    """The slit that opens all loops that are too tight.

    Parameters
    ----------
    peeled : how each place of the glove stretches.
    mounted, coated, shell : the solids that it is of.
    allowed : how many times its own length the rubber may be stretched.
    side : where the maker would have it slit.

    Raises NoSafePlan ("slit-not-wanted").
    """
    if side is SlitSide.NONE:
        refuse_a_glove_not_slit(tight_places(peeled)[0], allowed, mounted.body)
    tight = np.flatnonzero(peeled.stretch > allowed).astype(np.int64)
    costs = corner_costs(peeled, [part.points for part in shell.seam.wall], SIDES[side])
    closed = ~opened(peeled, tight)
    left = float(peeled.stretch[closed].max(initial=1.0))
    paths = slit_paths(peeled, tight, costs)
    return slit_plan(paths, left, shell.gloved, coated.flange, coated.flange_mm, mounted.plinth_height_mm)
