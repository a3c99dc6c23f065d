"""The big sentence, the big figure and the limits of what goes into a cup."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from moldwright.bench.cup_now import CupNow, PartNow, PartState
from moldwright.mixing.scale_steps import grams
from moldwright.plan.mixes import DRY, MeasuredBy
from moldwright.told.bench.screen_words import ScreenWords
from moldwright.told.bench.view import FigureShown, LimitsShown
from moldwright.units import mass_g, volume_ml
from moldwright.words.speaker import say, with_mark

DUST = 1e-6


@dataclass(frozen=True, slots=True)
class BigSaid:
    """What a screen says large: the sentence, the figure where there is one, the small line."""

    say: str
    figure: FigureShown | None = None
    more: str = ""


def big(words: ScreenWords, cup: CupNow, part: PartNow) -> BigSaid:
    """What goes in next.

    Parameters
    ----------
    words : of the plan.
    cup : into which.
    part : of it.
    """
    name = words.part(cup, part.kind)
    match part.by:
        case MeasuredBy.STICK:
            return BigSaid(say("{name}: a trace on a clean stick", name=name), None, say("Stir it in."))
        case MeasuredBy.SYRINGE:
            check = "" if cup.mix.marked else say("The scale then reads about {reads}.", reads=words.mass(part.reads_g))
            return BigSaid(say("{name} by syringe", name=name), _milliliters(part), check)
        case MeasuredBy.MARKS:
            return BigSaid(say("{name} to the cup's mark", name=name), _volume(words, part))
        case _:
            added = part.state is PartState.SHORT or part.kind in DRY
            return BigSaid(
                say("Add {name} up to", name=name) if added else say("Pour {name} up to", name=name),
                _mass(words, part.reads_g),
                say("{add} more", add=words.mass(part.add_g)),
            )


def _mass(words: ScreenWords, value_g: float) -> FigureShown:
    text, unit = words.figure(value_g)
    return FigureShown(text, unit, value_g, mass_g(f"1 {unit}", "unit"))


def _volume(words: ScreenWords, part: PartNow) -> FigureShown:
    text, _, unit = words.volume(part.add_ml).partition(" ")
    return FigureShown(text, unit, part.add_ml, volume_ml(f"1 {unit}", "unit"))


def _milliliters(part: PartNow) -> FigureShown:
    """Syringes are marked in milliliters everywhere."""
    return FigureShown(with_mark(f"{part.add_ml:g}"), "ml", part.add_ml, 1.0)


def limits_of(words: ScreenWords, cup: CupNow, part: PartNow) -> LimitsShown | None:
    """Between which readings a part is right; None for a trace.

    Parameters
    ----------
    words : of the plan.
    cup : into which it goes.
    part : as it is asked for.

    The lowest and the highest reading of the scale that are within what the part may be off. Source: arithmetic.
    """
    match part.by:
        case MeasuredBy.STICK:
            return None
        case MeasuredBy.SCALE:
            step = words.plan.scale_g
            low = grams(ceil((part.reads_g - part.within_g) / step - DUST), step)
            high = grams(floor((part.reads_g + part.within_g) / step + DUST), step)
            low, high = min(low, part.reads_g), max(high, part.reads_g)
            return LimitsShown(low, high, words.figure(low)[0], words.figure(high)[0])
        case _:
            return _limits_ml(part)


def _limits_ml(part: PartNow) -> LimitsShown:
    within = part.within_g * part.add_ml / part.add_g if part.add_g else 0.0
    low, high = round(max(0.0, part.add_ml - within), 2), round(part.add_ml + within, 2)
    return LimitsShown(low, high, with_mark(f"{low:g}"), with_mark(f"{high:g}"))
