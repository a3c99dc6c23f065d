"""Stage: what a shell in one to four pieces would take, measured before any of them is built."""

from __future__ import annotations

from dataclasses import replace

from moldwright.job.measuring import cavity_measures, piece_measures, shell_measures
from moldwright.job.plan_of_solids import holes_of
from moldwright.job.searched import Searched, Tried
from moldwright.job.shelling import SETTINGS
from moldwright.job.standing import Gaps, Settled
from moldwright.mold.flange import keyed
from moldwright.mold.glove import CoatedBody, Coats, flanged
from moldwright.mold.measures import GloveMeasures, MoldMeasures, ShellMeasures, Skin
from moldwright.mold.mouth import Mounted
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.split import CoarseSplit
from moldwright.mold.splits import Splits
from moldwright.ranges import Range


def tried_with(
    mounted: Mounted, settled: Settled, gaps: Gaps, skin: Skin, coats: Coats, splits: Splits, shell: ShellSettings
) -> Tried:
    """What each of the found splits would take.

    Parameters
    ----------
    mounted, settled, gaps, skin, coats : the solids before the shell.
    splits : that were found of the shell.
    shell : its dimensions.

    Source: the solids; the seam as the search weighed it.
    """
    coated = flanged(coats, keyed(coats.flange))
    bare = MoldMeasures(
        piece=piece_measures(settled, mounted, holes_of(gaps.handles, coated.flange_mm)),
        cavity=cavity_measures(mounted),
        flange=coated.flange,
        glove=GloveMeasures(coated.coat_ml, coated.flange_ml, coated.crevice_ml, (), coated.crevice_ml, coated.slopes),
        shell=_shell(coated, 0.0, 1, shell),
        skin=skin,
    )
    return Tried(tuple(_searched(n, splits, coated, bare, shell) for n in range(1, len(splits.real) + 1)))


def _searched(pieces: int, splits: Splits, coated: CoatedBody, bare: MoldMeasures, shell: ShellSettings) -> Searched:
    split = splits.least(pieces)
    seam_mm = (split.energy_ml - split.fill_ml) / SETTINGS.seam_ml_per_mm if split.pieces > 1 else 0.0
    measures = replace(
        bare,
        glove=replace(bare.glove, fill_ml=bare.glove.fill_ml + split.fill_ml),
        shell=_shell(coated, seam_mm, split.pieces, shell),
    )
    fill_ml = _fill_ml(split, splits)
    return Searched(
        pieces=pieces,
        used=split.pieces,
        fill_ml=fill_ml,
        stiff_ml=splits.stiff_of(split),
        seam_mm=seam_mm,
        energy=split.energy_ml,
        in_order=split.in_order,
        measures=measures,
    )


def _fill_ml(split: CoarseSplit, splits: Splits) -> Range:
    every = (split.fill_ml, splits.coarse_of(split))
    return Range(min(every), split.fill_ml, max(every))


def _shell(coated: CoatedBody, seam_mm: float, pieces: int, shell: ShellSettings) -> ShellMeasures:
    """In equal pieces, their seam in equal edges: quantities and hands are sums over both."""
    edges_mm = (0.0, *((seam_mm / max(pieces - 1, 1),) * (pieces - 1)))
    return shell_measures(coated.gloved, coated, None, edges_mm, (1.0 / pieces,) * pieces, shell)
