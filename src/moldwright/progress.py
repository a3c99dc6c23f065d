"""How long work tells how far it is: a callable taking the stage's name and the fraction done in [0, 1].

A caller cancels by raising from it (the command line raises KeyboardInterrupt).
"""

from __future__ import annotations

from collections.abc import Callable

Progress = Callable[[str, float], None]


def silent(stage: str, fraction: float) -> None:
    """Progress that nobody watches."""
