"""How long the materials ask one to wait, at the shop's temperature."""

from __future__ import annotations

from moldwright.errors import ComputationFailed
from moldwright.materials import Figure, Resin
from moldwright.ranges import Range
from moldwright.steps.context import StepContext

COMMON_S = {
    "release.dry": Range(600.0, 1200.0, 3600.0),
    "sealer.dry": Range(3600.0, 7200.0, 43200.0),
    "powder.drying": Range(3600.0, 7200.0, 14400.0),
    "shell.set": Range(1200.0, 1800.0, 3600.0),
}
"""Drying where no sheet is chosen or it tells none [s]: common practice, no source."""


def named_wait_s(name: str, context: StepContext) -> Range:
    """A material's time [s], its sheet's value times the factor by which pot life changes at the shop's temperature.

    `t(T) = t_sheet * pot_life(T) / pot_life_sheet`

    Parameters
    ----------
    name : "rubber.tack_window" (its earliest end), "rubber.tack_latest", "rubber.demold", "rubber.full_cure",
        "resin.tack" (from gel to tack-free), "cast.demold", "release.dry", "sealer.dry", "powder.drying" or
        "shell.set".
    context : the chosen materials and the shop's pot lives.

    Valid for the temperatures the pot life is valid for. Source: one activation energy for all of a material's cure:
    common practice, no source; times are the sheet's.
    """
    if name.startswith("rubber."):
        return _rubber_s(name, context) * rubber_factor(context)
    if name == "resin.tack":
        return _skin_tack_s(context)
    if name == "cast.demold":
        return _cast_demold_s(context)
    return _drying_s(name, context)


def rubber_factor(context: StepContext) -> float:
    """The rubber's times at the shop's temperature over those of its sheet.

    Parameters
    ----------
    context : the rubber and its pot life at the shop's temperature.
    """
    return context.rubber_pot_life_s.likely / context.rubber.pot_life_s.range.likely


def _rubber_s(name: str, context: StepContext) -> Range:
    earliest, latest = context.rubber.tack_window_s
    times = {
        "rubber.tack_window": earliest,
        "rubber.tack_latest": latest,
        "rubber.demold": context.rubber.demold_s,
        "rubber.full_cure": context.rubber.full_cure_s,
    }
    if name not in times:
        raise ComputationFailed("step-data-broken", name, ", ".join(times), remedy="Mend the data.")
    return times[name].range


def _skin_tack_s(context: StepContext) -> Range:
    """From the skin's gel to its tack-free time: the back-fill goes on between the two."""
    pot, free = (
        context.resin_pot_life_s,
        context.resin.tack_free_s.range * _factor(context.resin, context.resin_pot_life_s),
    )
    low, high = min(pot.likely, free.likely), max(pot.likely, free.likely)
    return Range(low, (low + high) / 2.0, high)


def _cast_demold_s(context: StepContext) -> Range:
    skin = context.resin.demold_s.range * _factor(context.resin, context.resin_pot_life_s)
    if context.backfill is None or context.backfill_pot_life_s is None:
        return skin
    fill = context.backfill.demold_s.range * _factor(context.backfill, context.backfill_pot_life_s)
    return Range(max(skin.low, fill.low), max(skin.likely, fill.likely), max(skin.high, fill.high))


def _factor(resin: Resin, pot_life_s: Range) -> float:
    return pot_life_s.likely / resin.pot_life_s.range.likely


def _drying_s(name: str, context: StepContext) -> Range:
    """Drying is no cure: the sheet's own time, or a common one where no sheet is chosen or it tells none."""
    if name not in COMMON_S:
        raise ComputationFailed("step-data-broken", name, ", ".join(COMMON_S), remedy="Mend the data.")
    sheet_s: dict[str, Figure | None] = {
        "release.dry": context.release.dry_s if context.release else None,
        "sealer.dry": context.sealer.dry_s if context.sealer else None,
        "powder.drying": context.powder.drying_s if context.powder else None,
        "shell.set": context.shell.handling_s,
    }
    figure = sheet_s[name]
    return COMMON_S[name] if figure is None else figure.range
