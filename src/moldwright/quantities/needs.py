"""The whole shopping list as quantities: the mold once, the casts as often as the edition counts."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, fsum

from moldwright.cast.piece import SKIN_SPREAD
from moldwright.materials.kinds import Coating, Powder, TwoPart
from moldwright.plan.plan import BandagePlan, MixPlan, NeedPlan
from moldwright.quantities.laid_shell import fiber_gypsum
from moldwright.quantities.need_rows import NeedScope, each, merged, row, used
from moldwright.quantities.rubber import POT_RESIDUE, WASTE_SPREAD
from moldwright.ranges import Range

RUBBER, SHELL, CASTING, FINISHING, PROTECTION = "rubber", "shell", "casting", "finishing", "protection"
TALC_SHARE_PER_CAST = 0.1
"""Talc for reseating the glove, as a share of that for peeling: common practice, no source."""
CLAY_FOR_GAPS_G = Range(20.0, 50.0, 100.0)
"""Clay that closes the gap between original and board: common practice, no source."""


TRACE = Range(0.2, 1.0, 3.0)
"""How a trace on a stick, or a few drops, may turn out against its plan: common practice, no source."""


def shopping(scope: NeedScope) -> tuple[NeedPlan, ...]:
    """Everything to have at hand for the mold and the edition.

    Parameters
    ----------
    scope : the order, the sheets and the quantities reckoned so far

    Source: sums of the plan's own quantities; uses of consumables as their sheets tell (common practice, no source).
    """
    rows = [*_rubber(scope), *_shell(scope), *_casting(scope), *_finishing(scope), *_protection(scope)]
    return merged(rows)


def _rubber(scope: NeedScope) -> Iterable[NeedPlan]:
    needs = [*(coat.mixed_g for coat in scope.coats), scope.flange.mixed_g, scope.fill.mixed_g]
    likely = fsum(need.likely for need in needs)
    spread = _spread(fsum(n.low for n in needs), likely, fsum(n.high for n in needs))
    rubber = [mix for mix in scope.mixes if mix.for_ not in ("skin", "back-fill")]
    yield from _parts(scope.chosen.rubber, rubber, spread, RUBBER)
    area_m2 = scope.volumes.cavity_area_mm2 * 1e-6
    for coating in (scope.chosen.sealer, scope.chosen.release):
        if coating is not None:
            yield coated(coating, area_m2, RUBBER)
    yield from used(scope, "board", 1, RUBBER)
    yield row("clay", scope.library.consumable("clay").name, CLAY_FOR_GAPS_G, "g", RUBBER)
    yield from used(scope, "brush", max(len(scope.coats) - 1, 1), RUBBER)
    yield from used(scope, "cup", len(rubber), RUBBER)
    yield from used(scope, "stir-stick", len(rubber) + len(scope.coats), RUBBER)
    yield from used(scope, "patch-cup", int(scope.patch_test), RUBBER)
    yield from used(scope, "knife", 1, RUBBER)
    if scope.volumes.handles:
        yield row(
            "divider", "thin plastic sheet or waxed card, for dividers", each(scope.volumes.handles), "each", RUBBER
        )


def coated(coating: Coating, area_m2: float, group: str) -> NeedPlan:
    """A release, sealer or wax for an area: `coverage x coats x area`.

    Parameters
    ----------
    coating : its sheet
    area_m2 : what is covered [m2]
    group : the list's group

    Source: the sheet.
    """
    layer, coats = coating.coverage_g_m2, coating.coats
    amount = Range(
        layer.low * coats.low * area_m2, layer.likely * coats.likely * area_m2, layer.high * coats.high * area_m2
    )
    return row(coating.id, coating.name, amount, "g", group)


def _shell(scope: NeedScope) -> Iterable[NeedPlan]:
    shell, volumes = scope.chosen.shell, scope.volumes
    area_m2 = volumes.shell_area_mm2 * 1e-6
    if scope.bandage is not None:
        yield from _bandage(scope.bandage, shell.name)
        yield row("clay", scope.library.consumable("clay").name, Range.about(scope.bandage.clay_g, 0.25), "g", SHELL)
        yield row("scissors", scope.library.consumable("scissors").name, each(1), "each", SHELL)
    elif "plaster" in shell.tags:
        yield from fiber_gypsum(shell, volumes, scope.commission.shop.waste)
    else:
        yield row(shell.id, f"{shell.name}, filament", shell.density_g_ml.range * volumes.shell_ml, "g", SHELL)
    yield coated(scope.library.wax("paste-wax"), area_m2 + volumes.seam_mm * volumes.seam_flange_mm * 1e-6, SHELL)
    talc = scope.library.consumable("talc")
    casts = scope.commission.edition.count
    yield row("talc", talc.name, talc.rate_per_use.range * (area_m2 * (1 + TALC_SHARE_PER_CAST * casts)), "g", SHELL)
    yield from used(scope, "band", 1, SHELL)
    yield from used(scope, "clamp", 1, SHELL)


def _bandage(bandage: BandagePlan, name: str) -> Iterable[NeedPlan]:
    rolls = Range(float(bandage.rolls), float(bandage.rolls), float(ceil(bandage.rolls * 1.2)))
    yield row("plaster-bandage", f"{name}, rolls", rolls, "each", SHELL)
    yield row(
        "dipping-water",
        "dipping water, half of it fresh for each half",
        Range.about(bandage.water_ml, 0.2),
        "ml",
        SHELL,
    )


def _casting(scope: NeedScope) -> Iterable[NeedPlan]:
    count, chosen = scope.commission.edition.count, scope.chosen
    for name, resin in (("skin", chosen.resin), ("back-fill", chosen.backfill)):
        mixes = [mix for mix in scope.mixes if mix.for_ == name]
        if resin is not None and mixes:
            yield from _parts(resin, mixes, _cast_spread(scope.commission.shop.waste), CASTING, count, chosen.powder)
    cups = sum(mix.for_ in ("skin", "back-fill") for mix in scope.mixes) * count
    yield from used(scope, "cup", cups, CASTING)
    yield from used(scope, "stir-stick", cups, CASTING)
    if chosen.powder is not None:
        powder_kg = count * _part_g(scope.mixes, chosen.powder.name) / 1000.0
        desiccant = scope.library.consumable("desiccant")
        yield row("desiccant", desiccant.name, desiccant.rate_per_use.range * powder_kg, "g", CASTING)


def _cast_spread(waste: float) -> Range:
    """Waste and the skin's spread against the likely amount."""
    planned = 1.0 + max(waste, POT_RESIDUE.likely)
    low = (1.0 + max(waste * WASTE_SPREAD.low, POT_RESIDUE.low)) * (1.0 - SKIN_SPREAD)
    high = (1.0 + max(waste * WASTE_SPREAD.high, POT_RESIDUE.high)) * (1.0 + SKIN_SPREAD)
    return Range(low / planned, 1.0, high / planned)


def _finishing(scope: NeedScope) -> Iterable[NeedPlan]:
    count = scope.commission.edition.count
    metal = scope.chosen.powder is not None and "metal" in scope.chosen.powder.tags
    for id_ in (*(("isopropanol", "steel-wool") if metal else ()), "sandpaper", "felt", "base-screw"):
        yield from used(scope, id_, count, FINISHING)
    yield coated(scope.library.wax("dark-wax"), scope.volumes.original_area_mm2 * 1e-6 * count, FINISHING)
    yield from used(scope, "mineral-spirits", 1, FINISHING)


def _protection(scope: NeedScope) -> Iterable[NeedPlan]:
    """Wet steps: one for each coat, two for the shell, two and a finishing step for each cast."""
    people, count = scope.commission.shop.people, scope.commission.edition.count
    wet = len(scope.coats) + 2 + 3 * count
    yield from used(scope, "vinyl-gloves", wet * people, PROTECTION)
    yield from used(scope, "goggles", people, PROTECTION)
    yield from used(scope, "dust-mask", people * (1 + count), PROTECTION)
    yield from used(scope, "paper-towel", wet, PROTECTION)


def _parts(
    sheet: TwoPart, mixes: list[MixPlan], spread: Range, group: str, times: int = 1, powder: Powder | None = None
) -> Iterable[NeedPlan]:
    """Every part of these mixes, summed and spread."""
    for name in dict.fromkeys(part.name for mix in mixes for part in mix.parts):
        main = name in ("A", "B")
        id_ = f"{sheet.id}-{name.lower()}" if main else _id(name, powder)
        title = f"{sheet.name}, part {name}" if main else name
        by = TRACE if name.startswith(("pigment", "tint")) else spread
        yield row(id_, title, by * (times * _part_g(mixes, name)), "g", group)


def _id(name: str, powder: Powder | None) -> str:
    return powder.id if powder is not None and name == powder.name else "-".join(name.replace(",", "").split()).lower()


def _part_g(mixes: Iterable[MixPlan], name: str) -> float:
    return fsum(part.mass_g for mix in mixes for part in mix.parts if part.name == name)


def _spread(low: float, likely: float, high: float) -> Range:
    return Range(low / likely, 1.0, high / likely) if likely > 0 else Range.exactly(1.0)
