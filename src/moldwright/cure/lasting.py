"""Whether a mix lasts longer than mixing it takes: the one refusal of what gels in the cup."""

from __future__ import annotations

from collections.abc import Sequence

from moldwright.errors import NoSafePlan
from moldwright.ranges import Range
from moldwright.ways import figure, own_name, word

HAND_S = 60.0
"""What a hand needs at least to lay or pour a cup once it is stirred: common practice, no source."""


def least_life_s(mixing_s: float, share: float = 1.0) -> float:
    """The shortest pot life with which a cup can be used [s]: `t_mix + t_hand / share`.

    Parameters
    ----------
    mixing_s : from the first contact of the parts until the mix is stirred [s], >= 0
    share : share of what mixing leaves that laying or pouring may take, 0 to 1

    Source: common practice, no source.

    >>> least_life_s(30.0, 0.5)
    150.0
    """
    return mixing_s + HAND_S / share


def refuse_unless_it_lasts(
    material: str,
    pot_life_s: Range,
    mixing_s: float,
    temperature_c: float,
    slower: Sequence[str] = (),
    share: float = 1.0,
) -> None:
    """Refuse a mix whose pot life, at its low end, does not leave a hand its minute after a cup of it is mixed.

    Parameters
    ----------
    material : its name, for the refusal
    pot_life_s : at the shop's temperature [s]
    mixing_s : from the first contact of the parts until the mix is stirred [s], >= 0
    temperature_c : the shop's [degC]
    slower : ids of classes of the same kind that would last
    share : share of what mixing leaves that laying or pouring may take, 0 to 1

    Raises NoSafePlan ("pot-life-too-short"). Source: common practice, no source.
    """
    least_s = least_life_s(mixing_s, share)
    if pot_life_s.low >= least_s:
        return
    of, gels, air = word(material), figure(round(pot_life_s.low), "s"), figure(temperature_c, "degC")
    mixing, classes = figure(round(mixing_s), "s"), own_name(", ".join(slower))
    if share < 1.0 and slower:
        remedy = (
            f"{of} may gel after {gels} at {air}: mixing it takes {mixing}, a hand needs a minute of pouring, and most "
            f"of the rest is swirled in the mold. Choose a slower class ({classes}), or cool the shop and the parts."
        )
    elif share < 1.0:
        remedy = (
            f"{of} may gel after {gels} at {air}: mixing it takes {mixing}, a hand needs a minute of pouring, and most "
            "of the rest is swirled in the mold. Choose a slower class, or cool the shop and the parts."
        )
    elif slower:
        remedy = (
            f"{of} may gel after {gels} at {air}: mixing it takes {mixing}, and a hand needs a minute of laying or "
            f"pouring. Choose a slower class ({classes}), or cool the shop and the parts."
        )
    else:
        remedy = (
            f"{of} may gel after {gels} at {air}: mixing it takes {mixing}, and a hand needs a minute of laying or "
            "pouring. Choose a slower class, or cool the shop and the parts."
        )
    raise NoSafePlan("pot-life-too-short", round(pot_life_s.low), round(least_s), "s", remedy)
