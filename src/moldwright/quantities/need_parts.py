"""Rows of what goes into cups: every part of the mixes, for trials, and for one cup more where a clock runs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import fsum

from moldwright.materials.kinds import TwoPart
from moldwright.plan.mixes import TRACES, MixPlan, PartKind
from moldwright.plan.needs import NeedGroup, NeedPlan, NeedUnit
from moldwright.quantities.need_rows import NeedScope, plain_row, row
from moldwright.ranges import Range

TRACE = Range(0.2, 1.0, 3.0)
"""How a trace on a stick, or a few drops, may turn out against its plan: common practice, no source."""


def parts(
    scope: NeedScope, sheet: TwoPart, mixes: Sequence[MixPlan], spread: Range, group: NeedGroup, times: int = 1
) -> Iterable[NeedPlan]:
    """Every part of these mixes, summed and spread.

    Parameters
    ----------
    scope : the sheets, and how the shop measures
    sheet : of the parts that react
    mixes : the cups
    spread : how they may turn out against their plan, shares of it
    group : the list's
    times : how often they are mixed

    Source: sums of the plan's own quantities.
    """
    for kind, name in _in(mixes):
        amount = (TRACE if kind in TRACES else spread) * (times * part_g(mixes, kind, name))
        yield _row(scope, sheet, mixes, kind, name, amount, group)


def spare_cup(scope: NeedScope, sheet: TwoPart, mixes: Sequence[MixPlan], group: NeedGroup) -> Iterable[NeedPlan]:
    """The largest of these cups once more, if it is on a clock: one that gels is mixed anew; traces suffice.

    Parameters
    ----------
    scope : the sheets, and how the shop measures
    sheet : of the parts that react
    mixes : the cups
    group : the list's

    Source: common practice, no source.
    """
    largest = spared(mixes)
    if largest is None:
        return
    for part in largest.parts:
        if part.kind not in TRACES:
            need = _row(scope, sheet, [largest], part.kind, part.name, Range.exactly(part.mass_g), group)
            yield replace(need, spare=True)


def spared(mixes: Iterable[MixPlan]) -> MixPlan | None:
    """The cup that is bought once more: the largest that is on a clock; None where none is.

    Parameters
    ----------
    mixes : the cups

    Source: common practice, no source.
    """
    clocked = (mix for mix in mixes if mix.work_by_s is not None)
    return max(clocked, key=lambda mix: mix.mass_g, default=None)


def of_a_mix(
    scope: NeedScope, sheet: TwoPart, mixes: Sequence[MixPlan], mass_g: float, group: NeedGroup
) -> Iterable[NeedPlan]:
    """So much of the same mix, for a trial; traces are enough as it is.

    Parameters
    ----------
    scope : the sheets, and how the shop measures
    sheet : of the parts that react
    mixes : the cups whose mix it is
    mass_g : of all parts together [g], > 0
    group : the list's

    Source: arithmetic.
    """
    share = mass_g / fsum(mix.mass_g for mix in mixes)
    for kind, name in _in(mixes):
        if kind not in TRACES:
            yield _row(scope, sheet, mixes, kind, name, Range.exactly(share * part_g(mixes, kind, name)), group)


def part_g(mixes: Iterable[MixPlan], kind: PartKind, name: str | None = None) -> float:
    """Mass of one part in all these mixes [g].

    Parameters
    ----------
    mixes : the cups
    kind : the part's
    name : the part's, None for all of its kind

    Source: arithmetic.
    """
    return fsum(part.mass_g for mix in mixes for part in mix.parts if part.kind is kind and name in (None, part.name))


def _in(mixes: Sequence[MixPlan]) -> Iterable[tuple[PartKind, str]]:
    return dict.fromkeys((part.kind, part.name) for mix in mixes for part in mix.parts)


def _row(
    scope: NeedScope,
    sheet: TwoPart,
    mixes: Sequence[MixPlan],
    kind: PartKind,
    name: str,
    amount_g: Range,
    group: NeedGroup,
) -> NeedPlan:
    """One part's row, in the shop's measure; a powder's milliliters are loose, as it is measured."""
    chosen, amount, unit = scope.chosen, amount_g, NeedUnit.GRAM
    if scope.commission.shop.by_volume:
        volume = fsum(p.volume_ml for mix in mixes for p in mix.parts if (p.kind, p.name) == (kind, name))
        amount, unit = amount_g * (volume / part_g(mixes, kind, name)), NeedUnit.MILLILITER
    match kind:
        case PartKind.POWDER if chosen.powder is not None:
            need = row(chosen.powder, amount, unit, group)
        case PartKind.PIGMENT | PartKind.TINT:
            need = replace(plain_row("", amount, unit, group), color=name)
        case PartKind.THIXOTROPE:
            need = row(chosen.thixotrope, amount, unit, group)
        case _:
            need = replace(row(sheet, amount, unit, group), called=name)
    stuff = next(p.stuff for mix in mixes for p in mix.parts if (p.kind, p.name) == (kind, name))
    return replace(need, id=stuff.id, part=kind)
