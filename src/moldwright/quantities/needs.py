"""The whole shopping list as quantities: the mold once, the casts as often as the edition counts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import ceil

from moldwright.cast.piece import SKIN_SPREAD
from moldwright.materials.compatibility import Trial
from moldwright.materials.kinds import Shell
from moldwright.materials.words import Making
from moldwright.plan.mixes import BACK_FILL, CAST_KINDS, REACTING, RUBBER_KINDS, SKIN, MixKind, MixPlan, PartKind
from moldwright.plan.mold import BandagePlan
from moldwright.plan.needs import NeedForm, NeedGroup, NeedPlan, NeedUnit
from moldwright.quantities.cast import solid_by
from moldwright.quantities.cast_doubt import shell_doubt
from moldwright.quantities.closure import BAND, BOLT, CLAMP, STRAP
from moldwright.quantities.laid_shell import dry_g, fiber_gypsum, known
from moldwright.quantities.mixed import POT_RESIDUE, WASTE_SPREAD
from moldwright.quantities.need_cups import buckets, cups, syringes
from moldwright.quantities.need_parts import of_a_mix, part_g, parts, spare_cup
from moldwright.quantities.need_rows import NeedScope, coated, consumed, each, merged, plain_row, released, row, used
from moldwright.quantities.parting import CLAY, TALC
from moldwright.quantities.stand import STAND_BOARD, sheets_of
from moldwright.ranges import Range

TALC_SHARE_PER_CAST = 0.1
"""Talc for reseating the glove, as a share of that for peeling: common practice, no source."""
CLAY_FOR_GAPS_G = Range(20.0, 50.0, 100.0)
"""Clay that closes the gap between original and board: common practice, no source."""
PATCH_TEST_G = 20.0
"""Rubber of a patch test, or skin mix of a trial: common practice, no source."""
FILLER_SHARE = Range(0.15, 0.25, 0.5)
"""Loose filler in what is packed in layers that dry, as a share of its volume: common practice, no source."""


def shopping(scope: NeedScope) -> tuple[NeedPlan, ...]:
    """Everything to have at hand for the mold and the edition, but for what is worn: that follows from the steps.

    Parameters
    ----------
    scope : the order, the sheets and the quantities reckoned so far

    Source: sums of the plan's own quantities; uses of consumables as their sheets tell (common practice, no source).
    """
    rows = [*_rubber(scope), *_shell(scope), *_casting(scope), *_finishing(scope), *_wiping(scope)]
    return merged(rows)


def _rubber(scope: NeedScope) -> Iterable[NeedPlan]:
    group, consumable = NeedGroup.RUBBER, scope.library.consumable
    rubber = [mix for mix in scope.mixes if mix.for_.kind in RUBBER_KINDS]
    yield from parts(scope, scope.chosen.rubber, rubber, _spread(scope.rubber.mixed_g), group)
    yield from spare_cup(scope, scope.chosen.rubber, [m for m in rubber if m.for_.kind is MixKind.COAT], group)
    if Trial.ORIGINAL in scope.trials:
        yield from _patch_test(scope, rubber)
    area_m2 = scope.measures.cavity.area_mm2 * 1e-6
    if scope.chosen.sealer is not None:
        yield coated(scope.chosen.sealer, area_m2, group)
    if scope.chosen.release is not None:
        yield from released(scope.chosen.release, area_m2, group)
    yield from used(scope, "board", 1, group)
    yield consumed(consumable(CLAY), CLAY_FOR_GAPS_G, group)
    yield from used(scope, "brush", max(len(scope.rubber.coats) - 1, 1), group)
    yield from cups(scope, rubber, group)
    yield from used(scope, "stir-stick", len(rubber) + len(scope.rubber.coats), group)
    yield from syringes(scope, [rubber], group)
    yield from used(scope, "patch-cup", int(Trial.ORIGINAL in scope.trials), group)
    yield from used(scope, "knife", 1, group)
    if scope.chosen.rubber.pack_mm is not None and scope.rubber.fill.volume_ml > 0:
        yield plain_row("latex-filler", FILLER_SHARE * scope.rubber.fill.volume_ml, NeedUnit.MILLILITER, group)
    if scope.measures.piece.dividers:
        yield plain_row("divider", each(len(scope.measures.piece.dividers)), NeedUnit.EACH, group)


def _patch_test(scope: NeedScope, rubber: Sequence[MixPlan]) -> Iterable[NeedPlan]:
    """What the patch test takes of each part, by the rubber's ratio."""
    reacting = [replace(m, parts=tuple(part for part in m.parts if part.kind in REACTING)) for m in rubber]
    yield from of_a_mix(scope, scope.chosen.rubber, reacting, PATCH_TEST_G, NeedGroup.RUBBER)


def _shell(scope: NeedScope) -> Iterable[NeedPlan]:
    shell, measures, group = scope.chosen.shell, scope.measures.shell, NeedGroup.SHELL
    consumable, parting = scope.library.consumable, scope.parting
    if scope.bandage is not None:
        yield from _bandage(scope.bandage, shell)
    elif shell.making is Making.PRINTED:
        filament = row(shell, dry_g(shell, measures, None), NeedUnit.GRAM, group)
        yield replace(filament, form=NeedForm.FILAMENT)
    else:
        yield from fiber_gypsum(shell, scope.mixes, scope.mats, shell_doubt(scope.measures.spread))
        yield from buckets(scope, scope.mixes, group)
    if scope.bandage is not None or scope.mats is not None or scope.measures.piece.dividers:
        yield consumed(consumable("scissors"), each(1), group)
    if shell.making.by_hand:
        yield consumed(consumable(CLAY), parting.clay_g, group)
    yield row(scope.chosen.shell_wax, parting.wax_g, NeedUnit.GRAM, group)
    casts = scope.commission.edition.count
    yield consumed(consumable(TALC), parting.talc_g * (1 + TALC_SHARE_PER_CAST * casts), group)
    yield from _closing(scope)


def _closing(scope: NeedScope) -> Iterable[NeedPlan]:
    held = scope.closure
    for id_, count in ((BAND, held.bands), (STRAP, held.straps), (CLAMP, held.clamps), (BOLT, held.bolts)):
        if count:
            yield consumed(scope.library.consumable(id_), each(count), NeedGroup.SHELL)
    if scope.stand is not None and scope.stand.boards:
        yield consumed(scope.library.consumable(STAND_BOARD), each(sheets_of(scope.stand.boards)), NeedGroup.SHELL)


def _bandage(bandage: BandagePlan, shell: Shell) -> Iterable[NeedPlan]:
    rolls = Range(float(bandage.rolls), float(bandage.rolls), float(ceil(bandage.rolls * 1.2)))
    size = (known(shell, "roll_width_mm").likely, known(shell, "roll_length_mm").likely)
    yield replace(row(shell, rolls, NeedUnit.EACH, NeedGroup.SHELL), form=NeedForm.ROLLS, roll_mm=size)
    yield plain_row("dipping-water", Range.about(bandage.water_ml, 0.2), NeedUnit.MILLILITER, NeedGroup.SHELL)


def _casting(scope: NeedScope) -> Iterable[NeedPlan]:
    count, chosen, group = scope.commission.edition.count, scope.chosen, NeedGroup.CASTING
    solid = solid_by(scope.commission.cast, scope.measures) is not None
    spread = _cast_spread(scope.commission.shop.waste, 0.0 if solid else SKIN_SPREAD)
    poured = [mix for mix in scope.mixes if mix.for_.kind in CAST_KINDS]
    doubts = scope.doubt.skin, scope.doubt.backfill
    for for_, resin, doubt in zip((SKIN, BACK_FILL), (chosen.resin, chosen.backfill), doubts, strict=True):
        mixes = [mix for mix in poured if mix.for_ == for_]
        if resin is not None and mixes:
            yield from parts(scope, resin, mixes, spread.doubted(doubt), group, count)
    yield from spare_cup(scope, chosen.resin, [mix for mix in poured if mix.for_ == SKIN], group)
    yield from _skin_trials(scope)
    if chosen.cast_release is not None:
        yield from released(chosen.cast_release, scope.measures.cavity.area_mm2 * 1e-6 * count, group)
    yield from cups(scope, poured, group, count)
    yield from used(scope, "stir-stick", len(poured) * count, group)
    yield from syringes(scope, _by_kind(poured), group)
    if chosen.powder is not None:
        desiccant = scope.library.consumable("desiccant")
        powder_kg = count * part_g(scope.mixes, PartKind.POWDER) / 1000.0
        yield consumed(desiccant, desiccant.rate_per_use.range * powder_kg, group)


def _skin_trials(scope: NeedScope) -> Iterable[NeedPlan]:
    """What the trials of resin on rubber and of powder in resin take: a small cup each of the skin's own mix."""
    trials = len(scope.trials & {Trial.RESIN, Trial.POWDER})
    skin = [mix for mix in scope.mixes if mix.for_ == SKIN]
    if trials:
        yield from of_a_mix(scope, scope.chosen.resin, skin, trials * PATCH_TEST_G, NeedGroup.CASTING)
    yield from used(scope, "patch-cup", trials, NeedGroup.CASTING)


def _cast_spread(waste: float, skin_spread: float) -> Range:
    """Waste and the skin's spread against the likely amount."""
    planned = 1.0 + max(waste, POT_RESIDUE.likely)
    low = (1.0 + max(waste * WASTE_SPREAD.low, POT_RESIDUE.low)) * (1.0 - skin_spread)
    high = (1.0 + max(waste * WASTE_SPREAD.high, POT_RESIDUE.high)) * (1.0 + skin_spread)
    return Range(low / planned, 1.0, high / planned)


def _finishing(scope: NeedScope) -> Iterable[NeedPlan]:
    count, group = scope.commission.edition.count, NeedGroup.FINISHING
    metal = scope.chosen.powder is not None and scope.chosen.powder.metal
    for id_ in (*(("isopropanol", "steel-wool") if metal else ()), "sandpaper", "felt", "base-screw"):
        yield from used(scope, id_, count, group)
    yield coated(scope.chosen.finish_wax, scope.measures.piece.area_mm2 * 1e-6 * count, group)
    yield from used(scope, "mineral-spirits", 1, group)


def _wiping(scope: NeedScope) -> Iterable[NeedPlan]:
    """Paper towels by wet steps: one for each coat, two for the shell, two and a finishing step for each cast."""
    wet = len(scope.rubber.coats) + 2 + 3 * scope.commission.edition.count
    yield from used(scope, "paper-towel", wet, NeedGroup.PROTECTION)


def _by_kind(mixes: Sequence[MixPlan]) -> Iterable[list[MixPlan]]:
    """Cups of a skin and those of a back-fill, whose hardeners may be two."""
    return ([mix for mix in mixes if mix.for_.kind is kind] for kind in sorted(CAST_KINDS))


def _spread(mixed: Range) -> Range:
    if mixed.likely <= 0:
        return Range.exactly(1.0)
    return Range(mixed.low / mixed.likely, 1.0, mixed.high / mixed.likely)
