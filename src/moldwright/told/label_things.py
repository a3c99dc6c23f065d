"""What is to be labeled, by what a person types: found in the records, told as the text of its label."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from types import MappingProxyType

from moldwright.bench.cup_now import CupNow
from moldwright.bench.frame import frame_of
from moldwright.bench.run import RunState, run_state
from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.codes import short_code
from moldwright.log.event import About
from moldwright.materials import library
from moldwright.records.clock import now_ms, today
from moldwright.records.editions.certificate import certificate_facts
from moldwright.records.editions.read import piece_meant
from moldwright.records.find import find
from moldwright.records.molds.read import mold_known, mold_meant
from moldwright.records.shop import Shop
from moldwright.records.stock.doing import lot_meant
from moldwright.records.stock.shelf import lot_on_shelf
from moldwright.sheets.label_text import LabelText
from moldwright.text.shown import short
from moldwright.told.label_texts import cup_label, lot_label, mold_label, piece_label
from moldwright.words.speaker import say

LabelAsked = tuple[str, ...]
"""What was typed behind an option."""
LABELED = {"lot": 1, "mold": 1, "piece": 1, "cup": 2}
"""What can be labeled, and by how many words each is named."""


def label_of(shop: Shop, option: str, written: LabelAsked) -> LabelText:
    """The label of one thing.

    Parameters
    ----------
    shop : the store.
    option : "lot", "mold", "piece" or "cup".
    written : what was typed behind it: a code, or a run's code and the cup's name in its plan.

    Raises InputRefused ("not-kept", "code-of-several", "cup-unknown"), RecordConflict ("piece-void", "cup-begun").
    """
    return _LABELS[option](shop, written)


def _lot(shop: Shop, written: LabelAsked) -> LabelText:
    return lot_label(lot_on_shelf(shop, lot_meant(shop, written[0]), today()))


def _mold(shop: Shop, written: LabelAsked) -> LabelText:
    day = date.today()
    return mold_label(mold_known(shop, library(), day, mold_meant(shop, written[0])), day.isoformat())


def _piece(shop: Shop, written: LabelAsked) -> LabelText:
    return piece_label(certificate_facts(shop, *piece_meant(shop, written[0])))


def _cup(shop: Shop, written: LabelAsked) -> LabelText:
    run = find(shop, About.RUN, written[0])
    events = shop.events_of(run)
    frame = frame_of(events)
    if frame.plan is None:
        remedy = "Its start has not come from the bench that wrote it: send that bench's events."
        raise RecordConflict("run-not-started", f"run {short_code(run)}", "a run with its start", "", remedy)
    plan = shop.plan(frame.plan)
    state = run_state(plan, events, now_ms())
    return cup_label(plan, state, _next_cup(state, written[1]), run)


def _next_cup(run: RunState, written: str) -> CupNow:
    """The cup of that name whose turn is next: of the first cast that has not had it."""
    named = [cup for cup in run.cups if cup.ref.mix == written.strip()]
    if not named:
        known = ", ".join(dict.fromkeys(cup.ref.mix for cup in run.cups))
        raise InputRefused(
            "cup-unknown", short(written), "a cup of the run", "", say("Write one of: {known}.", known=known)
        )
    cup = next((cup for cup in named if not cup.settled), named[-1])
    if cup.settled or cup.in_g > 0.0:
        remedy = "A label is for a cup that is still empty; the bench tells what goes into this one now."
        raise RecordConflict("cup-begun", f"{cup.ref.mix} is {cup.state}", "a cup that is still empty", "", remedy)
    return cup


_LABELS: Mapping[str, Callable[[Shop, LabelAsked], LabelText]] = MappingProxyType(
    {"lot": _lot, "mold": _mold, "piece": _piece, "cup": _cup}
)
