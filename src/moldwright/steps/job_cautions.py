"""Cautions that follow from this job's figures: scale, cups, powder, moisture, measuring by volume, own sheets."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from moldwright.cast.filled import thickened
from moldwright.cast.foam import foam_ml
from moldwright.commission.orders import Measure
from moldwright.materials import Library
from moldwright.materials.kinds import TwoPart
from moldwright.materials.words import Side
from moldwright.mixing.cups import RATIO_TOLERANCE
from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.ids import CoatId, StepId, coat_mix_step
from moldwright.plan.lines import Line
from moldwright.plan.mixes import RUBBER_KINDS, SKIN, MixFor, MixPlan
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.quantities.quantities import Quantities
from moldwright.steps.lifts import powder_g

COMMON = "common practice, no source"
THICK_PA_S = 5.0
"""Above this a mix no longer runs into detail by itself: common practice, no source."""
DAMP_SHARE = 0.001
"""Water that a powder may hold that was left open, by weight: from memory, low confidence."""
SCALE_SOURCE = f"computed: JCGM 100:2008 F.2.2.1 (from memory), k = 2; {RATIO_TOLERANCE:.0%} allowed: {COMMON}"
MOISTURE_SOURCE = "computed: stoichiometry and the ideal gas; share of moisture from memory, low confidence"
LAY_OUT, POWDER_DRY, POWDER_WET = StepId("lay-out"), StepId("powder-dry"), StepId("powder-wet")
SKIN_STEP, BACK_FILL_STEP = StepId("skin"), StepId("back-fill")


def job_cautions(job: Quantities, library: Library) -> list[Caution]:
    """All cautions that follow from the job's figures.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    library : the sheets with their findings.
    """
    return [*_cups(job), *_by_volume(job), *_powder(job), *_own_sheets(library)]


def mix_step(for_: MixFor) -> StepId:
    """The step in which a cup is mixed: a coat's, the skin's or the back-fill's.

    Parameters
    ----------
    for_ : what the cup is for.

    >>> mix_step(SKIN)
    'skin'
    """
    return StepId(for_.stem) if for_.coat is None else coat_mix_step(for_.coat)


def _said(
    step: StepId, rule: str, severity: Severity, source: str, *quantities: Quantity, subject: str = ""
) -> Caution:
    name = f"{rule}.{subject}" if subject else rule
    return caution(step, name, severity, (Line(f"job.{rule}"),), source, quantities, particular=True)


def _cups(job: Quantities) -> Iterable[Caution]:
    """Cups too small for the scale, cups larger than the sheet's pot life is stated for."""
    chosen = job.basis.chosen
    for for_ in dict.fromkeys(mix.for_ for mix in (*job.rubber.mixes, *job.cast.mixes)):
        cups = job.mixes_for(for_)
        resin = chosen.resin if for_ == SKIN or chosen.backfill is None else chosen.backfill
        sheet: TwoPart = chosen.rubber if for_.kind in RUBBER_KINDS else resin
        yield from _too_small(cups, job.commission.shop.scale_g)
        yield from _large(cups, sheet)


def _too_small(cups: Sequence[MixPlan], scale_g: float) -> Iterable[Caution]:
    small_g = min(mix.mass_g for mix in cups)
    if small_g >= cups[0].smallest_batch_g:
        return
    yield _said(
        mix_step(cups[0].for_),
        "cup-below-scale",
        Severity.HEED,
        SCALE_SOURCE,
        Quantity("cup.mass", Dimension.SCALED_MASS, small_g),
        Quantity("scale", Dimension.SCALE_STEP, scale_g),
        Quantity("tolerance", Dimension.PERCENT, cups[-1].tolerance_pct),
        Quantity("least.mass", Dimension.MASS, cups[0].smallest_batch_g),
    )


def _large(cups: Sequence[MixPlan], sheet: TwoPart) -> Iterable[Caution]:
    most_g, stated_g = max(mix.mass_g for mix in cups), sheet.pot_life_mass_g.likely
    if not sheet.chemistry.heats_itself or most_g <= stated_g:
        return
    yield _said(
        mix_step(cups[0].for_),
        "heavy-cup",
        Severity.HEED,
        "pot life cut by the cube root of stated mass over mass: our own rule",
        Quantity("cup.mass", Dimension.MASS, most_g),
        Quantity("stated.mass", Dimension.MASS, stated_g),
    )


def _by_volume(job: Quantities) -> Iterable[Caution]:
    """What measuring by volume costs, and what must be weighed all the same."""
    if job.commission.shop.measure is not Measure.VOLUME:
        return
    yield _said(_first_mix(job), "by-volume", Severity.NOTE, COMMON)
    chosen = job.basis.chosen
    for resin, step in ((chosen.resin, SKIN_STEP), (chosen.backfill, BACK_FILL_STEP)):
        if resin is not None and resin.weight_only:
            yield _said(step, "weigh-only", Severity.STOP, COMMON, Quantity("material", Dimension.WORD, resin.name))


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
