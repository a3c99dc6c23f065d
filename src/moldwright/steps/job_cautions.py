"""Cautions that follow from this job's figures: scale, cups, powder, moisture, measuring by volume, own sheets."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import fsum

from moldwright.cast.filled import thickened
from moldwright.cast.foam import foam_ml
from moldwright.commission.orders import ShopOrder
from moldwright.materials import Library
from moldwright.materials.kinds import TwoPart
from moldwright.materials.words import Side
from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.ids import CoatId, StepId, coat_mix_step
from moldwright.plan.lines import Line
from moldwright.plan.mixes import RUBBER_KINDS, SKIN, MixFor, MixKind, MixPlan
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.quantities.quantities import Quantities
from moldwright.steps.core_cautions import core_cautions
from moldwright.steps.doubt_cautions import doubt_cautions
from moldwright.steps.draft import fill_step
from moldwright.steps.hold_cautions import hold_cautions
from moldwright.steps.lifts import powder_g

COMMON = "common practice, no source"
THICK_PA_S = 5.0
"""Above this a mix no longer runs into detail by itself: common practice, no source."""
DAMP_SHARE = 0.001
"""Water that a powder may hold that was left open, by weight: from memory, low confidence."""
SCALE_SOURCE = "computed: JCGM 100:2008 F.2.2.1 (from memory), k = 2; what the ratio allows: class default, from memory"
MOISTURE_SOURCE = "computed: stoichiometry and the ideal gas; share of moisture from memory, low confidence"
LAY_OUT, POWDER_DRY, POWDER_WET = StepId("lay-out"), StepId("powder-dry"), StepId("powder-wet")
SKIN_STEP = StepId("skin")


def job_cautions(job: Quantities, library: Library) -> list[Caution]:
    """All cautions that follow from the job's figures.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    library : the sheets with their findings.
    """
    return [
        *_cups(job),
        *hold_cautions(job),
        *core_cautions(job),
        *doubt_cautions(job),
        *_by_volume(job),
        *_powder(job),
        *_own_sheets(library),
    ]


def mix_step(job: Quantities, for_: MixFor) -> StepId:
    """The step in which a cup is mixed: a coat's, that which packs, the skin's or the back-fill's.

    Parameters
    ----------
    job : the cups.
    for_ : what the cup is for.
    """
    if for_.coat is None:
        return StepId(for_.stem)
    return fill_step(job, for_.coat) if for_.kind is MixKind.FILL else coat_mix_step(for_.coat)


def _said(
    step: StepId, rule: str, severity: Severity, source: str, *quantities: Quantity, subject: str = ""
) -> Caution:
    name = f"{rule}.{subject}" if subject else rule
    return caution(step, name, severity, (Line(f"job.{rule}"),), source, quantities, particular=True)


def _cups(job: Quantities) -> Iterable[Caution]:
    """Cups larger than the work needs, so that their ratio can be measured; cups larger than the sheet's pot life is
    stated for."""
    chosen, heavy = job.basis.chosen, set[str]()
    for for_ in dict.fromkeys(mix.for_ for mix in (*job.rubber.mixes, *job.cast.mixes)):
        cups, step = job.mixes_for(for_), mix_step(job, for_)
        resin = chosen.resin if for_ == SKIN or chosen.backfill is None else chosen.backfill
        sheet: TwoPart = chosen.rubber if for_.kind in RUBBER_KINDS else resin
        yield from _over(step, cups, job.commission.shop)
        yield from _large(step, cups, sheet, sheet.id in heavy)
        heavy |= {sheet.id} if _is_large(cups, sheet) else set()


def _over(step: StepId, cups: Sequence[MixPlan], shop: ShopOrder) -> Iterable[Caution]:
    over_g = fsum(mix.surplus_g for mix in cups)
    if shop.by_volume:
        yield from _over_marks(step, cups, over_g, shop.marks_ml)
        return
    if over_g < shop.scale_g:
        return
    yield _said(
        step,
        "larger-batch",
        Severity.NOTE,
        SCALE_SOURCE,
        Quantity("over.mass", Dimension.MASS, over_g),
        Quantity("scale", Dimension.SCALE_STEP, shop.scale_g),
    )


def _over_marks(step: StepId, cups: Sequence[MixPlan], over_g: float, marks_ml: float) -> Iterable[Caution]:
    """More than whole marks alone ask for, two of them a cup."""
    over_ml = over_g * fsum(mix.volume_ml for mix in cups) / fsum(mix.mass_g for mix in cups)
    if over_ml > 2.0 * marks_ml * len(cups):
        over, marks = (Quantity(n, Dimension.VOLUME, v) for n, v in (("over.mass", over_ml), ("marks", marks_ml)))
        yield _said(step, "larger-marked", Severity.NOTE, SCALE_SOURCE, over, marks)


def _is_large(cups: Sequence[MixPlan], sheet: TwoPart) -> bool:
    return sheet.chemistry.heats_itself and max(mix.mass_g for mix in cups) > sheet.pot_life_mass_g.likely


def _large(step: StepId, cups: Sequence[MixPlan], sheet: TwoPart, again: bool) -> Iterable[Caution]:
    """In full for a material's first large cup, in short after that."""
    if not _is_large(cups, sheet):
        return
    yield caution(
        step,
        "heavy-cup",
        Severity.NOTE if again else Severity.HEED,
        (Line("job.heavy-cup-again" if again else "job.heavy-cup"),),
        "pot life cut by the cube root of stated mass over mass: our own rule",
        _amounts(max(cups, key=lambda mix: mix.mass_g), sheet.pot_life_mass_g.likely)[: 1 if again else 2],
        particular=True,
    )


def _amounts(cup: MixPlan, stated_g: float) -> tuple[Quantity, Quantity]:
    """What a cup holds and what its sheet's pot life is stated for, as the shop measures."""
    measure, per_g = (Dimension.VOLUME, cup.volume_ml / cup.mass_g) if cup.marked else (Dimension.MASS, 1.0)
    named = (("cup.mass", cup.mass_g), ("stated.mass", stated_g))
    first, other = (Quantity(name, measure, mass_g * per_g) for name, mass_g in named)
    return first, other


def _by_volume(job: Quantities) -> Iterable[Caution]:
    """What measuring by volume costs."""
    if job.commission.shop.by_volume:
        yield _said(_first_mix(job), "by-volume", Severity.NOTE, COMMON)


def _first_mix(job: Quantities) -> StepId:
    first: CoatId = job.rubber.coats[0].id
    return coat_mix_step(first)


def _powder(job: Quantities) -> Iterable[Caution]:
    """Powder held back, a mix too thick, and what moisture would do."""
    chosen, mix = job.basis.chosen, job.cast.skin_mix
    if chosen.powder is None:
        return
    if mix.thinned:
        most = Quantity("most.share", Dimension.SHARE, chosen.resin.powder_max_vol_pct.likely / 100.0)
        yield _said(POWDER_WET, "powder-held-back", Severity.NOTE, "the resin's sheet, powder_max_vol_pct", most)
    viscosity = thickened(chosen.resin.viscosity_pa_s.likely, mix.filled.loading_vol_pct)
    if viscosity > THICK_PA_S:
        source = "computed: Maron-Pierce (from memory) from the resin's sheet"
        thick = Quantity("viscosity", Dimension.VISCOSITY, viscosity)
        yield _said(SKIN_STEP, "thick-mix", Severity.HEED, source, thick)
    if chosen.resin.isocyanate_part is not Side.NONE:
        yield _damp(powder_g(job))


def _damp(powder_g: float) -> Caution:
    return _said(
        POWDER_DRY,
        "damp-powder-gas",
        Severity.NOTE,
        MOISTURE_SOURCE,
        Quantity("water.share", Dimension.FINE_SHARE, DAMP_SHARE),
        Quantity("powder.mass", Dimension.MASS, powder_g),
        Quantity("gas.volume", Dimension.VOLUME, foam_ml(powder_g * DAMP_SHARE)),
    )


def _own_sheets(library: Library) -> Iterable[Caution]:
    """What is doubtful in the shop's own sheets, where the materials are laid out."""
    for finding in library.findings:
        yield _said(
            LAY_OUT,
            "own-sheet",
            Severity.HEED,
            "check of the shop's own sheets",
            Quantity("where", Dimension.WORD, finding.where),
            Quantity("actual", Dimension.WORD, f"{finding.actual} {finding.unit}".strip()),
            Quantity("remedy", Dimension.WORD, finding.remedy),
            subject=f"{finding.where}.{finding.code}",
        )
