"""From what a commission gives of its original to the solid that is planned on: a scan, or one that stands for it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from moldwright.commission.orders import OriginalOrder
from moldwright.job.solids_chain import SETTLE
from moldwright.making.order import Order, scan_of
from moldwright.plan.known import SCANNED, Known
from moldwright.progress import Progress
from moldwright.ranges import Range
from moldwright.scan.scan import Scan
from moldwright.store.memory import Store
from moldwright.store.stage import Kept, Stage

if TYPE_CHECKING:
    from moldwright.original.evidence.witness import Witness
    from moldwright.photos.photographed import Photographed
    from moldwright.tape.taped import Taped

PHOTOGRAPH: Stage[Photographed] = Stage("moldwright.photos.photograph:photograph")
PHOTO_SOLID = Stage("moldwright.job.sources:photo_solid", kind=Scan)
TAPE: Stage[Taped] = Stage("moldwright.job.sources:tape_of", "from tape to solid")
TAPE_SOLID = Stage("moldwright.job.sources:tape_solid", kind=Scan)


@dataclass(frozen=True, slots=True, eq=False)
class Taken:
    """An original as the plan takes it: its solid as a scan, how that stands, and how well it is known.

    `photographed`, `taped` : what photos or a tape gave, for their sheets.
    """

    scan: Kept[Scan]
    order: OriginalOrder
    known: Known = SCANNED
    photographed: Kept[Photographed] | None = None
    taped: Kept[Taped] | None = None


def original_of(order: Order, store: Store, progress: Progress) -> Taken:
    """The original by all that its commission gives; sources that disagree past their ranges are refused.

    The form comes from the scan, else from photos, else from the tape; the others narrow or contradict its volume.

    Parameters
    ----------
    order : the commission and the paths in it, with a form.
    store : where stages are kept.
    progress : told the stages.
    """
    if order.scan is not None:
        return _scanned(order, order.scan, store, progress)
    if order.photos is not None:
        return _photographed(order, order.photos, store, progress)
    return _taped(order, store, progress)


def has_form(order: OriginalOrder) -> bool:
    """Whether anything gives the original's form; without it there are quantities alone.

    Parameters
    ----------
    order : the piece to copy.
    """
    return bool(order.file or order.photos or order.tape)


def photographed_in(
    folder: Path, order: OriginalOrder, store: Store, progress: Progress, volume_ml: float | None = None
) -> Kept[Photographed]:
    """What the photos of a folder give, kept under the hash of the bytes that were read.

    Parameters
    ----------
    folder : the photos.
    order : bar, photos left out, bowls that are told.
    store : where stages are kept.
    progress : told while they are read and carved.
    volume_ml : the likely volume, where all sources together put it elsewhere than photos alone.
    """
    from moldwright.photos.photograph import photograph  # noqa: PLC0415
    from moldwright.photos.photographed import Photographed, PhotosAsked  # noqa: PLC0415
    from moldwright.photos.reading.names import content_of  # noqa: PLC0415
    from moldwright.photos.reading.read import read_photos  # noqa: PLC0415

    asked = PhotosAsked(order.bar_on_print_mm, volume_ml, order.bowls)
    key = PHOTOGRAPH.key(store, content_of(folder, order.leave_out), order.leave_out, asked)
    found = store.get(key, Photographed)
    if found is None:
        with read_photos(folder, order.leave_out, progress=progress) as photos:
            key, found = (
                PHOTOGRAPH.key(store, photos.sha256, order.leave_out, asked),
                photograph(photos, asked, progress),
            )
        store.put(key, found)
    kept = found
    return Kept(key, lambda: kept)


def _scanned(order: Order, path: Path, store: Store, progress: Progress) -> Taken:
    original = order.commission.original
    progress("reading the scan", 0.0)
    scan = scan_of(path, store)
    progress("reading the scan", 1.0)
    others = _others(order, store, progress)
    if not others:
        return Taken(scan, original)
    from moldwright.job import sources  # noqa: PLC0415
    from moldwright.original.evidence.narrow import together  # noqa: PLC0415

    stands = original.height_mm, original.unit, original.up, original.board_mm
    mesh = SETTLE.kept(store, progress, scan, *stands).value.standing.mesh
    evidence = together((sources.by_scan(mesh.volume_ml, mesh.area_mm2), *others))
    return Taken(scan, original, replace(SCANNED, also=evidence.sources[1:]))


def _photographed(order: Order, folder: Path, store: Store, progress: Progress) -> Taken:
    from moldwright.job import sources  # noqa: PLC0415
    from moldwright.original.evidence.narrow import together  # noqa: PLC0415

    original = order.commission.original
    found = photographed_in(folder, original, store, progress)
    sources.refuse_other_height(float(found.value.mesh.bounds_mm[1][2]), original)
    evidence = together((*sources.by_photos(found.value, original), *_others(order, store, progress, photos=False)))
    if sources.moved(found.value.mesh.volume_ml, evidence):
        found = photographed_in(folder, original, store, progress, round(evidence.volume_ml.likely, 2))
    solid, spread = found.value.mesh, found.value.spread
    known = sources.known_by(evidence, solid, spread.rubber)
    known = replace(
        known, photos=found.value.told, asks=found.value.asks, spread=replace(known.spread, unseen_ml=spread.unseen_ml)
    )
    return Taken(PHOTO_SOLID.kept(store, progress, found), sources.as_made(original), known, photographed=found)


def _taped(order: Order, store: Store, progress: Progress) -> Taken:
    from moldwright.job import sources  # noqa: PLC0415
    from moldwright.original.evidence.narrow import together  # noqa: PLC0415

    original = order.commission.original
    found = TAPE.kept(store, progress, original)
    evidence = together((sources.by_tape(found.value), *sources.witnesses_of(original)))
    solid = TAPE_SOLID.kept(store, progress, found, evidence.volume_ml.likely)
    area = evidence.area_cm2
    rubber = area * (1.0 / area.likely) if area is not None else Range.exactly(1.0)
    known = sources.known_by(evidence, solid.value.mesh, rubber)
    return Taken(solid, sources.as_made(original), known, taped=found)


def _others(order: Order, store: Store, progress: Progress, photos: bool = True) -> tuple[Witness, ...]:
    """What all but the first source say: photos, where they are not the first, tape, water and weight."""
    original = order.commission.original
    told = original.displaced_ml, original.weight_g, original.tape, order.photos if photos else None
    if all(each is None for each in told):
        return ()
    from moldwright.job import sources  # noqa: PLC0415

    seen: tuple[Witness, ...] = ()
    if photos and order.photos is not None:
        seen = sources.by_photos(photographed_in(order.photos, original, store, progress).value, original)
    if original.tape is not None:
        seen = (*seen, sources.by_tape(TAPE.kept(store, progress, original).value))
    return (*seen, *sources.witnesses_of(original))
