"""What the steps ask to have at hand beside the rows of the shopping list, each thing once, with its steps."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.plan.plan import Plan
from moldwright.sheets.wording import Wording
from moldwright.steps.sentences import needs_listed
from moldwright.steps.sheet import Listed


def at_hand(plan: Plan, words: Wording, listed: Listed) -> list[list[str]]:
    """Things in the order in which they are first asked for, each with the numbers of its steps.

    Parameters
    ----------
    plan : the plan, whose standing steps say what they need.
    words : the reader's wording.
    listed : which of them, what is used up or what is the shop's.
    """
    these = needs_listed(listed)
    asked: dict[str, list[int]] = {}
    for number, step in enumerate(plan.steps, start=1):
        for line in step.needs:
            if line.say in these:
                asked.setdefault(words.line(line, step.quantities), []).append(number)
    return [[what, runs(dict.fromkeys(numbers))] for what, numbers in asked.items()]


def runs(numbers: Iterable[int]) -> str:
    """Numbers that rise, three or more in a row as from and to.

    Parameters
    ----------
    numbers : the numbers.

    >>> runs([2, 3, 5, 6, 7, 9])
    '2, 3, 5–7, 9'
    """
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    return ", ".join(f"{r[0]}–{r[-1]}" if len(r) > 2 else ", ".join(map(str, r)) for r in found)
