"""What to do with a cup that is late, or whose parts went in out of their order."""

from __future__ import annotations

from enum import StrEnum

from moldwright.bench.cup_now import CupNow, CupState, PartState
from moldwright.plan.mixes import REACTING, MixPlan, PartKind


class WhatNow(StrEnum):
    """What to do with a cup; the words are the sheets'.

    NOTHING_REACTS: an order that cost nothing, the rest goes in as planned and the clock starts when the second of the
    parts that react does. REACTS: it runs already, what is lacking goes in at once. FEEL: past the time by which it
    should be on the work: whether it still flows is felt, not reckoned. LET_SET: past its pot life: it is let set and
    not used. ANEW: nothing puts it right, or it gelled: another is mixed.
    """

    NOTHING_REACTS = "nothing-reacts"
    REACTS = "reacts"
    FEEL = "feel"
    LET_SET = "let-set"
    ANEW = "anew"


def what_now(cup: CupNow, now_ms: int) -> WhatNow | None:
    """What to do with a cup; None where it goes on as planned.

    Parameters
    ----------
    cup : as it stands.
    now_ms : the moment.
    """
    if cup.state is CupState.GELLED:
        return WhatNow.ANEW if cup.used < 1.0 else None
    if cup.settled:
        return None
    if cup.clock is not None and now_ms >= cup.clock.out_by_ms:
        return WhatNow.LET_SET if now_ms >= cup.clock.work_by_ms else WhatNow.FEEL
    if cup.refused is not None:
        return WhatNow.ANEW
    if cup.out_of_order is None:
        return WhatNow.REACTS if _lacks(cup) else None
    return WhatNow.REACTS if cup.clock is not None else WhatNow.NOTHING_REACTS


def _lacks(cup: CupNow) -> bool:
    """Whether it reacts while a part is not in that goes in before the last of those that react."""
    early = before_the_starter(cup.mix)
    return cup.clock is not None and any(p.kind in early and p.state is PartState.TO_COME for p in cup.parts)


def before_the_starter(mix: MixPlan) -> frozenset[PartKind]:
    """The parts that go in before the one that starts the clock, without those that react.

    Parameters
    ----------
    mix : as planned.
    """
    kinds = [part.kind for part in mix.parts]
    if mix.starter is None:
        return frozenset()
    return frozenset(kinds[: kinds.index(mix.starter)]) - REACTING
