"""How much one cup may hold, what is done with it before it gels, and into how many cups an amount goes."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, inf

from moldwright.cure.potlife import mass_factor
from moldwright.errors import ComputationFailed, InputRefused, NoSafePlan
from moldwright.plan.mixes import CupTask, TaskKind
from moldwright.ways import figure, named_key

CUP_FILL = 0.75
"""Share of the cup that a mix may fill, so that it can be stirred: common practice, no source."""
MOST_CUPS = 500
"""More cups than this for one coat or pour are no plan: our own limit, no source."""


@dataclass(frozen=True, slots=True)
class CupClock:
    """What is done with a cup and how long it lasts, by its mass.

    `life_s` is the low end of the pot life in the sheet's mass `stated_g` (inf: the mix does not heat itself); inf: no
    clock runs. `hand`, laying, packing or pouring, takes `hand_s_per_g` and may take `share` of what mixing leaves of
    the life; the rest swirls it in the mold. `least_s`: no cup leaves the hand less than this.
    """

    life_s: float
    mixing_s: float
    hand: TaskKind
    hand_s_per_g: float
    stated_g: float = inf
    share: float = 1.0
    least_s: float = 0.0

    def work_by_s(self, mass_g: float) -> float:
        """When a cup of this mass may gel [s]: `f t_pot`, f by `mass_factor`; by then all its tasks are done."""
        return self.life_s * (1.0 if self.stated_g == inf else mass_factor(mass_g, self.stated_g))

    def left_s(self, mass_g: float) -> float:
        """What mixing and swirling leave for the hand in a cup of this mass [s]: `(f t_pot - t_mix) share`."""
        return (self.work_by_s(mass_g) - self.mixing_s) * self.share

    def tasks(self, mass_g: float, used_g: float) -> tuple[CupTask, ...]:
        """What is done with a cup of this mass, `used_g` of it on the work, from the parts' meeting on."""
        hand = CupTask(self.hand, round(used_g * self.hand_s_per_g, 1))
        swirl_s = (self.work_by_s(mass_g) - self.mixing_s) * (1.0 - self.share) if self.share < 1.0 else 0.0
        swirled = (CupTask(TaskKind.SWIRL, round(swirl_s, 1)),) if swirl_s > 0.0 else ()
        return (CupTask(TaskKind.MIX, round(self.mixing_s, 1)), hand, *swirled)

    def most_g(self) -> float:
        """The heaviest cup that is laid, packed or poured in time [g]: `max(m hand, least) = left(m)`, by bisection."""
        low_g, high_g = 0.0, (self.life_s - self.mixing_s) * self.share / self.hand_s_per_g
        if high_g <= self.stated_g:
            return high_g
        for _ in range(60):
            middle_g = (low_g + high_g) / 2.0
            in_time = max(middle_g * self.hand_s_per_g, self.least_s) <= self.left_s(middle_g)
            low_g, high_g = (middle_g, high_g) if in_time else (low_g, middle_g)
        return low_g


@dataclass(frozen=True, slots=True)
class CupLimit:
    """The most of a mix that one cup brings to the work in time [g], the most that can be stirred in it, its clock."""

    max_g: float
    cup_g: float
    clock: CupClock

    def holds_g(self, used_g: float) -> float:
        """The heaviest cup of which that much is on the work before it gels, the rest left over [g]; by bisection.

        Parameters
        ----------
        used_g : what the work takes [g]
        """
        hand_s = used_g * self.clock.hand_s_per_g
        low_g, high_g = used_g, max(used_g, self.cup_g)
        if hand_s <= self.clock.left_s(high_g):
            return high_g
        for _ in range(60):
            middle_g = (low_g + high_g) / 2.0
            low_g, high_g = (middle_g, high_g) if hand_s <= self.clock.left_s(middle_g) else (low_g, middle_g)
        return low_g


def cup_limit(clock: CupClock, cup_ml: float, density_g_ml: float, fill: float = CUP_FILL) -> CupLimit:
    """The most that one cup may hold so that its last gram is on the work before the earliest gel.

    `max_g = min((t_pot f(max_g) - t_mix) share / hand, fill V_cup rho)`, f by `cure.potlife.mass_factor`

    Parameters
    ----------
    clock : its pot life and tasks; its life at the shop's temperature above its mixing (`cure.lasting` refuses others):
        nine cups of ten last at least so long
    cup_ml : the cup's whole volume [ml], > 0
    density_g_ml : density of the mix [g/ml], > 0
    fill : share of the cup that may be filled, 0 to 1

    Source: common practice, no source.

    >>> round(cup_limit(CupClock(1080.0, 180.0, TaskKind.LAY, 60.0 / 25.0), 500.0, 1.08).max_g, 6)
    375.0
    """
    if not (clock.hand_s_per_g > 0 and cup_ml > 0 and density_g_ml > 0 and 0 < fill <= 1):
        raise InputRefused(
            "cup-not-usable",
            min(clock.hand_s_per_g, cup_ml, density_g_ml, fill),
            "> 0",
            "",
            "Check the shop's cup size and laying rate.",
        )
    if not clock.life_s > clock.mixing_s:
        raise ComputationFailed("cup-without-time", clock.life_s, clock.mixing_s, "s", "Please report this commission.")
    cup_g = fill * cup_ml * density_g_ml
    return CupLimit(min(clock.most_g(), cup_g), cup_g, clock)


def cup_count(total_g: float, limit_g: float, step_g: float) -> int:
    """The fewest cups that hold an amount.

    Parameters
    ----------
    total_g : what is needed [g], >= 0
    limit_g : the most in one cup [g], at least one scale step
    step_g : the scale's step [g], > 0

    Raises NoSafePlan ("cup-below-scale", "too-many-cups"). Source: arithmetic.

    >>> cup_count(100.0, 40.0, 0.1)
    3
    """
    if limit_g < step_g - 1e-9:
        raise NoSafePlan(
            "cup-below-scale",
            round(limit_g, 4),
            step_g,
            "g",
            "One cup may hold less than the scale can show: use a finer scale or a slower class.",
        )
    count = max(ceil(total_g / limit_g - 1e-9), 1)
    if count > MOST_CUPS:
        raise NoSafePlan(
            "too-many-cups",
            count,
            MOST_CUPS,
            "cups",
            f"{figure(round(total_g), 'g')} in cups of {figure(round(limit_g, 1), 'g')} at most: take larger cups "
            f"({named_key('shop.cup')}), a slower class, or a cooler shop.",
        )
    return count
