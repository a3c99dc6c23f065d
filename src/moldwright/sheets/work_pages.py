"""Which steps and cards stand on which sheet, and where each sends to the next: the same for whatever they print."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Any

from moldwright.plan.mixes import MixFor
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per
from moldwright.sheets.mix_cards import kinds_of
from moldwright.sheets.step_texts import Numbered
from moldwright.sheets.wording import table

CardMaker = Callable[[MixFor, Sequence[int], MixFor | None], dict[str, Any]]
"""A card from what is mixed, the numbers of the steps that mix it, and what the card above is for."""


@dataclass(frozen=True, slots=True)
class WorkPages:
    """How pages are filled.

    Parameters
    ----------
    plan : the plan.
    step : a step's texts.
    card : a card.
    """

    plan: Plan
    step: Callable[[Numbered], dict[str, Any]]
    card: CardMaker

    def of_mold(self, steps: Iterable[Numbered]) -> list[dict[str, Any]]:
        """The mold's steps that share a page's beginning, in their order, below the cards of what they mix; those that
        mix nothing go on below.

        Parameters
        ----------
        steps : those that are no cast's.
        """
        together = [list(part) for _, part in groupby(steps, key=_page_of)]
        return [self._page(part, {}) for part in _followed(together)]

    def of_cast(self, steps: Sequence[Numbered]) -> list[dict[str, Any]]:
        """All steps that mix nothing; then a sheet of the cast's cards with the steps that mix them, to laminate, to
        which the others send where its turn comes.

        Parameters
        ----------
        steps : the cast's.
        """
        mixed, others = [its for its in steps if its.step.mixes], [its for its in steps if not its.step.mixes]
        elsewhere = {its.number: "cards" for its in mixed}
        rounds = [self._page(others, elsewhere)] if others else []
        return [*rounds, _among(self._page(mixed, {}, sends=False), others, mixed)] if mixed else rounds

    def _page(self, together: Sequence[Numbered], elsewhere: Mapping[int, str], sends: bool = True) -> dict[str, Any]:
        kinds = kinds_of(self.plan.mix(id_) for its in together for id_ in its.step.mixes)
        cards = [
            self.card(for_, [its.number for its in together if for_ in self._kinds(its)], above)
            for above, for_ in zip((None, *kinds), kinds, strict=False)
        ]
        told: list[dict[str, Any]] = []
        for its, following in pairwise([*together, None]):
            if its is None:
                continue
            told.append(self.step(its))
            last = len(self.plan.steps) if following is None else following.number - 1
            if sends and (following is not None or its.step.per is Per.CAST):
                told += _pointers(self.plan, range(its.number + 1, last + 1), elsewhere)
        return {"cards": cards, "steps": told}

    def _kinds(self, its: Numbered) -> tuple[MixFor, ...]:
        return kinds_of(map(self.plan.mix, its.step.mixes))


def _page_of(its: Numbered) -> str:
    """Steps with the same answer stand together: a coat's, a shell half's that is mixed."""
    step = its.step
    if step.coat is not None:
        return step.coat
    return str(step.phase) if step.mixes else ""


def _followed(together: Sequence[Sequence[Numbered]]) -> list[list[Numbered]]:
    """Each run of steps; one that mixes nothing goes on where the one before it ends, on the same sheet."""
    runs: list[list[Numbered]] = []
    for part in together:
        if runs and not any(its.step.mixes for its in part):
            runs[-1] += part
        else:
            runs.append(list(part))
    return runs


def _among(page: dict[str, Any], others: Sequence[Numbered], mixed: Sequence[Numbered]) -> dict[str, Any]:
    """The page of the cards between the steps before and after it."""
    before = [its.number for its in others if its.number < mixed[0].number][-1:]
    after = [its.number for its in others if its.number > mixed[-1].number][:1]
    first = [_pointer("first", before)] if before else []
    return page | {"steps": [*first, *page["steps"], *([_pointer("cast", after)] if after else [])]}


def _pointers(plan: Plan, missing: Iterable[int], elsewhere: Mapping[int, str]) -> list[dict[str, Any]]:
    """Where the steps are told that come next and stand on other sheets."""
    of = {k: elsewhere.get(k, "cast" if plan.steps[k - 1].per is Per.CAST else "mold") for k in missing}
    runs = [(where, [k for k, _ in run]) for where, run in groupby(of.items(), key=lambda row: row[1])]
    return [_pointer(where, run) for where, run in runs]


def _pointer(where: str, run: Sequence[int]) -> dict[str, Any]:
    """Where to go on: the form adds the number of the sheet."""
    return {"pointer": table()["card"][where].format(steps=_numbers(run)), "to": run[0]}


def _numbers(run: Sequence[int]) -> str:
    """Numbers of steps as they are told.

    >>> _numbers([40]), _numbers([35, 36, 37])
    ('step 40', 'steps 35 to 37')
    """
    return f"step {run[0]}" if len(run) == 1 else f"steps {run[0]} to {run[-1]}"
