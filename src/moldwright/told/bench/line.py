"""The screens of a run one after the other: if every press goes right, and where the work turns aside."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from moldwright.bench.run import RunFold
from moldwright.records.runs.ahead import Stand, onward, turned
from moldwright.told.bench.over import is_poured, over_rows, put_right_at
from moldwright.told.bench.screen import view_of
from moldwright.told.bench.screen_words import ScreenWords
from moldwright.told.bench.turns import turn_of, turns_at
from moldwright.told.bench.view import AheadShown
from moldwright.told.bench.view_cup import OverRow
from moldwright.told.bench.when import Moments
from moldwright.told.bench.which_stands import which_stands

BESIDE = 10
"""So many screens are told where the work turns aside: a cup of four parts weighed anew and laid, and some; our own."""


@dataclass(slots=True)
class ScreenLine:
    """The screens of a run.

    Parameters
    ----------
    words : of the plan.
    fold : of the plan.
    overs : of so many parts it is told what to do with too much.
    turns : of so many screens it is told what follows where the work turns aside.
    """

    words: ScreenWords
    fold: RunFold
    overs: int
    turns: int

    def shown(self, stands: Iterable[Stand]) -> Iterator[AheadShown]:
        """The screens, the present one first.

        Parameters
        ----------
        stands : the run at each press.
        """
        for number, stand, pressed in _numbered(stands, 0, {}):
            yield self._screen(number, stand, pressed, self._over(stand), self._turned(number, stand, pressed))

    def _over(self, stand: Stand) -> tuple[OverRow, ...]:
        if not self.overs or not is_poured(stand):
            return ()
        self.overs -= 1
        return over_rows(self.words, self.fold, stand)

    def _turned(self, number: int, stand: Stand, pressed: Mapping[int, int]) -> Mapping[str, tuple[AheadShown, ...]]:
        ways = tuple(turns_at(stand)) if self.turns else ()
        self.turns -= bool(ways)
        lines = ((turn_of(bodies[0]), onward(self.fold, turned(self.fold, stand, bodies), BESIDE)) for bodies in ways)
        return {
            turn: tuple(self._screen(*each, (), {}) for each in _numbered(line, number + 1, pressed))
            for turn, line in lines
        }

    def _screen(
        self,
        number: int,
        stand: Stand,
        pressed: Mapping[int, int],
        over: tuple[OverRow, ...],
        turns: Mapping[str, tuple[AheadShown, ...]],
    ) -> AheadShown:
        moments, before = Moments(pressed), stand.not_before
        till = None if before is None else moments.ends(before.ends, before.from_ms)
        asked = None if number else which_stands(self.words, stand.run, stand.next.cup)
        put_right = asked or put_right_at(self.words, self.fold, stand)
        return AheadShown(view_of(self.words, stand, moments, put_right), till, over, turns)


def _numbered(
    stands: Iterable[Stand], first: int, before: Mapping[int, int]
) -> Iterator[tuple[int, Stand, Mapping[int, int]]]:
    """Each with the presses made by then; a press's number is that of the screen that it is on."""
    pressed = dict(before)
    for number, stand in enumerate(stands, start=first):
        if stand.written and number:
            pressed.setdefault(stand.written[0].at_ms, number - 1)
        yield number, stand, dict(pressed)
