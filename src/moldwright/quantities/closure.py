"""What holds the closed shell against the liquid cast: clamps, bolts, bands and straps, and weights on what floats up.

One home for how many: the larger of what is common practice and what the cast's pressure asks for.
"""

from __future__ import annotations

from math import ceil, fsum, pi, sin

from moldwright.errors import InputRefused
from moldwright.geometry.seam_kind import Seam
from moldwright.materials import Library
from moldwright.mold.measures import Fasteners, MoldMeasures, ShellMeasures
from moldwright.mold.shell_settings import HELD_EVERY_MM
from moldwright.plan.closure import ClosurePlan
from moldwright.quantities.cast import CastQuantities
from moldwright.units.constants import GRAVITY_M_S2

BAND, STRAP, CLAMP, BOLT = "band", "strap", "clamp", "bolt"
"""The consumables' sheets that it is reckoned from."""
LEAST_BANDS = 3
"""Above, middle, below: common practice, no source."""
MOST_BANDS = 6
"""More bands than this cover the shell: straps with a buckle take their place; common practice, no source."""
LEAST_WEIGHT_KG = 0.05
"""Less is not laid on: clamps and the shell's stiffness hold it; our own."""


def closure(measures: MoldMeasures, cast: CastQuantities, shell_g: float, library: Library) -> ClosurePlan:
    """How hard the full mold presses its shell apart, and what holds it closed.

    `F = rho g V`, V of the piece's push along its draw. Clamps share the seam evenly and each counts for one piece
    alone: `pitch = h s / sum F`, h what one holds; a band or strap of pull T holds `2 T sin(pi / k)` of one of k
    pieces. The lowest figure of their sheets counts.

    Parameters
    ----------
    measures : the solids' measures
    cast : whose heaviest mix is taken to fill the mold
    shell_g : all of the shell, dry [g]
    library : the sheets of what holds it

    Source: hydrostatics; least numbers are common practice, no source.
    """
    shell, density = measures.shell, _heaviest_g_ml(cast)
    pushes_n = tuple(max(_newton(density * push.off_ml), 0.0) for push in shell.pushes)
    joined = shell.pieces > 1
    pitch_mm = _pitch_mm(shell, pushes_n, _holds_n(library, CLAMP)) if joined else HELD_EVERY_MM
    bolted = shell.fasteners or Fasteners()
    clamped = joined and shell.seam is Seam.WALL
    bands, straps = _round_it(shell, pushes_n, library) if joined else (0, 0)
    return ClosurePlan(
        density_g_ml=round(density, 3),
        pushes_n=pushes_n,
        weights_kg=_weights_kg(shell, density, shell_g),
        bands=bands,
        straps=straps,
        seam_clamps=_clamps(shell.seam_mm, bolted, pitch_mm) if clamped else 0,
        flange_clamps=ceil(measures.flange.edge_mm / HELD_EVERY_MM),
        pitch_mm=pitch_mm,
        seam_bolts=bolted.seam_bolts,
        base_bolts=bolted.base_bolts,
        seam_bolt_mm=bolted.bolt_mm if bolted.seam_bolts else 0.0,
    )


def _heaviest_g_ml(cast: CastQuantities) -> float:
    mixes = (cast.skin_mix, cast.backfill_mix)
    return max(mix.filled.density_g_ml for mix in mixes if mix is not None)


def _newton(grams: float) -> float:
    return grams / 1000.0 * GRAVITY_M_S2


def _pitch_mm(shell: ShellMeasures, pushes_n: tuple[float, ...], holds_n: float) -> float:
    """How far apart what holds so much each stands along the seam, never farther than is usual."""
    push_n = fsum(pushes_n)
    return min(HELD_EVERY_MM, holds_n * shell.seam_mm / push_n) if push_n > 0 else HELD_EVERY_MM


def _clamps(seam_mm: float, bolted: Fasteners, pitch_mm: float) -> int:
    """Clamps for a seam: with its bolts as many as it asks for, and nowhere farther apart than they may stand. Along an
    open end the last one stands half as far off."""
    in_all = ceil(seam_mm / pitch_mm) - bolted.seam_bolts
    between = (ceil(bare.long_mm / pitch_mm - bare.held_ends / 2 - 1e-9) for bare in bolted.stretches)
    return max(in_all, sum(max(0, count) for count in between))


def _round_it(shell: ShellMeasures, pushes_n: tuple[float, ...], library: Library) -> tuple[int, int]:
    """Bands, or straps where they would be too many. Where a seam has clamps or bolts they hold it alone."""
    if shell.seam is Seam.WALL:
        return LEAST_BANDS, 0
    push_n, share = max(pushes_n, default=0.0), 2.0 * sin(pi / shell.pieces)
    bands, straps = (max(LEAST_BANDS, ceil(push_n / (share * _holds_n(library, id_)) - 1e-9)) for id_ in (BAND, STRAP))
    return (bands, 0) if bands <= MOST_BANDS else (0, straps)


def _weights_kg(shell: ShellMeasures, density_g_ml: float, shell_g: float) -> tuple[float, ...]:
    """What each piece lacks of its own weight against the cast's lift."""
    lacking = (
        (density_g_ml * push.up_ml - shell_g * share) / 1000.0
        for push, share in zip(shell.pushes, shell.shares, strict=True)
    )
    return tuple(kg if kg >= LEAST_WEIGHT_KG else 0.0 for kg in lacking) if shell.pushes else ()


def _holds_n(library: Library, id_: str) -> float:
    """The low figure of what one of it holds [N]."""
    sheet = library.consumable(id_)
    if sheet.holds_n is None:
        raise InputRefused("sheet-incomplete", f"{sheet.id}.holds_n", "a value", remedy="Add it to the sheet.")
    return sheet.holds_n.low
