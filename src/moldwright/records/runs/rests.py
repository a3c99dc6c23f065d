"""What is left of a material by a maker's word, and what it still covers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass

from moldwright.bench.left import WorkCover, still_covers
from moldwright.errors import InputRefused
from moldwright.plan.mixes import MixPart, StuffKey
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.typed import typed
from moldwright.text.shown import short


@dataclass(frozen=True, slots=True)
class Rest:
    """So much is left of a material [g]; `name`: as the list calls it."""

    stuff: StuffKey
    name: str
    mass_g: float


@dataclass(frozen=True, slots=True)
class Covered:
    """What there is, and what it still covers of all that is not done, in the order of the work."""

    rests: tuple[Rest, ...]
    works: tuple[WorkCover, ...]


def covered(run: OpenRun, written: Sequence[str]) -> Covered:
    """What the rest of some materials still covers.

    Parameters
    ----------
    run : as it stands.
    written : "B=180 g" or "B 180": a part of the next cup that takes it, or a material's id on the list. What is in
        the cups already is not meant.

    Raises InputRefused ("rest-unclear", "stuff-not-needed").
    """
    rests = tuple(_rest(run, each) for each in written)
    works = still_covers(run.plan, run.state, _together(rests))
    return Covered(rests, tuple(work for work in works if _asks_for(run, work, {rest.stuff for rest in rests})))


def _asks_for(run: OpenRun, work: WorkCover, stuffs: Set[StuffKey]) -> bool:
    """Whether something is still to be mixed for it that takes one of these materials."""
    takes = {part.stuff for cup in work.cups if cup.needs_g > 0.0 for part in run.plan.mix(cup.cup.mix).parts}
    return not takes.isdisjoint(stuffs)


def _together(rests: Sequence[Rest]) -> Mapping[StuffKey, float]:
    """Two pots of one material are one rest."""
    found: dict[StuffKey, float] = {}
    for rest in rests:
        found[rest.stuff] = found.get(rest.stuff, 0.0) + rest.mass_g
    return found


def _rest(run: OpenRun, written: str) -> Rest:
    name, sign, amount = written.strip().partition("=")
    if not sign:
        name, _, amount = written.strip().partition(" ")
    mass_g = typed(amount, "mass", run.plan.units, "what is left") if amount.strip() else -1.0
    if not name.strip() or mass_g < 0.0:
        remedy = 'Write the part and what there is of it: "B=180 g".'
        raise InputRefused("rest-unclear", short(written), "a part and a mass", "", remedy)
    stuff = _stuff(run, name.strip())
    need = next((each for each in run.plan.needs if each.stuff == stuff), None)
    told = need.material or need.color or stuff.id if need is not None else stuff.id
    return Rest(stuff, f"{told}, part {need.called}" if need is not None and need.called else told, mass_g)


def _stuff(run: OpenRun, name: str) -> StuffKey:
    parts = tuple(_parts_to_come(run))
    found = next((part.stuff for part in parts if name.casefold() in _names(part)), None)
    if found is None:
        known = ", ".join(dict.fromkeys(part.name or part.kind for part in parts)) or "nothing: all is mixed"
        remedy = "Write a part as its card calls it."
        raise InputRefused("stuff-not-needed", short(name), known, "", remedy)
    return found


def _names(part: MixPart) -> set[str]:
    return {part.kind.casefold(), part.name.casefold(), part.stuff.id.casefold()}


def _parts_to_come(run: OpenRun) -> Iterator[MixPart]:
    for cup in run.state.cups:
        if not cup.settled:
            yield from cup.mix.parts
