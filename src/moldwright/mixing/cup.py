"""How much one cup may hold, and into how many equal cups an amount goes."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import ceil, inf

from moldwright.cure.potlife import mass_factor
from moldwright.errors import ComputationFailed, InputRefused, NoSafePlan
from moldwright.mixing.scale_steps import grams, steps_of

CUP_FILL = 0.75
"""Share of the cup that a mix may fill, so that it can be stirred: common practice, no source."""
MOST_CUPS = 500
"""More cups than this for one coat or pour are no plan: our own limit, no source."""


@dataclass(frozen=True, slots=True)
class CupClock:
    """How long a cup may be worked, by its mass.

    `life_s` is the low end of the pot life in the sheet's mass `stated_g` (inf: the mix does not heat itself); pouring
    or laying may take `share` of what mixing leaves of it.
    """

    life_s: float
    mixing_s: float
    stated_g: float = inf
    share: float = 1.0

    def work_by_s(self, mass_g: float) -> float:
        """When a cup of this mass must be on the work [s]: `t_mix + (f t_pot - t_mix) share`, f by `mass_factor`."""
        life_s = self.life_s * (1.0 if self.stated_g == inf else mass_factor(mass_g, self.stated_g))
        return self.mixing_s + (life_s - self.mixing_s) * self.share

    def most_g(self, rate_g_per_min: float) -> float:
        """The heaviest cup that is laid or poured in time [g]: `m / rate = work_by(m) - t_mix`, by bisection."""
        low_g, high_g = 0.0, (self.life_s - self.mixing_s) * self.share / 60.0 * rate_g_per_min
        if high_g <= self.stated_g:
            return high_g
        for _ in range(60):
            middle_g = (low_g + high_g) / 2.0
            left_s = self.work_by_s(middle_g) - self.mixing_s
            in_time = middle_g * 60.0 / rate_g_per_min <= left_s
            low_g, high_g = (middle_g, high_g) if in_time else (low_g, middle_g)
        return low_g


@dataclass(frozen=True, slots=True)
class CupLimit:
    """The most a cup may hold [g], and when such a cup must be on the work [s]."""

    max_g: float
    work_by_s: float
    clock: CupClock | None = field(default=None, repr=False)

    def work_by_of(self, mass_g: float) -> float:
        """When a cup of this mass must be on the work [s]; a lighter one may have longer."""
        return self.clock.work_by_s(mass_g) if self.clock else self.work_by_s


def cup_limit(
    pot_life_low_s: float,
    mixing_s: float,
    rate_g_per_min: float,
    cup_ml: float,
    density_g_ml: float,
    fill: float = CUP_FILL,
    stated_g: float = inf,
    share: float = 1.0,
) -> CupLimit:
    """The most that one cup may hold so that its last gram is on the work before the earliest gel.

    `max_g = min(rate (t_pot f(max_g) - t_mix) share, fill V_cup rho)`, f by `cure.potlife.mass_factor`

    Parameters
    ----------
    pot_life_low_s : low end of the pot life at the shop's temperature [s], above `mixing_s` (`cure.lasting` refuses
        others): nine cups of ten last at least so long
    mixing_s : from the first contact of the parts until the mix is stirred [s], >= 0
    rate_g_per_min : how fast it is laid or poured [g/min], > 0
    cup_ml : the cup's whole volume [ml], > 0
    density_g_ml : density of the mix [g/ml], > 0
    fill : share of the cup that may be filled, 0 to 1
    stated_g : mass that the pot life is stated for [g]; inf for a mix that does not heat itself
    share : share of the time left after mixing that laying or pouring may take, 0 to 1

    Source: common practice, no source.

    >>> cup_limit(1080.0, 180.0, 25.0, 500.0, 1.08)
    CupLimit(max_g=375.0, work_by_s=1080.0)
    """
    if not (rate_g_per_min > 0 and cup_ml > 0 and density_g_ml > 0 and 0 < fill <= 1):
        raise InputRefused(
            "cup-not-usable",
            min(rate_g_per_min, cup_ml, density_g_ml, fill),
            "> 0",
            "",
            "Check the shop's cup size and laying rate.",
        )
    if not pot_life_low_s > mixing_s:
        raise ComputationFailed("cup-without-time", pot_life_low_s, mixing_s, "s", "Please report this commission.")
    clock = CupClock(pot_life_low_s, mixing_s, stated_g, share)
    most_g = min(clock.most_g(rate_g_per_min), fill * cup_ml * density_g_ml)
    return CupLimit(most_g, clock.work_by_s(most_g), clock)


def equal_cups(total_g: float, limit_g: float, step_g: float) -> tuple[float, ...]:
    """The fewest equal cups, each a whole number of scale steps, together exactly the total.

    `n = ceil(total / limit)`; the first cups take one step more where the steps do not divide.

    Parameters
    ----------
    total_g : what is needed [g], >= 0; rounded to whole scale steps
    limit_g : the most in one cup [g], at least one scale step
    step_g : the scale's step [g], > 0

    Raises NoSafePlan ("cup-below-scale", "too-many-cups"). Source: arithmetic.

    >>> equal_cups(100.0, 40.0, 0.1)
    (33.4, 33.3, 33.3)
    """
    whole = steps_of(total_g, step_g)
    most = int(limit_g / step_g + 1e-9)
    if most < 1:
        raise NoSafePlan(
            "cup-below-scale",
            round(limit_g, 4),
            step_g,
            "g",
            "One cup may hold less than the scale can show: use a finer scale or a slower class.",
        )
    if whole == 0:
        return ()
    count = ceil(whole / most)
    if count > MOST_CUPS:
        raise NoSafePlan(
            "too-many-cups",
            count,
            MOST_CUPS,
            "cups",
            f"{total_g:.0f} g in cups of {limit_g:.1f} g at most: take larger cups (shop.cup), a slower class, "
            "or a cooler shop.",
        )
    small, extra = divmod(whole, count)
    return tuple(grams(small + (1 if i < extra else 0), step_g) for i in range(count))
