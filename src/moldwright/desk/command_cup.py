"""`moldwright cup`: new targets for a cup of a plan that did not come out as planned."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from moldwright.desk.say import say, say_json
from moldwright.errors import InputRefused
from moldwright.making.inputs import read_text
from moldwright.mixing.correct import CAUTIONS_HOLD, FASTER, CorrectedCup, Correction, PartTarget, corrected
from moldwright.plan.json_text import plan_from_json, tree_of
from moldwright.plan.mixes import MeasuredBy, MixPlan, PartKind
from moldwright.plan.plan import Plan
from moldwright.text.shown import short
from moldwright.units import mass_g, show_mass, show_volume


@dataclass(frozen=True, slots=True)
class CorrectedMix:
    """A cup of a plan with its new targets."""

    mix: str
    planned_g: float
    correction: Correction


def run_cup(folder: Path, cup: str, in_cup: Sequence[str], left: Sequence[str], as_json: bool) -> CorrectedMix:
    """Print the new targets of a cup.

    Parameters
    ----------
    folder : the plan's folder.
    cup : the cup's id, as plan.json and the refusal tell them.
    in_cup, left : "A=212 g": what is in the cup of a part, and what there is left of it beside.
    as_json : print one JSON object.
    """
    plan = plan_from_json(read_text(folder / "plan.json", "plan"))
    mix = _mix_of(plan, cup)
    there = {kind: mass for kind, mass in _masses(in_cup, mix).items() if mass != 0.0}
    found = CorrectedMix(mix.id, mix.mass_g, corrected(mix, there, plan.scale_g, _masses(left, mix)))
    if as_json:
        say_json(tree_of(found))
    else:
        say(in_words(found, plan))
    return found


def _mix_of(plan: Plan, cup: str) -> MixPlan:
    found = next((mix for mix in plan.mixes if mix.id == cup.strip()), None)
    if found is None:
        known = ", ".join(mix.id for mix in plan.mixes)
        raise InputRefused("cup-unknown", short(cup), "a cup of the plan", "", f"Write one of: {known}.")
    return found


def _masses(written: Sequence[str], mix: MixPlan) -> Mapping[PartKind, float]:
    masses = [_mass(each, mix) for each in written]
    found = dict(masses)
    if len(found) < len(masses):
        told = ", ".join(short(each) for each in written)
        raise InputRefused("part-told-twice", told, "each part once", "", "Add up what is in of it, and write that.")
    return found


def _mass(written: str, mix: MixPlan) -> tuple[PartKind, float]:
    """A part and its mass: "A=212 g", the part by its kind or by the name on its pot."""
    name, sign, amount = written.partition("=")
    names = {text.casefold(): part.kind for part in mix.parts for text in (part.kind, part.name)}
    kind = names.get(name.strip().casefold())
    if not sign or kind is None:
        known = ", ".join(part.kind for part in mix.parts)
        raise InputRefused("part-not-in-cup", short(written), known, "", f'Write it as "{mix.parts[0].kind}=212 g".')
    return kind, mass_g(amount.strip(), f"--in {kind}")


def in_words(found: CorrectedMix, plan: Plan) -> str:
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
