"""Cautions that come from the shape: a slit, webs, rubber that nothing supports."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from moldwright.mold.measures import PieceMeasures
from moldwright.photos.ask import Ask
from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.doubt import MoldDoubt
from moldwright.plan.ids import StepId
from moldwright.plan.life import LifePlan
from moldwright.plan.lines import Line
from moldwright.plan.peel import SlitPlan
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.strain import StrainPlan
from moldwright.steps.quoted import holes_quoted
from moldwright.steps.strain_cautions import strain_cautions

SHORT_LAP_SHARE = 1 / 3
"""From this share of the lap on, what is left out of it is told: common practice, no source."""
UNSUPPORTED_SHARE = 0.02
"""From this share of the surface on, rubber without a shell behind it is told: common practice, no source."""


@dataclass(frozen=True, slots=True)
class ShapeFindings:
    """What a job's shape asks care for: the share of bare rubber, of a lapped seam what would hook, the level places
    that may hide a bowl, what of the mold is sure where the original was not scanned, how long its glove lasts, None
    where nobody reckoned it, and how far that stretches as it is peeled."""

    uncovered_share: float
    lap_left_out_share: float = 0.0
    asks: tuple[Ask, ...] = ()
    doubt: MoldDoubt | None = None
    life: LifePlan | None = None
    strain: StrainPlan | None = None


NO_SHAPE = ShapeFindings(0.0)
"""Of a job whose solids nobody has yet."""


def shape_cautions(shape: ShapeFindings, piece: PieceMeasures, slit: SlitPlan | None) -> list[Caution]:
    """The cautions that the shape asks for.

    Parameters
    ----------
    shape : what was found on the solids.
    piece : the original's measures, with its through-holes.
    slit : where the glove is slit; None: nowhere.
    """
    found = *_slit(slit), *_webs(piece), *_bare(shape.uncovered_share), *_lap(shape.lap_left_out_share)
    return [*_bowls(shape.asks), *found, *_outlived(shape.life), *strain_cautions(shape.strain)]


def _bowls(asks: tuple[Ask, ...]) -> Iterable[Caution]:
    if not asks:
        return
    most = max(asks, key=lambda ask: ask.most_ml)
    quantities = (
        Quantity("bowl.count", Dimension.COUNT, len(asks)),
        Quantity("bowl.up", Dimension.LENGTH, most.at_mm[2]),
        Quantity("bowl.across", Dimension.LENGTH, most.across_mm),
        Quantity("bowl.most", Dimension.VOLUME, most.most_ml),
    )
    source = "computed: level tops of the outlines' hull"
    yield _of_shape("receive", "open-bowl", ("shape.bowl", "shape.bowl-answer"), source, quantities, ruins=True)


def _slit(slit: SlitPlan | None) -> Iterable[Caution]:
    if slit is None:
        return
    quantities = (Quantity("slit.on_cast", Dimension.LENGTH, slit.on_cast_mm),)
    source = "computed: stretch of loops over the surface against a third of the elongation at break"
    yield _of_shape("receive", "slit-line", ("shape.slit", "shape.slit-agreed"), source, quantities, ruins=True)


def _webs(piece: PieceMeasures) -> Iterable[Caution]:
    source = "computed: genus of the surface that is coated"
    if piece.dividers:
        holes = (holes_quoted("holes", piece.dividers),)
        yield _of_shape("handles", "webs", ("shape.webs", "shape.divider"), source, holes, ruins=True)
    if piece.stopped:
        source = "computed: narrower than the glove's two sides together"
        holes = (holes_quoted("holes", piece.stopped),)
        yield _of_shape("handles", "lost-detail", ("shape.lost", "shape.stop"), source, holes, ruins=True)


def _bare(share: float) -> Iterable[Caution]:
    if share > UNSUPPORTED_SHARE:
        bare = (Quantity("bare.share", Dimension.SHARE, share),)
        source = "computed: share of the surface that no piece reaches"
        yield _of_shape("close-shell", "unsupported", ("shape.unsupported",), source, bare, ruins=False)


def _lap(left_out: float) -> Iterable[Caution]:
    if left_out > SHORT_LAP_SHARE:
        left = (Quantity("lap.left", Dimension.SHARE, left_out),)
        source = "computed: ways out of the lap's points along the first draw"
        yield _of_shape("shell-1", "short-lap", ("shape.short-lap",), source, left, ruins=False)


def _outlived(life: LifePlan | None) -> Iterable[Caution]:
    """An edition that one glove does not last for."""
    if life is None or life.molds < 2:
        return
    casts = Quantity("life.casts", Dimension.COUNT, round(life.casts.likely))
    molds = Quantity("life.molds", Dimension.COUNT, life.molds)
    source = f"computed: {life.source}, by what wears this glove"
    yield _of_shape("return-original", "outlived", ("shape.outlived",), source, (casts, molds), ruins=True)


def _of_shape(
    step: str, rule: str, says: tuple[str, ...], source: str, quantities: tuple[Quantity, ...], ruins: bool
) -> Caution:
    lines = tuple(map(Line, says))
    return caution(StepId(step), rule, Severity.HEED, lines, source, quantities, particular=True, ruins=ruins)
