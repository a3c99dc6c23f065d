"""Two sources that cannot both be right: a stop, with the figure and what is likely wrong."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations
from math import inf, log

from moldwright.commission.keys import keys
from moldwright.errors import InputRefused
from moldwright.original.evidence.witness import Bound, Witness
from moldwright.photos.sheet.layout import BAR_MM
from moldwright.plan.original import Source
from moldwright.text.shown import number
from moldwright.units import show_volume
from moldwright.ways import named_key, writes

NAMES = {
    Source.SCAN: "the scan",
    Source.PHOTOS: "the photos",
    Source.TAPE: "the tape",
    Source.WATER: "the water",
    Source.WEIGHT: "the weight",
}
TRUST = (Source.WATER, Source.SCAN, Source.PHOTOS, Source.WEIGHT, Source.TAPE)
"""Who is asked about last where two disagree and nothing else tells which is wrong: a bucket has no unit to mistake."""
UNITS = (25.4, 10.0, 1000.0, 304.8, 12.0, 2.54, 100.0, 39.37)
"""How many times longer one unit is than another: inch, centimeter, meter and foot to the millimeter and each other."""
UNIT_WITHIN = 0.06
"""How near the ratio of lengths must be to that of two units."""


def refuse_disagreement(witnesses: Sequence[Witness]) -> None:
    """Nothing, where the ranges of all meet; else the worst pair is refused with the likely culprit.

    Parameters
    ----------
    witnesses : what all sources say.

    Source: our own.
    """
    apart = [(_apart(a, b), a, b) for a, b in combinations(witnesses, 2)]
    worst = max((row for row in apart if row[0] > 0.0), key=lambda row: row[0], default=None)
    if worst is None:
        return
    wrong, right = _culprit(worst[1], worst[2], witnesses)
    share = wrong.volume_ml.likely / right.volume_ml.likely
    be = "are" if wrong.source is Source.PHOTOS else "is"
    say = "say" if right.source is Source.PHOTOS else "says"
    told = f"{NAMES[wrong.source]} {be} {_by(share)} than {NAMES[right.source]} {say}"
    figures = f"{_range(wrong)} against {_range(right)}"
    raise InputRefused("sources-disagree", f"{told}: {figures}", "ranges that meet", "", REMEDIES[wrong.source](share))


def _apart(a: Witness, b: Witness) -> float:
    """How far the ranges are from meeting, as a share of volume in logarithms; at most 0 where they meet."""
    low, high = (a, b) if a.volume_ml.likely < b.volume_ml.likely else (b, a)
    if low.bound is Bound.AT_LEAST or high.bound is Bound.AT_MOST:
        return -inf
    return log(high.volume_ml.low / low.volume_ml.high)


def _culprit(a: Witness, b: Witness, witnesses: Sequence[Witness]) -> tuple[Witness, Witness]:
    """Which of two is likely wrong: the one that more of the others contradict, else the one less to be trusted."""
    others = [one for one in witnesses if one is not a and one is not b]
    against = {id(one): sum(_apart(one, other) > 0.0 for other in others) for one in (a, b)}
    if against[id(a)] != against[id(b)]:
        return (a, b) if against[id(a)] > against[id(b)] else (b, a)
    return (a, b) if TRUST.index(a.source) > TRUST.index(b.source) else (b, a)


def _by(share: float) -> str:
    if 0.5 < share < 2.0:
        return f"{number(round(100.0 * abs(share - 1.0)))} % {'smaller' if share < 1.0 else 'larger'}"
    many = share if share > 1.0 else 1.0 / share
    return f"{number(round(many, 1 if many < 10 else 0))} times {'larger' if share > 1.0 else 'smaller'}"


def _range(one: Witness) -> str:
    ends = f"{show_volume(one.volume_ml.low)} to {show_volume(one.volume_ml.high)}"
    return f"{show_volume(one.volume_ml.likely)} ({ends})"


def _scan(share: float) -> str:
    """A scan's unit is right or wrong by a whole factor; its height may be off by a little."""
    length = share ** (1.0 / 3.0)
    for factor in UNITS:
        for ratio, words in ((factor, "smaller"), (1.0 / factor, "larger")):
            if abs(log(length / ratio)) < UNIT_WITHIN:
                told = f"its lengths are {number(factor)} times too {'large' if ratio > 1.0 else 'small'}"
                return f"Is the scan's unit right? As read, {told}: a unit {number(factor)} times {words} would agree."
    by = f"{number(round(100.0 * abs(length - 1.0), 1))} %"
    way = "short" if length < 1.0 else "long"
    return (
        f"Is the scan's unit right, or {named_key('original.height')}? Its lengths are {by} too {way} for the other. "
        "Measure the height again from the board to the very top; look also whether vessel and water were full."
    )


def _photos(share: float) -> str:
    bar_mm, key = BAR_MM * share ** (-1.0 / 3.0), keys()["original"]["bar"]
    if (key.low or 0.0) <= bar_mm <= (key.high or inf):
        hint = f"a bar that is longer or shorter by {number(round(abs(bar_mm - BAR_MM), 1))} % would make them agree"
    else:
        hint = "no print is so far off its scale, so look whether the photos show this piece"
    return (
        f"Measure the sheet's bar on your print and write {named_key('original.bar')}: {hint}. Outlines show no "
        f"bowl: tell it under {named_key('original.gaps')}."
    )


def _weight(share: float) -> str:
    if share < 1.0:
        solid = writes("original.solid", "false")
        return f"Is the piece hollow, or lighter inside? Write {solid}; else its density is less than was taken."
    return "Is the density right, and was the piece weighed without base plate and armature? A heavier core counts too."


def _water(share: float) -> str:
    if share < 1.0:
        return "Was the vessel full to its brim, the piece wholly under, and sealed so that it drank none? Do it again."
    return "Did air cling under the piece, or water spill before it was under? Do it again, slowly, and turn the piece."


def _tape(share: float) -> str:
    much = "too little" if share < 1.0 else "too much"
    return (
        f"The tape gives {much}: are all limbs told, the tape level and snug, breadth and depth of the body alone, "
        f"and deep hollows under {named_key('original.gaps')} or {named_key('original.tape.hollows')}?"
    )


REMEDIES: dict[Source, Callable[[float], str]] = {
    Source.SCAN: _scan,
    Source.PHOTOS: _photos,
    Source.WEIGHT: _weight,
    Source.WATER: _water,
    Source.TAPE: _tape,
}
