"""What a maker is told where a bench's clock cannot be right: what was written is kept all the same."""

from __future__ import annotations

from collections.abc import Sequence

from moldwright.desk.say import say
from moldwright.records.doubts import Doubt, TimeDoubt
from moldwright.text.harmless import harmless

HOUR_MS, DAY_MS = 3_600_000, 86_400_000
TEXTS = {
    TimeDoubt.AHEAD: "what it wrote just now stands {far} in the future",
    TimeDoubt.SET_BACK: "it wrote at a time {far} later before",
}


def tell_doubts(found: Sequence[Doubt]) -> None:
    """Say on stderr whose clock to look at, each bench once, by its largest doubt.

    Parameters
    ----------
    found : the doubts of what was kept.
    """
    for bench in sorted({doubt.bench for doubt in found}):
        worst = max((doubt for doubt in found if doubt.bench == bench), key=lambda doubt: doubt.by_ms)
        said = TEXTS[worst.what].format(far=far(worst.by_ms))
        say(f"Look at the clock of {harmless(bench)}: {said}. It is kept.", to_stderr=True)


def far(by_ms: int) -> str:
    """How far off a clock is, in words.

    Parameters
    ----------
    by_ms : milliseconds.

    >>> far(660_000), far(3 * 3_600_000), far(400 * 86_400_000)
    ('11 min', '3 h', '400 days')
    """
    if by_ms < HOUR_MS:
        return f"{by_ms // 60_000} min"
    return f"{by_ms // HOUR_MS} h" if by_ms < 2 * DAY_MS else f"{by_ms // DAY_MS:,} days"
