"""The mold and the cast in figures, each with what it comes from, for the first sheet and the piece's page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from moldwright.geometry.seam_kind import Seam
from moldwright.plan.cast import CLOSED_FROM_ML, CastPlan, CastWay
from moldwright.plan.mold import RemovalPlan, ShellPlan
from moldwright.plan.plan import Plan
from moldwright.ranges import Range
from moldwright.sheets.known_words import known_by
from moldwright.sheets.rubber_words import to_mix
from moldwright.sheets.wording import show_lift
from moldwright.units import show_length, show_range, show_volume, show_volume_amount
from moldwright.units.constants import GRAVITY_M_S2
from moldwright.units.system import UnitSystem
from moldwright.words.marked import words
from moldwright.words.speaker import say, say_count


class FigureFrom(StrEnum):
    """Where a figure comes from."""

    SOLID = words("Measured on the solid of the original.")
    KNOWN = words("What the original is known by, as it was taken in.")
    LAID = words("Measured on the rubber that was laid on the original's solid.")
    MIXED = words("The rubber's volume times its density by the sheet, and what stays in cups and brushes.")
    SHELL = words("The shell's sheet, and the solids that were laid on the rubber.")
    TRIED = words("Tried on the solids: each piece is moved along its way, place by place.")
    CAVITY = words("Measured on the cavity that the mold leaves.")
    WEIGHED = words("The cast's volumes times the densities of their sheets.")


@dataclass(frozen=True, slots=True)
class ToldFigure:
    """A figure in words.

    Parameters
    ----------
    name, text : what it is of, and how it is read.
    by : where it comes from.
    rests : keys of what may have been taken for granted for it (`Plan.assumed`).
    """

    name: str
    text: str
    by: FigureFrom
    rests: tuple[str, ...] = ()


Rows = list[ToldFigure]
STOOD = ("original.up", "original.scale", "original.board", "original.unit", "original.bar", "original.solid")
FINE = ("original.resolution", "original.surface", "original.edges")
RUBBER = ("mold.rubber", "mold.thickness", "coat.by_hand", "cup.fill", "cup.residue", "shop.waste")
SHELL = ("mold.shell", "mold.seam", "mold.pieces", "shell.resolution", "shell.wall", "shell.base-lip",
         "shell.lap-width", "shell.lap-thickness", "shell.seam-width", "shell.clearance")  # fmt: skip
CAST = ("cast.skin", "cast.powder", "cast.resin", "cast.backfill", "cast.solid", "core.passes", "core.least",
        "core.share")  # fmt: skip


def figure_pairs(plan: Plan) -> list[list[list[str]]]:
    """Name and value of each figure, as paper prints them, in two columns.

    Parameters
    ----------
    plan : the plan.
    """
    return [[[row.name, row.text] for row in column] for column in figures(plan)]


def figures(plan: Plan) -> list[Rows]:
    """Two columns: the original and its glove; the shell and the cast.

    Parameters
    ----------
    plan : the plan.
    """
    return [_glove(plan), _shell(plan) + _cast(plan)]


def _glove(plan: Plan) -> Rows:
    units, glove, on = plan.units, plan.glove, FigureFrom
    plinth = plan.mouth.plinth
    known = known_by(plan.original)
    coats = [
        (
            say("To mix: coat {k}, {name}, {thick}", k=k, name=c.name, thick=show_length(c.thickness_mm, units)),
            c.mixed_g,
        )
        for k, c in enumerate(glove.coats, start=1)
    ]
    rest = [
        (say("To mix: flange, in each coat's cup"), glove.flange.mixed_g),
        (say("To mix: packing"), glove.fill.mixed_g),
    ]
    volume = show_range(glove.volume_ml, "volume", units)
    return [
        ToldFigure(say("Original, board to top"), show_length(plan.original.height_mm, units), on.SOLID, STOOD),
        ToldFigure(say("Original"), show_volume_amount(plan.original.volume_ml, units), on.SOLID, (*STOOD, *FINE)),
        *([ToldFigure(say("Known by"), known, on.KNOWN)] if known else []),
        *(
            [ToldFigure(say("Plinth under it"), show_length(plinth.height_mm, units), on.SOLID, STOOD)]
            if plinth
            else []
        ),
        ToldFigure(say("Mouth, narrowest"), show_length(plan.mouth.narrowest_mm, units), on.SOLID, STOOD),
        ToldFigure(say("Rubber in the glove"), volume, on.LAID, (*RUBBER, *FINE)),
        *_thickness(plan),
        *(ToldFigure(name, to_mix(mixed, plan), on.MIXED, RUBBER) for name, mixed in (*coats, *rest)),
    ]


def _thickness(plan: Plan) -> Rows:
    thickness = plan.glove.thickness
    if thickness is None:
        return []
    least, most = (show_length(place.mm, plan.units) for place in (thickness.least, thickness.most))
    told = say("{least} to {most}", least=least, most=most)
    return [ToldFigure(say("Glove, thinnest to thickest"), told, FigureFrom.LAID, (*RUBBER, *FINE))]


def _shell(plan: Plan) -> Rows:
    units, shell, on = plan.units, plan.shell, FigureFrom
    removal = shell.removal
    wall, num = show_length(shell.thickness_mm, units), len(shell.pieces)
    thick = say_count("{num} piece, {thick} thick", "{num} pieces, {thick} thick", num, num=num, thick=wall)
    lines = say("{some} of {all} free", some=removal.rays - removal.rays_blocked, all=removal.rays)
    rows = [
        ToldFigure(say("Shell"), thick, on.SHELL, SHELL),
        *(ToldFigure(*row, on.SHELL, SHELL) for row in _seam(shell, units)),
        ToldFigure(say("Shell drawn off"), drawn_off(removal), on.TRIED, SHELL),
        ToldFigure(say("Sight lines along its way"), lines, on.TRIED, SHELL),
    ]
    rows += _closing(plan)
    if plan.printing:
        made = plan.printing
        plates = say_count("{num} plate", "{num} plates", len(made.plates), num=len(made.plates))
        rows.append(ToldFigure(say("Printed on"), plates, on.SHELL, SHELL))
        rows.append(ToldFigure(say("Filament"), show_range(made.filament_g, "mass", units), on.SHELL, SHELL))
    if plan.bandage:
        b = plan.bandage
        rows.append(
            ToldFigure(
                say("Bandage"),
                say("{strips} × {plies} plies, {layers} layers", strips=b.strips, plies=b.plies, layers=b.layers),
                on.SHELL,
                SHELL,
            )
        )
    return rows


def _closing(plan: Plan) -> Rows:
    """What holds the shell closed; nothing of a shell in one piece."""
    held, on = plan.closure, FigureFrom
    if not plan.shell.joined:
        return []
    counts = (
        (held.bands, say_count("{num} band", "{num} bands", held.bands, num=held.bands)),
        (held.straps, say_count("{num} strap", "{num} straps", held.straps, num=held.straps)),
        (held.seam_bolts, say_count("{num} bolt", "{num} bolts", held.seam_bolts, num=held.seam_bolts)),
        (held.seam_clamps, say_count("{num} clamp", "{num} clamps", held.seam_clamps, num=held.seam_clamps)),
    )
    told = ", ".join(text for count, text in counts if count)
    rows = [ToldFigure(say("Held closed by"), told, on.SHELL, SHELL)]
    if held.push_n > 0.0:
        push = show_lift(held.push_n / GRAVITY_M_S2, plan.units)
        rows.append(ToldFigure(say("Pushed apart, mold full, as by"), push, on.CAVITY, SHELL))
    return rows


def drawn_off(removal: RemovalPlan) -> str:
    """What the proof of the shell's removal found.

    Parameters
    ----------
    removal : the proof.
    """
    return say("free at all {num} places tried", num=removal.offsets) if removal.checked else say("not free")


def _seam(shell: ShellPlan, units: UnitSystem) -> Iterable[tuple[str, str]]:
    """Its length and how two pieces meet there; nothing of a shell in one piece."""
    if not shell.joined:
        return
    yield say("Seam"), show_length(shell.seam_mm, units)
    if shell.seam is Seam.LAP:
        yield say("Lap, at most"), show_length(shell.lap_mm, units)
    else:
        yield say("Seam flange, each side"), show_length(shell.seam_flange_mm, units)


def _skin_name(cast: CastPlan, units: UnitSystem) -> str:
    if cast.way is CastWay.SOLID:
        return say("Cast solid, in the skin's mix")
    return say("Skin, {thick}", thick=show_length(cast.skin.thickness_mm, units))


def _cast(plan: Plan) -> Rows:
    units, cast, on = plan.units, plan.cast, FigureFrom
    rows = [
        (say("Cast"), show_volume_amount(cast.volume_ml, units)),
        (_skin_name(cast, units), show_volume_amount(cast.skin.volume_ml, units)),
    ]
    if cast.closed_ml >= CLOSED_FROM_ML:
        rows.append((say("of it behind closed necks"), show_volume(cast.closed_ml, units)))
    if cast.way is CastWay.FILLED:
        rows.append((say("Back-fill"), show_volume_amount(cast.backfill_ml, units)))
    weighs = ToldFigure(say("Finished piece"), _mass(cast.mass_g, plan), on.WEIGHED, CAST)
    return [*(ToldFigure(name, text, on.CAVITY, CAST) for name, text in rows), weighs]


def _mass(mass_g: Range, plan: Plan) -> str:
    return show_range(mass_g, "mass", plan.units, plan.scale_g)
