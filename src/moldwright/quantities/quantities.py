"""Everything in the plan that is counted in grams, milliliters and minutes."""

from __future__ import annotations

from dataclasses import dataclass, replace

from moldwright.commission.orders import Commission
from moldwright.errors import InputRefused
from moldwright.materials import Library
from moldwright.materials.compatibility import Finding, Trial, judge
from moldwright.mold.coats import laid_out
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.assumptions import Assumption
from moldwright.plan.closure import ClosurePlan
from moldwright.plan.coats import Coat, CoatHold
from moldwright.plan.mixes import MixFor, MixPlan
from moldwright.plan.mold import BandagePlan, MatsPlan, PartingPlan
from moldwright.plan.needs import NeedPlan
from moldwright.plan.printing import PrintPlan
from moldwright.plan.stand import StandPlan
from moldwright.quantities.assumptions import class_assumptions, default_assumptions, solid_assumption
from moldwright.quantities.cast import CastQuantities, cast_quantities, solid_by
from moldwright.quantities.chosen import Chosen, chosen
from moldwright.quantities.closure import closure
from moldwright.quantities.coat_hold import coat_holds
from moldwright.quantities.gypsum import gypsum_mixes, refuse_unless_workable
from moldwright.quantities.laid_shell import bandage_plan, dry_g
from moldwright.quantities.mats import mats_plan
from moldwright.quantities.need_rows import NeedScope
from moldwright.quantities.needs import shopping
from moldwright.quantities.parting import parting
from moldwright.quantities.pot_lives import PotLives, pot_lives
from moldwright.quantities.printed import print_plan
from moldwright.quantities.rubber import RubberQuantities, rubber_quantities
from moldwright.quantities.stand import stand_plan
from moldwright.quantities.stuffs import with_stuffs
from moldwright.ranges import Range
from moldwright.ways import named_key


@dataclass(frozen=True, slots=True)
class Basis:
    """What is settled before any solid is there: the sheets, how they go together, how long they last, the coats."""

    chosen: Chosen
    findings: tuple[Finding, ...]
    lives: PotLives
    coats: tuple[Coat, ...]

    @property
    def trials(self) -> frozenset[Trial]:
        """The tests that the judgments of compatibility ask for, by the pair in doubt."""
        return frozenset(finding.trial for finding in self.findings if finding.trial is not None)


@dataclass(frozen=True, slots=True)
class Quantities:
    """All quantities of one job, and what they were reckoned from. `mixes`: the rubber's, the shell's, those of one
    cast."""

    commission: Commission
    basis: Basis
    measures: MoldMeasures
    rubber: RubberQuantities
    cast: CastQuantities
    shell_mixes: tuple[MixPlan, ...]
    bandage: BandagePlan | None
    mats: MatsPlan | None
    printing: PrintPlan | None
    parting: PartingPlan
    closure: ClosurePlan
    needs: tuple[NeedPlan, ...]
    assumed: tuple[Assumption, ...]
    holds: tuple[CoatHold, ...]
    stand: StandPlan | None

    @property
    def mixes(self) -> tuple[MixPlan, ...]:
        """Every cup: the rubber's, the shell's, then those of one cast."""
        return self.rubber.mixes + self.shell_mixes + self.cast.mixes

    @property
    def shell_g(self) -> Range:
        """Predicted weight of the dry shell, all pieces [g]."""
        return dry_g(self.basis.chosen.shell, self.measures.shell, self.bandage)

    def mixes_for(self, for_: MixFor) -> tuple[MixPlan, ...]:
        """The cups for one thing, cup 1 first."""
        return tuple(mix for mix in self.mixes if mix.for_ == for_)


def basis_of(commission: Commission, library: Library) -> Basis:
    """The sheets, how long they last and the coats; what gels before it is stirred, and a glove that is not laid so, is
    refused here, before any geometry.

    Parameters
    ----------
    commission : the order
    library : all sheets

    Raises InputRefused for an unknown material, coats that are not of the class or a resin that a shop without a scale
    cannot mix, NoSafePlan ("pot-life-too-short",
    "shell-sets-too-soon").
    Source: the sheets.
    """
    sheets = chosen(commission, library)
    refuse_unless_workable(sheets.shell)
    if commission.shop.by_volume:
        _refuse_what_is_weighed(sheets)
    findings = judge(
        commission.original.material,
        sheets.sealer.id if sheets.sealer else "",
        sheets.release.id if sheets.release else "",
        sheets.rubber.id,
        sheets.resin.id,
        sheets.powder.id if sheets.powder else "",
        sheets.shell.id,
        library,
        sheets.cast_release.id if sheets.cast_release else "",
    )
    coats = laid_out(commission.mold.thickness_mm, commission.mold.coats, sheets.rubber)
    return Basis(sheets, findings, pot_lives(sheets, commission.shop, library, commission.cast.solid), coats)


def _as_cast(commission: Commission, basis: Basis, measures: MoldMeasures) -> Basis:
    """Without the back-fill's resin where the cast turns out solid: nothing is bought, warned of or waited for."""
    if basis.chosen.backfill is None or solid_by(commission.cast, measures) is None:
        return basis
    chosen_, lives = replace(basis.chosen, backfill=None), replace(basis.lives, backfill=None)
    return replace(basis, chosen=chosen_, lives=lives)


def _refuse_what_is_weighed(sheets: Chosen) -> None:
    """A shop without a scale cannot mix what its loose volume tells nothing of."""
    for resin in (sheets.resin, sheets.backfill):
        if resin is not None and resin.weight_only:
            told = f"its loose volume tells nothing. Weigh it ({named_key('shop.measure')}), or cast another resin "
            told += f"({named_key('cast.resin')}, {named_key('cast.backfill')})."
            raise InputRefused("weighed-only", f"{resin.name} by volume", "by weight", "", f"{resin.name}: {told}")


def quantities(commission: Commission, library: Library, basis: Basis, measures: MoldMeasures) -> Quantities:
    """Coats, cups, cast, bandage, shopping list and assumptions.

    The masses of all rubber mixes sum exactly to coats + flange + fill (`mixed_g.likely`), on the scale's steps.

    Parameters
    ----------
    commission : the order
    library : all sheets
    basis : the sheets, their pot lives and the coats
    measures : of the solids

    Source: the stages' own.
    """
    basis = _as_cast(commission, basis, measures)
    sheets, shop, lives = basis.chosen, commission.shop, basis.lives
    rubber = rubber_quantities(
        shop, sheets.rubber, sheets.thixotrope, basis.coats, measures.glove, lives.rubber.pot_life_s, measures.spread
    )
    rubber = replace(rubber, mixes=with_stuffs(rubber.mixes, sheets))
    cast = cast_quantities(commission.cast, shop, sheets, measures, lives)
    cast = replace(cast, mixes=with_stuffs(cast.mixes, sheets))
    bandage = bandage_plan(sheets.shell, measures, shop)
    mats = mats_plan(sheets.shell, measures.shell, shop.waste)
    laid = parting(sheets.shell, sheets.shell_wax, measures.shell, library)
    dry = dry_g(sheets.shell, measures.shell, bandage)
    poured = with_stuffs(gypsum_mixes(sheets.shell, dry.likely, measures.shell.shares, shop), sheets)
    mixes = rubber.mixes + poured + cast.mixes
    closed = closure(measures, cast, dry.likely, library)
    stand = stand_plan(measures.stand, dry.likely, rubber.glove_g.likely, closed.density_g_ml)
    scope = NeedScope(
        commission,
        library,
        sheets,
        measures,
        rubber,
        cast.doubt,
        bandage,
        mats,
        laid,
        closed,
        mixes,
        basis.trials,
        stand,
    )
    return Quantities(
        commission=commission,
        basis=basis,
        measures=measures,
        rubber=rubber,
        cast=cast,
        shell_mixes=poured,
        bandage=bandage,
        mats=mats,
        printing=print_plan(sheets.shell, measures.shell.printed),
        parting=laid,
        closure=closed,
        stand=stand,
        needs=shopping(scope),
        holds=coat_holds(basis.coats, sheets.rubber, sheets.thixotrope, commission.mold, measures.glove.slopes),
        assumed=default_assumptions(commission) + class_assumptions(sheets, lives) + solid_assumption(cast.cast),
    )
