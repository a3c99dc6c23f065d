"""A recipe as its events tell it: its newest state, and those before it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import fsum

from moldwright.log.any_events import Noted
from moldwright.log.event import Event
from moldwright.log.ids import EventId, RecipeId
from moldwright.log.recipe_events import RecipeDropped, RecipeKept
from moldwright.log.standing import standing


@dataclass(frozen=True, slots=True)
class RecipeState:
    """A recipe as it was kept once: by which event, when, and what."""

    event: EventId
    at_ms: int
    kept: RecipeKept

    @property
    def mass_g(self) -> float:
        """All parts together [g]."""
        return fsum(part.mass_g for part in self.kept.parts)


@dataclass(frozen=True, slots=True)
class KeptRecipe:
    """A recipe; `states` in their order, the last one being how it is mixed now; `dropped`: why, None: it is used."""

    id: RecipeId
    states: tuple[RecipeState, ...]
    dropped: str | None
    notes: tuple[str, ...]

    @property
    def now(self) -> RecipeState:
        """How it is mixed now."""
        return self.states[-1]

    @property
    def name(self) -> str:
        """What it is called."""
        return self.now.kept.name


def fold_recipe(events: Iterable[Event]) -> KeptRecipe | None:
    """A recipe by its events; None where none that stands keeps it.

    A recipe that was dropped and is kept again afterwards is used again.

    Parameters
    ----------
    events : of one recipe, in any order, some perhaps twice.
    """
    kept = standing(events)
    states = [RecipeState(event.id, event.at_ms, event.body) for event in kept if isinstance(event.body, RecipeKept)]
    if not states:
        return None
    ends = [event.body for event in kept if isinstance(event.body, RecipeKept | RecipeDropped)]
    dropped = ends[-1].why if isinstance(ends[-1], RecipeDropped) else None
    return KeptRecipe(
        RecipeId(kept[0].subject),
        tuple(states),
        dropped,
        tuple(event.body.text for event in kept if isinstance(event.body, Noted)),
    )
