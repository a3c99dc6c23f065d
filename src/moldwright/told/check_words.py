"""What a check of the records found, in words: the same at the terminal and on the page."""

from __future__ import annotations

from moldwright.records.check.finding import ShopFinding
from moldwright.records.check.whole import ShopCheck
from moldwright.text.harmless import harmless
from moldwright.words.speaker import say


def held(found: ShopCheck) -> str:
    """Which store was looked at, and how much is in it.

    Parameters
    ----------
    found : by the check.
    """
    things = "1 thing" if found.subjects == 1 else f"{found.subjects:,} things" if found.subjects is not None else ""
    told = "" if found.events is None else f": {found.events:,} events about {things}"
    return f"{harmless(found.shop)}{told}"


def verdict(found: ShopCheck) -> str:
    """Whether anything in it contradicts anything.

    Parameters
    ----------
    found : by the check.
    """
    more = "" if found.findings else say(" Nothing to heed.")
    return f"{say('Sound.') if found.sound else say('Not sound.')}{more}"


def heading(finding: ShopFinding) -> str:
    """What is amiss, and how often.

    Parameters
    ----------
    finding : one kind of case.
    """
    many = f" ({finding.count:,} times)" if finding.count > 1 else ""
    return f"{finding.kind.text}{many} ({finding.kind.code})"


def named(finding: ShopFinding) -> tuple[str, ...]:
    """Which they are: the first of them.

    Parameters
    ----------
    finding : one kind of case.
    """
    more = ("…",) if finding.count > len(finding.which) else ()
    return (*(harmless(one) for one in finding.which), *more)
