"""Rows of what is mixed in and measured with: cups, buckets, sticks and syringes, by their sizes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from moldwright.plan.mixes import MixKind, MixPlan
from moldwright.plan.needs import NeedGroup, NeedPlan
from moldwright.quantities.need_rows import NeedScope, used

SPARE_CUPS = 1
"""Cups more than are planned, for one that gels: common practice, no source."""


def cups(scope: NeedScope, mixes: Sequence[MixPlan], group: NeedGroup, times: int = 1) -> Iterable[NeedPlan]:
    """Cups of the shop's size, by what they are for; a spare one for the first, as its material is bought.

    Parameters
    ----------
    scope : the shop's cup, and the library
    mixes : what is mixed in them
    group : the list's
    times : how often they are mixed

    Source: the plan's own cups; uses as the sheet tells (common practice, no source).
    """
    shop = scope.commission.shop
    counts = Counter(mix.for_.kind for mix in mixes)
    for place, (kind, count) in enumerate(counts.items()):
        for need in used(scope, "cup", count * times + (0 if place else SPARE_CUPS), group):
            yield replace(need, size_ml=shop.cup_ml, cups_for=kind)


def buckets(scope: NeedScope, mixes: Sequence[MixPlan], group: NeedGroup) -> Iterable[NeedPlan]:
    """Buckets for gypsum, as many as the largest piece takes: they are washed out between pieces, a cure apart.

    Parameters
    ----------
    scope : the shop's bucket, and the library
    mixes : the shell's
    group : the list's

    Source: the plan's own buckets; common practice, no source.
    """
    of_pieces = Counter(mix.for_.piece for mix in mixes if mix.for_.kind is MixKind.SHELL)
    for need in used(scope, "bucket", max(of_pieces.values(), default=0), group):
        yield replace(need, size_ml=scope.commission.shop.bucket_ml, cups_for=MixKind.SHELL)


def syringes(scope: NeedScope, batches: Iterable[Sequence[MixPlan]], group: NeedGroup) -> Iterable[NeedPlan]:
    """Syringes by their sizes, the small ones first: in each of the batches one for each part and size.

    Parameters
    ----------
    scope : where the library is
    batches : cups of one material each, whose parts of one kind share a syringe
    group : the list's

    Source: the plan's own parts; uses as the sheet tells (common practice, no source).
    """
    sizes = Counter(size for mixes in batches for _, size in _drawn(mixes))
    for size_ml, count in sorted(sizes.items()):
        for need in used(scope, "syringe", count, group):
            yield replace(need, size_ml=size_ml)


def _drawn(mixes: Iterable[MixPlan]) -> set[tuple[str, float]]:
    """Parts and sizes of syringes."""
    return {(part.kind, part.syringe_ml) for mix in mixes for part in mix.parts if part.syringe_ml is not None}
