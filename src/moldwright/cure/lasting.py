"""Whether a mix lasts longer than mixing it takes: the one refusal of what gels in the cup."""

from __future__ import annotations

from collections.abc import Sequence

from moldwright.errors import NoSafePlan
from moldwright.ranges import Range

HAND_S = 60.0
"""What a hand needs at least to lay or pour a cup once it is stirred: common practice, no source."""


def refuse_unless_it_lasts(
    material: str, pot_life_s: Range, mixing_s: float, temperature_c: float, slower: Sequence[str] = ()
) -> None:
    """Refuse a mix whose pot life, at its low end, is not longer than mixing a cup of it.

    Parameters
    ----------
    material : its name, for the refusal
    pot_life_s : at the shop's temperature [s]
    mixing_s : from the first contact of the parts until the mix is stirred [s], >= 0
    temperature_c : the shop's [degC]
    slower : ids of classes of the same kind that would last

    Raises NoSafePlan ("pot-life-too-short"). Source: common practice, no source.
    """
    if pot_life_s.low > mixing_s:
        return
    choose = f"Choose a slower class ({', '.join(slower)})" if slower else "Choose a slower class"
    raise NoSafePlan(
        "pot-life-too-short",
        round(pot_life_s.low),
        round(mixing_s),
        "s",
        f"{material} may gel after {pot_life_s.low:.0f} s at {temperature_c:g} degC, and mixing it takes "
        f"{mixing_s:.0f} s. {choose}, cool the shop and the parts, or shorten the mixing time (shop.mixing).",
    )
