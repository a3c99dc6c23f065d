"""The whole job: from a commission and a scan to a plan and its solids."""

from __future__ import annotations

from dataclasses import dataclass, replace

from moldwright.commission.orders import Commission, MoldOrder
from moldwright.errors import InputRefused
from moldwright.geometry.seam_kind import Seam
from moldwright.job.assumed import geometry_assumptions
from moldwright.job.costs import Cost, cost_by, strain_of
from moldwright.job.doubting import mold_doubt, on_all
from moldwright.job.leveling import refuse_cuts_over
from moldwright.job.measured import Measured
from moldwright.job.peel_way import peel_found
from moldwright.job.pieces import as_built, recommended, tried_rows
from moldwright.job.searched import Doubted, Tried
from moldwright.job.solids_chain import KeptSolids, body_for, solids_for
from moldwright.job.strategies import hook_mm, strategies_of
from moldwright.job.trapping import refuse_trapped
from moldwright.materials import Library, Shell
from moldwright.materials.peel_limits import allowed_stretch
from moldwright.mold.flange_room import keep_from_wall_mm
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.trapped import RubberGives
from moldwright.plan.assumptions import Assumption
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.known import SCANNED, Known
from moldwright.plan.mold import GlovePlan
from moldwright.plan.original import Source
from moldwright.plan.plan import SCHEMA_VERSION, Plan
from moldwright.plan.strategies import Strategy
from moldwright.progress import Progress
from moldwright.quantities.life import life_of
from moldwright.quantities.need_rows import merged
from moldwright.quantities.peel_effort import strain_plan
from moldwright.quantities.quantities import Quantities, basis_of, quantities
from moldwright.scan.scan import Scan
from moldwright.steps.closing import cures
from moldwright.steps.totals import totals
from moldwright.steps.written import Work, work
from moldwright.store.hashing import hash_of
from moldwright.store.memory import Store
from moldwright.store.stage import Kept
from moldwright.ways import Change

LAYERS = 3.0
"""Layers of a laid shell whose sheet tells none: common practice, no source."""


@dataclass(frozen=True, slots=True, eq=False)
class Planned:
    """A plan and its solids."""

    plan: Plan
    solids: KeptSolids


def make_plan(
    commission: Commission,
    scan: Kept[Scan] | Scan,
    library: Library,
    store: Store,
    progress: Progress,
    own_steps_text: str = "",
    known: Known = SCANNED,
) -> Planned:
    """Plan a commission: the solids, the quantities, the steps.

    Only what depends on a changed input is computed again; the rest comes from the store.

    Parameters
    ----------
    commission : the order.
    scan : the original as read.
    library : all material sheets.
    store : where stages are kept.
    progress : told the stages.
    own_steps_text : the maker's own steps file.
    known : what the original is known by, where it is no scan.

    Raises InputRefused and NoSafePlan as the stages do.
    """
    mold = commission.mold
    basis = basis_of(commission, library)
    settings = shell_settings(basis.chosen.shell, mold)
    coats_mm = tuple(coat.thickness_mm for coat in basis.coats)
    keep_from_wall_mm(mold.flange_mm, sum(coats_mm))
    refuse_print_of_a_guess(basis.chosen.shell, known.source)
    cost = cost_by(commission, library, basis)

    def pieces_of(tried: Tried, doubted: Doubted) -> int:
        return recommended(tried_rows(on_all(tried, doubted), cost), commission.shop.hour)

    rubber, skin_mm, at = basis.chosen.rubber, commission.cast.skin_mm, (store, progress)
    peels = rubber.glove_mm.high, allowed_stretch(rubber.elongation_pct.range)
    body = body_for(scan, commission.original, mold, *at)
    refuse_cuts_over(body.mounted, mold.level_cuts_mm)
    refuse_trapped(body, RubberGives(sum(coats_mm), *peels))
    room, of_all = commission.shop.printer_mm, (known.spread.volume, pieces_of)
    solids = solids_for(scan, body, mold, coats_mm, skin_mm, settings, room, *peels, hook_mm(rubber), *of_all, *at)
    measured, tried, doubted = solids.measured.value, solids.tried.value, solids.doubted.value
    peel = peel_found(solids.peel.value, solids.slit, peels[1])
    doubt = mold_doubt(tried, doubted, cost, commission.shop.hour, measured.measures, peel, known)
    known = known.packing(doubt.packing_ml) if doubt is not None else known
    rows = tried_rows(on_all(tried, doubted), cost)
    stand = solids.stand.value.found
    measures = replace(measured.measures, spread=known.spread, peel=peel, stand=stand)
    if settings.bolted:
        measures = replace(measures, shell=replace(measures.shell, printed=solids.printed.value))
    job = quantities(commission, library, basis, measures)
    stiff = rubber.shore_a.range, sum(coats_mm)
    strain = None if peel.slit else strain_plan(solids.strained.value, peel.stretch, peels[1], *stiff)
    life = life_of(job, strain_of(basis, peel))
    shape = replace(measured.shape, asks=known.asks, doubt=doubt, life=life, strain=strain)
    done = work(job, library, shape, own_steps_text)
    assumed = (*geometry_assumptions(commission, measured, settings, known), *job.assumed)
    kinds = strategies_of(commission, library, basis, measures, solids.formed.value, peel)
    plan = replace(plan_of(job, measured, done, assumed, known), life=life, strategies=kinds)
    plan = replace(plan, glove=replace(plan.glove, strain=strain))
    glove = kinds.of(Strategy.GLOVE)
    tradeoff = as_built(rows, plan.shell, Cost(glove.labor_min, glove.material))
    best = recommended(tradeoff, commission.shop.hour)
    shell = replace(plan.shell, tradeoff=tradeoff, recommended=best, level_cuts_mm=mold.level_cuts_mm)
    plan = replace(plan, shell=shell, doubt=doubt)
    return Planned(replace(plan, plan_hash=hash_of(plan_to_json(plan))[:8].upper()), solids)


def shell_settings(shell: Shell, mold: MoldOrder) -> ShellSettings:
    """The shell's dimensions from its material's sheet; a lap is as thick as one layer.

    Parameters
    ----------
    shell : its sheet.
    mold : how its pieces meet, and its draft.

    Raises InputRefused ("lap-of-print") for a lap of a printed shell.
    """
    seam = mold.seam
    if seam is Seam.LAP and not shell.making.by_hand:
        remedy = "Choose a shell that is laid by hand, such as plaster bandage, or let its pieces meet at a wall"
        told = f"{shell.name}, its pieces meeting by {seam}"
        raise InputRefused("lap-of-print", told, Seam.WALL, "", remedy, Change("mold.seam", Seam.WALL.value))
    wall_mm = shell.thickness_mm.likely
    layers = shell.layers.likely if shell.layers else LAYERS
    return ShellSettings(
        wall_mm=wall_mm,
        seam=seam,
        lap_thickness_mm=wall_mm / layers,
        base_lip_mm=shell.beyond_rubber_mm.likely,
        least_lip_mm=shell.beyond_rubber_mm.low,
        draft_deg=mold.draft_deg,
        bolted=not shell.making.by_hand,
    )


def refuse_print_of_a_guess(shell: Shell, source: Source) -> None:
    """A printed shell fits the solid that it was made from, not an original that the solid only stands for.

    Parameters
    ----------
    shell : its sheet.
    source : what the original is known by.

    Raises InputRefused ("printed-shell-without-scan").
    """
    if source is not Source.SCAN and not shell.making.by_hand:
        remedy = "Give a scan, or choose a shell that is laid on the rubber itself, such as plaster bandage"
        told = f"{shell.name}, by {source}"
        raise InputRefused("printed-shell-without-scan", told, "a scan", "", remedy, Change("mold.shell"))


def plan_of(job: Quantities, measured: Measured, done: Work, assumed: tuple[Assumption, ...], known: Known) -> Plan:
    """The plan from what was measured, reckoned and written; its hash is still empty.

    Parameters
    ----------
    job : the quantities.
    measured : the solids' measures.
    done : the steps and cautions.
    assumed : what nobody gave.
    known : what the original is known by.
    """
    order, rubber, peel = job.commission, job.rubber, job.measures.peel
    volume = rubber.laid * job.measures.glove.volume_ml
    return Plan(
        schema_version=SCHEMA_VERSION,
        name=order.original.called,
        plan_hash="",
        units=order.shop.units,
        assumed=assumed,
        original=known.told(measured.original),
        mouth=measured.mouth,
        flange=measured.measures.flange,
        glove=GlovePlan(
            volume,
            rubber.coats,
            rubber.flange,
            rubber.fill,
            rubber.spots,
            rubber.small_spots,
            job.holds,
            peel.slit,
            peel.plan,
            job.measures.glove.thickness,
        ),
        shell=measured.shell,
        bandage=job.bandage,
        mats=job.mats,
        printing=job.printing,
        parting=job.parting,
        closure=job.closure,
        stand=job.stand,
        cast=job.cast.cast,
        mixes=job.mixes,
        needs=merged((*job.needs, *done.gear)),
        steps=done.steps,
        cautions=done.cautions,
        totals=totals(done.steps, job),
        rubber=job.basis.chosen.rubber.name,
        shell_making=job.basis.chosen.shell.making,
        temperature_c=order.shop.temperature_c,
        scale_g=order.shop.scale_g,
        marks_ml=order.shop.marks_ml if order.shop.by_volume else None,
        count=order.edition.count,
        cures=cures(job),
    )
