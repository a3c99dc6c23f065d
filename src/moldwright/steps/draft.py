"""The data's steps spread over this job: one draft for each coat and fill, with its flags and quantities."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from moldwright.commission.coats import MOST_COATS
from moldwright.plan.coats import CoatPlan
from moldwright.plan.ids import CoatId, MixId, StepId, coat_id
from moldwright.plan.mixes import MixFor, MixKind
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.steps import Phase
from moldwright.quantities.quantities import Quantities
from moldwright.steps.coat_quoted import Numbers, coat_numbers, coat_quoted, fill_numbers, fill_quoted, job_numbers
from moldwright.steps.cup_quoted import by_syringe
from moldwright.steps.flags import Flag, coat_flags, flags_of, holds
from moldwright.steps.lifts import lift_kg
from moldwright.steps.quoted import Quoted, job_quoted
from moldwright.steps.sheet import Each, StepSheet, step_sheets

ANY_COAT = "coat-*"
"""How the data's ids name a step that is written for every coat."""
FILL = StepId("fill")
HALVES = {Phase.SHELL_1: 1, Phase.SHELL_2: 2}
"""Which half of the shell a phase makes."""


@dataclass(frozen=True, slots=True)
class Draft:
    """One step of this job before it is written out."""

    id: StepId
    sheet: StepSheet
    coat: CoatId | None
    flags: frozenset[Flag]
    quoted: Quoted
    numbers: Numbers
    mixes: tuple[MixId, ...]
    lift_kg: float | None

    @property
    def stands(self) -> bool:
        """Whether its condition holds here."""
        return holds(self.sheet.when, self.flags)


@dataclass(frozen=True, slots=True)
class _Base:
    """What all drafts of a job share."""

    job: Quantities
    flags: frozenset[Flag]
    quoted: Quoted
    numbers: Numbers


def drafts(job: Quantities) -> tuple[Draft, ...]:
    """Every step in the order of the work, those whose condition fails here included.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    """
    base = _Base(job, flags_of(job), job_quoted(job), job_numbers(job))
    made: list[Draft] = []
    for repeated, group in groupby(step_sheets(), key=lambda sheet: sheet.each is not Each.ONCE):
        sheets = tuple(group)
        made += _repeated(base, sheets) if repeated else [_once(base, sheet) for sheet in sheets]
    return tuple(made)


def steps_of_other_jobs() -> frozenset[StepId]:
    """Ids of the steps that stand for each coat and fill, as many as any job may have."""
    coats = [coat_id(number) for number in range(1, MOST_COATS + 1)]
    each_coat = [sheet.id for sheet in step_sheets() if sheet.each is Each.COAT]
    of_coats = {StepId(id_.replace(ANY_COAT, coat)) for id_ in each_coat for coat in coats}
    return frozenset({*of_coats, FILL, *(_later_fill(coat) for coat in coats)})


def _later_fill(coat: CoatId) -> StepId:
    return StepId(f"fill-after-{coat}")


def _once(base: _Base, sheet: StepSheet) -> Draft:
    for_ = None if sheet.mixes is None else MixFor(sheet.mixes, half=HALVES.get(sheet.phase))
    return _draft(base, sheet, StepId(sheet.id), None, for_)


def _draft(
    base: _Base,
    sheet: StepSheet,
    id_: StepId,
    coat: CoatPlan | None,
    for_: MixFor | None,
    quoted: Quoted | None = None,
    numbers: Numbers | None = None,
) -> Draft:
    mixes = () if for_ is None else base.job.mixes_for(for_)
    flags = base.flags | ({Flag.SYRINGE} if by_syringe(mixes) else frozenset())
    kg = None if sheet.lift is None else lift_kg(sheet.lift, base.job)
    lifted = {} if kg is None else {"lift": Quantity("lift", Dimension.LIFT, kg)}
    return Draft(
        id=id_,
        sheet=sheet,
        coat=None if coat is None else coat.id,
        flags=flags if coat is None else flags | coat_flags(base.job, coat),
        quoted={**base.quoted, **(quoted or {}), **lifted},
        numbers={**base.numbers, **(numbers or {})},
        mixes=tuple(mix.id for mix in mixes),
        lift_kg=kg,
    )


def _repeated(base: _Base, sheets: Sequence[StepSheet]) -> list[Draft]:
    made: list[Draft] = []
    for coat in base.job.rubber.coats:
        for sheet in sheets:
            if sheet.each is Each.COAT:
                made.append(_coat(base, sheet, coat))
            else:
                made += _fill(base, sheet, coat)
    return made


def _coat(base: _Base, sheet: StepSheet, coat: CoatPlan) -> Draft:
    id_ = StepId(sheet.id.replace(ANY_COAT, coat.id))
    for_ = None if sheet.mixes is None else MixFor(MixKind.COAT, coat.id)
    return _draft(base, sheet, id_, coat, for_, coat_quoted(base.job, coat), coat_numbers(base.job, coat))


def _fill(base: _Base, sheet: StepSheet, coat: CoatPlan) -> list[Draft]:
    """What is packed after this coat, if anything is."""
    job, for_ = base.job, MixFor(MixKind.FILL, coat.id)
    if not job.mixes_for(for_):
        return []
    spots = tuple(spot for spot in job.rubber.spots if spot.after == coat.id)
    quoted, numbers = fill_quoted(job, coat, spots), fill_numbers(job, coat, spots)
    return [_draft(base, sheet, fill_step(job, coat.id), coat, for_, quoted, numbers)]


def fill_step(job: Quantities, coat: CoatId) -> StepId:
    """The step that packs what follows a coat: the first is called `fill`, a later one `fill-after-<coat>`.

    Parameters
    ----------
    job : the cups.
    coat : the coat's id.
    """
    first = next(mix.for_.coat for mix in job.rubber.mixes if mix.for_.kind is MixKind.FILL)
    return FILL if coat == first else _later_fill(coat)
