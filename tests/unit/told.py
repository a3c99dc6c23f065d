"""The work in words, as a sheet tells it: what tests of steps and cautions read."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.materials import Library, library
from moldwright.plan.cautions import Caution, Severity
from moldwright.plan.ids import CoatId, MixId
from moldwright.plan.lines import Line
from moldwright.plan.steps import Per, StepPlan
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import Range
from moldwright.sheets.wording import Wording
from moldwright.steps.shape_cautions import ShapeFindings
from moldwright.steps.written import Work, work

NO_SHAPE = ShapeFindings(0.0)


@dataclass(frozen=True)
class ToldCaution:
    id: str
    step: str
    rule: str
    severity: Severity
    text: str
    source: str


@dataclass(frozen=True)
class ToldStep:
    id: str
    title: str
    per: Per
    coat: CoatId | None
    labor_min: float
    wait_min: Range | None
    needs: tuple[str, ...]
    do: tuple[str, ...]
    before: tuple[str, ...]
    cautions: tuple[str, ...]
    mixes: tuple[MixId, ...]
    lift_kg: float | None

    @property
    def texts(self) -> tuple[str, ...]:
        return (self.title, *self.needs, *self.do, *self.before, *self.cautions)


@dataclass(frozen=True)
class Told:
    steps: tuple[ToldStep, ...]
    cautions: tuple[ToldCaution, ...]

    def step(self, id_: str) -> ToldStep:
        return next(step for step in self.steps if step.id == id_)

    def on(self, id_: str) -> str:
        """All that the cautions of a step say."""
        return " ".join(caution.text for caution in self.cautions if caution.step == id_)


def done(job: Quantities, own: str = "", known: Library | None = None, shape: ShapeFindings = NO_SHAPE) -> Work:
    return work(job, known or library(), shape, own)


def told(job: Quantities, own: str = "", known: Library | None = None, shape: ShapeFindings = NO_SHAPE) -> Told:
    """The job's steps and cautions in the shop's units."""
    return in_words(done(job, own, known, shape), Wording(job.commission.shop.units, job.commission.shop.scale_g))


def in_words(made: Work, words: Wording) -> Told:
    cautions = tuple(_caution(each, words) for each in made.cautions)
    texts = {each.id: each.text for each in cautions}
    steps = tuple(
        ToldStep(
            step.id,
            words.line(step.title, step.quantities),
            step.per,
            step.coat,
            step.labor_min,
            step.wait_min,
            *(_lines(words, step, lines) for lines in (step.needs, step.do, step.before)),
            tuple(texts[id_] for id_ in step.cautions),
            step.mixes,
            step.lift_kg,
        )
        for step in made.steps
    )
    return Told(steps, cautions)


def _lines(words: Wording, step: StepPlan, lines: tuple[Line, ...]) -> tuple[str, ...]:
    return tuple(words.line(line, step.quantities) for line in lines)


def _caution(each: Caution, words: Wording) -> ToldCaution:
    return ToldCaution(each.id, each.step, each.rule, each.severity, words.caution(each), each.source)
