"""What the weighings and the clocks of the cups show to be wrong."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from moldwright.bench.cup_now import ClockStage, CupNow, CupState, PartNow, PartState
from moldwright.bench.done import Acts
from moldwright.bench.fillings import CupFilling, Fillings
from moldwright.bench.find_acts import seconds
from moldwright.bench.findings import Found, RunFinding
from moldwright.cure.potlife import COLDEST_C, HOTTEST_C
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import MeasuredBy
from moldwright.plan.quantity import Dimension, Quantity

ROUNDING_PCT = 1e-6


def find_cups(
    cups: Iterable[CupNow], acts: Acts, fillings: Mapping[tuple[MixId, int], Fillings]
) -> Iterator[RunFinding]:
    """Parts over, short, missing or in the wrong order; ratios that are off; cups that are late.

    Parameters
    ----------
    cups : of the run.
    acts : what is written of its acts.
    fillings : what is written of its cups.
    """
    for cup in cups:
        if (cup.ref.mix, cup.ref.turn) not in fillings and acts[cup.act].done_ms is None:
            continue
        filling = fillings.get((cup.ref.mix, cup.ref.turn), {}).get(cup.ref.filling, CupFilling())
        if cup.out_of_order is not None:
            yield RunFinding(Found.PART_ORDER, cup.act, cup=cup.ref, part=cup.out_of_order)
        yield from (_part(Found.PART_OVER, cup, part) for part in cup.parts if part.over_g > 0.0)
        if cup.poured_ms is not None or (acts[cup.act].done_ms is not None and cup.gelled_ms is None):
            yield from _unfinished(cup)
        yield from _late(cup)
        yield from (_temperature(cup, each) for _, each in filling.temperatures if not COLDEST_C <= each <= HOTTEST_C)
        told = [(Found.AFTER_POURING, each) for each in filling.late]
        told += [(Found.UNKNOWN_PART, each) for each in filling.strange]
        yield from (RunFinding(code, cup.act, cup=cup.ref, part=kind, event=id_) for code, (id_, kind) in told)


def _unfinished(cup: CupNow) -> Iterator[RunFinding]:
    """What a cup lacks that was used."""
    weighed = [part for part in cup.parts if part.by is not MeasuredBy.STICK]
    missing = [part for part in weighed if part.state is PartState.TO_COME]
    if len(missing) == len(weighed):
        yield RunFinding(Found.PART_MISSING, cup.act, cup=cup.ref)
        return
    yield from (_part(Found.PART_MISSING, cup, part) for part in missing)
    yield from (_part(Found.PART_SHORT, cup, part) for part in weighed if part.state is PartState.SHORT)
    if cup.ratio is not None and cup.mix.ratio is not None:
        off, allowed = 100.0 * (cup.ratio / cup.mix.ratio - 1.0), cup.mix.ratio_within_pct
        if abs(off) > max(allowed, cup.mix.tolerance_pct) + ROUNDING_PCT:
            told = (_percent("ratio.off", abs(off)), _percent("ratio.within", allowed))
            yield RunFinding(Found.RATIO_OFF, cup.act, cup=cup.ref, quantities=told)


def _late(cup: CupNow) -> Iterator[RunFinding]:
    clock = cup.clock
    if clock is None or clock.stage is not ClockStage.PAST or cup.state is CupState.GELLED:
        return
    by = seconds("cup.out_by", clock.out_by_ms - clock.from_ms)
    if cup.poured_ms is not None:
        after = seconds("poured.after", cup.poured_ms - clock.from_ms)
        yield RunFinding(Found.POURED_LATE, cup.act, cup=cup.ref, quantities=(after, by))
    elif not cup.settled:
        yield RunFinding(Found.CUP_PAST, cup.act, cup=cup.ref, quantities=(by,))


def _temperature(cup: CupNow, temperature_c: float) -> RunFinding:
    told = (Quantity("cup.temperature", Dimension.TEMPERATURE, temperature_c),)
    return RunFinding(Found.MIX_OUT_OF_RANGE, cup.act, cup=cup.ref, quantities=told)


def _part(code: Found, cup: CupNow, part: PartNow) -> RunFinding:
    told = (_mass("part.in", part.in_g), _mass("part.target", part.target_g), _mass("part.planned", part.planned_g))
    return RunFinding(code, cup.act, cup=cup.ref, part=part.kind, quantities=told)


def _mass(name: str, mass_g: float) -> Quantity:
    return Quantity(name, Dimension.SCALED_MASS, mass_g)


def _percent(name: str, share_pct: float) -> Quantity:
    return Quantity(name, Dimension.PERCENT, share_pct)
