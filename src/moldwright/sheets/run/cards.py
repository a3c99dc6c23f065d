"""A mix card with what was weighed: what the scale read and the lot of every part, new totals, each cup's time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import accumulate, groupby
from math import fsum
from operator import or_
from typing import Any

from moldwright.bench.cup_now import CupNow, CupState, PartNow, PartState
from moldwright.bench.now import ActState
from moldwright.log.event import Event
from moldwright.log.run_events import Divided, Weighed
from moldwright.mixing.share import part_of
from moldwright.plan.mixes import MeasuredBy, MixFor, MixPart, MixPlan
from moldwright.sheets.mix_cards import alike, cup_table, cups_alike, mix_card
from moldwright.sheets.run.cup_told import cup_clock, cup_name, cup_remedy, cup_times, cup_title, entries_of
from moldwright.sheets.run.shown import RunShown
from moldwright.sheets.words import split_unit
from moldwright.units import show_mass, show_volume
from moldwright.units.system import UnitSystem

OPEN = (PartState.TO_COME, PartState.SHORT)
NO_TOTAL = {"reads": "", "unit": "", "also": ""}


def run_card(
    shown: RunShown, turn: int, for_: MixFor, steps: Sequence[int], above: MixFor | None = None
) -> dict[str, Any]:
    """The card of one thing that is mixed, with what the log has of its cups.

    Parameters
    ----------
    shown : the run.
    turn : of which cast, 0 for what is mixed once.
    for_, steps, above : as for `mix_card`.
    """
    plan = shown.plan
    card = mix_card(plan, for_, steps, above)
    mixes = plan.mixes_for(for_)
    cups: list[dict[str, Any]] = []
    for (touched, *_), group in groupby(mixes, key=lambda mix: (_touched(shown, mix, turn), alike(mix))):
        same = tuple(group)
        if touched:
            cups += [_cup(shown, cup, len(mixes)) for mix in same for cup in _fillings(shown, mix, turn)]
        else:
            cups.append(_untouched(shown, same, turn, len(mixes)))
    return card | {"cups": cups, "out": _left_out(shown, mixes, turn)}


def _untouched(shown: RunShown, same: Sequence[MixPlan], turn: int, count: int) -> dict[str, Any]:
    """Cups of which nothing is written, in one table; in a warm shop with the shorter time that they have."""
    table_ = cups_alike(shown.plan, same, count)
    clock = next((cup_clock(cup) for mix in same for cup in _fillings(shown, mix, turn)), table_["clock"])
    return table_ | {"clock": clock, "was_clock": table_["clock"] if clock != table_["clock"] else ""}


def _fillings(shown: RunShown, mix: MixPlan, turn: int) -> list[CupNow]:
    return [cup for cup in shown.state.cups if (cup.ref.mix, cup.ref.turn) == (mix.id, turn)]


def _touched(shown: RunShown, mix: MixPlan, turn: int) -> bool:
    """Whether the log has anything of a cup."""
    return any(cup.ref.filling > 1 or entries_of(shown, cup.ref) for cup in _fillings(shown, mix, turn))


def _left_out(shown: RunShown, mixes: Sequence[MixPlan], turn: int) -> bool:
    ids = {mix.id for mix in mixes}
    acts = [act for act in shown.state.acts if act.act.turn == turn and ids & set(act.step.mixes)]
    return bool(acts) and all(act.state is ActState.LEFT_OUT for act in acts)


def _cup(shown: RunShown, cup: CupNow, count: int) -> dict[str, Any]:
    """One filling of a cup in a table of its own."""
    plan = shown.plan
    own = part_of(cup.mix, cup.share, plan.scale_g)
    planned, now = (cup_table(mix, plan.units, plan.scale_g) for mix in (own, _as_it_stands(own, cup)))
    weighed = _since_parted(entries_of(shown, cup.ref))
    olds = planned["rows"] if not _is_parted(shown, cup) else now["rows"]
    both = zip(olds, now["rows"], _without_total(cup), strict=True)
    rows = [
        _changed(old, new | NO_TOTAL if none else new) | _weighed(shown, part, put, weighed)
        for part, put, (old, new, none) in zip(own.parts, cup.parts, both, strict=True)
    ]
    clock = cup_clock(cup)
    return now | {
        "title": cup_title(cup) if count > 1 or cup.ref.filling > 1 else "In this order",
        "names": [cup_name(cup)],
        "across": 1,
        "rows": rows,
        "clock": clock,
        "was_clock": planned["clock"] if planned["clock"] != clock else "",
        "small": cup.settled,
        "gone": cup.state is CupState.GELLED,
        "cup": cup_times(shown, cup),
        "say": cup_remedy(cup),
    }


def _as_it_stands(own: MixPlan, cup: CupNow) -> MixPlan:
    """The cup with the targets that it has now; totals of what is to come count on from what is in.

    Of a part that is in the plan's total stays, unless a part was poured over: then it is what is in up to there.
    """
    reads = accumulate(now.in_g or now.target_g for now in cup.parts)
    both = zip(own.parts, cup.parts, reads, strict=True)
    return replace(own, parts=tuple(_part(part, now, so_far, cup) for part, now, so_far in both))


def _part(part: MixPart, now: PartNow, so_far_g: float, cup: CupNow) -> MixPart:
    to_come = _to_come(now, cup)
    if not to_come and cup.put_right is None:
        return part
    share = now.target_g / part.mass_g if part.mass_g else 1.0
    return replace(
        part,
        mass_g=now.target_g,
        volume_ml=round(part.volume_ml * share, 2),
        scale_reads_g=now.reads_g if to_come else so_far_g,
    )


def _to_come(now: PartNow, cup: CupNow) -> bool:
    return now.state in OPEN and not cup.settled


def _without_total(cup: CupNow) -> list[bool]:
    """Parts of a cup that is put right which are in before one that comes earlier: no total leads to them."""
    if cup.put_right is None:
        return [False for _ in cup.parts]
    to_come = [_to_come(now, cup) for now in cup.parts]
    return [early and not own for early, own in zip(accumulate(to_come, or_), to_come, strict=True)]


def _is_parted(shown: RunShown, cup: CupNow) -> bool:
    """Whether it is one of the cups that another became: nobody planned its totals."""
    return any(isinstance(event.body, Divided) for event in entries_of(shown, cup.ref))


def _since_parted(entries: Sequence[Event]) -> list[Weighed]:
    """The weighings of a cup since it was parted: before, what was read was another cup's."""
    last = max((n for n, event in enumerate(entries) if isinstance(event.body, Divided)), default=-1)
    return [event.body for event in entries[last + 1 :] if isinstance(event.body, Weighed)]


def _changed(old: dict[str, str], new: dict[str, str]) -> dict[str, Any]:
    return new | {
        "was_add": old["add"] if old["add"] != new["add"] else "",
        "was_reads": old["reads"] if (old["reads"], old["unit"]) != (new["reads"], new["unit"]) else "",
    }


def _weighed(shown: RunShown, part: MixPart, now: PartNow, weighed: Sequence[Weighed]) -> dict[str, Any]:
    """What is written of a part: the last reading, or what went in; the lots; whether it is in."""
    own = [each for each in weighed if each.part is part.kind]
    return {
        "read": _read(part, now, own, shown.plan.units, shown.plan.scale_g),
        "lot": ", ".join(dict.fromkeys(map(shown.lot, now.lots))),
        "done": now.in_g > 0.0 and now.state not in OPEN,
    }


def _read(part: MixPart, now: PartNow, own: Sequence[Weighed], units: UnitSystem, step_g: float) -> str:
    """What the scale read last; where nobody wrote that, what went in, behind a plus; of a parted cup what is in."""
    if own and own[-1].reads_g is not None:
        return split_unit(show_mass(own[-1].reads_g, units, step_g))[0]
    if own:
        return f"+{_amount(part, fsum(each.mass_g for each in own), units, step_g)}"
    return _amount(part, now.in_g, units, step_g) if now.in_g > 0.0 else ""


def _amount(part: MixPart, mass_g: float, units: UnitSystem, step_g: float) -> str:
    """An amount as the part is measured."""
    volume_ml = mass_g * part.volume_ml / part.mass_g if part.mass_g else 0.0
    match part.by:
        case MeasuredBy.SYRINGE:
            return f"{round(volume_ml, 2):g} ml"
        case MeasuredBy.MARKS:
            return show_volume(volume_ml, units)
        case _:
            return show_mass(mass_g, units, step_g)
