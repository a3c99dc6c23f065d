"""A support shell of plaster bandage: strips, rolls, water, and what it weighs once set and dry."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, fsum

from moldwright.errors import InputRefused
from moldwright.mixing.scale_steps import apportion
from moldwright.mold.measures import walls_mm2
from moldwright.plan.mold import BandagePlan, PlyCut, StripCut, StripsOfPiece, StripUse
from moldwright.quantities.laid_steps import whole_steps
from moldwright.quantities.rolls import rolls_cut
from moldwright.quantities.strips import OVERLAP_SHARE, PieceCover, piece_strips
from moldwright.ranges import Range
from moldwright.units.constants import WATER_G_MOL

HEMIHYDRATE_G_MOL = 145.149
BOUND_WATER = 1.5 * WATER_G_MOL / HEMIHYDRATE_G_MOL
"""Water bound per gram of hemihydrate: CaSO4.1/2H2O takes 3/2 H2O; standard atomic weights."""
GAUZE_SHARE = 0.08
"""Gauze and binder in the dry bandage, by weight: from memory, low confidence."""
STRIP_LENGTH_MM = 250.0
STRIP_PLIES = 4
WATER_PER_DRY, LEAST_BOWL_ML = 3.0, 1500.0
"""Dipping water per gram of dry bandage, and the least for the bowl of one piece: common practice, no source."""
LARGE_MM, LARGE_LAYERS, SMALL_LAYERS = 250.0, 3, 2
"""Pieces taller or wider than this take a third layer: common practice, no source."""

EXACT = Range(1.0, 1.0, 1.0)
NO_PLY = Range(0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Roll:
    """One roll of bandage: width and length [mm], mass when dry [g/m2] and its spread as shares of that."""

    width_mm: float
    length_mm: float
    dry_g_m2: float
    spread: Range = EXACT


@dataclass(frozen=True, slots=True)
class ShellSurface:
    """What the bandage covers: area [mm2], seam [mm], width of its flange or of its lap, the other 0 [mm], greatest
    extent [mm]; how much of it each piece takes, first off first; what each covers, none where nobody knows the
    solid."""

    area_mm2: float
    seam_mm: float
    seam_flange_mm: float
    lap_mm: float
    extent_mm: float
    shares: tuple[float, ...] = (0.5, 0.5)
    covers: tuple[PieceCover, ...] = ()


def layers_for(extent_mm: float) -> int:
    """Two layers of strips, three above 250 mm.

    Parameters
    ----------
    extent_mm : the piece's greatest height or width [mm], > 0

    Source: common practice, no source.

    >>> layers_for(190.0), layers_for(400.0)
    (2, 3)
    """
    return LARGE_LAYERS if extent_mm > LARGE_MM else SMALL_LAYERS


def bandage(
    surface: ShellSurface,
    roll: Roll,
    plies: int = STRIP_PLIES,
    strip_length_mm: float = STRIP_LENGTH_MM,
    layers: int | None = None,
    waste: float = 0.0,
    water_step_ml: float = 100.0,
    cut_step_mm: float = 10.0,
    ply_mm: Range = NO_PLY,
) -> BandagePlan:
    """How much bandage a shell takes, and of that each piece.

    Where the solid is known each piece's strips go by its own girths, see `quantities.strips`. Else by area alone:
    `layers (A + 2 s w) + s l`, s the seams, w the width of the flange that both pieces have there in all
    their layers, l that of the lap, one layer over the other; `strips = laid (1 + waste) / (l b (1 - overlap))`.

    Parameters
    ----------
    surface : what is covered, lengths [mm] and area [mm2], > 0
    roll : the bandage as bought, all > 0
    plies : folds of one strip, 3 to 6
    strip_length_mm : length of a folded strip, the longest where the solid is known [mm], 50 to 1000
    layers : layers of strips; None: by size
    waste : share lost, 0 to 1
    water_step_ml : steps in which the dipping water is measured, rounded up to [ml], > 0
    cut_step_mm : steps of the lengths that are cut by girths [mm], > 0
    ply_mm : how thick a laid ply is [mm]

    What is lost as waste is not in the set shell. Source: common practice, no source; bound water by stoichiometry.

    >>> bandage(ShellSurface(100_000.0, 500.0, 20.0, 0.0, 200.0), Roll(150.0, 2750.0, 480.0)).strips
    10
    """
    _refuse(surface, roll, plies, strip_length_mm)
    count = layers or layers_for(surface.extent_mm)
    pieces = _cut(surface, roll, strip_length_mm, count, waste, cut_step_mm)
    cuts = [cut for piece in pieces for cut in piece]
    dry_g = _dry_g(cuts, plies, roll)
    bowls_ml = (_bowl_ml(piece, plies, roll, water_step_ml) for piece in pieces)
    of_pieces = tuple(
        StripsOfPiece(sum(cut.count for cut in piece), bowl_ml, piece)
        for piece, bowl_ml in zip(pieces, bowls_ml, strict=True)
    )
    on_rolls = rolls_cut(_plies_of(cuts, plies, roll.width_mm), roll.length_mm)
    return BandagePlan(
        plies=plies,
        layers=count,
        strips=sum(piece.strips for piece in of_pieces),
        strip_length_mm=max((cut.length_mm for cut in cuts), default=strip_length_mm),
        strip_width_mm=roll.width_mm,
        rolls=sum(roll_cut.rolls for roll_cut in on_rolls),
        dry_g=round(dry_g, 1),
        set_g=roll.spread * (dry_shell_g(dry_g) / (1.0 + waste)),
        water_ml=fsum(piece.water_ml for piece in of_pieces),
        pieces=of_pieces,
        on_rolls=on_rolls,
        laid_mm=ply_mm * (count * plies),
    )


def _cut(
    surface: ShellSurface, roll: Roll, longest_mm: float, layers: int, waste: float, step_mm: float
) -> list[tuple[StripCut, ...]]:
    """The strips of every piece: by its own girths, or of one length for all by area where nobody knows the solid."""
    if surface.covers:
        return [piece_strips(cover, roll.width_mm, longest_mm, layers, waste, step_mm) for cover in surface.covers]
    laid_mm2 = _laid_mm2(surface, layers) * (1.0 + waste)
    strips = ceil(laid_mm2 / (longest_mm * roll.width_mm * (1.0 - OVERLAP_SHARE)))
    return [
        (StripCut(StripUse.FIELD, longest_mm, roll.width_mm, count),) for count in apportion(strips, surface.shares)
    ]


def _bowl_ml(cuts: tuple[StripCut, ...], plies: int, roll: Roll, step_ml: float) -> float:
    return whole_steps(max(LEAST_BOWL_ML, WATER_PER_DRY * _dry_g(cuts, plies, roll)), step_ml)


def _dry_g(cuts: Iterable[StripCut], plies: int, roll: Roll) -> float:
    return fsum(cut.count * cut.length_mm * cut.width_mm for cut in cuts) * plies * 1e-6 * roll.dry_g_m2


def _plies_of(cuts: Iterable[StripCut], plies: int, width_mm: float) -> Iterable[PlyCut]:
    """Single plies as they come off the rolls: two narrow ones of a length are one ply cut along its middle."""
    wide, narrow = Counter[float](), Counter[float]()
    for cut in cuts:
        (narrow if cut.width_mm < width_mm else wide)[cut.length_mm] += cut.count * plies
    return (PlyCut(length, wide[length] + ceil(narrow[length] / 2)) for length in wide.keys() | narrow.keys())


def _laid_mm2(surface: ShellSurface, layers: int) -> float:
    """Wall and both flanges in all their layers, the lap in one."""
    walls = walls_mm2(surface.area_mm2, surface.seam_mm, surface.seam_flange_mm)
    return layers * walls + surface.seam_mm * surface.lap_mm


def dry_shell_g(dry_bandage_g: float) -> float:
    """Weight of a set shell once the mixing water has dried off [g]: only bound water stays.

    `m (g + (1 - g) (1 + w))`, g the gauze's share, w = 0.1862 g of bound water per gram of hemihydrate

    Parameters
    ----------
    dry_bandage_g : dry bandage laid [g], >= 0

    Source: stoichiometry of hemihydrate to gypsum; gauze's share from memory.

    >>> round(dry_shell_g(1000.0))
    1171
    """
    return dry_bandage_g * (GAUZE_SHARE + (1.0 - GAUZE_SHARE) * (1.0 + BOUND_WATER))


def _refuse(surface: ShellSurface, roll: Roll, plies: int, strip_length_mm: float) -> None:
    least = min(surface.area_mm2, roll.width_mm, roll.length_mm, roll.dry_g_m2, strip_length_mm)
    if not least > 0:
        raise InputRefused("bandage-size", least, "> 0", "", "Correct the bandage's sheet.")
    if not 1 <= plies <= 12:
        raise InputRefused("bandage-plies", plies, "1 to 12", "plies", "3 to 6 plies are usual.")
