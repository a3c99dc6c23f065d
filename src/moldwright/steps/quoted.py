"""Every quantity of the job that a sentence may quote, by the name that sentences use."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, fsum

from moldwright.materials.kinds import Release
from moldwright.materials.mold_life import look_after_days
from moldwright.materials.originals import UNKNOWN
from moldwright.mixing.rubber import rubber_density_g_ml
from moldwright.plan.mixes import BACK_FILL, SKIN
from moldwright.plan.original import Hole
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.stand import LEAST_DEG
from moldwright.quantities.gypsum import workable_s
from moldwright.quantities.knobs import FOOT_MM, HIGH_MM, KNOBS, knob_cup_of, knob_ml
from moldwright.quantities.laid_steps import MASS_STEP, whole_steps
from moldwright.quantities.needs import PATCH_TEST_G
from moldwright.quantities.parting import waxed_mm
from moldwright.quantities.quantities import Quantities
from moldwright.steps.cup_quoted import cup_quoted, parts_quoted
from moldwright.steps.lifts import Lift, lift_kg, powder_g
from moldwright.steps.waits import Wait, wait_s
from moldwright.units.constants import GRAVITY_M_S2

BOARD_BEYOND_MM = 50.0
"""Board beyond the shell's lip: common practice, no source."""

TRIM_MM = 5.0
"""A divider's sheet is cut larger by so much on each side than the hole and trimmed till it fits: our own."""

DAY_S = 86_400.0

LEVEL_CUP_ML = 100.0
"""What is weighed to know a powder again: our own."""

Quoted = dict[str, Quantity]


def job_quoted(job: Quantities) -> Quoted:
    """The quantities of the whole job.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    """
    shells = (*_shell(job), *_bandage(job), *_mats(job), *_printing(job), *_stand(job))
    every = (*_piece(job), *_flange(job), *_rubber(job), *_knobs(job), *_peel(job), *shells, *_cast(job), *_powder(job))
    return {quantity.name: quantity for quantity in every}


def _piece(job: Quantities) -> Iterable[Quantity]:
    order, measures, chosen = job.commission, job.measures, job.basis.chosen
    yield Quantity("count", Dimension.COUNT, order.edition.count)
    yield Quantity("height", Dimension.LENGTH, measures.piece.height_mm)
    yield Quantity("original.material", Dimension.WORD, order.original.material or UNKNOWN)
    yield Quantity("temperature", Dimension.TEMPERATURE, order.shop.temperature_c)
    yield Quantity("scale", Dimension.SCALE_STEP, order.shop.scale_g)
    if chosen.sealer is not None:
        yield Quantity("sealer", Dimension.WORD, chosen.sealer.name)
    yield from _released("release", chosen.release)
    yield from _released("cast.release", chosen.cast_release)
    yield Quantity("plinth.height", Dimension.LENGTH, measures.cavity.plinth_height_mm)
    yield Quantity("plinth.length", Dimension.LENGTH, measures.cavity.plinth_length_mm)
    yield Quantity("plinth.breadth", Dimension.LENGTH, measures.cavity.plinth_breadth_mm)
    yield Quantity("plinth.volume", Dimension.VOLUME, measures.cavity.plinth_ml)
    yield Quantity("lip.width", Dimension.LENGTH, measures.shell.base_lip_mm)
    yield holes_quoted("holes.divider", measures.piece.dividers)
    yield Quantity("holes.sheets", Dimension.SHEETS, " ".join(map(_sheet_over, measures.piece.dividers)))
    yield holes_quoted("holes.stopped", measures.piece.stopped)
    yield Quantity("patch.wait", Dimension.DURATION, wait_s(Wait.PATCH_TEST, job))
    yield Quantity("marks", Dimension.VOLUME, order.shop.marks_ml)
    yield from _closure(job)
    yield Quantity("lift.filled", Dimension.LIFT, lift_kg(Lift.FILLED, job))
    yield Quantity("lift.cast", Dimension.LIFT, lift_kg(Lift.CAST, job))


def _closure(job: Quantities) -> Iterable[Quantity]:
    """What holds the shell closed, and what it holds: a push is told as the weight that would press so."""
    held = job.closure
    yield Quantity("clamps", Dimension.COUNT, held.clamps)
    yield Quantity("bolts", Dimension.COUNT, held.bolts)
    yield Quantity("bolts.seam", Dimension.COUNT, held.seam_bolts)
    yield Quantity("bolts.base", Dimension.COUNT, held.base_bolts)
    yield Quantity("bolts.long", Dimension.COUNT, ceil(held.seam_bolt_mm))
    yield Quantity("closure.pitch", Dimension.LENGTH, held.pitch_mm)
    yield Quantity("bands", Dimension.COUNT, held.bands)
    yield Quantity("straps", Dimension.COUNT, held.straps)
    if held.pushes_n:
        yield Quantity("closure.push", Dimension.LIFT, held.push_n / GRAVITY_M_S2)
    lifted = [number for number, kg in enumerate(held.weights_kg, start=1) if kg > 0.0]
    if lifted:
        yield Quantity("lifted.number", Dimension.COUNT, max(lifted, key=lambda n: held.weights_kg[n - 1]))
        yield Quantity("lifted.weight", Dimension.LIFT, fsum(held.weights_kg))


def _released(name: str, release: Release | None) -> Iterable[Quantity]:
    """What a release is called, how many coats it takes, and what it is thinned with."""
    if release is None:
        return
    yield Quantity(name, Dimension.WORD, release.name)
    yield Quantity(f"{name}.coats", Dimension.COUNT, ceil(release.coats.likely))
    if release.thinner_pct is not None:
        yield Quantity(f"{name}.thinner", Dimension.WORD, release.carrier)
        yield Quantity(f"{name}.thinner_share", Dimension.SHARE, release.thinner_pct.range * 0.01)


def _flange(job: Quantities) -> Iterable[Quantity]:
    flange, lip_mm = job.measures.flange, job.measures.shell.base_lip_mm
    frame = flange.frame
    yield Quantity("board.length", Dimension.LENGTH, frame.length_mm + 2 * lip_mm + BOARD_BEYOND_MM)
    yield Quantity("board.breadth", Dimension.LENGTH, frame.breadth_mm + 2 * lip_mm + BOARD_BEYOND_MM)
    yield Quantity("plumb.right", Dimension.LENGTH, frame.length_mm / 2)
    yield Quantity("plumb.back", Dimension.LENGTH, frame.breadth_mm / 2)
    yield Quantity("frame.length", Dimension.LENGTH, frame.length_mm)
    yield Quantity("frame.breadth", Dimension.LENGTH, frame.breadth_mm)
    yield Quantity("flange.width", Dimension.LENGTH, flange.width_mm)
    yield Quantity("flange.rest", Dimension.LENGTH, flange.width_mm - fsum(c.thickness_mm for c in job.rubber.coats))
    yield Quantity("flange.keep", Dimension.LENGTH, flange.keep_mm)
    for name, key in zip(("large", "small"), flange.keys, strict=True):
        yield Quantity(f"{name}.length", Dimension.LENGTH, key.length_mm)
        for end, place in (("from", key.start), ("to", key.end)):
            right_mm, back_mm = frame.measured(place)
            yield Quantity(f"{name}.{end}_right", Dimension.LENGTH, right_mm)
            yield Quantity(f"{name}.{end}_back", Dimension.LENGTH, back_mm)


def holes_quoted(name: str, holes: Iterable[Hole]) -> Quantity:
    """Through-holes by their letters, each with its width.

    Parameters
    ----------
    name : the quantity's.
    holes : which.
    """
    return Quantity(name, Dimension.HOLES, " ".join(f"{hole.letter}={hole.width_mm:g}" for hole in holes))


def _sheet_over(hole: Hole) -> str:
    """The sheet that a hole's divider is cut from, some millimeters larger all round, to be trimmed."""
    return f"{hole.letter}=" + "x".join(f"{ceil(side_mm + 2 * TRIM_MM)}" for side_mm in hole.across_mm)


def _rubber(job: Quantities) -> Iterable[Quantity]:
    rubber, by_volume = job.basis.chosen.rubber, job.commission.shop.by_volume
    measure, per_g = (Dimension.VOLUME, 1.0 / rubber_density_g_ml(rubber)) if by_volume else (Dimension.MASS, 1.0)
    yield Quantity("rubber.mixed", measure, job.rubber.mixed_g * per_g)
    yield Quantity("patch.mass", measure if by_volume else Dimension.COARSE_MASS, PATCH_TEST_G * per_g)
    yield Quantity("rubber.pot_life", Dimension.DURATION, job.basis.lives.rubber.pot_life_s)
    yield Quantity("rubber.demold", Dimension.DURATION, wait_s(Wait.RUBBER_DEMOLD, job))
    yield Quantity("rubber.full_cure", Dimension.DURATION, wait_s(Wait.RUBBER_FULL_CURE, job))
    yield Quantity("mold.look_after", Dimension.DURATION, DAY_S * look_after_days(rubber.chemistry))
    yield Quantity("layer.dry", Dimension.DURATION, wait_s(Wait.COAT_LAYERS, job))
    yield Quantity("pack.dry", Dimension.DURATION, wait_s(Wait.FILL_LAYERS, job))
    yield Quantity("tack.from", Dimension.DURATION, wait_s(Wait.TACK_WINDOW, job))
    yield Quantity("tack.until", Dimension.DURATION, wait_s(Wait.TACK_LATEST, job))
    glove_g, glove_ml = job.rubber.glove_g, job.rubber.laid * job.measures.glove.volume_ml
    yield Quantity("glove.mass", Dimension.MASS, glove_g)
    yield Quantity("glove.volume", Dimension.VOLUME, glove_ml)
    glove = glove_ml if by_volume else glove_g
    yield Quantity("glove.low", measure, glove.low)
    yield Quantity("glove.high", measure, glove.high)


def _peel(job: Quantities) -> Iterable[Quantity]:
    """Where the glove is tightest and how far it must stretch there; how long its slit is and how high it ends."""
    found = job.measures.peel
    for place in found.plan.shape.places[:1]:
        yield Quantity("tight.height", Dimension.LENGTH, place.at[2])
        yield Quantity("tight.around", Dimension.LENGTH, place.around_mm)
        yield Quantity("tight.over", Dimension.LENGTH, place.over_mm)
        yield Quantity("tight.stretch", Dimension.FACTOR, found.stretch)
    if found.slit is not None:
        yield Quantity("slit.length", Dimension.LENGTH, found.slit.length_mm)
        yield Quantity("slit.on_cast", Dimension.LENGTH, found.slit.on_cast_mm)
        yield Quantity("slit.end", Dimension.LENGTH, max(end[2] for end in found.slit.ends))


def _knobs(job: Quantities) -> Iterable[Quantity]:
    """The size of a knob, what it adds to the glove, and the cup that makes some."""
    yield Quantity("knob.foot", Dimension.LENGTH, FOOT_MM)
    yield Quantity("knob.high", Dimension.LENGTH, HIGH_MM)
    cup = knob_cup_of(job)
    if cup is None:
        return
    yield Quantity("knob.count", Dimension.COUNT, KNOBS)
    yield parts_quoted("knob.parts", cup)
    by_volume = job.commission.shop.by_volume
    heavy = Quantity("knob.adds", Dimension.MASS, knob_ml() * rubber_density_g_ml(job.basis.chosen.rubber))
    yield Quantity("knob.adds", Dimension.VOLUME, knob_ml()) if by_volume else heavy


def _shell(job: Quantities) -> Iterable[Quantity]:
    shell, measures = job.basis.chosen.shell, job.measures.shell
    yield Quantity("seam.length", Dimension.LENGTH, measures.seam_mm)
    yield Quantity("seam.flange", Dimension.LENGTH, measures.seam_flange_mm)
    yield Quantity("lap.width", Dimension.LENGTH, measures.lap_mm)
    yield Quantity("seam.waxed", Dimension.LENGTH, waxed_mm(measures))
    yield Quantity("pieces", Dimension.COUNT, measures.pieces)
    dry_g = whole_steps(job.shell_g.likely, MASS_STEP[job.commission.shop.units])
    yield Quantity("shell.mass", Dimension.MASS, dry_g)
    yield Quantity("shell.name", Dimension.WORD, shell.name)
    if job.shell_mixes:
        yield Quantity("bucket.work_by", Dimension.DURATION, workable_s(shell))
    yield Quantity("shell.thickness", Dimension.LENGTH, shell.thickness_mm.likely)
    yield Quantity("wax", Dimension.COARSE_MASS, job.parting.wax_g.likely)
    yield Quantity("talc", Dimension.COARSE_MASS, job.parting.talc_g.likely)
    yield Quantity("clay", Dimension.COARSE_MASS, job.parting.clay_g.likely)


def _bandage(job: Quantities) -> Iterable[Quantity]:
    bandage = job.bandage
    if bandage is None:
        return
    yield Quantity("strips", Dimension.COUNT, bandage.strips)
    yield Quantity("strip.length", Dimension.LENGTH, bandage.strip_length_mm)
    yield Quantity("strip.width", Dimension.LENGTH, bandage.strip_width_mm)
    yield Quantity("plies", Dimension.COUNT, bandage.plies)
    yield Quantity("layers", Dimension.COUNT, bandage.layers)
    yield Quantity("rolls", Dimension.COUNT, bandage.rolls)
    yield Quantity("laid.thickness", Dimension.LENGTH, bandage.laid_mm)


def _mats(job: Quantities) -> Iterable[Quantity]:
    mats = job.mats
    if mats is None:
        return
    yield Quantity("mats.mass", Dimension.COARSE_MASS, mats.mass_g.likely)
    yield Quantity("mats.edge", Dimension.LENGTH, mats.edge_mm)
    yield Quantity("mats.lap", Dimension.LENGTH, mats.lap_mm)
    yield Quantity("mats.layers", Dimension.COUNT, mats.matted)
    yield Quantity("mats.squares", Dimension.COUNT, mats.matted * sum(piece.squares for piece in mats.pieces))


def _printing(job: Quantities) -> Iterable[Quantity]:
    printing = job.printing
    if printing is None:
        return
    shop = job.commission.shop
    yield Quantity("plates", Dimension.COUNT, len(printing.plates))
    yield Quantity("parts", Dimension.COUNT, printing.parts)
    yield Quantity("pins", Dimension.COUNT, printing.pins)
    yield Quantity("filament.mass", Dimension.MASS, printing.filament_g)
    yield Quantity("filament.length", Dimension.COUNT, printing.filament_m.likely)
    yield Quantity("printer.width", Dimension.LENGTH, shop.printer_width_mm)
    yield Quantity("printer.depth", Dimension.LENGTH, shop.printer_depth_mm)
    yield Quantity("printer.height", Dimension.LENGTH, shop.printer_height_mm)


def _stand(job: Quantities) -> Iterable[Quantity]:
    """How far the mold tilts before it falls over, what its stand is sawn from, and how far one must tilt."""
    stand = job.stand
    yield Quantity("stand.least", Dimension.COUNT, LEAST_DEG)
    if stand is None:
        return
    yield Quantity("stand.tips", Dimension.COUNT, stand.tips_deg)
    if stand.boards:
        yield Quantity("stand.thick", Dimension.LENGTH, stand.thick_mm)
        yield Quantity("stand.height", Dimension.LENGTH, max(board.high_mm for board in stand.boards))
        yield Quantity("stand.mouth", Dimension.LENGTH, stand.mouth_mm)
        for board in stand.boards:
            yield Quantity(f"stand.{board.side}", Dimension.LENGTH, float(ceil(board.length_mm)))


def _cast(job: Quantities) -> Iterable[Quantity]:
    cast, skin, back = job.cast.cast, job.mixes_for(SKIN), job.mixes_for(BACK_FILL)
    yield Quantity("cavity.volume", Dimension.VOLUME, job.measures.cavity.volume_ml)
    yield Quantity("skin.thickness", Dimension.LENGTH, cast.skin.thickness_mm)
    yield from cup_quoted("skin", skin)
    yield Quantity("backfill.volume", Dimension.VOLUME, cast.backfill_ml)
    yield from cup_quoted("backfill", back)
    yield Quantity("resin.pot_mass", Dimension.MASS, job.basis.chosen.resin.pot_life_mass_g.likely)
    yield Quantity("resin.pot_life", Dimension.DURATION, job.basis.lives.resin.pot_life_s)
    yield Quantity("skin.tack", Dimension.DURATION, wait_s(Wait.RESIN_TACK, job))
    yield Quantity("backfill.tack", Dimension.DURATION, wait_s(Wait.FILL_TACK, job))
    yield Quantity("cast.demold", Dimension.DURATION, wait_s(Wait.CAST_DEMOLD, job))
    yield Quantity("cast.mass", Dimension.MASS, cast.mass_g)
    yield Quantity("cast.low", Dimension.MASS, cast.mass_g.low)
    yield Quantity("cast.high", Dimension.MASS, cast.mass_g.high)
    yield Quantity("shrinkage", Dimension.LENGTH, cast.shrinkage_mm)


def _powder(job: Quantities) -> Iterable[Quantity]:
    powder = job.basis.chosen.powder
    if powder is None:
        return
    yield Quantity("powder.name", Dimension.WORD, powder.name)
    yield Quantity("powder.mass", Dimension.MASS, powder_g(job))
    yield Quantity("powder.cup", Dimension.VOLUME, LEVEL_CUP_ML)
    yield Quantity("powder.level", Dimension.MASS, powder.apparent_density_g_ml.range * LEVEL_CUP_ML)
    yield Quantity("powder.loose", Dimension.VOLUME, powder_g(job) / powder.apparent_density_g_ml.likely)
    if powder.drying_temperature_c is not None:
        yield Quantity("powder.temperature", Dimension.TEMPERATURE, powder.drying_temperature_c.range)
