"""Stiffness of a rubber from its hardness."""

from __future__ import annotations

from moldwright.errors import InputRefused

SOFTEST_SHORE_A, HARDEST_SHORE_A = 5.0, 80.0


def youngs_modulus_mpa(shore_a: float) -> float:
    """Young's modulus at small strain from Shore A hardness S, by Gent's indentation.

    E = 0.0981 (56 + 7.62336 S) / (0.137505 (254 - 2.54 S)). Valid within about 30 % in use.

    Parameters
    ----------
    shore_a : hardness, 5 to 80 [Shore A].

    >>> round(youngs_modulus_mpa(30), 4)
    1.1424

    Source: A. N. Gent, On the relation between indentation hardness and Young's modulus, Rubber Chem. Technol. 31
    (1958) 896 (from memory).
    """
    shore = _within(shore_a)
    return 0.0981 * (56.0 + 7.62336 * shore) / (0.137505 * (254.0 - 2.54 * shore))


def regressed_modulus_mpa(shore_a: float) -> float:
    """Young's modulus at small strain by regression: log10 E = 0.0235 S - 0.6403.

    Up to Shore A 40 it agrees with Gent's form within 30 %; at 50 it lies 40 % higher.

    Parameters
    ----------
    shore_a : hardness, 5 to 80 [Shore A].

    >>> round(regressed_modulus_mpa(30), 3)
    1.161

    Source: common regression for Shore A, from memory.
    """
    return float(10.0 ** (0.0235 * _within(shore_a) - 0.6403))


def _within(shore_a: float) -> float:
    if not SOFTEST_SHORE_A <= shore_a <= HARDEST_SHORE_A:
        limit = f"{SOFTEST_SHORE_A:g} to {HARDEST_SHORE_A:g}"
        raise InputRefused("hardness-out-of-range", shore_a, limit, "Shore A", "The formula holds only within it.")
    return shore_a
