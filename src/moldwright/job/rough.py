"""A plan of quantities alone, where only water or weight tell the original: its volume is known, its form is not."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from math import ceil, fsum

from moldwright.cast.piece import SKIN_SPREAD
from moldwright.commission.orders import Commission, OriginalOrder
from moldwright.errors import InputRefused
from moldwright.job.assumed import taken_for_granted
from moldwright.job.planning import refuse_print_of_a_guess, shell_settings
from moldwright.job.rough_cautions import rough_cautions
from moldwright.job.rough_measures import corner_measures, likely_measures
from moldwright.job.rough_needs import rough_needs, widened
from moldwright.job.sources import refuse_pieces_without_form, witnesses_of
from moldwright.materials import Library
from moldwright.mold.flange_room import keep_from_wall_mm
from moldwright.mold.measures import MoldMeasures
from moldwright.original.evidence.narrow import together
from moldwright.original.evidence.only_volume import OnlyVolume, only_volume
from moldwright.original.evidence.witness import Bound
from moldwright.plan.assumptions import Assumption
from moldwright.plan.cast import CastWay
from moldwright.plan.ids import CoatId
from moldwright.plan.json_text import plan_tree, text_of
from moldwright.plan.known import Known
from moldwright.plan.mixes import MixFor, MixKind, MixPlan
from moldwright.plan.needs import NeedPlan
from moldwright.plan.original import Source
from moldwright.plan.rough import (
    ROUGH_VERSION,
    Lack,
    RoughCast,
    RoughCoat,
    RoughCups,
    RoughGlove,
    RoughOriginal,
    RoughPlan,
    RoughShell,
)
from moldwright.quantities.cast import needed_g
from moldwright.quantities.need_rows import merged
from moldwright.quantities.quantities import Basis, Quantities, basis_of, quantities
from moldwright.ranges import Amount, Range, likely_of
from moldwright.steps.shape_cautions import NO_SHAPE
from moldwright.steps.written import Work, work
from moldwright.store.hashing import hash_of
from moldwright.ways import Change, figure

GIVEN_BY = (Source.TAPE, Source.PHOTOS, Source.SCAN)
"""What gives a form, the least work first."""
LEAST_TALL, MOST_TALL = 0.35, 5.0
"""Heights over the diameter of the ball of the same volume that surfaces can be told for: those that they were measured
at are 0.7 to 2.4; our own."""
FINE_G, FINE_ML = 0.01, 0.1
"""Steps in which amounts at the corners are reckoned, where nothing is measured out: our own."""
OF_FORM = frozenset(("mold.pieces", "mold.mouth-width", "mold.mouth-share"))
"""Defaults that say nothing without a form."""


@dataclass(frozen=True, slots=True)
class _Jobs:
    """Quantities of the likely measures, and of every corner."""

    likely: Quantities
    corners: tuple[Quantities, ...]

    def spread(self, hand: Range, of: Callable[[Quantities], Amount]) -> Range:
        """An amount with its bounds by hand and form together."""
        return widened(hand, [likely_of(of(job)) for job in self.corners])

    def across(self, of: Callable[[Quantities], Amount]) -> Range:
        """An amount that no hand changes, with the bounds of the form."""
        return self.spread(Range.exactly(likely_of(of(self.likely))), of)


def make_rough(commission: Commission, library: Library) -> RoughPlan:
    """Reckon the quantities of a commission whose original is known by water or weight alone.

    Parameters
    ----------
    commission : the order.
    library : all material sheets.

    Raises InputRefused and NoSafePlan as the stages of a plan do, and where the volume is not known from both sides
    ("volume-unknown") or no sculpture is so tall ("height-unlike-volume"). Source: the stages' own.
    """
    known, original = rough_known(commission.original)
    refuse_pieces_without_form(commission.mold, original.source)
    basis = basis_of(commission, library)
    refuse_print_of_a_guess(basis.chosen.shell, original.source)
    keep_from_wall_mm(commission.mold.flange_mm, fsum(coat.thickness_mm for coat in basis.coats))
    plan = _plan(_jobs(commission, library, basis, known), library, original)
    return replace(plan, plan_hash=hash_of(text_of(plan_tree(plan)))[:8].upper())


def rough_rubber(commission: Commission, library: Library, basis: Basis, known: OnlyVolume) -> Range:
    """All rubber to mix where only the volume is known, with the bounds of hand and form [g].

    Parameters
    ----------
    commission : the order.
    library : all material sheets.
    basis : what is settled of it.
    known : volume and height.
    """
    return _glove(_jobs(commission, library, basis, known)).mixed_g


def rough_known(order: OriginalOrder) -> tuple[OnlyVolume, RoughOriginal]:
    """What water and weight, and a height where it is told, say of an original without a form.

    Parameters
    ----------
    order : the piece to copy.

    Raises InputRefused ("volume-unknown", "height-unlike-volume", "sources-disagree", "density-unknown").
    """
    said = witnesses_of(order)
    if all(witness.bound is not Bound.BOTH for witness in said):
        remedy = "A hollow piece weighs less than its form: measure it by tape, or sink it in water"
        told = "the weight of a piece that is not solid"
        raise InputRefused("volume-unknown", told, "a volume", "", remedy, Change("original.displaced"))
    evidence = together(said)
    known = only_volume(evidence.volume_ml, order.height_mm)
    _refuse_unlike(known, order)
    source, *also = evidence.sources
    return known, RoughOriginal(known.volume_ml, known.area_cm2, known.height_mm, source, tuple(also))


def _refuse_unlike(known: OnlyVolume, order: OriginalOrder) -> None:
    """A told height that no sculpture of that volume has: one of the two was read off wrongly."""
    if order.height_mm is None:
        return
    least_mm, most_mm = (known.ball_mm * tall for tall in (LEAST_TALL, MOST_TALL))
    if not least_mm <= order.height_mm <= most_mm:
        limit = f"{figure(round(least_mm), 'mm')} to {figure(round(most_mm), 'mm')}"
        volume = figure(round(known.volume_ml.likely), "ml")
        remedy = (
            f"By height and volume ({volume}) it would be a wire or a plate. Are both "
            "in the units that you read? Such a piece is measured by tape."
        )
        raise InputRefused("height-unlike-volume", figure(round(order.height_mm, 1), "mm"), limit, "", remedy)


def _jobs(commission: Commission, library: Library, basis: Basis, known: OnlyVolume) -> _Jobs:
    mold, cast, shop = commission.mold, commission.cast, commission.shop
    coats_mm = tuple(coat.thickness_mm for coat in basis.coats)
    given = known, mold, cast.skin_mm, coats_mm, shell_settings(basis.chosen.shell, mold)
    finer = replace(shop, scale_g=min(shop.scale_g, FINE_G), marks_ml=min(shop.marks_ml, FINE_ML))
    fine = replace(commission, shop=finer)

    def job(order: Commission, measures: MoldMeasures) -> Quantities:
        return quantities(order, library, basis, measures)

    return _Jobs(job(commission, likely_measures(*given)), tuple(job(fine, each) for each in corner_measures(*given)))


def _plan(jobs: _Jobs, library: Library, original: RoughOriginal) -> RoughPlan:
    job = jobs.likely
    order, chosen = job.commission, job.basis.chosen
    works = _works(jobs, library)
    return RoughPlan(
        schema_version=ROUGH_VERSION,
        kind="quantities only",
        name=order.original.called,
        plan_hash="",
        units=order.shop.units,
        lacks=tuple(Lack),
        given_by=GIVEN_BY,
        assumed=_assumed(job, original),
        original=original,
        glove=_glove(jobs),
        shell=RoughShell(chosen.shell.name, chosen.shell.making, jobs.spread(job.shell_g, lambda j: j.shell_g)),
        cast=_cast(jobs),
        cups=tuple(_cups(jobs)),
        needs=rough_needs(*_rows(works)),
        cautions=rough_cautions(works),
        rubber=chosen.rubber.name,
        temperature_c=order.shop.temperature_c,
        scale_g=order.shop.scale_g,
        marks_ml=order.shop.marks_ml if order.shop.by_volume else None,
        count=order.edition.count,
    )


def _works(jobs: _Jobs, library: Library) -> tuple[tuple[Quantities, Work], ...]:
    """The likely quantities and those of every corner, with the steps of a cast of their way: for cautions and gear."""
    every = (jobs.likely, *jobs.corners)
    by_way = {job.cast.cast.way: job for job in reversed(every)}
    steps = {way: work(job, library, NO_SHAPE) for way, job in by_way.items()}
    return tuple((job, steps[job.cast.cast.way]) for job in every)


def _rows(works: Sequence[tuple[Quantities, Work]]) -> tuple[tuple[NeedPlan, ...], list[tuple[NeedPlan, ...]]]:
    """What is bought, with what is worn: the likely rows, and those of every corner."""
    likely, *corners = (merged((*job.needs, *done.gear)) for job, done in works)
    return likely, corners


def _assumed(job: Quantities, known: RoughOriginal) -> tuple[Assumption, ...]:
    """What nobody gave, the form before all."""
    order = job.commission
    source = "as sculptures of this volume are tall, measured on some; no source"
    told = order.original.height_mm is not None
    height = () if told else (Assumption("original.height", known.height_mm, "mm", source),)
    return (
        *taken_for_granted(order, Known(known.source, known.also)),
        *height,
        *((Assumption("original.gaps", "not used", "", "a volume has them already"),) if order.original.gaps else ()),
        *(each for each in job.assumed if each.key not in OF_FORM),
    )


def _glove(jobs: _Jobs) -> RoughGlove:
    rubber = jobs.likely.rubber
    coats = tuple(RoughCoat(coat, _coat_g(jobs, n)) for n, coat in enumerate(jobs.likely.basis.coats))
    return RoughGlove(
        coats,
        jobs.spread(rubber.flange.mixed_g, lambda job: job.rubber.flange.mixed_g),
        jobs.spread(rubber.fill.mixed_g, lambda job: job.rubber.fill.mixed_g),
        jobs.spread(rubber.mixed_g, lambda job: job.rubber.mixed_g),
    )


def _coat_g(jobs: _Jobs, n: int) -> Range:
    return jobs.spread(jobs.likely.rubber.coats[n].mixed_g, lambda job: job.rubber.coats[n].mixed_g)


def _cast(jobs: _Jobs) -> RoughCast:
    job = jobs.likely
    cast, filled = job.cast.cast, job.cast.skin_mix.filled
    holds_ml = jobs.across(lambda job: job.cast.cast.volume_ml)
    return RoughCast(
        ways=_ways(jobs),
        volume_ml=holds_ml,
        skin_mm=cast.skin.thickness_mm,
        skin_ml=jobs.across(lambda job: job.cast.cast.skin.volume_ml),
        backfill_ml=jobs.across(lambda job: job.cast.cast.backfill_ml),
        mass_g=jobs.spread(cast.mass_g, lambda job: job.cast.cast.mass_g),
        solid_g=holds_ml * needed_g(1.0, filled.density_g_ml, job.commission.shop.waste),
        loading_wt_pct=cast.loading_wt_pct,
    )


def _ways(jobs: _Jobs) -> tuple[CastWay, ...]:
    """The likely way first; any piece may have limbs or a mouth too thin for a core, and so be cast solid."""
    every = (job.cast.cast.way for job in (jobs.likely, *jobs.corners))
    return tuple(dict.fromkeys((*every, CastWay.SOLID)))


def _cups(jobs: _Jobs) -> Iterable[RoughCups]:
    """Everything that is mixed in cups but what is packed: how much that is, and when it is done, hangs on the form."""
    job = jobs.likely
    hands = {MixFor(MixKind.COAT, coat.id): coat.mixed_g for coat in job.rubber.coats}
    coats = {coat.id: coat for coat in job.basis.coats}
    swirled = Range.about(1.0, 0.0 if job.cast.cast.way is CastWay.SOLID else SKIN_SPREAD)
    for kind, coat in dict.fromkeys((mix.for_.kind, mix.for_.coat) for mix in job.mixes):
        if kind is MixKind.FILL:
            continue
        mixed = _Mixed(kind, coat)
        cups, likely_g = mixed.of(job), mixed.mass_g(job)
        by_hand = hands.get(MixFor(kind, coat), swirled if kind is MixKind.SKIN else Range.exactly(1.0))
        needed_g = jobs.spread(by_hand * (likely_g / by_hand.likely), mixed.mass_g)
        each_g = cups[0].mass_g
        yield RoughCups(
            for_=kind,
            coat=coats[coat] if coat is not None else None,
            count=Range(
                _whole(needed_g.low / each_g), float(len(cups)), max(_whole(needed_g.high / each_g), len(cups))
            ),
            cup=cups[0],
            halved=each_g >= 2.0 * cups[0].smallest_batch_g,
        )


@dataclass(frozen=True, slots=True)
class _Mixed:
    """What cups are for, the pieces of a shell taken together."""

    kind: MixKind
    coat: CoatId | None

    def of(self, job: Quantities) -> tuple[MixPlan, ...]:
        """Its cups."""
        return tuple(mix for mix in job.mixes if (mix.for_.kind, mix.for_.coat) == (self.kind, self.coat))

    def mass_g(self, job: Quantities) -> float:
        """All that is in them."""
        return fsum(mix.mass_g for mix in self.of(job))


def _whole(cups: float) -> float:
    """Cups that are opened for so many, one at least."""
    return float(max(ceil(cups - 1e-6), 1))
