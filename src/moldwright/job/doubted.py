"""Stage: the found splits about the solids that an original could be which is not known exactly."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum

import numpy as np
from scipy import ndimage

from moldwright.geometry.grid import Field
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.resample import resampled
from moldwright.geometry.sign import Mask, inside_solid
from moldwright.job.doubted_peel import peeled_on
from moldwright.job.plan_of_solids import holes_of
from moldwright.job.searched import Doubted, OnSolid
from moldwright.job.shelling import split_settings, stiff_packing_mm
from moldwright.job.standing import Gaps
from moldwright.mold.could_be import CouldBe, could_be
from moldwright.mold.glove import Coats, coat
from moldwright.mold.held import Held, HeldSplits
from moldwright.mold.mouth import Mounted, plinth_plan
from moldwright.mold.peel_places import Peeled, tight_places
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.splits import Splits
from moldwright.plan.doubt import Hollow, Shape
from moldwright.plan.original import divided
from moldwright.progress import Progress
from moldwright.ranges import Range

STEPS = 70
"""The mold's longest side in steps of the grid on which the solids are compared."""
LEAST_STEP_MM = 1.0
MOST_HOLLOWS = 3
LEAST_HOLLOW_ML = 0.5
"""What packs less is not worth a measurement: our own."""


def doubted_about(
    mounted: Mounted,
    coats: Coats,
    splits: Splits,
    shell: ShellSettings,
    gaps: Gaps,
    peels_mm: float,
    volume: Range,
    progress: Progress,
) -> Doubted:
    """What the found splits take about each solid that the original could be.

    Parameters
    ----------
    mounted : the likely original on its plinth.
    coats : its rubber.
    splits : that were found of the shell.
    shell : its dimensions.
    gaps : the likely original's through-holes.
    peels_mm : thicker rubber, coats and packing together, does not peel [mm].
    volume : factor on the original's volume at 90 %, likely 1, in doubt.
    progress : told how many of the solids are done.
    """
    outline = coats.flange.outline
    low, high = coats.with_flange(outline).bounds_mm
    step_mm = max(float((high - low).max()) / STEPS, LEAST_STEP_MM)
    settings = split_settings(coats.total_mm, peels_mm, shell.draft_deg)
    lift_mm = float(mounted.original.bounds_mm[0][2])
    solids = could_be(mounted.original, lift_mm, plinth_plan(mounted), volume)
    on: list[OnSolid] = []
    hollows: tuple[tuple[Hollow, ...], ...] = ()
    likely: Mesh | None = None
    for number, solid in enumerate(solids):
        progress("try other solids", number / len(solids))
        laid = coat(solid.body, (coats.total_mm,), coats.flange.width_mm, step_mm)
        core = laid.with_flange(outline)
        likely = likely or core
        about = HeldSplits(core, shell.seam_flange_mm, coats.total_mm, step_mm, settings)
        held = [None if split is None else about.held(split) for split in splits.real]
        stiff_mm = coats.total_mm + stiff_packing_mm(coats.total_mm, peels_mm)
        peeled = peeled_on(solid.body, held, stiff_mm, divided(holes_of(gaps.handles, coats.total_mm)))
        on.append(_on(solid, laid, held, peeled))
        if solid.shape is Shape.HOLLOWED:
            hollows = tuple(_hollows(solid, mounted.body, likely, each) for each in held)
    return Doubted(on[0], tuple(on[1:]), hollows)


def _on(solid: CouldBe, laid: Coats, held: Sequence[Held | None], peeled: Sequence[Peeled | None]) -> OnSolid:
    places = [tight_places(each) if each else () for each in peeled]
    return OnSolid(
        shape=solid.shape,
        volume_ml=solid.volume_ml,
        crevice_ml=fsum(each.volume_ml for each in laid.crevices),
        fill_ml=tuple(each.fill_ml if each else 0.0 for each in held),
        stiff_ml=tuple(each.stiff_ml if each else 0.0 for each in held),
        caught_share=tuple(each.caught_share if each else 0.0 for each in held),
        stretch=tuple(float(each.stretch.max(initial=1.0)) if each else 1.0 for each in peeled),
        tight=tuple(next(iter(each), None) for each in places),
    )


def _hollows(solid: CouldBe, body: Mesh, core: Mesh, held: Held | None) -> tuple[Hollow, ...]:
    """Where a solid with recesses is packed and the likely one has rubber or is solid, what packs most first."""
    if held is None:
        return ()
    labels, count = ndimage.label(held.packed & inside_solid(core, held.grid))
    cell_ml = held.grid.step_mm**3 / 1000.0
    sizes = np.bincount(labels.ravel(), minlength=count + 1)[1:] * cell_ml
    deep = resampled(solid.inward, held.grid)
    largest = [int(n) for n in np.argsort(-sizes, kind="stable")[:MOST_HOLLOWS] if sizes[n] >= LEAST_HOLLOW_ML]
    return tuple(_hollow(held, labels == n + 1, deep, body, float(sizes[n])) for n in largest)


def _hollow(held: Held, place: Mask, deep: Field, body: Mesh, packing_ml: float) -> Hollow:
    """Its deepest point, as the nearest of the likely body's surface."""
    points = np.argwhere(place)
    depths = deep[place]
    deepest = held.grid.at(points[int(np.argmax(depths))])
    nearest = body.vertices[int(np.argmin(np.linalg.norm(body.vertices - deepest, axis=1)))]
    x, y, z = (round(float(value), 1) for value in nearest)
    return Hollow((x, y, z), round(float(depths.max()), 1), round(packing_ml, 2))
