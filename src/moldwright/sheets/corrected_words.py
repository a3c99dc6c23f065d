"""New targets of a cup in words: what is in, what goes in yet, what the scale then reads."""

from __future__ import annotations

from moldwright.mixing.correct import CAUTIONS_HOLD, FASTER, CorrectedCup, PartTarget
from moldwright.mixing.told_cup import CorrectedMix
from moldwright.plan.mixes import MeasuredBy
from moldwright.plan.plan import Plan
from moldwright.units import show_mass, show_volume


def corrected_words(found: CorrectedMix, plan: Plan) -> str:
    """The new targets for a person.

    Parameters
    ----------
    found : they.
    plan : for its units and its scale.
    """
    cups = found.correction.cups
    whole = _shown(cups[0].mass_g, plan)
    lines = [f"{found.mix}: {whole} (planned {_shown(found.planned_g, plan)})"]
    if len(cups) > 1:
        moved = _shown(found.correction.move_g, plan)
        clean = "a clean cup" if len(cups) == 2 else f"each of {len(cups) - 1} clean cups"
        lines.append(f"  Nothing reacts yet: stir what is in and pour {moved} of it into {clean}.")
        lines.append("  Then in each, one after the other: finish the next one when the one before is on the work:")
    lines += [f"  {_part(part, plan)}" for part in cups[0].parts]
    return "\n".join([*lines, *(f"  {line}" for line in _heed(cups[0], found.planned_g))])


def _heed(cup: CorrectedCup, planned_g: float) -> list[str]:
    return [*([FASTER] if cup.mass_g > planned_g else []), CAUTIONS_HOLD]


def _part(part: PartTarget, plan: Plan) -> str:
    there = f"{_shown(part.in_g, plan)} is in, " if part.in_g else ""
    if not part.add_g:
        return f"{part.kind:<18} {there}add nothing"
    more = " more" if part.in_g else ""
    reads = f": scale reads {_shown(part.scale_reads_g, plan)}"
    if part.by is MeasuredBy.STICK:
        return f"{part.kind:<18} {there}a trace{more}, in step with the rest"
    if part.by is MeasuredBy.SYRINGE:
        return f"{part.kind:<18} {there}add {show_volume(part.add_ml, plan.units)}{more} by syringe{reads}"
    return f"{part.kind:<18} {there}add {_shown(part.add_g, plan)}{more}{reads}"


def _shown(mass: float, plan: Plan) -> str:
    return show_mass(mass, plan.units, plan.scale_g)
