"""The rigid support shell, cut with clearance until it is proven to come off."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import NoSafePlan
from moldwright.geometry.grid import Field
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.on_body import found_on
from moldwright.geometry.seam_kind import Seam
from moldwright.mold.bands import bands_of
from moldwright.mold.blank import Blank, cut_piece, lay_out, room_for
from moldwright.mold.bolt_seat import BoltPlace
from moldwright.mold.fasten import fastened
from moldwright.mold.glove import Outline
from moldwright.mold.lap import cut_lapped
from moldwright.mold.measures import Fasteners, Push, ShellBand
from moldwright.mold.packed import Packed
from moldwright.mold.pushes import pushes_on
from moldwright.mold.removal import Met, Removal, check_removal, touches, what_is_met
from moldwright.mold.seam import edges_mm, uncovered_share
from moldwright.mold.seam_line import SeamCurve, seam_curve
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.split import CoarseSplit
from moldwright.progress import Progress, silent
from moldwright.ways import figure

CLEARANCES = (1.0, 1.4, 2.0, 3.0)

Draw = tuple[float, float, float]


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """One piece of the shell and the unit vector it draws off along; `fill_ml` the rubber packed on its side."""

    mesh: Mesh
    draw: Draw
    fill_ml: float


@dataclass(frozen=True, slots=True, eq=False)
class BuiltShell:
    """The pieces in the order of removal, the gloved body they draw off (fill included), and the packing.

    spots : every packed place as its own solid, largest first.
    edges_mm : of each piece, how long the seam is up to which it is laid, but for what dividers part in through-holes:
        see `mold.seam.edges_mm`.
    seam : its lines on the rubber.
    uncovered_share : share of the gloved surface that no piece supports.
    lap_left_out_share : share of a lapped seam's lip that would hook and is left out; 0 against a wall.
    pushes : what a full mold presses on each piece.
    bands : what each piece covers above the flange, from there up.
    fasteners : what is bored and set in a printed one; `bolts`: where, along its seam.
    in_order : its pieces come off in their order only, the way of one through the place of earlier ones.
    """

    pieces: tuple[Piece, ...]
    gloved: Mesh
    spots: tuple[Packed, ...]
    edges_mm: tuple[float, ...]
    seam: SeamCurve
    uncovered_share: float
    lap_left_out_share: float
    clearance_mm: float
    removal: Removal
    pushes: tuple[Push, ...] = ()
    bands: tuple[tuple[ShellBand, ...], ...] = ()
    fasteners: Fasteners | None = None
    bolts: tuple[BoltPlace, ...] = ()
    in_order: bool = False

    @property
    def seam_mm(self) -> float:
        """Length of all seams together."""
        return sum(self.edges_mm)

    @property
    def shares(self) -> tuple[float, ...]:
        """How much of the shell's volume each piece is, 0 to 1."""
        volumes = [piece.mesh.volume_ml for piece in self.pieces]
        return tuple(volume / sum(volumes) for volume in volumes)


@dataclass(frozen=True, slots=True, eq=False)
class _Cut:
    """Pieces that come off, and how they were proven to."""

    meshes: tuple[Mesh, ...]
    left_out_share: float
    draws: tuple[Draw, ...]
    clearance_mm: float
    removal: Removal
    in_order: bool
    fasteners: Fasteners | None = None
    bolts: tuple[BoltPlace, ...] = ()


def build_shell(
    core: Mesh,
    outline: Outline,
    floor_mm: float,
    split: CoarseSplit,
    step_mm: float,
    s: ShellSettings,
    dividers: tuple[Draw, ...] = (),
    progress: Progress = silent,
) -> BuiltShell:
    """Cut the shell for a searched split, and prove on the finished solids that it comes off.

    Parameters
    ----------
    core : body, coats and flange as one closed solid on z = 0 [mm].
    outline : (n, 2) edge of the rubber flange seen from above [mm].
    floor_mm : top of the rubber flange, on which the shell stands [mm].
    split : the draws and the seam.
    step_mm : sampling step [mm].
    s : the shell's dimensions.
    dividers : where through-holes with a divider are [mm].
    progress : told the stages.

    Raises NoSafePlan ("shell-locked") where no clearance frees the pieces.

    Source: our own.
    """
    progress("build the shell", 0.0)
    blank = lay_out(core, outline, floor_mm, split, step_mm, s, dividers)
    progress("build the shell", 0.5)
    cut = _cut_free(blank, s, s.clearance_mm * max(1.0, step_mm), progress)
    seam = seam_curve(blank.gloved, blank.hidden.sides, blank.grid, blank.floor_mm)
    if s.bolted:
        cut = _bored(cut, seam, blank, outline, s, progress)
    return BuiltShell(
        pieces=tuple(map(Piece, cut.meshes, cut.draws, _fill_by_piece(blank))),
        gloved=blank.gloved,
        spots=blank.spots,
        edges_mm=edges_mm(blank, s.seam_reach_mm),
        seam=seam,
        uncovered_share=uncovered_share(blank),
        lap_left_out_share=cut.left_out_share,
        clearance_mm=cut.clearance_mm,
        removal=cut.removal,
        pushes=pushes_on(blank.gloved, blank.hidden.sides, blank.grid, cut.draws, blank.floor_mm),
        bands=bands_of(blank.gloved, blank.hidden.sides, blank.grid, blank.floor_mm),
        fasteners=cut.fasteners,
        bolts=cut.bolts,
        in_order=cut.in_order,
    )


def _bored(cut: _Cut, seam: SeamCurve, blank: Blank, outline: Outline, s: ShellSettings, progress: Progress) -> _Cut:
    """The pieces with their holes and keys, proven anew; without keys where one of them locks, bare where that is in
    vain."""
    for keyed in (True, False):
        made = fastened(cut.meshes, cut.draws, seam, blank.gloved, outline, blank.floor_mm, s, keyed)
        removal = check_removal(
            made.meshes, cut.draws, blank.gloved, progress, whole_way=not keyed, in_order=cut.in_order
        )
        if removal.free:
            return replace(cut, meshes=made.meshes, removal=removal, fasteners=made.fasteners, bolts=made.bolts)
    return replace(cut, fasteners=Fasteners())


def _cut_free(blank: Blank, s: ShellSettings, least_mm: float, progress: Progress) -> _Cut:
    """Cut the pieces; where the proof finds a touch (creases finer than the grid), again with more clearance."""
    draws = tuple(_unit(draw) for draw in blank.draws)
    rooms = tuple(room_for(blank, number) for number in range(len(draws)))
    in_order = s.seam is Seam.LAP or blank.in_order
    met: Met | None = None
    for factor in CLEARANCES:
        clearance_mm = factor * least_mm
        meshes, left_out = _apart_from(blank, rooms, clearance_mm, s)
        progress("build the shell", 1.0)
        held = _held_at_rest(meshes, blank.gloved)
        if held is not None:
            met = held
            continue
        last = factor == CLEARANCES[-1]
        removal = check_removal(meshes, draws, blank.gloved, progress, whole_way=last, in_order=in_order)
        if removal.free:
            cut = _Cut(meshes, left_out, draws, clearance_mm, removal, blank.in_order)
            return _in_any_order(cut, blank, s, progress) if blank.in_order else cut
        met = removal.met or met
    raise _locked(met, clearance_mm, blank.gloved)


def _in_any_order(cut: _Cut, blank: Blank, s: ShellSettings, progress: Progress) -> _Cut:
    """The same pieces, as thin as they are, where the order in which their spaces leave does not hold them."""
    if s.seam is Seam.LAP:
        return cut
    removal = check_removal(cut.meshes, cut.draws, blank.gloved, progress, whole_way=False)
    return replace(cut, removal=removal, in_order=False) if removal.free else cut


def _locked(met: Met | None, clearance_mm: float, gloved: Mesh) -> NoSafePlan:
    """The refusal of a shell of which a piece is held."""
    number, clear = figure(met.piece if met else 1, ""), figure(round(clearance_mm, 1), "mm")
    across_mm = met.across_mm if met else 0.0
    remedy = (
        f"Shell piece {number} is held there, {clear} clear of the rubber: fill that crease or hollow, in the scan or "
        "with wax on the original, cut the part off that holds it and plan both, or let the shell have another number "
        "of pieces."
    )
    place = None if met is None else found_on(gloved, np.array(met.at), met.across_mm)
    return NoSafePlan("shell-locked", round(across_mm, 1), 0, "mm", remedy, place=place)


def _apart_from(
    blank: Blank, rooms: tuple[Field, ...], clearance_mm: float, s: ShellSettings
) -> tuple[tuple[Mesh, ...], float]:
    """The pieces and the share of their lap that is left out."""
    if s.seam is Seam.LAP:
        lapped = cut_lapped(blank, rooms, clearance_mm, s)
        return lapped.pieces, lapped.left_out_share
    return tuple(cut_piece(blank, room, clearance_mm) for room in rooms), 0.0


def _held_at_rest(meshes: tuple[Mesh, ...], gloved: Mesh) -> Met | None:
    """What the first piece that touches the rubber at rest meets; None where none does."""
    for number, piece in enumerate(meshes):
        if touches(piece, gloved):
            return what_is_met(number, piece, np.zeros(3), gloved)
    return None


def _unit(draw: NDArray[np.float64]) -> Draw:
    x, y, z = (float(v) for v in draw / np.linalg.norm(draw))
    return (x, y, z)


def _fill_by_piece(blank: Blank) -> list[float]:
    """How much of the packing lies on each piece's side of the seam [ml]."""
    totals = [0.0] * len(blank.draws)
    last = np.array(blank.grid.shape) - 1
    for spot in blank.spots:
        middle = spot.outer.corners.mean(axis=(0, 1))
        index = np.clip(np.rint((middle - blank.grid.origin) / blank.grid.step_mm).astype(int), 0, last)
        totals[int(np.argmax([side[tuple(index)] for side in blank.hidden.sides]))] += spot.volume_ml
    return totals
