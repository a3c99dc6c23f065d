"""What a rest still covers, and what a scale that was off has weighed, in sentences."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from moldwright.bench.left import CupCover, Lacking, WorkCover
from moldwright.bench.scale_drift import CupDrift, RatioNow, ScaleDrift
from moldwright.log.run_events import CupRef
from moldwright.mixing.correct import Correction
from moldwright.sheets.bench_words import BenchWords
from moldwright.text.harmless import harmless
from moldwright.units import show_length
from moldwright.words.marked import words
from moldwright.words.speaker import say, with_mark

RATIO = {
    RatioNow.KEPT: words("one scale, one factor: its ratio holds"),
    RatioNow.WITHIN: words("its ratio still holds"),
    RatioNow.OFF: words("its ratio is off: it may stay soft. Mark where it went, feel it when it should be cured"),
    RatioNow.NONE: words("no ratio to hold"),
}


def cover_lines(words: BenchWords, works: Iterable[WorkCover]) -> Iterator[str]:
    """Coat by coat, what can be mixed whole, what in part and what it then gets to, what is lacking.

    Parameters
    ----------
    words : of the run's plan.
    works : in the order of the work.
    """
    for work in works:
        name = _work(words, work)
        if work.whole:
            yield say("{name}: whole.", name=name)
            continue
        lacks = ", ".join(
            say("{mass} of {part}", mass=words.mass(each.mass_g), part=_lack(words, work, each))
            for each in work.lacking
        )
        yield say("{name}: {reach}. Lacking: {lacks}.", name=name, reach=_reach(words, work), lacks=lacks)
        yield from (f"  {line}" for cup in work.cups for line in _cup(words, cup))


def _work(words: BenchWords, work: WorkCover) -> str:
    first = words.cup(CupRef(work.cups[0].cup.mix, work.turn)).partition(", ")[0]
    return first[:1].upper() + first[1:]


def _reach(words: BenchWords, work: WorkCover) -> str:
    if work.covered_mm is not None and work.planned_mm is not None:
        told, planned = (show_length(each, words.plan.units) for each in (work.covered_mm, work.planned_mm))
        return (
            say("{told} of {planned} all over", told=told, planned=planned)
            if work.share > 0.0
            else say("nothing of it")
        )
    return say("{share} of it", share=with_mark(f"{work.share:.0%}"))


def _lack(words: BenchWords, work: WorkCover, lack: Lacking) -> str:
    mix = words.plan.mix(work.cups[0].cup.mix)
    return harmless(next((part.name for part in mix.parts if part.kind is lack.part and part.name), lack.part.value))


def _cup(words: BenchWords, cup: CupCover) -> Iterator[str]:
    if cup.targets is not None:
        yield f"{words.cup(cup.cup)}: {_targets(words, cup, cup.targets)}."


def _targets(words: BenchWords, cup: CupCover, told: Correction) -> str:
    mix = words.plan.mix(cup.cup.mix)
    names = {part.kind: harmless(part.name or part.kind.value) for part in mix.parts}
    parts = ", then ".join(
        say("{names} up to {scale_reads}", names=names[part.kind], scale_reads=words.mass(part.scale_reads_g))
        for part in told.cups[0].parts
        if part.add_g > 0.0
    )
    each = say("{cups} cups, in each ", cups=len(told.cups)) if len(told.cups) > 1 else ""
    return f"{each}{parts}" if parts else say("nothing more goes in")


def drift_lines(words: BenchWords, drift: ScaleDrift) -> Iterator[str]:
    """What the cups really hold that were weighed on a scale that was off.

    Parameters
    ----------
    words : of the run's plan.
    drift : what was found.
    """
    off = 100.0 * (1.0 / drift.factor - 1.0)
    since = say("since it was last right") if drift.after_ms is not None else say("in this run")
    shown = with_mark(f"{abs(off):.1f}")
    if off > 0.0:
        yield say("It shows {off} % too much. Weighed on it {since}:", off=shown, since=since)
    else:
        yield say("It shows {off} % too little. Weighed on it {since}:", off=shown, since=since)
    if not drift.cups:
        yield f"  {say('no cup.')}"
    yield from (f"  {_drifted(words, cup)}" for cup in drift.cups)


def _drifted(words: BenchWords, cup: CupDrift) -> str:
    told = say(
        "{cup}: {true}, not {told}; {ratio}",
        cup=words.cup(cup.cup),
        true=words.mass(cup.true_g),
        told=words.mass(cup.told_g),
        ratio=say(RATIO[cup.ratio]),
    )
    if cup.ratio is RatioNow.OFF and cup.off_pct is not None:
        told += say(
            " ({off} %, {within} % is allowed)",
            off=with_mark(f"{cup.off_pct:.1f}"),
            within=with_mark(f"{cup.within_pct:.1f}"),
        )
    return f"{told}."
