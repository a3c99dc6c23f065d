"""How rolls of bandage are cut into strips with little left over."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from math import ceil

from moldwright.plan.mold import PlyCut, RollCut

UNIT_MM = 0.1
"""Lengths are laid out in whole steps of this."""

Pattern = tuple[tuple[int, int], ...]
"""What one roll gives: lengths in steps, longest first, and how many."""


def rolls_cut(cuts: Iterable[PlyCut], roll_mm: float) -> tuple[RollCut, ...]:
    """Every length laid out on rolls, rolls that are cut alike together, those with the longest first.

    Two ways are tried and the one with fewer rolls taken: longest first onto the first roll that still holds it, at
    most 11/9 of the least number and one more; and roll by roll the fullest that can be made of what is left. A length
    beyond a roll is pieced of whole rolls.

    Parameters
    ----------
    cuts : how many of each length, all lengths [mm] > 0.
    roll_mm : length of a roll [mm], > 0.

    Source: first fit decreasing and its bound: Dosa 2007, "The tight bound of first fit decreasing bin-packing
    algorithm is FFD(I) <= 11/9 OPT(I) + 6/9" (from memory); the fullest roll is a subset sum by dynamic programming.

    >>> [(roll.rolls, [(cut.count, cut.length_mm) for cut in roll.cuts]) for roll in
    ...  rolls_cut([PlyCut(300.0, 4), PlyCut(250.0, 8)], 1100.0)]
    [(2, [(2, 300.0), (2, 250.0)]), (1, [(4, 250.0)])]
    """
    room, wanted = round(roll_mm / UNIT_MM), Counter[int]()
    for cut in cuts:
        length = round(cut.length_mm / UNIT_MM)
        wanted[min(length, room)] += cut.count * max(1, ceil(length / room))
    ways = _first_fit(wanted, room), _fullest_first(wanted, room)
    best = min(ways, key=lambda way: (sum(way.values()), len(way)))
    return tuple(
        RollCut(rolls, tuple(PlyCut(round(length * UNIT_MM, 1), count) for length, count in pattern))
        for pattern, rolls in sorted(best.items(), reverse=True)
    )


def _first_fit(wanted: Mapping[int, int], room: int) -> Counter[Pattern]:
    left: list[int] = []
    on: list[Counter[int]] = []
    for length, count in sorted(wanted.items(), reverse=True):
        first = 0
        for _ in range(count):
            while first < len(left) and left[first] < length:
                first += 1
            if first == len(left):
                left.append(room)
                on.append(Counter())
            left[first] -= length
            on[first][length] += 1
    return Counter(_pattern(each) for each in on)


def _fullest_first(wanted: Mapping[int, int], room: int) -> Counter[Pattern]:
    """The fullest roll as often as there is enough for it, then the fullest of what is left."""
    left, made = Counter(wanted), Counter[Pattern]()
    while left.total():
        roll = _fullest(left, room)
        times = min(left[length] // count for length, count in roll.items())
        made[_pattern(roll)] += times
        left -= Counter({length: count * times for length, count in roll.items()})
    return made


def _fullest(left: Mapping[int, int], room: int) -> Counter[int]:
    """What fills a roll best: sums that can be made are bits of one number, lengths joined one by one."""
    lengths = [n for n, count in sorted(left.items(), reverse=True) for _ in range(min(count, room // n))]
    within, sums = (1 << room + 1) - 1, [1]
    for length in lengths:
        sums.append((sums[-1] | sums[-1] << length) & within)
    total, taken = sums[-1].bit_length() - 1, Counter[int]()
    for length, before in zip(reversed(lengths), reversed(sums[:-1]), strict=True):
        if not before >> total & 1:
            taken[length] += 1
            total -= length
    return taken


def _pattern(roll: Mapping[int, int]) -> Pattern:
    return tuple(sorted(roll.items(), reverse=True))
