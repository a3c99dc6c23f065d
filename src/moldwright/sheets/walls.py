"""The wall in the margin: its layers from the plan, and where each step stands in it."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from moldwright.plan.cast import CastWay
from moldwright.plan.coats import CoatPlan
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Phase, StepPlan
from moldwright.units import show_length
from moldwright.words.speaker import say, say_count

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
    plies = (say("{plies} plies", plies=plan.bandage.plies),) if plan.bandage else ()
    shell = tuple(_shell(number, plies) for number in range(len(plan.shell.pieces), 0, -1))
    skin = _skin(plan)
    fill = (_layer("back-fill"),) if plan.cast.way is CastWay.FILLED else ()
    return {
        "mold": (_layer("original"), *coats, _layer("wax"), *shell),
        "cast": (
            _layer("shell", (say_count("{shell} piece", "{shell} pieces", len(shell), shell=len(shell)),)),
            _layer("glove"),
            skin,
            *fill,
        ),
        "finish": (*fill, skin, _layer("dark-wax")),
    }


def _skin(plan: Plan) -> Layer:
    """The skin with its thickness; of a solid cast all of it, in the skin's place."""
    if plan.cast.way is CastWay.SOLID:
        return _layer("solid", key="skin")
    return _layer("skin", (show_length(plan.cast.skin.thickness_mm, plan.units),))


def _layer(kind: str, sub: tuple[str, ...] = (), **changes: Any) -> Layer:
    row = _table()["layer"][kind]
    return Layer(**{"key": kind, "sub": sub, **row, "name": say(row["name"]), **changes})


def _shell(number: int, plies: tuple[str, ...]) -> Layer:
    pattern = "weave" if number % 2 else "weave45"
    return _layer(
        "shell",
        plies,
        key=f"shell-{number}",
        name=say("Shell {number}", number=number),
        pattern=pattern,
    )


def _coat(plan: Plan, number: int, coat: CoatPlan) -> Layer:
    whole = sum(c.thickness_mm for c in plan.glove.coats) or 1.0
    pigments = _table()["pigment"]
    share = 0.45 + 2.2 * coat.thickness_mm / whole
    sub = (say(coat.gesture), show_length(coat.thickness_mm, plan.units))
    return Layer(
        f"coat-{number}",
        say("Coat {number}", number=number),
        sub,
        pigments[coat.pigment],
        coat.gesture,
        share,
        notches=number,
    )


def places(plan: Plan) -> tuple[Place, ...]:
    """Where every step of the plan stands, in the plan's order."""
    drawn = {name: [layer.key for layer in layers] for name, layers in walls(plan).items()}
    return tuple(_place(plan, step, drawn) for step in plan.steps)


def _place(plan: Plan, step: StepPlan, drawn: Mapping[str, Sequence[str]]) -> Place:
    row = _table()["phase"][step.phase]
    if step.phase is Phase.COAT and step.coat is not None:
        return _coat_place(plan, plan.coat(step.coat))
    solid = plan.cast.way is CastWay.SOLID
    heading = row.get("solid", row["heading"]) if solid else row["heading"]
    return Place(row["wall"], _index(row["layer"], drawn[row["wall"]]), say(heading))


def _coat_place(plan: Plan, coat: CoatPlan) -> Place:
    number = [each.id for each in plan.glove.coats].index(coat.id) + 1
    return Place(
        "mold",
        number,
        say(
            "Coat {number} of {coats}, {name}, {pigment}",
            number=number,
            coats=len(plan.glove.coats),
            name=say(coat.name),
            pigment=say(coat.pigment),
        ),
    )


def _index(layer: str, keys: Sequence[str]) -> int:
    """Which of the drawn layers is in hand; ALL where none of that name is drawn."""
    match layer:
        case "last-coat":
            return keys.index("wax") - 1
        case "last-shell":
            return len(keys) - 1
        case _:
            return keys.index(layer) if layer in keys else ALL
