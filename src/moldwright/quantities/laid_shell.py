"""The support shell's materials: plaster bandage as the plan holds it, gypsum and fiber as needs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from math import fsum

from moldwright.commission.orders import ShopOrder
from moldwright.errors import InputRefused
from moldwright.geometry.seam_kind import Seam
from moldwright.materials import Figure, Shell
from moldwright.materials.words import Making
from moldwright.mold.measures import MoldMeasures, ShellBand, ShellMeasures
from moldwright.plan.mixes import MixPlan, PartKind
from moldwright.plan.mold import BandagePlan, MatsPlan
from moldwright.plan.needs import NeedForm, NeedGroup, NeedPlan, NeedUnit
from moldwright.quantities.bandage import Roll, ShellSurface, bandage
from moldwright.quantities.cast_doubt import shell_doubt
from moldwright.quantities.gypsum import gypsum_part_g
from moldwright.quantities.laid_steps import CUT_STEP, WATER_STEP
from moldwright.quantities.need_rows import plain_row, row
from moldwright.quantities.strips import PieceCover
from moldwright.quantities.stuffs import GYPSUM_FIBER, GYPSUM_MAT, GYPSUM_WATER
from moldwright.ranges import Range


def bandage_plan(shell: Shell, measures: MoldMeasures, shop: ShopOrder) -> BandagePlan | None:
    """The bandage's quantities; None for a shell of another kind.

    Parameters
    ----------
    shell : its sheet
    measures : the solids' measures
    shop : its waste, and the units in which it measures water

    Source: `quantities.bandage.bandage`; the roll and the plies as the sheet tells.
    """
    if shell.making is not Making.BANDAGE:
        return None
    dry = known(shell, "dry_g_m2")
    spread = (dry.range * (1.0 / dry.likely)).doubted(shell_doubt(measures.spread))
    roll = Roll(known(shell, "roll_width_mm").likely, known(shell, "roll_length_mm").likely, dry.likely, spread)
    return bandage(
        bandage_surface(measures),
        roll,
        plies=round(known(shell, "plies").likely),
        strip_length_mm=known(shell, "strip_length_mm").likely,
        layers=round(shell.layers.likely) if shell.layers else None,
        waste=shop.waste,
        water_step_ml=WATER_STEP[shop.units],
        cut_step_mm=CUT_STEP[shop.units],
        ply_mm=known(shell, "ply_thickness_mm").range,
    )


def bandage_surface(measures: MoldMeasures) -> ShellSurface:
    """What a bandage covers.

    Parameters
    ----------
    measures : the solids' measures

    Source: the solids.
    """
    piece, laid_on = measures.piece, measures.shell
    return ShellSurface(
        laid_on.area_mm2,
        laid_on.seam_mm,
        laid_on.seam_flange_mm,
        laid_on.lap_mm,
        max(piece.height_mm, piece.widest_mm),
        laid_on.shares,
        _covers(measures),
    )


def _covers(measures: MoldMeasures) -> tuple[PieceCover, ...]:
    """What each piece covers: the base flange with its lip as the first of its bands."""
    shell = measures.shell
    wide_mm = measures.flange.width_mm + shell.base_lip_mm
    rising_mm2 = fsum(band.area_mm2 for bands in shell.bands for band in bands)
    base_mm2 = max(shell.area_mm2 - rising_mm2, 0.0)
    feet_mm = [bands[0].girth_mm if bands else 0.0 for bands in shell.bands]
    laps_mm = (*shell.edges_mm[1:], 0.0) if shell.seam is Seam.LAP else (0.0,) * shell.pieces
    return (
        tuple(
            PieceCover(
                (ShellBand(base_mm2 * foot / fsum(feet_mm), base_mm2 * foot / fsum(feet_mm) / wide_mm), *bands),
                shell.seam_flange_mm if shell.pieces > 1 else 0.0,
                lap_mm,
                shell.lap_mm,
            )
            for bands, foot, lap_mm in zip(shell.bands, feet_mm, laps_mm, strict=True)
        )
        if shell.bands
        else ()
    )


def fiber_gypsum(shell: Shell, mixes: tuple[MixPlan, ...], mats: MatsPlan | None, doubt: Range) -> Iterable[NeedPlan]:
    """Gypsum, water, fiber and matting for a laid shell: what its buckets hold, spread as its density is.

    Parameters
    ----------
    shell : its sheet
    mixes : the job's
    mats : its matting, None for none
    doubt : factor on what is laid, 1 where the original was scanned

    Source: sums of the plan's own quantities.
    """
    density, group = known(shell, "density_g_ml"), NeedGroup.SHELL
    spread = (density.range * (1.0 / density.likely)).doubted(doubt)
    gypsum, water, fiber = (
        spread * gypsum_part_g(mixes, kind) for kind in (PartKind.GYPSUM, PartKind.WATER, PartKind.FIBER)
    )
    yield replace(row(shell, gypsum, NeedUnit.GRAM, group), form=NeedForm.DRY)
    yield plain_row(GYPSUM_WATER, water, NeedUnit.MILLILITER, group)
    if fiber.likely > 0.0:
        yield plain_row(GYPSUM_FIBER, fiber, NeedUnit.GRAM, group)
    if mats is not None:
        yield plain_row(GYPSUM_MAT, mats.mass_g.doubted(doubt), NeedUnit.GRAM, group)


def dry_g(shell: Shell, measures: ShellMeasures, bandage: BandagePlan | None) -> Range:
    """Weight of the whole shell, dry [g]: what its bandage sets to, else its volume times its sheet's density.

    Parameters
    ----------
    shell : its sheet
    measures : the shell's
    bandage : its strips, None for a shell of another kind

    Raises InputRefused ("sheet-incomplete"). Source: stoichiometry; the sheet.
    """
    return bandage.set_g if bandage else known(shell, "density_g_ml").range * measures.volume_ml


def known(shell: Shell, name: str) -> Figure:
    """A figure that this kind of shell needs.

    Parameters
    ----------
    shell : its sheet
    name : the figure's

    Raises InputRefused ("sheet-incomplete") where the sheet has none. Source: the sheet.
    """
    figure: Figure | None = getattr(shell, name)
    if figure is None:
        raise InputRefused("sheet-incomplete", f"{shell.id}.{name}", "a value", remedy="Add it to the shell's sheet.")
    return figure
