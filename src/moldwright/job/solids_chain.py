"""The stages of geometry in their order, each named by its function and kept under a key of all that it depends on.

Nothing is computed here and none of the stages' modules is imported: a plan whose solids were kept starts quickly.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from moldwright.commission.orders import MoldOrder, OriginalOrder
from moldwright.job.formed import Formed
from moldwright.job.measured import Measured
from moldwright.job.searched import KNOWN, Doubted, Tried
from moldwright.mold.measures import PrintMeasures
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.stand_found import StandSought
from moldwright.mold.strained import Strained
from moldwright.mold.trapped import HollowsFound
from moldwright.plan.peel import PeelShape, SlitPlan
from moldwright.progress import Progress
from moldwright.ranges import Range
from moldwright.store.memory import Store
from moldwright.store.stage import Kept, Stage

if TYPE_CHECKING:
    from moldwright.job.rubbering import Glove
    from moldwright.job.standing import Gaps, Settled
    from moldwright.mold.glove import CoatedBody, Coats
    from moldwright.mold.measures import Skin
    from moldwright.mold.mouth import Mounted
    from moldwright.mold.peel_places import Peeled
    from moldwright.mold.plates import LaidPlates
    from moldwright.mold.shell import BuiltShell
    from moldwright.mold.splits import Splits
    from moldwright.scan.scan import Scan

SETTLE: Stage[Settled] = Stage("moldwright.job.standing:settle", "stand the original on the board")
MOUNT: Stage[Mounted] = Stage("moldwright.job.standing:mounted_on", "measure the mouth")
HOLLOWS: Stage[HollowsFound] = Stage("moldwright.job.leaving:hollows_in", "look for hollows", HollowsFound)
GAPS: Stage[Gaps] = Stage("moldwright.job.standing:gaps_of")
SKIN: Stage[Skin] = Stage("moldwright.job.rubbering:skin_in", "measure the cast's skin")
COAT: Stage[Coats] = Stage("moldwright.job.rubbering:coated_with", "lay the coats")
SPLITS: Stage[Splits] = Stage("moldwright.job.shelling:splits_of")
TRIED: Stage[Tried] = Stage("moldwright.job.tried:tried_with", kind=Tried)
DOUBTED: Stage[Doubted] = Stage("moldwright.job.doubted:doubted_about", kind=Doubted)
FORMED: Stage[Formed] = Stage("moldwright.job.forming:formed_about", "form other kinds of mold", kind=Formed)
KEYS: Stage[CoatedBody] = Stage("moldwright.job.shelling:keyed_for")
SHELL: Stage[BuiltShell] = Stage("moldwright.job.shelling:shell_of")
GLOVE: Stage[Glove] = Stage("moldwright.job.rubbering:glove_of", "take the glove's solid")
PEEL: Stage[Peeled] = Stage("moldwright.job.peeling:peeled_off", "peel the glove")
PEEL_SHAPE: Stage[PeelShape] = Stage("moldwright.job.peeling:peel_shape", kind=PeelShape)
SLIT: Stage[SlitPlan] = Stage("moldwright.job.peeling:slit_of", "place the slit", kind=SlitPlan)
STRAIN: Stage[Strained] = Stage("moldwright.job.straining:strained_off", kind=Strained)
MEASURE: Stage[Measured] = Stage("moldwright.job.measuring:measure", kind=Measured)
PLATES: Stage[LaidPlates] = Stage("moldwright.job.printing:plates_of", "lay out the plates")
PRINTED: Stage[PrintMeasures] = Stage("moldwright.job.printing:measured_plates", kind=PrintMeasures)

STAND: Stage[StandSought] = Stage("moldwright.job.cradling:stand_of", "work out the stand", StandSought)


@dataclass(frozen=True, slots=True, eq=False)
class KeptSolids:
    """The finished solids of a job and their measures, found or made when a value is asked for; `tried`: what shells in
    one to four pieces would take; `doubted`: the same about other solids that the original could be; `splits`: those
    that were found; `formed`: what other kinds of mold would measure; `slit`: where the glove would be slit, made only
    where it is; `plates` and `printed` are asked for of a printed shell alone."""

    tried: Kept[Tried]
    doubted: Kept[Doubted]
    splits: Kept[Splits]
    formed: Kept[Formed]
    mounted: Kept[Mounted]
    coated: Kept[CoatedBody]
    shell: Kept[BuiltShell]
    glove: Kept[Glove]
    measured: Kept[Measured]
    peeled: Kept[Peeled]
    peel: Kept[PeelShape]
    slit: Kept[SlitPlan]
    plates: Kept[LaidPlates]
    printed: Kept[PrintMeasures]
    strained: Kept[Strained]
    stand: Kept[StandSought]


@dataclass(frozen=True, slots=True, eq=False)
class KeptBody:
    """What the rubber is laid on, found or made when a value is asked for, and the hollows that could hold it."""

    settled: Kept[Settled]
    mounted: Kept[Mounted]
    hollows: Kept[HollowsFound]


def body_for(
    scan: Kept[Scan] | Scan, original: OriginalOrder, mold: MoldOrder, store: Store, progress: Progress
) -> KeptBody:
    """The stages stand, mount and hollows for an order; none is run yet.

    Parameters
    ----------
    scan : what was read.
    original, mold : the order's parts that shape the body.
    store : where results are kept.
    progress : told the stages.
    """
    at = store, progress
    settled = SETTLE.kept(*at, scan, original.height_mm, original.unit, original.up, original.board_mm)
    mounted = MOUNT.kept(*at, settled, mold.mouth_width_mm, mold.mouth_share)
    return KeptBody(settled, mounted, HOLLOWS.kept(*at, mounted))


def solids_for(
    scan: Kept[Scan] | Scan,
    body: KeptBody,
    mold: MoldOrder,
    coats_mm: tuple[float, ...],
    skin_mm: float,
    shell: ShellSettings,
    room: tuple[float, float, float],
    peels_mm: float,
    allowed_stretch: float,
    hook_mm: float,
    volume: Range,
    pieces_of: Callable[[Tried, Doubted], int],
    store: Store,
    progress: Progress,
) -> KeptSolids:
    """The stages gaps, skin, coat, splits, tried, doubted, keys, shell, glove, measure, peel and form for an order;
    none is run yet, but those up to the splits where the order does not tell how many pieces the shell has.

    Parameters
    ----------
    scan : what was read.
    body : what the rubber is laid on.
    mold : the order's part that shapes the solids.
    coats_mm : thickness of each coat [mm].
    skin_mm : thickness of the cast's skin [mm].
    shell : the shell's dimensions.
    room : what the printer holds, width, depth and height [mm].
    peels_mm : thicker rubber does not peel [mm].
    allowed_stretch : how many times its own length the rubber may be stretched.
    hook_mm : so far rubber gives way where it hooks behind the original [mm].
    volume : factor on the original's volume at 90 %, 1 where it is known.
    pieces_of : chooses how many pieces it has, where the order does not.
    store : where results are kept.
    progress : told the stages.
    """
    at = store, progress
    settled, mounted = body.settled, body.mounted
    gaps = GAPS.kept(*at, settled, mounted)
    skin = SKIN.kept(*at, mounted, settled, skin_mm)
    coats = COAT.kept(*at, mounted, settled, coats_mm, mold.flange_mm)
    splits = SPLITS.kept(*at, coats, settled, shell.seam_flange_mm, shell.draft_deg, peels_mm)
    tried = TRIED.kept(*at, mounted, settled, gaps, skin, coats, splits, shell)
    known = volume.low == volume.high
    found = None if known else DOUBTED.kept(*at, mounted, coats, splits, shell, gaps, peels_mm, volume)
    doubted = found or Kept("known", lambda: KNOWN)
    pieces = mold.pieces or pieces_of(tried.value, doubted.value)
    coated = KEYS.kept(*at, coats, splits, pieces)
    built = SHELL.kept(*at, coated, splits, pieces, settled, gaps, shell)
    glove = GLOVE.kept(*at, built, mounted)
    measured = MEASURE.kept(*at, scan, settled, mounted, gaps, skin, coated, built, glove, shell)
    peeled = PEEL.kept(*at, mounted, gaps, coated, built, peels_mm)
    peel = PEEL_SHAPE.kept(*at, peeled)
    slit = SLIT.kept(*at, peeled, mounted, coated, built, allowed_stretch, mold.slit)
    formed = FORMED.kept(*at, mounted, settled, gaps, skin, mold.flange_mm, shell, peels_mm, hook_mm)
    plates = PLATES.kept(*at, built, room)
    printed = PRINTED.kept(*at, plates)
    strained = STRAIN.kept(*at, coats)
    stand = STAND.kept(*at, built, glove, mounted, coated, shell)
    return KeptSolids(
        tried,
        doubted,
        splits,
        formed,
        mounted,
        coated,
        built,
        glove,
        measured,
        peeled,
        peel,
        slit,
        plates,
        printed,
        strained,
        stand,
    )
