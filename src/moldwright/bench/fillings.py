"""What is written of the cups: one planned cup may be mixed more than once, each time a filling of its own."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import partial
from math import fsum

from moldwright.log.event import Event
from moldwright.log.ids import EventId, LotId
from moldwright.log.run_events import CupRef, CupTemperature, Divided, Gelled, Poured, Weighed
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import REACTING, MixPlan, PartKind

NOTHING = 1e-9


@dataclass(slots=True)
class CupFilling:
    """What stands in the log about one filling, as far as it was read.

    `share`: how much of the planned cup's work it does. `weighed`: each weighing with its time, its scale and what that
    showed. `met_ms`: when the second of the parts that react went in. `key`: the entries that it was read from.
    """

    share: float = 1.0
    in_g: dict[PartKind, float] = field(default_factory=dict)
    first_ms: dict[PartKind, int] = field(default_factory=dict)
    last_ms: dict[PartKind, int] = field(default_factory=dict)
    lots: dict[PartKind, tuple[LotId, ...]] = field(default_factory=dict)
    target_g: dict[PartKind, float] = field(default_factory=dict)
    read: tuple[PartKind, float] | None = None
    met_ms: int | None = None
    poured_ms: int | None = None
    gelled_ms: int | None = None
    used: float = 0.0
    temperatures: list[tuple[int, float]] = field(default_factory=list)
    late: list[tuple[EventId, PartKind]] = field(default_factory=list)
    strange: list[tuple[EventId, PartKind]] = field(default_factory=list)
    key: Hashable = None

    @property
    def whole_g(self) -> float:
        """All that is in [g]."""
        return fsum(self.in_g.values())

    def weigh(self, body: Weighed, event: Event) -> None:
        """A part goes in."""
        kind, met = body.part, self._met
        self.in_g[kind] = self.in_g.get(kind, 0.0) + body.mass_g
        self.first_ms.setdefault(kind, event.at_ms)
        self.last_ms[kind] = event.at_ms
        self.target_g[kind] = max(body.target_g, self.target_g.get(kind, 0.0))
        if body.lot is not None:
            self.lots[kind] = tuple(dict.fromkeys((*self.lots.get(kind, ()), body.lot)))
        if body.reads_g is not None:
            self.read = (kind, body.reads_g - self.whole_g)
        if self.poured_ms is not None:
            self.late.append((event.id, kind))
        if self.met_ms is None and self._met and not met and body.timed:
            self.met_ms = event.at_ms

    @property
    def _met(self) -> bool:
        """Whether two of the parts that react are in."""
        return sum(self.in_g.get(each, 0.0) > 0.0 for each in REACTING) > 1

    def part(self, count: int) -> CupFilling:
        """One of so many equal cups that it becomes, all that is in it parted among them."""
        return CupFilling(
            self.share / count,
            {kind: mass / count for kind, mass in self.in_g.items()},
            dict(self.first_ms),
            dict(self.last_ms),
            dict(self.lots),
            {kind: mass / count for kind, mass in self.target_g.items()},
            met_ms=self.met_ms,
            temperatures=list(self.temperatures),
        )


Fillings = dict[int, CupFilling]
Reckoned = Callable[[tuple[MixId, int], Hashable, Callable[[], Fillings]], Fillings]
"""What keeps the fillings of a cup by their entries."""


def fillings(
    mixes: Mapping[MixId, MixPlan], events: Iterable[Event], reckoned: Reckoned | None = None
) -> tuple[Mapping[tuple[MixId, int], Fillings], tuple[tuple[EventId, CupRef], ...]]:
    """The fillings of every cup that something is written of, by cup and cast, and the entries about strange cups.

    Parameters
    ----------
    mixes : the plan's cups.
    events : that stand, in their order.
    reckoned : gives what was read of a cup from the same entries before, or reads it; None: all is read.
    """
    read: defaultdict[tuple[MixId, int], list[Event]] = defaultdict(list)
    unknown = []
    for event in events:
        body = event.body
        if isinstance(body, Weighed | Poured | Gelled | CupTemperature | Divided):
            if body.cup.mix in mixes:
                read[body.cup.mix, body.cup.turn].append(event)
            else:
                unknown.append((event.id, body.cup))
    found = {}
    for cup, entries in read.items():
        key = tuple((event.id, event.at_ms) for event in entries)
        reads = partial(_fillings, mixes[cup[0]], entries, key)
        found[cup] = reads() if reckoned is None else reckoned(cup, key, reads)
    return found, tuple(unknown)


def _fillings(mix: MixPlan, events: Iterable[Event], key: Hashable) -> Fillings:
    found: Fillings = {}
    waiting: list[float] = []
    kinds = {part.kind for part in mix.parts}
    for event in events:
        body = event.body
        assert isinstance(body, Weighed | Poured | Gelled | CupTemperature | Divided)
        number = body.cup.filling
        if number not in found:
            found[number] = CupFilling(waiting.pop(0) if waiting else 1.0)
        _enter(found, number, event, kinds, waiting)
    for share in waiting:
        found[max(found) + 1] = CupFilling(share)
    for filling in found.values():
        filling.key = key
    return found


def _enter(found: Fillings, number: int, event: Event, kinds: set[PartKind], waiting: list[float]) -> None:
    filling = found[number]
    match event.body:
        case Weighed(part=kind) as body if kind in kinds:
            filling.weigh(body, event)
        case Weighed(part=kind):
            filling.strange.append((event.id, kind))
        case Poured() if filling.poured_ms is None:
            filling.poured_ms = event.at_ms
        case CupTemperature(temperature_c=temperature_c):
            filling.temperatures.append((event.at_ms, temperature_c))
        case Gelled(used=used) if filling.gelled_ms is None:
            filling.gelled_ms, filling.used = event.at_ms, min(max(used, 0.0), 1.0)
            if (left := filling.share * (1.0 - filling.used)) > NOTHING:
                waiting.append(left)
        case Divided(into=into):
            clean = [each for each in dict.fromkeys(into) if each != number and not _begun(found.get(each))]
            found.update({each: filling.part(len(clean) + 1) for each in (number, *clean)})
            found[number].late, found[number].strange = filling.late, filling.strange


def _begun(filling: CupFilling | None) -> bool:
    return filling is not None and bool(filling.in_g)
