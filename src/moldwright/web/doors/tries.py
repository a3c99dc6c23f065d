"""How often somebody may try to come in: by address and by all together. What succeeds is no longer counted.

Source: NIST SP 800-63B, 5.2.2 (no more than 100 failed tries in a row; from memory); 5 in 10 min and 30 in an hour are
our own: whoever mistypes has another try, and who guesses has 720 a day.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from ipaddress import IPv6Address, ip_network
from threading import Lock

from moldwright.errors import InputRefused
from moldwright.web.doors.calls import address_of
from moldwright.words.speaker import say

EVERYBODY = "everybody"
MIN_MS = 60_000
OF_ONE, OF_ALL = (5, 10 * MIN_MS), (30, 60 * MIN_MS)
"""So many tries in so long, from one address and from all."""
HOME_PREFIX = 64
"""One home or one person has a whole network of so many fixed bits of IPv6 (RFC 6177, 2: at least a /64)."""


@dataclass(frozen=True, slots=True)
class TooOften:
    """Too many tries: how many, of how many in how long, and when the next one may be made [s]."""

    tries: int
    most: int
    within_s: int
    wait_s: int

    def refusal(self) -> InputRefused:
        """It as a refusal that tells when to try again."""
        minutes = -(-self.wait_s // 60)
        tried = f"{self.tries} tries in {self.within_s // 60} min"
        remedy = say(
            "Try again in {minutes} min; or have the owner invite this device, on the machine that runs the desk.",
            minutes=minutes,
        )
        return InputRefused("too-often", tried, say("{most} at most", most=self.most), "", remedy)


@dataclass(slots=True)
class Tries:
    """Tries of late.

    Parameters
    ----------
    now_ms : the clock.
    made : when each was made, by who made it; nothing older than an hour.
    lock : who counts.
    """

    now_ms: Callable[[], int]
    made: dict[str, deque[int]] = field(default_factory=dict)
    lock: Lock = field(default_factory=Lock)

    def claim(self, address: str) -> TooOften | None:
        """Count a try before it is looked at, so that many at once are counted too; told where it is too many.

        Parameters
        ----------
        address : from where.
        """
        who, now = network_of(address), self.now_ms()
        with self.lock:
            self._forget(now)
            refused = self._over(who, now, *OF_ONE) or self._over(EVERYBODY, now, *OF_ALL)
            if refused is None:
                for each in (who, EVERYBODY):
                    self.made.setdefault(each, deque()).append(now)
        return refused

    def forgive(self, address: str) -> None:
        """Take back the newest try of an address: it succeeded.

        Parameters
        ----------
        address : from where.
        """
        with self.lock:
            for who in (network_of(address), EVERYBODY):
                if self.made.get(who):
                    self.made[who].pop()

    def _over(self, who: str, now: int, most: int, within_ms: int) -> TooOften | None:
        lately = [at for at in self.made.get(who, ()) if at > now - within_ms]
        if len(lately) < most:
            return None
        wait_ms = lately[-most] + within_ms - now
        return TooOften(len(lately) + 1, most, within_ms // 1000, -(-wait_ms // 1000))

    def _forget(self, now: int) -> None:
        """What is older than any limit looks back, and what a clock that was set back has left in the future."""
        for who, times in list(self.made.items()):
            kept = deque(at for at in times if now - OF_ALL[1] < at <= now)
            if kept:
                self.made[who] = kept
            else:
                del self.made[who]


def network_of(address: str) -> str:
    """Who an address stands for.

    Parameters
    ----------
    address : as the socket tells it.

    >>> network_of("2001:db8:0:1::7"), network_of("::ffff:192.0.2.7"), network_of("nobody")
    ('2001:db8:0:1::/64', '192.0.2.7', 'nobody')
    """
    found = address_of(address)
    if isinstance(found, IPv6Address):
        return str(ip_network((found, HOME_PREFIX), strict=False))
    return str(found) if found else address
