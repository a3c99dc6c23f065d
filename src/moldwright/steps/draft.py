"""The data's steps spread over this job: one draft for each coat and fill, with its flags and quantities."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby

from moldwright.commission.coats import MOST_COATS
from moldwright.plan.coats import CoatPlan
from moldwright.plan.ids import CoatId, MixId, StepId, coat_id
from moldwright.plan.mixes import MixFor, MixKind
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.steps import LAID_IN, Phase
from moldwright.quantities.quantities import Quantities
from moldwright.steps.coat_flags import coat_flags
from moldwright.steps.coat_quoted import Numbers, coat_numbers, coat_quoted, fill_numbers, fill_quoted, job_numbers
from moldwright.steps.cup_quoted import by_syringe
from moldwright.steps.flags import Flag, flags_of, holds
from moldwright.steps.lifts import lift_kg
from moldwright.steps.piece_quoted import piece_flags, piece_numbers, piece_quoted
from moldwright.steps.quoted import Quoted, job_quoted
from moldwright.steps.sheet import Each, StepSheet, step_sheets

ANY_COAT = "coat-*"
"""How the data's ids name a step that is written for every coat."""
FILL = StepId("fill")
PIECES = range(1, len(LAID_IN) + 1)
ANY = "*"
"""Where a number stands in the id of a step that is written for every piece of the shell."""


@dataclass(frozen=True, slots=True)
class Draft:
    """One step of this job before it is written out."""

    id: StepId
    sheet: StepSheet
    phase: Phase
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
    for over, group in groupby(step_sheets(), key=lambda sheet: _OVER[sheet.each]):
        made += over(base, tuple(group))
    return tuple(made)


def steps_of_other_jobs() -> frozenset[StepId]:
    """Ids of the steps that stand for each coat and fill and each piece of a shell, as many as any job may have."""
    coats = [coat_id(number) for number in range(1, MOST_COATS + 1)]
    each_coat = [sheet.id for sheet in step_sheets() if sheet.each is Each.COAT]
    of_coats = {StepId(id_.replace(ANY_COAT, coat)) for id_ in each_coat for coat in coats}
    each_piece = [sheet.id for sheet in step_sheets() if sheet.each is Each.PIECE]
    of_pieces = {_of_piece(id_, n, first) for id_ in each_piece for n in PIECES for first in (True, False)}
    return frozenset({*of_coats, *of_pieces, FILL, *(_later_fill(coat) for coat in coats)})


def _later_fill(coat: CoatId) -> StepId:
    return StepId(f"fill-after-{coat}")


def _once(base: _Base, sheets: Sequence[StepSheet]) -> list[Draft]:
    return [
        _draft(base, sheet, StepId(sheet.id), for_=None if sheet.mixes is None else MixFor(sheet.mixes))
        for sheet in sheets
    ]


@dataclass(frozen=True, slots=True)
class _Own:
    """What a draft has beside its job: its coat, quantities, numbers, flags, and the phase it stands in."""

    coat: CoatId | None = None
    quoted: Quoted = field(default_factory=dict)
    numbers: Numbers = field(default_factory=dict)
    flags: frozenset[Flag] = frozenset()
    phase: Phase | None = None


NOTHING_OWN = _Own()


def _draft(base: _Base, sheet: StepSheet, id_: StepId, own: _Own = NOTHING_OWN, for_: MixFor | None = None) -> Draft:
    mixes = () if for_ is None else base.job.mixes_for(for_)
    syringe = frozenset({Flag.SYRINGE}) if by_syringe(mixes) else frozenset()
    kg = None if sheet.lift is None else lift_kg(sheet.lift, base.job)
    lifted = {} if kg is None else {"lift": Quantity("lift", Dimension.LIFT, kg)}
    return Draft(
        id=id_,
        sheet=sheet,
        phase=own.phase or sheet.phase,
        coat=own.coat,
        flags=base.flags | syringe | own.flags,
        quoted={**base.quoted, **own.quoted, **lifted},
        numbers={**base.numbers, **own.numbers},
        mixes=tuple(mix.id for mix in mixes),
        lift_kg=kg,
    )


def _coats(base: _Base, sheets: Sequence[StepSheet]) -> list[Draft]:
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
    return _draft(
        base, sheet, id_, _of_coat(base.job, coat, coat_quoted(base.job, coat), coat_numbers(base.job, coat)), for_
    )


def _of_coat(job: Quantities, coat: CoatPlan, quoted: Quoted, numbers: Numbers) -> _Own:
    return _Own(coat.id, quoted, numbers, coat_flags(job, coat))


def _fill(base: _Base, sheet: StepSheet, coat: CoatPlan) -> list[Draft]:
    """What is packed after this coat, if anything is."""
    job, for_ = base.job, MixFor(MixKind.FILL, coat.id)
    if not job.mixes_for(for_):
        return []
    spots = tuple(spot for spot in job.rubber.spots if spot.after == coat.id)
    own = _of_coat(job, coat, fill_quoted(job, coat, spots), fill_numbers(job, coat, spots))
    return [_draft(base, sheet, fill_step(job, coat.id), own, for_)]


def fill_step(job: Quantities, coat: CoatId) -> StepId:
    """The step that packs what follows a coat: the first is called `fill`, a later one `fill-after-<coat>`.

    Parameters
    ----------
    job : the cups.
    coat : the coat's id.
    """
    first = next(mix.for_.coat for mix in job.rubber.mixes if mix.for_.kind is MixKind.FILL)
    return FILL if coat == first else _later_fill(coat)


def _pieces(base: _Base, sheets: Sequence[StepSheet]) -> list[Draft]:
    """All that is done for one piece of the shell, then for the next: the last off is laid first."""
    return [_piece(base, sheet, number) for number in range(base.job.measures.shell.pieces, 0, -1) for sheet in sheets]


def _piece(base: _Base, sheet: StepSheet, number: int) -> Draft:
    job = base.job
    first = number == job.measures.shell.pieces
    own = _Own(
        quoted=piece_quoted(job, number),
        numbers=piece_numbers(job, number),
        flags=piece_flags(job, number),
        phase=Phase.BEFORE_SHELL if first and sheet.phase is Phase.BEFORE_SHELL else LAID_IN[number - 1],
    )
    for_ = None if sheet.mixes is None else MixFor(sheet.mixes, piece=number)
    return _draft(base, sheet, _of_piece(sheet.id, number, first), own, for_)


def _of_piece(id_: str, number: int, first: bool) -> StepId:
    """A piece's own step: its number where the data's id has a place for it, else behind all but the first."""
    if ANY in id_:
        return StepId(id_.replace(ANY, str(number)))
    return StepId(id_ if first else f"{id_}-{number}")


_OVER: Mapping[Each, Callable[[_Base, Sequence[StepSheet]], list[Draft]]] = {
    Each.ONCE: _once,
    Each.COAT: _coats,
    Each.FILL: _coats,
    Each.PIECE: _pieces,
}
