"""The wall in the margin: its layers from the plan, and where each step stands in it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from moldwright.plan.plan import CoatPlan, Plan, StepPlan
from moldwright.units import show_length

ALL = 99
"""Above every layer: all are built."""


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer as it is drawn; `sub` are small lines under its name, `share` its part of the wall's height."""

    key: str
    name: str
    sub: tuple[str, ...]
    color: str
    pattern: str
    share: float
    notches: int = 0


@dataclass(frozen=True, slots=True)
class Place:
    """Where a step stands: the wall, the layer in hand (ALL: every layer is on) and the group of steps."""

    wall: str
    layer: int
    group: str


@cache
def _table() -> Mapping[str, Any]:
    return tomllib.loads(resources.files("moldwright.sheets").joinpath("walls.toml").read_text("utf-8"))


def walls(plan: Plan) -> dict[str, tuple[Layer, ...]]:
    """The three walls, each in the order in which its layers are made; a shell's piece 1, first off, is laid last."""
    coats = tuple(_coat(plan, number, coat) for number, coat in enumerate(plan.glove.coats, start=1))
    plies = (f"{plan.bandage.plies} plies",) if plan.bandage else ()
    shell = tuple(_shell(number, plies) for number in range(len(plan.shell.pieces), 0, -1))
    skin = _layer("skin", (show_length(plan.cast.skin.thickness_mm, plan.units),))
    fill = (_layer("back-fill"),) if plan.cast.backfill_ml > 0 else ()
    return {
        "mold": (_layer("original"), *coats, _layer("wax"), *shell),
        "cast": (_layer("shell", (f"{len(shell)} pieces",)), _layer("glove"), skin, *fill),
        "finish": (*fill, skin, _layer("dark-wax")),
    }


def _layer(key: str, sub: tuple[str, ...] = (), **changes: Any) -> Layer:
    row = _table()["layer"]["shell" if key.startswith("shell") else key]
    return Layer(**{"key": key, "sub": sub, **row, **changes})


def _shell(number: int, plies: tuple[str, ...]) -> Layer:
    return _layer(f"shell-{number}", plies, name=f"Shell {number}", pattern="weave" if number % 2 else "weave45")


def _coat(plan: Plan, number: int, coat: CoatPlan) -> Layer:
    whole = sum(c.thickness_mm for c in plan.glove.coats) or 1.0
    pigments = _table()["pigment"]
    color = pigments.get(coat.pigment, pigments["other"])
    pattern = coat.gesture if coat.gesture in ("stipple", "brush", "stick") else "brush"
    share = 0.45 + 2.2 * coat.thickness_mm / whole
    sub = (coat.gesture, show_length(coat.thickness_mm, plan.units))
    return Layer(f"coat-{number}", f"Coat {number}", sub, color, pattern, share, notches=number)


def places(plan: Plan) -> tuple[Place, ...]:
    """Where every step of the plan stands, in the plan's order."""
    drawn = {name: [layer.key for layer in layers] for name, layers in walls(plan).items()}
    found: list[Place] = []
    for step in plan.steps:
        before = found[-1] if found else Place("mold", 0, "Before the rubber")
        found.append(_place(plan, step, drawn, before))
    return tuple(found)


def _place(plan: Plan, step: StepPlan, drawn: Mapping[str, Sequence[str]], before: Place) -> Place:
    rule = next((r for r in _table()["rule"] if re.fullmatch(r["id"], step.id)), None)
    if rule is None:
        return before
    if rule["layer"] == "coat":
        number = _coat_number(plan, step)
        if number is None:
            return before
        coat = plan.glove.coats[number - 1]
        group = f"Coat {number} of {len(plan.glove.coats)}, {coat.name}, {coat.pigment}".rstrip(", ")
        return Place("mold", number, group)
    keys = drawn[rule["wall"]]
    return Place(rule["wall"], _index(rule["layer"], keys), rule["group"])


def _index(layer: str, keys: Sequence[str]) -> int:
    if layer == "last-coat":
        return max(k for k, key in enumerate(keys) if key.startswith(("coat-", "original")))
    if layer == "shell":
        return max((k for k, key in enumerate(keys) if key.startswith("shell")), default=ALL)
    return keys.index(layer) if layer in keys else ALL


def _coat_number(plan: Plan, step: StepPlan) -> int | None:
    """By the mix that the step uses, else by the coat's name in the step's id."""
    names = [coat.name for coat in plan.glove.coats]
    for index in step.mixes:
        if plan.mixes[index].for_ in names:
            return names.index(plan.mixes[index].for_) + 1
    for number in sorted(range(1, len(names) + 1), key=lambda n: -len(names[n - 1])):
        slug = re.sub(r"[^a-z0-9]+", "-", names[number - 1].lower()).strip("-")
        if re.fullmatch(rf"coat-({number}|{re.escape(slug)})(-.*)?", step.id):
            return number
    return None
