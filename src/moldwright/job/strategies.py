"""Kinds of mold side by side: each reckoned as the plan reckons its own, and which costs least of those that hold."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from moldwright.commission.orders import Commission
from moldwright.job.costs import CENT, GLOVE, JobCost, MoldKind, cost_of, strain_of
from moldwright.job.formed import Formed, Halves
from moldwright.job.pieces import recommended, tried_rows
from moldwright.materials import Library, Rubber
from moldwright.materials.hardness import youngs_modulus_mpa
from moldwright.mold.kinds import Block
from moldwright.mold.measures import GloveMeasures, MoldMeasures, ShellMeasures
from moldwright.plan.lines import Line
from moldwright.plan.peel import NOT_PEELED, PeelFound
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.strategies import KindRemark, StrategiesPlan, Strategy, StrategyPlan
from moldwright.quantities.life import Strain, life_of
from moldwright.quantities.quantities import Basis
from moldwright.steps.other_molds import Lengths

HOOK_MM, HOOK_SHORE_A = 5.0, 10.0
"""So far rubber so soft is pulled out from behind an undercut: common practice, no source."""
LOCKED_SHARE = 0.02
"""Of the original's volume so much rubber may hook farther: our own."""
SLENDER = 2.0
"""Deeper than so many times its width a piece comes out of no block without a cut: common practice, no source."""
UNCUT_STRETCH = 1.15
"""So far thick rubber stretches without a cut: common practice, no source."""
CUT_SHARE = 0.5
"""A block is cut over so much of its height at least: common practice, no source."""
MOST_WEBS = 2
"""Through-holes whose webs are cut in a block at the most: common practice, no source."""
SLIM_SHARE = 0.02
"""From this share of the surface on, what is thin there is told: our own."""
ALIKE_SHARE = Decimal("0.05")
"""Minutes of common practice tell no smaller difference of the whole: our own."""
HEAVY_G = 5000.0
"""A mold of so much rubber is heavy to turn, and sags: common practice, no source."""


@dataclass(frozen=True, slots=True)
class _About:
    """What all kinds are reckoned from."""

    commission: Commission
    library: Library
    basis: Basis
    measures: MoldMeasures
    formed: Formed
    peel: PeelFound

    @property
    def rubber(self) -> Rubber:
        return self.basis.chosen.rubber

    @property
    def fins(self) -> bool:
        return self.formed.slim.gaps > SLIM_SHARE

    @property
    def dries(self) -> bool:
        return self.rubber.pass_mm is not None

    def cost(self, measures: MoldMeasures, kind: MoldKind = GLOVE) -> JobCost:
        return cost_of(self.commission, self.library, self.basis, measures, kind)


def hook_mm(rubber: Rubber) -> float:
    """How far a rubber is pulled out from behind an undercut [mm]: the farther the softer, by one pull.

    Parameters
    ----------
    rubber : its sheet.

    Source: common practice, no source; softness by Gent's modulus.
    """
    return HOOK_MM * youngs_modulus_mpa(HOOK_SHORE_A) / youngs_modulus_mpa(max(rubber.shore_a.likely, 5.0))


def strategies_of(
    commission: Commission, library: Library, basis: Basis, measures: MoldMeasures, formed: Formed, peel: PeelFound
) -> StrategiesPlan:
    """All kinds of mold for a job, the planned glove first.

    Parameters
    ----------
    commission : the order.
    library : all material sheets.
    basis : what is settled of it.
    measures : of the planned solids.
    formed : what the other kinds measure.
    peel : how the glove comes off; a jacket as it.

    Source: each kind's own solid; minutes as in `steps/data/other_molds.toml`.
    """
    about = _About(commission, library, basis, replace(measures, peel=peel), formed, peel)
    rows = tuple(make(about) for make in (_glove, _jacket, _block, _halves))
    kinds = StrategiesPlan(rows, Strategy.GLOVE, Strategy.GLOVE, commission.shop.hour)
    return replace(kinds, recommended=_recommended(kinds))


def _recommended(kinds: StrategiesPlan) -> Strategy:
    """The cheapest that can be made; the planned one where that is cheaper by nothing that minutes tell."""
    planned, least = (row.whole(kinds.hour) for row in (kinds.of(kinds.planned), kinds.cheapest))
    return kinds.planned if planned <= (1 + ALIKE_SHARE) * least else kinds.cheapest.strategy


def _glove(about: _About) -> StrategyPlan:
    strain = strain_of(about.basis, about.peel)
    pieces = about.measures.shell.pieces + 1
    cost = about.cost(about.measures)
    return _row(about, GLOVE, cost, strain, pieces, (), _risks(about, strain, cost, ("uneven",)), strain.thickness_mm)


def _jacket(about: _About) -> StrategyPlan:
    wall_mm, peels_mm = about.formed.jacket_mm, about.rubber.glove_mm.high
    kind = MoldKind(Strategy.JACKET, wall_mm, Lengths())
    tried = about.formed.jacket
    every = {row.used: replace(row, measures=_poured(about, row.measures)) for row in tried.rows}
    costs = {used: about.cost(row.measures, kind) for used, row in every.items()}
    strain = replace(strain_of(about.basis, about.peel), thickness_mm=wall_mm, fins=about.fins, poured=True)
    whole = {used: cost.of(life_of(cost.job, strain).molds) for used, cost in costs.items()}
    rows = tried_rows(replace(tried, rows=tuple(every.values())), lambda measures: whole[measures.shell.pieces])
    best = recommended(rows, about.commission.shop.hour)
    barred = [
        *_dries(about),
        *_when(wall_mm > peels_mm, "stiff", _length("wall", wall_mm), _length("peels", peels_mm)),
    ]
    risks = _risks(about, strain, costs[best], ("blind",))
    return _row(about, kind, costs[best], strain, best + 1, barred, risks, wall_mm)


def _block(about: _About) -> StrategyPlan:
    block, cut_mm = about.formed.block, _cut_mm(about)
    webs = len(about.measures.piece.dividers)
    kind = MoldKind(Strategy.BLOCK, block.wall_mm, Lengths(block.walls_mm2, cut_mm))
    strain = Strain(
        1.0 if cut_mm else max(about.peel.stretch, 1.0), block.wall_mm, cut_mm > 0.0, about.fins, poured=True
    )
    cost = about.cost(_of_block(about, block), kind)
    barred = [
        *_dries(about),
        *(_locked(about) if cut_mm else ()),
        *_when(webs > MOST_WEBS, "webs", Quantity("webs", Dimension.COUNT, webs)),
    ]
    own = ("cut", *(("web",) if webs else ())) if cut_mm else ("open",)
    row = _row(about, kind, cost, strain, 1, barred, _risks(about, strain, cost, own, cut_mm), block.wall_mm)
    return replace(row, cut_mm=round(cut_mm, 1))


def _halves(about: _About) -> StrategyPlan:
    halves = about.formed.halves or Halves(about.formed.block, 0.0, 0.0)
    kind = MoldKind(Strategy.HALVES, halves.block.wall_mm, Lengths(halves.block.walls_mm2, 0.0, halves.parting_mm))
    strain = Strain(1.0, halves.block.wall_mm, False, about.fins, poured=True)
    cost = about.cost(_of_block(about, halves.block), kind)
    barred = [*_dries(about), *_locked(about)]
    risks = _risks(about, strain, cost, ("parting",), halves.parting_mm)
    row = _row(about, kind, cost, strain, 2, barred, risks, halves.block.wall_mm)
    return replace(row, parting_mm=round(halves.parting_mm, 1))


def _row(
    about: _About,
    kind: MoldKind,
    cost: JobCost,
    strain: Strain,
    pieces: int,
    barred: Iterable[KindRemark],
    risks: Iterable[KindRemark],
    wall_mm: float,
) -> StrategyPlan:
    life = life_of(cost.job, strain)
    whole = cost.of(life.molds)
    return StrategyPlan(
        strategy=kind.strategy,
        wall_mm=wall_mm,
        rubber_ml=round(cost.job.measures.glove.volume_ml, 2),
        rubber_g=cost.job.rubber.mixed_g,
        rubber=cost.rubber.quantize(CENT),
        pieces=pieces,
        cut_mm=0.0,
        parting_mm=0.0,
        life=life.casts,
        molds=life.molds,
        labor_min=round(whole.labor_min, 1),
        material=whole.material.quantize(CENT),
        days=cost.mold_days,
        barred=tuple(barred),
        risks=tuple(risks),
    )


def _cut_mm(about: _About) -> float:
    """How long a block is cut, up its outside: none where the piece comes out of it as it is."""
    formed, height_mm = about.formed, about.measures.cavity.plinth_height_mm + about.measures.piece.height_mm
    locks = formed.locked.deep_ml > LOCKED_SHARE * about.measures.piece.volume_ml
    if not locks and formed.slender <= SLENDER and about.peel.stretch <= UNCUT_STRETCH:
        return 0.0
    upto_mm = height_mm if formed.slender > SLENDER else formed.locked.upto_mm
    return max(upto_mm, CUT_SHARE * height_mm)


def _poured(about: _About, measures: MoldMeasures) -> MoldMeasures:
    """All rubber in one pour: what is packed under a brushed glove is clay here, and then rubber as all else. It is
    slit as the glove is."""
    glove = GloveMeasures((measures.glove.volume_ml,), 0.0, 0.0, (), 0.0)
    return replace(measures, glove=glove, spread=about.measures.spread, peel=about.measures.peel)


def _of_block(about: _About, block: Block) -> MoldMeasures:
    """A block has no shell; its boards and bands count for one piece. It is cut by its own work, not slit."""
    shell = about.measures.shell
    bare = ShellMeasures(shell.area_mm2, shell.volume_ml, shell.seam, (0.0,), 0.0, 0.0, shell.base_lip_mm, (1.0,))
    glove = GloveMeasures((block.rubber_ml,), 0.0, 0.0, (), 0.0)
    return replace(about.measures, glove=glove, shell=bare, peel=NOT_PEELED)


def _dries(about: _About) -> Iterator[KindRemark]:
    return _when(about.dries, "dries", Quantity("rubber", Dimension.WORD, about.rubber.name))


def _locked(about: _About) -> Iterator[KindRemark]:
    """What locks a block though it opens to both sides."""
    halves = about.formed.halves
    if halves is None:
        yield KindRemark(Line("mold-kind.no-parting"))
        return
    locks = halves.deep_ml > LOCKED_SHARE * about.measures.piece.volume_ml
    deep, hook = Quantity("deep", Dimension.VOLUME, halves.deep_ml), _length("hook", hook_mm(about.rubber))
    yield from _when(locks, "locked", deep, hook)


def _risks(
    about: _About, strain: Strain, cost: JobCost, own: tuple[str, ...], line_mm: float = 0.0
) -> Iterator[KindRemark]:
    """What may go wrong with a kind: its own, and what the form and the rubber ask care for."""
    line, slim = _length("line", line_mm), about.formed.slim
    stretch = Quantity("stretch", Dimension.FACTOR, round(about.peel.stretch, 2))
    rubber_g = Quantity("mass", Dimension.MASS, cost.job.rubber.mixed_g.likely)
    yield from (KindRemark(Line(f"mold-kind.{each}"), (line,) if line_mm else ()) for each in own)
    yield from _when(strain.slit and not line_mm, "slit", stretch)
    yield from _when(strain.fins, "fins", Quantity("gaps", Dimension.SHARE, slim.gaps))
    yield from _when(slim.thin > SLIM_SHARE, "thin", Quantity("thin", Dimension.SHARE, slim.thin))
    yield from _when(rubber_g.value > HEAVY_G if isinstance(rubber_g.value, float) else False, "heavy", rubber_g)


def _when(holds: bool, key: str, *quantities: Quantity) -> Iterator[KindRemark]:
    if holds:
        yield KindRemark(Line(f"mold-kind.{key}"), quantities)


def _length(name: str, value_mm: float) -> Quantity:
    return Quantity(name, Dimension.LENGTH, value_mm)
