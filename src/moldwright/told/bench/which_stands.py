"""Two screens told one pour, and not the same mass: which of the two stands is asked."""

from __future__ import annotations

from moldwright.bench.cup_now import CupNow
from moldwright.log.any_events import Undone
from moldwright.log.event import Body, Event
from moldwright.log.run_events import Weighed
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.said import SaidAgain
from moldwright.records.runs.twice import in_question
from moldwright.text.harmless import harmless
from moldwright.told.bench.presses import template
from moldwright.told.bench.screen_words import ScreenWords
from moldwright.told.bench.view_cup import PutRightShown, WayShown
from moldwright.told.bench.view_press import PressShown
from moldwright.words.speaker import say


def which_stands(words: ScreenWords, run: OpenRun, cup: CupNow | None) -> PutRightShown | None:
    """The two readings between which somebody has to choose; None where all agree.

    Parameters
    ----------
    words : of the plan.
    run : as it stands.
    cup : in hand, None for none.
    """
    first = next(iter(in_question(run, cup)), None)
    if cup is None or first is None or not isinstance(first.event.body, Weighed):
        return None
    body, kind = first.event.body, first.event.body.part
    in_g = next(part.in_g for part in cup.parts if part.kind == kind)
    head = say("{part} was written down twice, and not the same. Which one stands?", part=words.part(cup, kind))
    why = say("It counts once. If nothing else is in since, the scale still shows it.")
    ways = (
        _way(words, "first-stands", first.first, in_g, (Undone(first.event.id),), main=True),
        _way(
            words,
            "second-stands",
            first.event,
            (body.in_before_g or 0.0) + body.mass_g,
            (Undone(first.first.id), SaidAgain(first.event.id)),
        ),
    )
    return PutRightShown(head, why, ways)


def _way(
    words: ScreenWords, kind: str, of: Event, in_g: float, bodies: tuple[Body, ...], main: bool = False
) -> WayShown:
    mass = words.mass(in_g)
    title = say("{mass}, by {device}", mass=mass, device=harmless(of.bench))
    press = PressShown(kind, say("{mass} stands", mass=mass), "", main, tuple(map(template, bodies)), turn=kind)
    return WayShown(kind, title, (), press)
