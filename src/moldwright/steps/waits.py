"""How long the materials ask one to wait, at the shop's temperature."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from enum import StrEnum
from functools import reduce
from operator import add

from moldwright.cure.potlife import ShopLife
from moldwright.materials import Figure, Resin
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import Range


class Wait(StrEnum):
    """A time that a material asks for."""

    TACK_WINDOW = "rubber.tack_window"
    COAT_LAYERS = "coat.layers"
    FILL_LAYERS = "fill.layers"
    TACK_LATEST = "rubber.tack_latest"
    RUBBER_DEMOLD = "rubber.demold"
    RUBBER_FULL_CURE = "rubber.full_cure"
    RESIN_TACK = "resin.tack"
    FILL_TACK = "backfill.tack"
    CAST_DEMOLD = "cast.demold"
    PATCH_TEST = "patch-test"
    RELEASE_DRY = "release.dry"
    CAST_RELEASE_DRY = "cast-release.dry"
    SEALER_DRY = "sealer.dry"
    POWDER_DRYING = "powder.drying"
    SHELL_SET = "shell.set"
    WAX_HAZE = "wax.haze"
    DARK_WAX_DRY = "dark-wax.dry"


TOLD_AS = {
    Wait.TACK_WINDOW: "tack.from",
    Wait.RUBBER_DEMOLD: "rubber.demold",
    Wait.RUBBER_FULL_CURE: "rubber.full_cure",
    Wait.CAST_DEMOLD: "cast.demold",
    Wait.PATCH_TEST: "patch.wait",
}
"""The names by which sentences quote a wait, where they do."""
COMMON_S = {
    Wait.RELEASE_DRY: Range(600.0, 1200.0, 3600.0),
    Wait.CAST_RELEASE_DRY: Range(600.0, 1200.0, 3600.0),
    Wait.SEALER_DRY: Range(3600.0, 7200.0, 43200.0),
    Wait.POWDER_DRYING: Range(3600.0, 7200.0, 14400.0),
    Wait.SHELL_SET: Range(1200.0, 1800.0, 3600.0),
}
"""Drying where no sheet is chosen or it tells none [s]: common practice, no source."""
ROUND_S = 6.0
"""Waits are kept in tenths of a minute, so that a step's wait and a sentence that quotes it are one figure: our own."""
COUNTED = {
    Wait.COAT_LAYERS: "coat.between",
    Wait.FILL_LAYERS: "fill.layers",
    Wait.RESIN_TACK: "skin.tacks",
    Wait.FILL_TACK: "backfill.tacks",
}
"""Waits that are asked for as often as a number of the step counts, by its name."""


def wait_s(wait: Wait, job: Quantities) -> Range:
    """A material's time [s]: its sheet's, times the factor by which all its times change at the shop's temperature.

    Parameters
    ----------
    wait : TACK_WINDOW is its earliest end, TACK_LATEST its latest; RESIN_TACK and FILL_TACK run from gel to
        tack-free; of COUNTED waits, one; PATCH_TEST is the test place's drying and then the rubber's demold.
    job : the chosen materials and their lives in this shop.

    Valid for the temperatures the pot life is valid for. Source: one activation energy for all of a material's cure:
    common practice, no source; times are the sheet's. Drying is no cure: the sheet's own time, or a common one.
    """
    asked = _asked_s(wait, job)
    return Range(*(round(each / ROUND_S) * ROUND_S for each in (asked.low, asked.likely, asked.high)))


def _asked_s(wait: Wait, job: Quantities) -> Range:
    drying = _drying(job)
    if wait in drying:
        figure = drying[wait]
        return COMMON_S[wait] if figure is None else figure.range
    own = _OWN.get(wait)
    return _rubber(wait, job).range * job.basis.lives.rubber.time_factor if own is None else own(job)


def _patch_test_s(job: Quantities) -> Range:
    chosen = job.basis.chosen
    coatings = ((Wait.SEALER_DRY, chosen.sealer), (Wait.RELEASE_DRY, chosen.release))
    dried = [wait_s(wait, job) for wait, coating in coatings if coating is not None]
    return reduce(add, dried, wait_s(Wait.RUBBER_DEMOLD, job))


def _rubber(wait: Wait, job: Quantities) -> Figure:
    rubber = job.basis.chosen.rubber
    earliest, latest = rubber.tack_window_s
    times = {
        Wait.TACK_WINDOW: earliest,
        Wait.COAT_LAYERS: earliest,
        Wait.TACK_LATEST: latest,
        Wait.RUBBER_DEMOLD: rubber.demold_s,
        Wait.RUBBER_FULL_CURE: rubber.full_cure_s,
    }
    return times[wait]


def _packed_layer_s(job: Quantities) -> Range:
    """Drying of one packed layer: a coat's layer's, as many times as it is thicker (what evaporates is in proportion;
    common practice, no source); where the rubber cures in depth till it is tacky, as a coat."""
    rubber = job.basis.chosen.rubber
    if rubber.pack_mm is None or rubber.pass_mm is None:
        return wait_s(Wait.TACK_WINDOW, job)
    return wait_s(Wait.COAT_LAYERS, job) * (rubber.pack_mm.likely / rubber.pass_mm.likely)


def waits_within(wait: Wait, job: Quantities) -> bool:
    """Whether these waits lie between a step's own cups or layers; else what comes next waits for them.

    Parameters
    ----------
    wait : any.
    job : a cast that is solid waits between its lifts.
    """
    return wait in {Wait.COAT_LAYERS, Wait.FILL_TACK} or (wait is Wait.RESIN_TACK and job.cast.backfill_mix is None)


def _fill_tack_s(job: Quantities) -> Range:
    fill, life = job.basis.chosen.backfill, job.basis.lives.backfill
    return Range.exactly(0.0) if fill is None or life is None else _tack_s(fill, life)


def _tack_s(resin: Resin, life: ShopLife) -> Range:
    """From its gel to its tack-free time: what goes on next goes on between the two."""
    free_s = resin.tack_free_s.likely * life.time_factor
    low, high = sorted((life.pot_life_s.likely, free_s))
    return Range(low, (low + high) / 2.0, high)


def _cast_demold_s(job: Quantities) -> Range:
    chosen, lives = job.basis.chosen, job.basis.lives
    skin = chosen.resin.demold_s.range * lives.resin.time_factor
    if chosen.backfill is None or lives.backfill is None:
        return skin
    fill = chosen.backfill.demold_s.range * lives.backfill.time_factor
    return Range(max(skin.low, fill.low), max(skin.likely, fill.likely), max(skin.high, fill.high))


def _drying(job: Quantities) -> dict[Wait, Figure | None]:
    """What dries or sets by its sheet, whatever the shop's temperature; None where no sheet tells it."""
    chosen = job.basis.chosen
    return {
        Wait.RELEASE_DRY: chosen.release.dry_s if chosen.release else None,
        Wait.CAST_RELEASE_DRY: chosen.cast_release.dry_s if chosen.cast_release else None,
        Wait.SEALER_DRY: chosen.sealer.dry_s if chosen.sealer else None,
        Wait.POWDER_DRYING: chosen.powder.drying_s if chosen.powder else None,
        Wait.SHELL_SET: chosen.shell.handling_s,
        Wait.WAX_HAZE: chosen.shell_wax.dry_s,
        Wait.DARK_WAX_DRY: chosen.finish_wax.dry_s,
    }


_OWN: Mapping[Wait, Callable[[Quantities], Range]] = {
    Wait.PATCH_TEST: _patch_test_s,
    Wait.RESIN_TACK: lambda job: _tack_s(job.basis.chosen.resin, job.basis.lives.resin),
    Wait.FILL_TACK: _fill_tack_s,
    Wait.CAST_DEMOLD: _cast_demold_s,
    Wait.FILL_LAYERS: _packed_layer_s,
}
"""Waits that are more than one figure of the rubber's sheet."""
