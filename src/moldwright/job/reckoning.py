"""Everything in the plan that is not geometry: from the order, the sheets and the solids' measures."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import fsum

from moldwright.commission.orders import Commission
from moldwright.cure.potlife import pot_life_s
from moldwright.materials import Library, Resin, Rubber
from moldwright.materials.compatibility import Finding, judge
from moldwright.mold.coats import coat_layers
from moldwright.mold.volumes import MoldVolumes
from moldwright.plan.plan import (
    Assumption,
    BandagePlan,
    CastPlan,
    Caution,
    CoatPlan,
    FillSpot,
    MixPlan,
    NeedPlan,
    PartPlan,
    StepPlan,
)
from moldwright.quantities.assumptions import class_assumptions, default_assumptions
from moldwright.quantities.cast import CastQuantities, cast_quantities
from moldwright.quantities.chosen import Chosen, chosen
from moldwright.quantities.laid_shell import bandage_plan
from moldwright.quantities.need_rows import NeedScope
from moldwright.quantities.needs import shopping
from moldwright.quantities.rubber import HAND, RubberQuantities, rubber_quantities
from moldwright.quantities.slower import refuse_fast
from moldwright.ranges import Range
from moldwright.steps import Work, work
from moldwright.steps.context import StepContext
from moldwright.steps.job_cautions import (
    cup_cautions,
    finding_cautions,
    hazard_cautions,
    measure_cautions,
    powder_cautions,
    sheet_cautions,
)


@dataclass(frozen=True, slots=True)
class Quantities:
    """The plan's own parts. Rubber cups carry flange and fill: see `quantities.rubber`; `mixes` are of one cast."""

    coats: tuple[CoatPlan, ...]
    flange: PartPlan
    fill: PartPlan
    spots: tuple[FillSpot, ...]
    bandage: BandagePlan | None
    cast: CastPlan
    mixes: tuple[MixPlan, ...]
    needs: tuple[NeedPlan, ...]
    steps: tuple[StepPlan, ...]
    cautions: tuple[Caution, ...]
    assumed: tuple[Assumption, ...]


@dataclass(frozen=True, slots=True)
class PotLives:
    """Pot lives at the shop's temperature [s]."""

    rubber: Range
    resin: Range
    backfill: Range | None


def quantities(commission: Commission, library: Library, volumes: MoldVolumes, own_steps_text: str = "") -> Quantities:
    """Coats, cups, cast, bandage, shopping list, steps, cautions and assumptions.

    The masses of all rubber mixes sum exactly to coats + flange + fill (`mixed_g.likely`), on the scale's steps.

    Parameters
    ----------
    commission : the order
    library : all sheets
    volumes : the solids' measures
    own_steps_text : the maker's own steps file (TOML); "" for none

    Raises InputRefused for an unknown material or coats that do not add up, NoSafePlan where a mix gels before it is
    stirred. Source: the stages' own.
    """
    sheets = chosen(commission, library)
    lives = _pot_lives(sheets, commission.shop.temperature_c)
    layers = coat_layers(commission.mold.thickness_mm, commission.mold.coats)
    refuse_fast(commission.shop, sheets, lives.rubber, library)
    rubber = rubber_quantities(commission.shop, sheets.rubber, layers, volumes, lives.rubber)
    cast = cast_quantities(commission.cast, commission.shop, sheets, volumes, (lives.resin, lives.backfill))
    bandage = bandage_plan(sheets.shell, volumes, commission.shop.waste)
    findings = _findings(commission, sheets, library)
    mixes = rubber.mixes + cast.mixes
    scope = NeedScope(commission, library, sheets, volumes, rubber.coats, rubber.flange, rubber.fill, bandage, mixes,
                      any(finding.patch_test for finding in findings))  # fmt: skip
    context = _context(commission, sheets, rubber, cast, bandage, shopping(scope), findings, volumes, lives)
    done = work(context, own_steps_text)
    own = [*_cautions(commission, sheets, rubber, cast, findings, _said(done)), *sheet_cautions(library)]
    steps, cautions = _standing(done, own)
    return Quantities(
        coats=rubber.coats,
        flange=rubber.flange,
        fill=rubber.fill,
        spots=rubber.spots,
        bandage=bandage,
        cast=cast.cast,
        mixes=mixes,
        needs=context.needs,
        steps=steps,
        cautions=cautions,
        assumed=default_assumptions(commission) + class_assumptions(sheets, _named(sheets, lives)),
    )


def _pot_lives(sheets: Chosen, temperature_c: float) -> PotLives:
    return PotLives(
        pot_life_s(sheets.rubber, temperature_c),
        pot_life_s(sheets.resin, temperature_c),
        pot_life_s(sheets.backfill, temperature_c) if sheets.backfill else None,
    )


def _findings(commission: Commission, sheets: Chosen, library: Library) -> tuple[Finding, ...]:
    return judge(
        commission.original.material,
        sheets.sealer.id if sheets.sealer else "",
        sheets.release.id if sheets.release else "",
        sheets.rubber.id,
        sheets.resin.id,
        sheets.powder.id if sheets.powder else "",
        sheets.shell.id,
        library,
    )


def _context(
    commission: Commission,
    sheets: Chosen,
    rubber: RubberQuantities,
    cast: CastQuantities,
    bandage: BandagePlan | None,
    needs: tuple[NeedPlan, ...],
    findings: tuple[Finding, ...],
    volumes: MoldVolumes,
    lives: PotLives,
) -> StepContext:
    net_g = fsum(coat.net_g for coat in rubber.coats) + rubber.flange.net_g + rubber.fill.net_g
    return StepContext(
        commission=commission,
        rubber=sheets.rubber,
        resin=sheets.resin,
        backfill=sheets.backfill,
        powder=sheets.powder,
        shell=sheets.shell,
        release=sheets.release,
        sealer=sheets.sealer,
        coats=rubber.coats,
        flange=rubber.flange,
        fill=rubber.fill,
        spots=rubber.spots,
        bandage=bandage,
        cast=cast.cast,
        mixes=rubber.mixes + cast.mixes,
        needs=needs,
        findings=findings,
        volumes=volumes,
        rubber_pot_life_s=lives.rubber,
        resin_pot_life_s=lives.resin,
        backfill_pot_life_s=lives.backfill,
        glove_g=HAND * net_g,
        shell_g=sheets.shell.density_g_ml.range * volumes.shell_ml,
        carries_g=rubber.carries_g,
    )


def _cautions(
    commission: Commission,
    sheets: Chosen,
    rubber: RubberQuantities,
    cast: CastQuantities,
    findings: tuple[Finding, ...],
    said: dict[str, str],
) -> list[Caution]:
    shop = commission.shop
    return [
        *finding_cautions(findings, sheets, rubber.coats),
        *hazard_cautions(sheets, rubber.coats, said),
        *cup_cautions(rubber.mixes + cast.mixes, rubber.coats, sheets, shop),
        *measure_cautions(sheets, shop, rubber.coats),
        *powder_cautions(sheets, cast, shop.units),
    ]


def _said(done: Work) -> dict[str, str]:
    """What the cautions of each step say, run together."""
    return {step.id: " ".join(step.cautions) for step in done.steps}


def _standing(done: Work, own: list[Caution]) -> tuple[tuple[StepPlan, ...], tuple[Caution, ...]]:
    """This job's cautions on their steps, behind the steps' own; "" where the maker dropped the step."""
    ids = {step.id for step in done.steps}
    placed = [caution if caution.step in ids else replace(caution, step="") for caution in own]
    steps = tuple(
        replace(step, cautions=step.cautions + tuple(c.text for c in placed if c.step == step.id))
        for step in done.steps
    )
    return steps, done.cautions + tuple(placed)


def _named(sheets: Chosen, lives: PotLives) -> list[tuple[Rubber | Resin, Range]]:
    named: list[tuple[Rubber | Resin, Range]] = [(sheets.rubber, lives.rubber), (sheets.resin, lives.resin)]
    if sheets.backfill is not None and lives.backfill is not None:
        named.append((sheets.backfill, lives.backfill))
    return named
