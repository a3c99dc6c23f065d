"""A cup of a plan and what is in it, as a person types them; and its new targets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.mixing.correct import Correction, corrected
from moldwright.plan.mixes import MixPlan, PartKind
from moldwright.plan.plan import Plan
from moldwright.text.shown import short
from moldwright.units import mass_g


@dataclass(frozen=True, slots=True)
class CorrectedMix:
    """A cup of a plan with its new targets."""

    mix: str
    planned_g: float
    correction: Correction


def corrected_mix(plan: Plan, cup: str, in_cup: Sequence[str], left: Sequence[str]) -> CorrectedMix:
    """New targets for a cup of a plan.

    Parameters
    ----------
    plan : the plan.
    cup : the cup's id, as plan.json and the refusal tell them.
    in_cup, left : "A=212 g": what is in the cup of a part, and what there is left of it beside.

    Raises InputRefused ("cup-unknown", "part-not-in-cup", "part-told-twice") and as `corrected`.
    """
    mix = _mix_of(plan, cup)
    there = {kind: mass for kind, mass in _masses(in_cup, mix).items() if mass != 0.0}
    return CorrectedMix(mix.id, mix.mass_g, corrected(mix, there, plan.scale_g, _masses(left, mix)))


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
