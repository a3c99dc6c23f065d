"""One state of the screen from one state of the run."""

from __future__ import annotations

from moldwright.bench.cup_now import CupNow
from moldwright.bench.what_now import WhatNow, what_now
from moldwright.log.ids import LotId
from moldwright.records.runs.ahead import Stand
from moldwright.records.runs.next_act import Press, laid_by, mold_is_made
from moldwright.sheets.bench_tell import NOTHING_REACTS, REACTS
from moldwright.text.harmless import harmless
from moldwright.told.bench.clocks import cup_clocks, others_shown, wait_shown, window_shown
from moldwright.told.bench.cups import cup_shown, lot_shown
from moldwright.told.bench.figures import BigSaid, big, limits_of
from moldwright.told.bench.presses import (
    aside_presses,
    box_presses,
    box_shown,
    done_press,
    end_press,
    lay_presses,
    mass_press,
    number_presses,
    weigh_presses,
)
from moldwright.told.bench.screen_words import ScreenWords
from moldwright.told.bench.view import ActShown, BenchView, LimitsShown
from moldwright.told.bench.view_cup import PutRightShown
from moldwright.told.bench.view_press import PressShown
from moldwright.told.bench.wall import wall_state
from moldwright.told.bench.when import Moments
from moldwright.words.marked import words
from moldwright.words.speaker import say

PRESSES = {press: press.name.lower().replace("_", "-") for press in Press}


def view_of(words: ScreenWords, stand: Stand, moments: Moments, put_right: PutRightShown | None) -> BenchView:
    """What a screen shows.

    Parameters
    ----------
    words : of the plan.
    stand : the run at its next press.
    moments : how moments are told.
    put_right : the ways between which is to be chosen, in words; None where none is.
    """
    run, next_ = stand.run, stand.next
    state, cup, part = run.state, next_.cup, next_.part
    said = _said(words, stand, put_right)
    limits = limits_of(words, cup, part) if cup is not None and part is not None and put_right is None else None
    return BenchView(
        press=PRESSES[Press.PUT_RIGHT if put_right is not None else next_.press],
        act=_act(words, stand),
        say=said.say,
        figure=said.figure,
        more=said.more,
        limits=limits,
        heed=() if cup is None else _heed(cup),
        cup=None if cup is None else cup_shown(words, cup, part),
        lot=None if stand.lot is None or cup is None or part is None else lot_shown(words, cup, part, stand.lot),
        lots=() if cup is None or part is None else tuple(lot_shown(words, cup, part, each) for each in stand.lots),
        box=None if next_.box is None else box_shown(words, next_.box),
        put_right=put_right,
        presses=() if put_right is not None else _presses(words, stand, limits),
        aside=(*_went_in(words, stand), *aside_presses(words, run, next_)),
        clocks=tuple(cup_clocks(words, state, moments)),
        windows=tuple(window_shown(words, each, moments) for each in state.windows),
        waits=tuple(wait_shown(words, each, moments) for each in state.waits),
        wall=None if next_.act is None else wall_state(words, state, next_.act),
        others=tuple(others_shown(words, stand, moments)),
        mold_made=mold_is_made(state),
    )


def _act(words: ScreenWords, stand: Stand) -> ActShown | None:
    act = stand.next.act
    if act is None:
        return None
    state, cup = stand.run.state, stand.next.cup
    started = state.frame.started
    casts = 0 if started is None or not act.act.turn else started.casts
    cups = [each for each in state.cups_of(act.act) if each.ref.filling == (1 if cup is None else cup.ref.filling)]
    place = next((n for n, each in enumerate(cups, start=1) if cup is not None and each.ref == cup.ref), 0)
    number, name = words.numbers[act.act.step], words.act(act.act)
    begun = act.begun_ms is not None
    return ActShown(act.act.step, number, act.act.turn, casts, name, begun, place, len(cups) if place else 0)


def _heed(cup: CupNow) -> tuple[str, ...]:
    """What to do where parts went in out of their order; that a cup is late its clock tells."""
    told = what_now(cup, cup.clock.from_ms if cup.clock is not None else 0)
    return (
        {WhatNow.NOTHING_REACTS: (say(NOTHING_REACTS),), WhatNow.REACTS: (say(REACTS),)}.get(told, ()) if told else ()
    )


def _said(words: ScreenWords, stand: Stand, put_right: PutRightShown | None) -> BigSaid:
    next_ = stand.next
    cup, part, act = next_.cup, next_.part, next_.act
    if put_right is not None:
        return BigSaid(put_right.head, None, put_right.why)
    if next_.press is Press.WEIGH and cup is not None and part is not None:
        return big(words, cup, part)
    if next_.press is Press.LAY and cup is not None:
        return BigSaid(
            _capital(say("{cup}: stirred, and on the work", cup=words.cup(cup.ref))),
            None,
            say("{in_cup} in", in_cup=words.mass(cup.in_g)),
        )
    if next_.press in (Press.WRITE, Press.NUMBER) and next_.box is not None and act is not None:
        return BigSaid(harmless(words.wording.line(next_.box.line, act.step.quantities)))
    if act is not None:
        laid = ", ".join(words.cup(each.ref) for each in laid_by(stand.run.state, act))
        return BigSaid(words.title(act.step), None, say("{laid} is on the work.", laid=_capital(laid)) if laid else "")
    return BigSaid(say(_WITHOUT_ACT[next_.press]))


_WITHOUT_ACT = {
    Press.WAIT: words("No hands: nothing may be done now"),
    Press.END: words("All steps are done"),
    Press.ENDED: words("The run is over"),
}


def _presses(words: ScreenWords, stand: Stand, limits: LimitsShown | None) -> tuple[PressShown, ...]:
    next_ = stand.next
    if next_.press is Press.WEIGH and next_.cup is not None and next_.part is not None:
        return weigh_presses(words, next_.cup, next_.part, _lot(stand), limits)
    if next_.press is Press.WRITE and next_.box is not None:
        return box_presses(words, next_.box)
    if next_.press is Press.LAY:
        return lay_presses(next_)
    one = {Press.NUMBER: number_presses(), Press.DONE: (done_press(next_),), Press.END: (end_press(),)}
    return one.get(next_.press, ())


def _lot(stand: Stand) -> LotId | None:
    return None if stand.lot is None else stand.lot.shelf.lot.id


def _went_in(words: ScreenWords, stand: Stand) -> tuple[PressShown, ...]:
    next_ = stand.next
    if next_.press is not Press.WEIGH or next_.cup is None or next_.part is None:
        return ()
    return (mass_press(words, next_.cup, next_.part, _lot(stand)),)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
