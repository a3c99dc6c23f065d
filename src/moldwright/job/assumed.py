"""Choices of the geometry that the order does not make, as assumptions that the sheets list."""

from __future__ import annotations

from functools import partial

from moldwright.commission.orders import Commission
from moldwright.job.measured import Measured, Sampling
from moldwright.mold.shell_settings import ShellSettings
from moldwright.plan.plan import Assumption
from moldwright.units import show_length

PRACTICE = "common practice, no source"


def geometry_assumptions(commission: Commission, measured: Measured, shell: ShellSettings) -> tuple[Assumption, ...]:
    """Choices of the geometry that the order does not make.

    Parameters
    ----------
    commission : the order.
    measured : what was measured on the solids.
    shell : the shell's dimensions.
    """
    said = tuple(Assumption(key, value, source) for key, value, source in measured.said)
    sampling, units = measured.sampling, commission.shop.units
    show = partial(show_length, system=units)
    fine = partial(show_length, system=units, step_mm=0.01)
    own = (
        Assumption("original.resolution", f"{fine(sampling.step_mm)}; {_off(sampling, units)}", "computed"),
        Assumption("shell.resolution", show(sampling.shell_step_mm), "computed"),
        Assumption("shell.wall", show(shell.wall_mm), "class default"),
        Assumption(
            "shell.seam flange", f"{show(shell.seam_flange_mm)} wide, {show(2 * shell.seam_half_mm)} thick", PRACTICE
        ),
        Assumption("shell.base lip", f"{show(shell.base_lip_mm)} beyond the rubber", PRACTICE),
        Assumption("shell.clearance", f"{fine(sampling.clearance_mm)}, raised until it comes free", "computed"),
    )
    pieces = () if "mold.pieces" in commission.given else (Assumption("mold.pieces", "2", "default"),)
    return (*said, *own, *pieces)


def _off(sampling: Sampling, units: str) -> str:
    """How far the solid's surface may lie from the scan's: measured on balls, cones and boxes."""
    near = f"the surface lies within {show_length(sampling.error_mm, units, 0.01)} of the scan's"
    edges = f"{near} where smooth, sharp edges are rounded by {show_length(1.2 * sampling.step_mm, units)}"
    return near if sampling.exact else edges
