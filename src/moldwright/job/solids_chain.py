"""The stages of geometry in their order, each kept under a key of all that it depends on."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.commission.orders import MoldOrder, OriginalOrder
from moldwright.geometry.handles import Handle, find_handles
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import exportable, solid_of
from moldwright.mold.blank import ShellSettings
from moldwright.mold.glove import CoatedBody, coat
from moldwright.mold.mouth import Mounted, MouthLimits, mount
from moldwright.mold.shell import Shell, build_shell
from moldwright.mold.skin import Skin, skin_of
from moldwright.mold.split import CoarseSplit, SplitSettings, split_in_two
from moldwright.original.mending.solid import Standing, stand
from moldwright.original.standing.place import place
from moldwright.progress import Progress
from moldwright.scan.repairs import Repair
from moldwright.scan.scan import Said, Scan
from moldwright.store.hashing import key_of
from moldwright.store.memory import Store, remembered

SHELL_STEP_MM = 1.0
SHELL_STEPS = 250
SEARCH_STEPS = 60
HANDLE_SHARE = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class Settled:
    """The original on the board, what was said about it, and its through-holes."""

    standing: Standing
    said: Said
    repairs: tuple[Repair, ...]
    handles: tuple[Handle, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Glove:
    """The finished glove: gloved body less original and plinth."""

    mesh: Mesh
    volume_ml: float


@dataclass(frozen=True, slots=True)
class Gaps:
    """The through-holes of the body as the rubber meets it: the original's, and those between its feet and plinth."""

    handles: tuple[Handle, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Solids:
    """Everything that the geometry of a job gives, and the key of all that it depends on."""

    key: str
    settled: Settled
    mounted: Mounted
    gaps: Gaps
    skin: Skin
    coated: CoatedBody
    shell: Shell
    glove: Glove


def solids_for(
    scan: Scan,
    original: OriginalOrder,
    mold: MoldOrder,
    coats_mm: tuple[float, ...],
    skin_mm: float,
    shell: ShellSettings,
    store: Store,
    progress: Progress,
) -> Solids:
    """Run or recall the stages: stand, mount, coat, split, shell, glove.

    Parameters
    ----------
    scan : what was read.
    original, mold : the order's parts that shape the solids.
    coats_mm : thickness of each coat [mm].
    skin_mm : thickness of the cast's skin [mm].
    shell : the shell's dimensions.
    store : where results are kept.
    progress : told the stages.
    """
    place_as = (original.height_mm, original.unit, original.up, original.board_mm)
    key = key_of("settled", scan.mesh, scan.unit, scan.up, place_as)
    settled = remembered(store, "settled", Settled, lambda: settle(scan, original, progress), key)
    limits = MouthLimits(narrowest_mm=mold.mouth_width_mm, share_of_largest=mold.mouth_share)
    key = key_of("mounted", key, limits)
    mounted = remembered(store, "mounted", Mounted, lambda: _mount(settled, limits, progress), key)
    gaps = remembered(store, "gaps", Gaps, lambda: _gaps(settled, mounted), key)
    skin = remembered(store, "skin", Skin, lambda: _skin(mounted, settled, skin_mm, progress), key, skin_mm)
    key = key_of("coated", key, coats_mm, mold.flange_mm)
    coated = remembered(
        store, "coated", CoatedBody, lambda: _coat(mounted, settled, coats_mm, mold.flange_mm, progress), key
    )
    key = key_of("shell", key, shell, SplitSettings())
    built = remembered(store, "shell", Shell, lambda: _shell(coated, settled, shell, progress), key)
    glove = remembered(store, "glove", Glove, lambda: _glove(built, mounted, progress), key)
    return Solids(key_of("solids", key, skin_mm), settled, mounted, gaps, skin, coated, built, glove)


def settle(scan: Scan, original: OriginalOrder, progress: Progress) -> Settled:
    """Place the scan, make it one standing solid and find its through-holes.

    Parameters
    ----------
    scan : what was read.
    original : how it stands.
    progress : told the stage.
    """
    progress("stand the original on the board", 0.0)
    placed = place(scan, original.height_mm, original.unit, original.up, original.board_mm)
    standing = stand(placed.mesh)
    handles = find_handles(standing.mesh, HANDLE_SHARE * standing.step_mm)
    progress("stand the original on the board", 1.0)
    return Settled(standing, placed.said, placed.repairs, handles)


def _mount(settled: Settled, limits: MouthLimits, progress: Progress) -> Mounted:
    progress("measure the mouth", 0.0)
    mounted = mount(settled.standing.mesh, limits)
    progress("measure the mouth", 1.0)
    return mounted


def _gaps(settled: Settled, mounted: Mounted) -> Gaps:
    """The bare original's through-holes lifted onto its plinth, or all of the body's where the plinth makes more."""
    lift = float(mounted.original.bounds_mm[0][2])
    bare = tuple(Handle((h.at[0], h.at[1], h.at[2] + lift), h.width_mm) for h in settled.handles)
    if mounted.plinth is None:
        return Gaps(bare)
    whole = find_handles(mounted.body, HANDLE_SHARE * settled.standing.step_mm)
    return Gaps(whole if len(whole) > len(bare) else bare)


def _skin(mounted: Mounted, settled: Settled, skin_mm: float, progress: Progress) -> Skin:
    progress("measure the cast's skin", 0.0)
    skin = skin_of(mounted.body, skin_mm, mounted.plinth_height_mm, settled.standing.step_mm)
    progress("measure the cast's skin", 1.0)
    return skin


def _coat(
    mounted: Mounted, settled: Settled, coats_mm: tuple[float, ...], flange_mm: float, progress: Progress
) -> CoatedBody:
    progress("lay the coats", 0.0)
    coated = coat(mounted.body, coats_mm, flange_mm, settled.standing.step_mm)
    progress("lay the coats", 1.0)
    return coated


def shell_step(settled: Settled) -> float:
    """Sampling step of flange and shell: 1 mm, above 250 mm size / 250 [mm].

    Parameters
    ----------
    settled : the original.
    """
    low, high = settled.standing.mesh.bounds_mm
    return max(SHELL_STEP_MM, float((high - low).max()) / SHELL_STEPS)


def search(coated: CoatedBody, settled: Settled, shell: ShellSettings, progress: Progress) -> CoarseSplit:
    """The best split found for a coated body.

    Parameters
    ----------
    coated : body, rubber and flange.
    settled : the original, for the step.
    shell : the shell's dimensions.
    progress : told the stage.
    """
    low, high = coated.gloved.bounds_mm
    step = max(shell_step(settled) * 1.5, float((high - low).max()) / SEARCH_STEPS)
    return split_in_two(coated.gloved, shell.seam_flange_mm, coated.flange_mm, step, SplitSettings(), progress)


def _shell(coated: CoatedBody, settled: Settled, shell: ShellSettings, progress: Progress) -> Shell:
    split = search(coated, settled, shell, progress)
    return build_shell(coated.gloved, coated.outline, coated.flange_mm, split, shell_step(settled), shell, progress)


def _glove(shell: Shell, mounted: Mounted, progress: Progress) -> Glove:
    progress("take the glove's solid", 0.0)
    solid = solid_of(shell.gloved) - solid_of(mounted.body)
    mesh = exportable(solid)
    progress("take the glove's solid", 1.0)
    return Glove(mesh, mesh.volume_ml)
