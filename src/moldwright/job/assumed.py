"""Choices of the geometry that the order does not make, as assumptions that the sheets list."""

from __future__ import annotations

from moldwright.commission.orders import Commission
from moldwright.geometry.seam_kind import Seam
from moldwright.job.measured import Measured
from moldwright.mold.shell_settings import ShellSettings
from moldwright.original.standing.stance import Stance
from moldwright.plan.assumptions import Assumption
from moldwright.plan.known import Known
from moldwright.plan.original import Source

PRACTICE = "common practice, no source"
EDGE_STEPS = 1.2
"""By how many sampling steps a level set rounds a sharp edge: measured on boxes."""


def geometry_assumptions(
    commission: Commission, measured: Measured, shell: ShellSettings, known: Known
) -> tuple[Assumption, ...]:
    """Choices of the geometry that the order does not make.

    Parameters
    ----------
    commission : the order.
    measured : what was measured on the solids.
    shell : the shell's dimensions.
    known : what the original is known by.
    """
    sampling = measured.sampling
    rounded = () if sampling.exact else (_length("original.edges", EDGE_STEPS * sampling.step_mm, "computed"),)
    least = Assumption("mold.pieces", len(measured.shell.pieces), "", "computed: least hands and material that rolls")
    pieces = () if "mold.pieces" in commission.given else (least,)
    wall_given = "mold.printed-wall" in commission.given
    wall = () if wall_given else (_length("shell.wall", shell.wall_mm, "class default"),)
    return (
        *taken_for_granted(commission, known),
        *(stance_assumptions(measured.stance) if known.source is Source.SCAN else ()),
        _length("original.resolution", sampling.step_mm, "computed"),
        _length("original.surface", sampling.error_mm, "computed"),
        *rounded,
        _length("shell.resolution", sampling.shell_step_mm, "computed"),
        *wall,
        *_seam(shell),
        _length("shell.base-lip", shell.base_lip_mm, PRACTICE),
        _length("shell.clearance", sampling.clearance_mm, "computed: raised until it comes free"),
        *pieces,
    )


def taken_for_granted(commission: Commission, known: Known) -> tuple[Assumption, ...]:
    """What the other ways to know an original rest on and nobody told.

    Parameters
    ----------
    commission : the order.
    known : what the original is known by.
    """
    original, sources = commission.original, (known.source, *known.also)
    bar = Source.PHOTOS in sources and original.bar_mm is None
    solid = Source.WEIGHT in sources and original.solid is None
    tape = original.tape if Source.TAPE in sources else None
    return (
        *((Assumption("original.tape.hollows", "not told", "", "default"),) if tape and tape.hollows is None else ()),
        *((_length("original.bar", original.bar_on_print_mm, "default"),) if bar else ()),
        *((Assumption("original.solid", original.weighed_solid, "", "default"),) if solid else ()),
    )


def _seam(shell: ShellSettings) -> tuple[Assumption, ...]:
    if shell.seam is Seam.LAP:
        return (
            _length("shell.lap-width", shell.lap_mm, PRACTICE),
            _length("shell.lap-thickness", shell.lap_thickness_mm, "computed: one layer of the shell"),
        )
    return (_length("shell.seam-width", shell.seam_flange_mm, PRACTICE),)


def stance_assumptions(stance: Stance) -> tuple[Assumption, ...]:
    """How the scan was stood, and who said so.

    Parameters
    ----------
    stance : the choices.
    """
    return (
        Assumption("original.up", stance.up, "", stance.up_by),
        Assumption("original.scale", stance.mm_per_unit, "mm a file unit", stance.scale_by),
        _length("original.board", stance.board_mm, stance.board_by),
    )


def _length(key: str, value_mm: float, source: str) -> Assumption:
    return Assumption(key, value_mm, "mm", source)
