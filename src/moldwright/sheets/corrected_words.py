"""New targets of a cup in words: what is in, what goes in yet, what the scale then reads."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.mixing.correct import CAUTIONS_HOLD, FASTER, CorrectedCup, PartTarget
from moldwright.mixing.told_cup import CorrectedMix
from moldwright.plan.mixes import MeasuredBy
from moldwright.plan.plan import Plan
from moldwright.units import show_mass, show_volume
from moldwright.words.speaker import say


@dataclass(frozen=True, slots=True)
class CorrectedText:
    """New targets as they are told.

    Parameters
    ----------
    whole : what the cup then holds, and what was planned.
    first : what is done before, where it becomes several cups.
    rows : each part, and what of it is in and goes in yet.
    heed : what is to be heeded.
    """

    whole: str
    first: tuple[str, ...]
    rows: tuple[tuple[str, str], ...]
    heed: tuple[str, ...]


def corrected_text(found: CorrectedMix, plan: Plan) -> CorrectedText:
    """The new targets for a person.

    Parameters
    ----------
    found : they.
    plan : for its units and its scale.
    """
    cups = found.correction.cups
    whole = say("{mass} (planned {planned})", mass=_shown(cups[0].mass_g, plan), planned=_shown(found.planned_g, plan))
    rows = tuple((part.kind.value, _part(part, plan)) for part in cups[0].parts)
    heed = tuple(_heed(cups[0], found.planned_g))
    return CorrectedText(whole, _divided(found, plan) if len(cups) > 1 else (), rows, heed)


def _divided(found: CorrectedMix, plan: Plan) -> tuple[str, ...]:
    count, moved = len(found.correction.cups), _shown(found.correction.move_g, plan)
    clean = say("a clean cup") if count == 2 else say("each of {cups} clean cups", cups=count - 1)
    return (
        say("Nothing reacts yet: stir what is in and pour {moved} of it into {clean}.", moved=moved, clean=clean),
        say("Then in each, one after the other: finish the next one when the one before is on the work:"),
    )


def corrected_words(found: CorrectedMix, plan: Plan) -> str:
    """The same as lines for a terminal.

    Parameters
    ----------
    found : they.
    plan : for its units and its scale.
    """
    text = corrected_text(found, plan)
    rows = (f"{name:<18} {told}" for name, told in text.rows)
    return "\n".join([f"{found.mix}: {text.whole}", *(f"  {line}" for line in (*text.first, *rows, *text.heed))])


def _heed(cup: CorrectedCup, planned_g: float) -> list[str]:
    return [*([FASTER] if cup.mass_g > planned_g else []), CAUTIONS_HOLD]


def _part(part: PartTarget, plan: Plan) -> str:
    there = say("{in_cup} is in, ", in_cup=_shown(part.in_g, plan)) if part.in_g else ""
    if not part.add_g:
        return say("{there}add nothing", there=there)
    more = say(" more") if part.in_g else ""
    reads = say(": scale reads {scale_reads}", scale_reads=_shown(part.scale_reads_g, plan))
    if part.by is MeasuredBy.STICK:
        return say("{there}a trace{more}, in step with the rest", there=there, more=more)
    if part.by is MeasuredBy.SYRINGE:
        return say(
            "{there}add {add}{more} by syringe{reads}",
            there=there,
            add=show_volume(part.add_ml, plan.units),
            more=more,
            reads=reads,
        )
    return say("{there}add {add}{more}{reads}", there=there, add=_shown(part.add_g, plan), more=more, reads=reads)


def _shown(mass: float, plan: Plan) -> str:
    return show_mass(mass, plan.units, plan.scale_g)
