"""A piece's plan asked for, and the last that was asked for it."""

from __future__ import annotations

from moldwright.log.ids import PieceId
from moldwright.records.pieces.folder import lay_out
from moldwright.records.pieces.write import piece_known
from moldwright.records.shop import Shop
from moldwright.web.long_work.job import LongJob, WorkKind
from moldwright.web.long_work.queue import WorkQueue


def plan_piece(work: WorkQueue, shop: Shop, id_: PieceId, by: str = "") -> LongJob:
    """Ask for the plan of what is asked for now; what still waits or is under way for it is stopped.

    Parameters
    ----------
    work : the queue.
    shop : the records.
    id_ : the piece's.
    by : who asks.

    Raises InputRefused ("not-kept"), RecordConflict ("file-missing", "file-damaged").
    """
    piece = piece_known(shop, id_)
    for job in work.files.every():
        if job.about == id_ and not job.state.ended:
            work.stop(job.id)
    order = {"asked": piece.asked}
    return work.ask(WorkKind.PLAN, piece.name, id_, order, lambda to: lay_out(shop, piece, to, linked=True), by)


def last_plan_work(work: WorkQueue, id_: PieceId) -> LongJob | None:
    """The last planning of a piece, None where none is kept.

    Parameters
    ----------
    work : the queue.
    id_ : the piece's.
    """
    kinds = (WorkKind.PLAN, WorkKind.DEMO)
    return next((job for job in reversed(work.files.every()) if job.about == id_ and job.kind in kinds), None)
