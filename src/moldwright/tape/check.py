"""A tape that cannot be: too few levels, out of order, past the top, or measures that contradict each other."""

from __future__ import annotations

from collections.abc import Sequence

from moldwright.errors import InputRefused
from moldwright.tape.doubts import ReadDoubt, reading
from moldwright.tape.mend import Clash, clash
from moldwright.tape.parts import is_tip
from moldwright.tape.told import Limb, Tape, TapeLevel
from moldwright.text.shown import number, shown

FEWEST, FEWEST_OF_LIMB = 3, 2
WHERE = "original.tape"


def checked(tape: Tape, height_mm: float | None) -> float:
    """The height of the body's top [mm]: as it was told, or that of the last level.

    Parameters
    ----------
    tape : what was measured.
    height_mm : from the board to the top [mm]; None where it was not told.

    Raises InputRefused for what cannot be, with the smallest change that mends it. Source: our own.
    """
    known = reading()
    _stack(tape.levels, f"{WHERE}.levels", FEWEST, known)
    last = tape.levels[-1]
    top_mm = last.at_mm if height_mm is None else height_mm
    slack = known.at_mm + 0.01 * last.at_mm
    if last.at_mm > top_mm + slack:
        remedy = f'The last level lies above original.height: write height = "{number(last.at_mm)} mm", or mend its at.'
        raise InputRefused("tape-above-height", last.at_mm, top_mm, "mm", remedy)
    for n, limb in enumerate(tape.limbs):
        _limb(limb, f"{WHERE}.limbs[{n}]", max(top_mm, last.at_mm) + slack, known)
    return max(top_mm, last.at_mm)


def _stack(levels: Sequence[TapeLevel], where: str, fewest: int, known: ReadDoubt) -> None:
    if len(levels) < fewest:
        remedy = f"Measure {fewest} levels at least: at the foot, at the top, and wherever the form changes between."
        raise InputRefused("tape-too-few-levels", len(levels), fewest, "levels", remedy)
    for n, level in enumerate(levels):
        if n and level.at_mm <= levels[n - 1].at_mm:
            told = f"{where}[{n}].at = {number(level.at_mm)} mm"
            remedy = "Write the levels lowest first, each height once; along a limb from where it joins."
            raise InputRefused("tape-levels-order", told, f"above {number(levels[n - 1].at_mm)} mm", "", remedy)
        if is_tip(level):
            _tip(level, n, len(levels), where)
        else:
            _agree(level, f"{where}[{n}]", known)


def _tip(level: TapeLevel, n: int, count: int, where: str) -> None:
    if n < count - 1 or count == 1:
        remedy = "Only the last level may be a tip without a girth; leave this one out, or measure its girth."
        raise InputRefused(
            "tape-tip-inside", f"{where}[{n}].girth = {number(level.girth_mm)} mm", "above 0", "", remedy
        )


def _agree(level: TapeLevel, where: str, known: ReadDoubt) -> None:
    girth, breadth, depth = level.girth_mm, level.breadth_mm, level.depth_mm
    if breadth is not None and depth is not None:
        found = clash(girth, breadth, depth, known)
        if found is not None:
            raise _clash(level, found, where)
        return
    one, key = (breadth, "breadth") if breadth is not None else (depth, "depth")
    if one is not None and girth + known.girth_mm + known.girth_share * girth < 2.0 * one:
        told = f"{where}: girth {number(girth)} mm is less than twice the {key}, {number(2.0 * one)} mm"
        less, more = number(girth / 2.0), number(2.0 * one)
        remedy = f'The smallest change that mends it: {key} = "{less} mm", or girth = "{more} mm". Measure there again.'
        raise InputRefused("tape-contradiction", told, f"girth of {more} mm at least", "", remedy)


def _clash(level: TapeLevel, found: Clash, where: str) -> InputRefused:
    box = f"{number(level.breadth_mm or 0.0)} x {number(level.depth_mm or 0.0)} mm"
    than = "more than the longest" if found.too_long else "less than the shortest"
    told = f"{where}, at {number(level.at_mm)} mm: girth {number(level.girth_mm)} mm is {than} line round {box}"
    limit = f"girth of {number(round(found.bound_mm, 1))} mm at {'most' if found.too_long else 'least'}"
    mend = found.mend
    change = f'{mend.key} = "{number(mend.mended_mm)} mm" for {number(mend.read_mm)} mm'
    by = f"{number(round(100 * mend.share, 1))} % {'more' if mend.mended_mm > mend.read_mm else 'less'}"
    remedy = f"The smallest change that mends it: {change}, {by}. Measure there again."
    return InputRefused("tape-contradiction", told, limit, "", remedy)


def _limb(limb: Limb, where: str, top_mm: float, known: ReadDoubt) -> None:
    name = shown(limb.name)
    _stack(limb.levels, f"{where}.levels", FEWEST_OF_LIMB, known)
    for key, at in (("joins_at", limb.joins_at_mm), ("ends_at", limb.ends_at_mm)):
        if at is not None and at > top_mm and (key == "joins_at" or limb.gap_mm is not None):
            remedy = f"{name} meets the body above its top: mend {key}, or original.height."
            raise InputRefused("tape-above-height", at, round(top_mm, 1), "mm", remedy)
    long = limb.levels[-1].at_mm
    ends = limb.joins_at_mm if limb.ends_at_mm is None else limb.ends_at_mm
    apart = abs(ends - limb.joins_at_mm)
    slack = 3.0 * known.at_mm + 0.05 * apart
    if apart > long + slack + limb.levels[-1].girth_mm / 6.0:
        remedy = (
            f"{name} cannot reach so far: its last level is {number(long)} mm along it. Mend joins_at, ends_at or at."
        )
        raise InputRefused("tape-limb-too-short", round(apart, 1), round(long, 1), "mm from end to end", remedy)
