"""A direction as people and programs say it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.scan.scan import Vector
from moldwright.ways import writes

Points = NDArray[np.float64]
AXES = {sign + axis: (-1.0 if sign == "-" else 1.0) * np.eye(3)[k] for k, axis in enumerate("xyz") for sign in "+-"}
AN_UP = writes("original.up", '"+y"')


def direction_of(up: str | Vector) -> Points:
    """A direction as people write it: "+y", "-x", "z", or three numbers.

    The answer is a unit vector, (3,).

    Parameters
    ----------
    up : "+x" to "-z", a bare axis, or three numbers of any length above 0.

    Source: our own.

    >>> direction_of("-y").tolist()
    [0.0, -1.0, 0.0]
    """
    if isinstance(up, str):
        word = up.strip().lower()
        found = AXES.get(word if word[:1] in "+-" else f"+{word}")
        if found is None:
            raise InputRefused("up-unclear", up, ", ".join(AXES), "", f"Write {AN_UP}, or three numbers.")
        return np.asarray(found + 0.0, np.float64)
    numbers = np.asarray(up, np.float64).ravel()
    size = float(np.linalg.norm(numbers)) if len(numbers) == 3 else 0.0
    if not np.isfinite(size) or size == 0.0:
        raise InputRefused("up-unclear", str(up), "three numbers, not all 0", "", f"Write {AN_UP}, or three numbers.")
    return numbers / size


def snapped(direction: Points) -> Points:
    """A direction within 0.05 degrees of an axis is that axis.

    Our own; common practice, no source.

    Parameters
    ----------
    direction : (3,) unit vector.
    """
    for axis in AXES.values():
        if float(np.linalg.norm(direction - axis)) < np.radians(0.05):
            return np.asarray(axis + 0.0, np.float64)
    return direction


def name_of(direction: Points) -> str:
    """What a direction is called, as a field or an option takes it.

    Parameters
    ----------
    direction : (3,) unit vector; within 0.5 degrees of an axis it is called by that axis.

    Source: our own.

    >>> name_of(np.array([0.0, 0.0, -1.0])), name_of(np.array([0.0, 0.6, 0.8]))
    ('-z', '[0, 0.6, 0.8]')
    """
    for name, axis in AXES.items():
        if float(direction @ axis) > np.cos(np.radians(0.5)):
            return name
    return "[" + ", ".join(f"{value:.4g}" for value in np.round(direction, 4) + 0.0) + "]"


def in_commission(direction: Points) -> str:
    """A direction as a commission writes it.

    Parameters
    ----------
    direction : (3,) as for `name_of`.

    Source: our own.

    >>> in_commission(np.array([0.0, 0.0, -1.0])), in_commission(np.array([0.0, 0.6, 0.8]))
    ('"-z"', '[0, 0.6, 0.8]')
    """
    name = name_of(direction)
    return f'"{name}"' if name in AXES else name


def rotation_to_z(direction: Points) -> Points:
    """The shortest rotation that takes a unit vector to +z, (3, 3); half a turn about x for -z.

    R = I + [v] + [v]^2 / (1 + d_z), v = d x z (Rodrigues).

    Parameters
    ----------
    direction : (3,) unit vector.

    Source: Rodrigues' formula.

    >>> (rotation_to_z(np.array([0.0, 1.0, 0.0])) @ [0, 1, 0]).round(12).tolist()
    [0.0, 0.0, 1.0]
    """
    x, y, z = direction
    if z < -1 + 1e-12:
        return np.diag([1.0, -1.0, -1.0])
    cross = np.array([[0, 0, -x], [0, 0, -y], [x, y, 0]])
    turn: Points = np.eye(3) + cross + cross @ cross / (1 + z)
    return turn
