"""A tape that cannot be: too few levels, out of order, past the top, or measures that contradict each other."""

from __future__ import annotations

import math
from collections.abc import Sequence

from moldwright.errors import InputRefused
from moldwright.tape.doubts import ReadDoubt, form, reading
from moldwright.tape.mend import Clash, clash
from moldwright.tape.parts import is_tip
from moldwright.tape.told import Gap, Limb, Tape, TapeLevel, gap_mm3
from moldwright.text.shown import number, shown
from moldwright.ways import figure, named_key, own_name, stands, writes

FEWEST, FEWEST_OF_LIMB = 3, 2
MOST_GAPS = 0.8
"""Of what the tape goes round, that gaps may take away: our own."""
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
        height = writes("original.height", _mm(last.at_mm))
        at = named_key(f"{WHERE}.levels[{len(tape.levels) - 1}].at")
        remedy = f"The last level lies above {named_key('original.height')}: write {height}, or mend {at}."
        raise InputRefused("tape-above-height", last.at_mm, top_mm, "mm", remedy)
    body_mm = _body_top_mm(tape, top_mm)
    _top(last, body_mm, slack)
    for n, limb in enumerate(tape.limbs):
        _limb(limb, f"{WHERE}.limbs[{n}]", max(top_mm, last.at_mm) + slack, known)
    return max(body_mm, last.at_mm)


def _body_top_mm(tape: Tape, top_mm: float) -> float:
    """Where a limb reaches above the body's last level, the top is that limb's, and the body ends in a half ball."""
    last = tape.levels[-1]
    reach = max((max(limb.joins_at_mm, limb.ends_at_mm or 0.0) for limb in tape.limbs), default=0.0)
    return top_mm if reach <= last.at_mm else min(top_mm, last.at_mm + last.girth_mm / (2.0 * math.pi))


def check_gaps(gaps: Sequence[Gap], round_mm3: float) -> None:
    """Nothing, where the gaps leave something of the piece; InputRefused where not.

    Parameters
    ----------
    gaps : what the maker tells.
    round_mm3 : what the tape goes round, limbs and all [mm3].

    Source: our own.
    """
    told_mm3 = sum(gap_mm3(gap) for gap in gaps) * form().gap_full
    most_mm3 = MOST_GAPS * round_mm3
    if told_mm3 > most_mm3:
        largest = max(gaps, key=gap_mm3)
        over_mm3 = (told_mm3 - most_mm3) / form().gap_full
        deep = largest.depth_mm * max(1.0 - over_mm3 / gap_mm3(largest), 0.0)
        remedy = (
            f"The gaps leave next to nothing of the piece. {own_name(shown(largest.where))} is the largest: mend its "
            f"depth ({figure(math.floor(deep), 'mm')} at most for {figure(largest.depth_mm, 'mm')}), its width, or the "
            "girths."
        )
        raise InputRefused("tape-gaps-too-large", round(told_mm3 / 1000.0), round(most_mm3 / 1000.0), "ml", remedy)


def _top(last: TapeLevel, top_mm: float, slack_mm: float) -> None:
    """A dome over the last level is as high as that level is wide, at most."""
    most_mm = last.at_mm + last.girth_mm / math.pi + slack_mm
    if not is_tip(last) and top_mm > most_mm:
        told = f"no level between {figure(last.at_mm, 'mm')} and the top at {figure(top_mm, 'mm')}"
        limit = f"a top up to {figure(round(most_mm), 'mm')} over so wide a level"
        remedy = (
            f"Measure one more level near the top; where it runs out to a point, write "
            f"{writes('at', _mm(top_mm))}, {writes('girth', _mm(0.0))}. Else mend {named_key('original.height')}."
        )
        raise InputRefused("tape-top-open", told, limit, "", remedy)


def _stack(levels: Sequence[TapeLevel], where: str, fewest: int, known: ReadDoubt) -> None:
    if len(levels) < fewest:
        remedy = f"Measure {fewest} levels at least: at the foot, at the top, and wherever the form changes between."
        raise InputRefused("tape-too-few-levels", len(levels), fewest, "levels", remedy)
    for n, level in enumerate(levels):
        if n and level.at_mm <= levels[n - 1].at_mm:
            told = stands(f"{where}[{n}].at", f"{number(level.at_mm)} mm")
            same = level.at_mm == levels[n - 1].at_mm
            remedy = (
                "Leave one of the two out, or mend its height."
                if same
                else "Write the levels lowest first, along a limb from where it joins: swap the two, or mend a height."
            )
            raise InputRefused("tape-levels-order", told, f"above {figure(levels[n - 1].at_mm, 'mm')}", "", remedy)
        if is_tip(level):
            _tip(level, n, len(levels), where)
        else:
            _agree(level, f"{where}[{n}]", known)


def _tip(level: TapeLevel, n: int, count: int, where: str) -> None:
    if n < count - 1 or count == 1:
        remedy = "Only the last level may be a tip without a girth; leave this one out, or measure its girth."
        raise InputRefused(
            "tape-tip-inside", stands(f"{where}[{n}].girth", f"{number(level.girth_mm)} mm"), "above 0", "", remedy
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
        at, has, needs = named_key(where), figure(girth, "mm"), figure(2.0 * one, "mm")
        told = (
            f"{at}: girth {has} is less than twice the breadth, {needs}"
            if breadth is not None
            else f"{at}: girth {has} is less than twice the depth, {needs}"
        )
        less, more = number(girth / 2.0), number(2.0 * one)
        change, other = writes(f"{where}.{key}", f'"{less} mm"'), writes(f"{where}.girth", f'"{more} mm"')
        remedy = f"The smallest change that mends it: {change}, or {other}. Measure there again."
        raise InputRefused("tape-contradiction", told, f"girth of {needs} at least", "", remedy)


def _clash(level: TapeLevel, found: Clash, where: str) -> InputRefused:
    at, up, has = named_key(where), figure(level.at_mm, "mm"), figure(level.girth_mm, "mm")
    wide, deep = figure(level.breadth_mm or 0.0, "mm"), figure(level.depth_mm or 0.0, "mm")
    bound = figure(round(found.bound_mm, 1), "mm")
    told = (
        f"{at}, at {up}: girth {has} is more than the longest line round {wide} x {deep}"
        if found.too_long
        else f"{at}, at {up}: girth {has} is less than the shortest line round {wide} x {deep}"
    )
    limit = f"girth of {bound} at most" if found.too_long else f"girth of {bound} at least"
    mend = found.mend
    change, read = writes(f"{where}.{mend.key}", _mm(mend.mended_mm)), figure(mend.read_mm, "mm")
    by = figure(round(100 * mend.share, 1), "%")
    remedy = (
        f"The smallest change that mends it: {change} for {read}, {by} more. Measure there again."
        if mend.mended_mm > mend.read_mm
        else f"The smallest change that mends it: {change} for {read}, {by} less. Measure there again."
    )
    return InputRefused("tape-contradiction", told, limit, "", remedy)


def _limb(limb: Limb, where: str, top_mm: float, known: ReadDoubt) -> None:
    name = own_name(shown(limb.name))
    _stack(limb.levels, f"{where}.levels", FEWEST_OF_LIMB, known)
    for key, at in (("joins_at", limb.joins_at_mm), ("ends_at", limb.ends_at_mm)):
        if at is not None and at > top_mm and (key == "joins_at" or limb.gap_mm is not None):
            it, height = named_key(f"{where}.{key}"), named_key("original.height")
            remedy = f"{name} meets the body above its top: mend {it}, or {height}."
            raise InputRefused("tape-above-height", at, round(top_mm, 1), "mm", remedy)
    long = limb.levels[-1].at_mm
    ends = limb.joins_at_mm if limb.ends_at_mm is None else limb.ends_at_mm
    apart = abs(ends - limb.joins_at_mm)
    slack = 3.0 * known.at_mm + 0.05 * apart
    if apart > long + slack + limb.levels[-1].girth_mm / 6.0:
        least = _mm(math.ceil(apart - slack - limb.levels[-1].girth_mm / 6.0))
        down = 1.0 if ends >= limb.joins_at_mm else -1.0
        nearer = _mm(max(limb.joins_at_mm + down * long, 0.0))
        last = _last(limb, where)
        remedy = (
            f"{name} cannot reach so far: its last level is {figure(long, 'mm')} along it. The smallest change that "
            f"mends it: {writes(last, least)} for that, or {writes(f'{where}.ends_at', nearer)}."
        )
        raise InputRefused("tape-limb-too-short", round(apart, 1), round(long, 1), "mm from end to end", remedy)
    _bow(limb, name, where, apart, slack)


def _bow(limb: Limb, name: str, where: str, apart_mm: float, slack_mm: float) -> None:
    """How far a limb that meets the body again can stand off it: two straight lines from end to end."""
    if limb.gap_mm is None:
        return
    long_mm = limb.levels[-1].at_mm
    most_mm = math.sqrt(max(long_mm**2 - apart_mm**2, 0.0)) / 2.0 + slack_mm
    if limb.gap_mm > most_mm:
        longer = _mm(math.ceil(math.hypot(2.0 * (limb.gap_mm - slack_mm), apart_mm)))
        less = _mm(math.floor(most_mm))
        remedy = (
            f"{name} is {figure(long_mm, 'mm')} long, too short to go round such a gap. The smallest change that mends "
            f"it: {writes(f'{where}.gap', less)}, or {writes(_last(limb, where), longer)} for its last level."
        )
        raise InputRefused("tape-gap-too-wide", round(limb.gap_mm, 1), round(most_mm, 1), "mm", remedy)


def _last(limb: Limb, where: str) -> str:
    """The key of how far along a limb its last level is."""
    return f"{where}.levels[{len(limb.levels) - 1}].at"


def _mm(value: float) -> str:
    """A length as a commission has it."""
    return f'"{number(value)} mm"'
