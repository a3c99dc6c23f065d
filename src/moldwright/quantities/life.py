"""How many casts a mold gives: its class's, by what wears this one."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import reduce

from moldwright.cure.adiabatic import METAL_J_GK, MINERAL_J_GK, hottest_c, kept_share
from moldwright.materials.figure import Figure
from moldwright.materials.kinds import Powder, Resin, Rubber
from moldwright.materials.mold_life import by_stretch, by_tear, casts_of_glove, look_after_days, worn_by
from moldwright.plan.cast import CastWay
from moldwright.plan.life import LifePlan, WearFactor, Wears, molds_for
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import SURELY, Range

THIN_MM = 3.0
"""Under so much a glove is thin: common practice, no source."""
WARM_C, HOT_C = 100.0, 140.0
"""A cast that may get so hot, or hotter, wears rubber sooner than a usual one: from memory."""


@dataclass(frozen=True, slots=True)
class Strain:
    """What a mold's form asks of its rubber.

    Parameters
    ----------
    stretch : of a girth, its greatest over its own length, at every cast.
    thickness_mm : of the rubber, at its usual places.
    slit : whether it is cut open.
    fins : whether fins of rubber stand in narrow gaps of the original.
    poured : whether it is poured, and not brushed.
    """

    stretch: float = 1.0
    thickness_mm: float = 4.0
    slit: bool = False
    fins: bool = False
    poured: bool = False


def life_of(job: Quantities, strain: Strain) -> LifePlan:
    """How many casts a mold of a job gives, and how many molds the edition takes.

    `N = N_class f_1 f_2 ...`; the spreads of the factors, each for reasons of its own, add as squares.

    Parameters
    ----------
    job : the materials, the cast and the edition.
    strain : what the mold's form asks of its rubber.

    Source: class defaults, from memory; each factor's own.
    """
    chosen, heat_c = job.basis.chosen, heat_of(job)
    cast_in = [chosen.resin, *((chosen.backfill,) if chosen.backfill is not None else ())]
    figures = [casts_of_glove(chosen.rubber.chemistry, resin.chemistry) for resin in cast_in]
    least = min(figures, key=lambda figure: figure.likely)
    factors = tuple(_factors(chosen.rubber, strain, heat_c))
    casts = reduce(lambda left, each: left.doubted(each.factor), factors, least.range)
    casts = Range(max(casts.low, 1.0), max(casts.likely, 1.0), max(casts.high, 1.0))
    molds = molds_for(job.commission.edition.count, casts)
    return LifePlan(casts, least.range, least.source, factors, heat_c, molds, look_after_days(chosen.rubber.chemistry))


def _factors(rubber: Rubber, strain: Strain, heat_c: Range) -> Iterable[WearFactor]:
    """Those that change anything."""
    hot = "hot" if heat_c.likely >= HOT_C else "warm"
    every = (
        (True, Wears.TEAR, by_tear(rubber.chemistry, rubber.tear_kn_m.range)),
        (True, Wears.STRETCH, by_stretch(strain.stretch, rubber.elongation_pct.range)),
        (strain.thickness_mm < THIN_MM, Wears.THIN, worn_by("thin")),
        (strain.slit, Wears.SLIT, worn_by("slit")),
        (strain.fins, Wears.FINS, worn_by("fins")),
        (strain.poured, Wears.POURED, worn_by("poured")),
        (heat_c.likely >= WARM_C, Wears.HEAT, worn_by(hot)),
    )
    return (_factor(of, figure) for holds, of, figure in every if holds and figure.range != SURELY)


def _factor(of: Wears, figure: Figure) -> WearFactor:
    return WearFactor(of, figure.range, figure.source)


def heat_of(job: Quantities) -> Range:
    """How hot the cast may get at the most [°C]: of skin and back-fill the hotter, each as thick as it
    is cast.

    Parameters
    ----------
    job : the cast.

    Source: heat balance; an estimate, above what its face meets.
    """
    chosen, cavity, mix = job.basis.chosen, job.measures.cavity, job.cast.cast
    half_mm = 1000.0 * cavity.volume_ml / cavity.area_mm2
    skin_mm = half_mm if mix.way is CastWay.SOLID else min(half_mm, mix.skin.thickness_mm)
    share = mix.loading_wt_pct / 100.0
    found = [_heat(job, chosen.resin, share, chosen.powder, skin_mm)]
    if chosen.backfill is not None:
        found.append(_heat(job, chosen.backfill, 0.0, None, half_mm))
    return max(found, key=lambda heat: heat.likely)


def _heat(job: Quantities, resin: Resin, share: float, powder: Powder | None, half_mm: float) -> Range:
    taken = METAL_J_GK if powder is not None and powder.metal else MINERAL_J_GK
    kept = kept_share(half_mm, resin.demold_s.likely)
    return hottest_c(job.commission.shop.temperature_c, resin.heat_j_g.range, share, taken, kept)
