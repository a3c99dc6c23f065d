"""What a job costs in hands and material, reckoned as the plan reckons it, by its measures alone."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from math import fsum

from moldwright.commission.orders import Commission
from moldwright.materials import Library
from moldwright.materials.figure import Figure
from moldwright.materials.kinds import Powder, Sheet, TwoPart
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.coats import Coat, Gesture, PigmentColor
from moldwright.plan.ids import coat_id
from moldwright.plan.mixes import PartKind
from moldwright.plan.needs import NeedGroup, NeedPlan, NeedUnit
from moldwright.plan.peel import NOT_PEELED, PeelFound
from moldwright.plan.strategies import Strategy
from moldwright.quantities.life import Strain, life_of
from moldwright.quantities.quantities import Basis, Quantities, quantities
from moldwright.quantities.stuffs import sheet_of
from moldwright.steps.other_molds import Lengths, steps_of
from moldwright.steps.shape_cautions import NO_SHAPE
from moldwright.steps.totals import totals
from moldwright.steps.written import work

CENT = Decimal("0.01")
POURED_G_PER_MIN = 300.0
"""How fast rubber is poured into a box or behind a shell, in a thin stream: common practice, no source."""
ONCE = (NeedGroup.RUBBER, NeedGroup.SHELL)
"""Parts of the work whose material is for the mold; the rest is for its casts."""


@dataclass(frozen=True, slots=True)
class Cost:
    """Hands and material, of a whole job or of a part of it."""

    labor_min: float
    material: Decimal

    def whole(self, hour: Decimal) -> Decimal:
        """Both together, in money.

        Parameters
        ----------
        hour : what an hour of hands costs.
        """
        return self.material + hour * Decimal(self.labor_min) / 60

    def __add__(self, other: Cost) -> Cost:
        return Cost(self.labor_min + other.labor_min, self.material + other.material)

    def __mul__(self, times: int) -> Cost:
        return Cost(self.labor_min * times, self.material * times)


@dataclass(frozen=True, slots=True)
class JobCost:
    """What one mold costs, and all casts with the edition's end; `rubber`: of the mold's material its rubber;
    `mold_days`: till it is ready; `job`: what it was reckoned from."""

    mold: Cost
    casts: Cost
    rubber: Decimal
    mold_days: int
    job: Quantities

    def of(self, molds: int) -> Cost:
        """The whole job with so many molds.

        Parameters
        ----------
        molds : 1 or more.
        """
        return self.mold * molds + self.casts


@dataclass(frozen=True, slots=True)
class MoldKind:
    """A kind of mold to reckon.

    Parameters
    ----------
    strategy : which.
    wall_mm : how thick its rubber is poured [mm]; of a glove its coats tell.
    lengths : what its own work counts.
    """

    strategy: Strategy
    wall_mm: float
    lengths: Lengths


GLOVE = MoldKind(Strategy.GLOVE, 0.0, Lengths())


def strain_of(basis: Basis, peel: PeelFound) -> Strain:
    """What the planned glove's form asks of its rubber.

    Parameters
    ----------
    basis : with the coats and their rubber.
    peel : how it comes off.
    """
    stretch = peel.stretch if peel.slit is None else peel.slit.stretch
    return Strain(max(stretch, 1.0), fsum(coat.thickness_mm for coat in basis.coats), peel.slit is not None)


def cost_by(commission: Commission, library: Library, basis: Basis) -> Callable[[MoldMeasures], Cost]:
    """What a job with as many brushed gloves as its edition takes costs by its measures; the same once.

    Nobody has peeled them yet: how far one is stretched does not shorten its life here, nor is one slit.

    Parameters
    ----------
    commission : the order.
    library : all material sheets.
    basis : what is settled of it.

    Source: the steps' minutes; the packs' prices, the largest pack's for each amount.
    """
    strain = strain_of(basis, NOT_PEELED)

    def cost(measures: MoldMeasures) -> Cost:
        found = cost_of(commission, library, basis, measures)
        return found.of(life_of(found.job, strain).molds)

    return cache(cost)


def cost_of(
    commission: Commission, library: Library, basis: Basis, measures: MoldMeasures, kind: MoldKind = GLOVE
) -> JobCost:
    """What a job costs by its measures: steps, quantities and all as the plan reckons them.

    Parameters
    ----------
    commission : the order.
    library : all material sheets.
    basis : what is settled of it.
    measures : of the solids; of what is poured all rubber in one coat.
    kind : of mold.

    Source: the steps' minutes; the packs' prices, the largest pack's for each amount.
    """
    if kind.strategy is not Strategy.GLOVE:
        basis = replace(basis, coats=(_poured(kind.wall_mm),))
        commission = replace(commission, shop=replace(commission.shop, lay_g_per_min=POURED_G_PER_MIN))
    job = quantities(commission, library, basis, measures)
    steps = steps_of(kind.strategy, job, work(job, library, NO_SHAPE).steps, kind.lengths)
    whole, count = totals(steps, job), commission.edition.count
    shelled = kind.strategy in (Strategy.GLOVE, Strategy.JACKET)
    needs = [need for need in job.needs if shelled or need.for_ is not NeedGroup.SHELL]
    casts_min = count * whole.cast_labor_min + whole.edition_labor_min
    once = [need for need in needs if need.for_ in ONCE]
    return JobCost(
        mold=Cost(whole.mold_labor_min, material_of(once, commission, library)),
        casts=Cost(casts_min, material_of((need for need in needs if need.for_ not in ONCE), commission, library)),
        rubber=material_of((need for need in needs if need.kind == basis.chosen.rubber.kind), commission, library),
        mold_days=whole.days.mold,
        job=job,
    )


def _poured(wall_mm: float) -> Coat:
    return Coat(coat_id(1), "poured", wall_mm, 0.0, next(iter(PigmentColor)), Gesture.BRUSH, 1)


def material_of(needs: Iterable[NeedPlan], commission: Commission, library: Library) -> Decimal:
    """What some needs cost, each by its largest pack's price for an amount; what nobody sells is free.

    Parameters
    ----------
    needs : of a job.
    commission : with its own prices.
    library : with the packs.

    Source: the sheets' packs; the commission's own prices before them.
    """
    own = dict(commission.prices)
    return sum((_price(need, library, own) for need in needs), Decimal())


def _price(need: NeedPlan, library: Library, own: dict[str, Decimal]) -> Decimal:
    sheet = sheet_of(need, library)
    if sheet is None:
        return Decimal()
    amount, unit = _as_sold(need, sheet)
    packs = [pack for pack in sheet.packs if pack.unit == unit]
    if not packs:
        return Decimal()
    largest = max(packs, key=lambda pack: pack.amount)
    return own.get(sheet.id, largest.price) * Decimal(amount) / Decimal(largest.amount)


def _as_sold(need: NeedPlan, sheet: Sheet) -> tuple[float, NeedUnit]:
    """What a shop without a scale measures by volume is sold by weight."""
    density = _density_g_ml(need, sheet)
    if need.unit is NeedUnit.MILLILITER and density is not None:
        return need.amount.likely * density, NeedUnit.GRAM
    return need.amount.likely, need.unit


def _density_g_ml(need: NeedPlan, sheet: Sheet) -> float | None:
    match sheet:
        case TwoPart(density_b_g_ml=Figure() as second) if need.part is PartKind.B:
            return second.likely
        case TwoPart():
            return sheet.density_a_g_ml.likely
        case Powder():
            return sheet.apparent_density_g_ml.likely
    return None
