"""A plan in a dozen lines that a person reads at a glance."""

from __future__ import annotations

from functools import reduce
from operator import add
from pathlib import Path

from moldwright.plan.cast import CastWay
from moldwright.plan.mixes import RUBBER_KINDS
from moldwright.plan.plan import Plan
from moldwright.ranges import Range
from moldwright.sheets.figures import drawn_off
from moldwright.sheets.known_words import known_by
from moldwright.sheets.mold_words import mold_rows
from moldwright.sheets.photo_told import ask_line
from moldwright.sheets.rubber_words import to_mix
from moldwright.sheets.totals_words import totals_rows
from moldwright.sheets.wording import Wording, show_area
from moldwright.steps.before_start import Warned, before_you_start
from moldwright.text.harmless import harmless
from moldwright.units import show_length, show_range, show_volume, show_volume_amount

Rows = list[tuple[str, str]]


def summary(plan: Plan, folder: Path) -> str:
    """The plan's main figures and where its sheets are.

    Parameters
    ----------
    plan : the plan.
    folder : the plan's folder.
    """
    rows = [*_original(plan), *_rubber(plan), *_shell(plan), *_cast(plan), *_rest(plan, folder), *_before_start(plan)]
    return "\n".join([plan.name, *(f"  {name:<10} {text}" for name, text in rows)])


def _original(plan: Plan) -> Rows:
    original, units, mouth = plan.original, plan.units, plan.mouth
    size = f"{show_length(original.height_mm, units)} tall, {show_volume_amount(original.volume_ml, units)}"
    mended = f"; {len(original.repairs)} repairs" if original.repairs else ""
    foot = f"{show_area(mouth.area_mm2, units)}, {show_length(mouth.narrowest_mm, units)} at its narrowest"
    plinth = f"; on a plinth {show_length(mouth.plinth.height_mm, units)} high" if mouth.plinth else ""
    known = [("known by", text)] if (text := known_by(original)) else []
    asked = [("ask", ask_line(each)) for each in original.asks]
    return [("original", size + mended), *known, *asked, ("mouth", foot + plinth)]


def _rubber(plan: Plan) -> Rows:
    glove = plan.glove
    parts = [*(coat.mixed_g for coat in glove.coats), glove.flange.mixed_g, glove.fill.mixed_g]
    coats = ", ".join(f"{coat.name} {to_mix(Range.exactly(coat.mixed_g.likely), plan)}" for coat in glove.coats)
    flange, fill = (to_mix(Range.exactly(part.mixed_g.likely), plan) for part in (glove.flange, glove.fill))
    rest = f"flange {flange}, fill {fill}"
    together = to_mix(reduce(add, parts), plan)
    cups = len([mix for mix in plan.mixes if mix.for_.kind in RUBBER_KINDS])
    return [("rubber", f"{together} to mix in {cups} cups"), ("", f"{coats}, {rest}")]


def _shell(plan: Plan) -> Rows:
    shell, units = plan.shell, plan.units
    fill = show_volume(sum(piece.fill_ml for piece in shell.pieces), units)
    pieces = f"{len(shell.pieces)} pieces, seam {show_length(shell.seam_mm, units)}" if shell.joined else "one piece"
    return [
        ("shell", f"{pieces}, undercuts packed with {fill}"),
        ("", f"drawn off: {drawn_off(shell.removal)}"),
    ]


def _cast(plan: Plan) -> Rows:
    cast, units = plan.cast, plan.units
    skin = show_volume_amount(cast.skin.volume_ml, units)
    back = f"back-fill {show_volume_amount(cast.backfill_ml, units)}" if cast.way is CastWay.FILLED else "no back-fill"
    solid = cast.way is CastWay.SOLID
    parts = f"solid, {skin}" if solid else f"skin {skin} at {show_length(cast.skin.thickness_mm, units)}, {back}"
    return [("cast", f"{show_range(cast.mass_g, 'mass', units)} each: {parts}")]


def _rest(plan: Plan, folder: Path) -> Rows:
    return [
        ("work", f"{len(plan.steps)} steps, with the usual cautions on them"),
        *totals_rows(plan),
        *mold_rows(plan),
        ("assumed", f"{len(plan.assumed)} values that the commission left out, listed on the sheets"),
        ("sheets", harmless(str(folder / "sheets"))),
        ("solids", harmless(str(folder / "mold"))),
    ]


def _before_start(plan: Plan) -> Rows:
    """Last, where the eye rests: what can ruin this job, with its remedy and its step."""
    words = Wording(plan.units, plan.scale_g)
    told = before_you_start(plan)
    head = [("", ""), ("Before", "you start: what can ruin this job")] if told else []
    return [*head, *(row for warned in told for row in _warned(warned, words))]


def _warned(warned: Warned, words: Wording) -> Rows:
    step, caution = warned.step, warned.caution
    title = words.line(step.title, step.quantities)
    lines = [harmless(words.line(line, caution.quantities)) for line in caution.lines]
    return [(caution.severity, harmless(f"step {warned.number}, {title}")), *(("", line) for line in lines)]
