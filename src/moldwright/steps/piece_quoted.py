"""The quantities of one piece of the shell that a sentence may quote, what its labor counts, and its flags."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from moldwright.plan.mixes import MixFor, MixKind
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.quantities.gypsum import MIX_S
from moldwright.quantities.quantities import Quantities
from moldwright.steps.cup_quoted import mixed
from moldwright.steps.flags import Flag
from moldwright.steps.quoted import Quoted


def piece_quoted(job: Quantities, number: int) -> Quoted:
    """The quantities of one piece.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    number : of the piece, from 1 in the order of removal.
    """
    every = (
        Quantity("piece.number", Dimension.COUNT, number),
        Quantity("piece.edge", Dimension.LENGTH, job.measures.shell.edges_mm[number - 1]),
        *_strips(job, number),
        *_buckets(job, number),
    )
    return {quantity.name: quantity for quantity in every}


def _strips(job: Quantities, number: int) -> Iterable[Quantity]:
    if job.bandage is None:
        return
    laid = job.bandage.pieces[number - 1]
    yield Quantity("piece.strips", Dimension.COUNT, laid.strips)
    yield Quantity("piece.water", Dimension.VOLUME, laid.water_ml)


def _buckets(job: Quantities, number: int) -> Iterable[Quantity]:
    if not job.shell_mixes:
        return
    mixes = job.mixes_for(MixFor(MixKind.SHELL, piece=number))
    if job.mats is not None:
        yield Quantity("piece.squares", Dimension.COUNT, job.mats.matted * job.mats.pieces[number - 1].squares)
    yield Quantity("piece.buckets", Dimension.COUNT, len(mixes))
    yield mixed("piece.mix", mixes)


def piece_numbers(job: Quantities, number: int) -> Mapping[str, float]:
    """What the labor of one piece counts.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    number : of the piece, from 1 in the order of removal.
    """
    shell, bandage = job.measures.shell, job.bandage
    buckets = len(job.mixes_for(MixFor(MixKind.SHELL, piece=number)))
    return {
        "piece.edge_m": shell.edges_mm[number - 1] / 1000.0,
        "piece.strips": float(bandage.pieces[number - 1].strips) if bandage else 0.0,
        "piece.laid_dm2": 0.0 if bandage else shell.area_mm2 * shell.shares[number - 1] / 1e4,
        "piece.mix_min": buckets * MIX_S / 60.0,
    }


def piece_flags(job: Quantities, number: int) -> frozenset[Flag]:
    """The flags that are up for one piece beside the job's.

    Parameters
    ----------
    job : the quantities.
    number : of the piece, from 1 in the order of removal.
    """
    words = {Flag.FIRST_LAID: number == job.measures.shell.pieces, Flag.LAST_LAID: number == 1}
    return frozenset(flag for flag, up in words.items() if up)
