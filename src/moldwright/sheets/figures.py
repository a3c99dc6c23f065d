"""The mold and the cast in figures, for the first sheet."""

from __future__ import annotations

from moldwright.geometry.seam_kind import Seam
from moldwright.plan.cast import CLOSED_FROM_ML, CastPlan, CastWay
from moldwright.plan.mold import RemovalPlan, ShellPlan
from moldwright.plan.plan import Plan
from moldwright.ranges import Range
from moldwright.sheets.known_words import known_by
from moldwright.sheets.rubber_words import to_mix
from moldwright.units import show_length, show_range, show_volume, show_volume_amount
from moldwright.units.system import UnitSystem

Rows = list[list[str]]


def figures(plan: Plan) -> list[Rows]:
    """Two columns of name and value: the original and its glove; the shell and the cast."""
    return [_glove(plan), _shell(plan) + _cast(plan)]


def _glove(plan: Plan) -> Rows:
    units, glove = plan.units, plan.glove
    plinth = plan.mouth.plinth
    return [
        ["Original, board to top", show_length(plan.original.height_mm, units)],
        ["Original", show_volume_amount(plan.original.volume_ml, units)],
        *([["Known by", text]] if (text := known_by(plan.original)) else []),
        *([["Plinth under it", show_length(plinth.height_mm, units)]] if plinth else []),
        ["Mouth, narrowest", show_length(plan.mouth.narrowest_mm, units)],
        ["Rubber in the glove", show_range(glove.volume_ml, "volume", units)],
        *[
            [f"To mix: coat {k}, {c.name}, {show_length(c.thickness_mm, units)}", to_mix(c.mixed_g, plan)]
            for k, c in enumerate(glove.coats, start=1)
        ],
        ["To mix: flange, in each coat's cup", to_mix(glove.flange.mixed_g, plan)],
        ["To mix: packing", to_mix(glove.fill.mixed_g, plan)],
    ]


def _shell(plan: Plan) -> Rows:
    units, shell = plan.units, plan.shell
    removal = shell.removal
    rows = [
        ["Shell", f"{len(shell.pieces)} pieces, {show_length(shell.thickness_mm, units)} thick"],
        ["Seam", show_length(shell.seam_mm, units)],
        _seam(plan.shell, units),
        ["Shell drawn off", drawn_off(removal)],
        ["Sight lines along its way", f"{removal.rays - removal.rays_blocked} of {removal.rays} free"],
    ]
    if plan.bandage:
        b = plan.bandage
        rows.append(["Bandage", f"{b.strips} × {b.plies} plies, {b.layers} layers"])
    return rows


def drawn_off(removal: RemovalPlan) -> str:
    """What the proof of the shell's removal found.

    Parameters
    ----------
    removal : the proof.
    """
    return f"free at all {removal.offsets} places tried" if removal.checked else "not free"


def _seam(shell: ShellPlan, units: UnitSystem) -> list[str]:
    if shell.seam is Seam.LAP:
        return ["Lap of half 1 over half 2, at most", show_length(shell.lap_mm, units)]
    return ["Seam flange of each half", show_length(shell.seam_flange_mm, units)]


def _skin_name(cast: CastPlan, units: UnitSystem) -> str:
    if cast.way is CastWay.SOLID:
        return "Cast solid, in the skin's mix"
    return f"Skin, {show_length(cast.skin.thickness_mm, units)}"


def _cast(plan: Plan) -> Rows:
    units, cast = plan.units, plan.cast
    return [
        ["Cast", show_volume_amount(cast.volume_ml, units)],
        [_skin_name(cast, units), show_volume_amount(cast.skin.volume_ml, units)],
        *(
            [["of it behind closed necks", show_volume(cast.closed_ml, units)]]
            if cast.closed_ml >= CLOSED_FROM_ML
            else []
        ),
        *([["Back-fill", show_volume_amount(cast.backfill_ml, units)]] if cast.way is CastWay.FILLED else []),
        ["Finished piece", _mass(cast.mass_g, plan)],
    ]


def _mass(mass_g: Range, plan: Plan) -> str:
    return show_range(mass_g, "mass", plan.units, plan.scale_g)
