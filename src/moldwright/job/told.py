"""What the geometry tells the maker: the original and its mouth, and cautions on their steps."""

from __future__ import annotations

from moldwright.geometry.handles import Handle
from moldwright.job.solids import Solids
from moldwright.job.standing import Settled
from moldwright.mold.mouth import Mounted
from moldwright.mold.necks import tightest_neck
from moldwright.plan.plan import Caution, Hole, MouthPlan, OriginalPlan, PlinthPlan
from moldwright.scan.repairs import Repair
from moldwright.units import show_length

UNSUPPORTED_SHARE = 0.02
DIVIDER = (
    "Set a thin divider (waxed card or clay) in this through-hole before the first coat, "
    "or cut the web of rubber in it."
)


def original_plan(watertight: bool, solids: Solids) -> OriginalPlan:
    """The original as it stands, with its repairs and through-holes.

    Parameters
    ----------
    watertight : whether the file's mesh was closed.
    solids : the finished solids.
    """
    standing, mesh = solids.settled.standing, solids.mounted.original
    low, high = mesh.bounds_mm
    return OriginalPlan(
        volume_ml=mesh.volume_ml,
        area_cm2=mesh.area_mm2 / 100,
        height_mm=float(high[2] - low[2]),
        watertight=watertight and standing.was_closed,
        source="scan",
        repairs=repairs_of(solids.settled),
        holes=holes_of(solids.gaps.handles),
        resolution_mm=standing.step_mm,
        error_mm=standing.error_mm,
    )


def repairs_of(settled: Settled) -> tuple[Repair, ...]:
    """What was mended on the scan, reading and standing together.

    Parameters
    ----------
    settled : the original on the board.
    """
    return (*settled.repairs, *settled.standing.repairs)


def holes_of(handles: tuple[Handle, ...]) -> tuple[Hole, ...]:
    """The through-holes and what each needs at the bench.

    Parameters
    ----------
    handles : those of the original, or of original and plinth together.
    """
    return tuple(
        Hole((round(h.at[0], 1), round(h.at[1], 1), round(h.at[2], 1)), round(h.width_mm, 1), DIVIDER) for h in handles
    )


def mouth_plan(mounted: Mounted) -> MouthPlan:
    """The bare original's mouth and the plinth that widens it.

    Parameters
    ----------
    mounted : the original on the board or on its plinth.
    """
    mouth, plinth = mounted.mouth, mounted.plinth
    return MouthPlan(
        mouth.area_mm2,
        mouth.narrowest_mm,
        mouth.loops,
        None if plinth is None else PlinthPlan(mounted.plinth_height_mm, plinth.volume_ml),
    )


def geometry_cautions(solids: Solids, units: str) -> tuple[Caution, ...]:
    """Cautions that come from the shape: necks, webs, unsupported rubber.

    Parameters
    ----------
    solids : the finished solids.
    units : "metric" or "us".
    """
    cautions = [*_neck_cautions(solids.mounted, units)]
    if solids.gaps.handles:
        count = len(solids.gaps.handles)
        holes = "through-hole" if count == 1 else "through-holes"
        text = f"{count} {holes}: rubber closes into a web and locks the glove. {DIVIDER}"
        cautions.append(Caution("handles", "heed", text, "computed: genus of the surface that is coated"))
    if solids.shell.uncovered_share > UNSUPPORTED_SHARE:
        share = 100 * solids.shell.uncovered_share
        text = f"About {share:.0f} % of the rubber has no shell behind it: pack it, or it may bulge under the cast."
        cautions.append(Caution("close-shell", "heed", text, "computed: share of the surface that no piece reaches"))
    return tuple(cautions)


def _neck_cautions(mounted: Mounted, units: str) -> list[Caution]:
    """Where level sections say that the rubber must stretch far to pass over what is above them."""
    neck = tightest_neck(mounted.body)
    if neck is None:
        return []
    at, here, over = (show_length(v, units) for v in (neck.height_mm, neck.around_mm, neck.over_mm))
    text = (
        f"At {at} above the board the piece is {here} round and {over} round higher up: to peel off, the rubber must "
        f"stretch about {neck.ratio:.1f} times there (level sections only). "
        "Plan a slit down one side of the glove, closed again by the shell."
    )
    return [Caution("peel", "heed", text, "computed: hulls of level sections")]
