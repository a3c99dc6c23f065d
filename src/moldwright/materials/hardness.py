"""Stiffness of a rubber from its hardness."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.text.shown import short

SOFTEST_SHORE_A, HARDEST_SHORE_A = 5.0, 80.0


def youngs_modulus_mpa(shore_a: float, form: str = "gent") -> float:
    """Young's modulus at small strain from Shore A hardness S.

    Gent: E = 0.0981 (56 + 7.62336 S) / (0.137505 (254 - 2.54 S)); log form: log10 E = 0.0235 S - 0.6403

    Parameters
    ----------
    shore_a : hardness, 5 to 80 [Shore A].
    form : "gent" or "log".

    Valid within about 30 % in use. Up to Shore A 40 the two forms agree within that; at 50 the log form lies 40 %
    higher.

    >>> round(youngs_modulus_mpa(30), 4), round(youngs_modulus_mpa(30, "log"), 3)
    (1.1424, 1.161)

    Source: A. N. Gent, On the relation between indentation hardness and Young's modulus, Rubber Chem. Technol. 31
    (1958) 896 (from memory); log form: common regression for Shore A, from memory.
    """
    if not SOFTEST_SHORE_A <= shore_a <= HARDEST_SHORE_A:
        limit = f"{SOFTEST_SHORE_A:g} to {HARDEST_SHORE_A:g}"
        raise InputRefused("hardness-out-of-range", shore_a, limit, "Shore A", "The formula holds only within it.")
    if form == "gent":
        return 0.0981 * (56.0 + 7.62336 * shore_a) / (0.137505 * (254.0 - 2.54 * shore_a))
    if form == "log":
        return float(10.0 ** (0.0235 * shore_a - 0.6403))
    raise InputRefused("unknown-form", short(form), "gent or log", remedy='Ask for "gent" or "log".')
