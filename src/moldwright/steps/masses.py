"""What a step weighs out or lifts."""

from __future__ import annotations

from moldwright.steps.context import StepContext
from moldwright.steps.sheet import density_g_ml
from moldwright.units import show_mass


def lift_kg(name: str, context: StepContext) -> float | None:
    """What is lifted in a step [kg]: volumes times densities, likely values.

    Parameters
    ----------
    name : "" for nothing; "original" (on its plinth), "gloved", "shelled", "mold" (glove in its shell), "filled" or
        "cast".
    context : the quantities.

    A solid original is assumed: a hollow one weighs less. Densities of originals: class default, from memory.
    """
    original = original_g(context)
    glove, shell, cast = context.glove_g.likely, context.shell_g.likely, context.cast.mass_g.likely
    poured = mixed_g(context, context.mixes_for("skin") + context.mixes_for("back-fill"))
    masses = {
        "original": original,
        "gloved": original + glove,
        "shelled": original + glove + shell,
        "mold": glove + shell,
        "filled": glove + shell + max(cast, poured),
        "cast": cast,
    }
    return None if not name else round(masses[name] / 1000.0, 2)


def original_g(context: StepContext) -> float:
    """A solid original with its plinth [g]; the plinth at the same density.

    `m = (V_original + V_plinth) rho`

    Parameters
    ----------
    context : the volumes and the original's material.

    Source: densities are class defaults, from memory.
    """
    density, _ = density_g_ml(context.commission.original.material)
    return (context.volumes.original_ml + context.volumes.plinth_ml) * density


def mixed_g(context: StepContext, mixes: tuple[int, ...]) -> float:
    """What goes into these cups [g].

    Parameters
    ----------
    context : the cups.
    mixes : which of them, as indices.
    """
    return sum(part.mass_g for i in mixes for part in context.mixes[i].parts)


def powder_g(context: StepContext) -> float:
    """Powder of one cast [g]: what the skin's cups hold of it.

    Parameters
    ----------
    context : the cups and the powder.
    """
    name = context.powder.name if context.powder else ""
    parts = [part for i in context.mixes_for("skin") for part in context.mixes[i].parts]
    return sum(part.mass_g for part in parts if part.name == name)


def show_kg(kg: float, units: str) -> str:
    """A weight that someone lifts.

    Parameters
    ----------
    kg : weight [kg].
    units : "metric" or "us".

    >>> show_kg(5.24, "metric"), show_kg(2.0, "us")
    ('5.2 kg', '4 lb 6.5 oz')
    """
    return f"{kg:.1f} kg" if units == "metric" else show_mass(kg * 1000.0, units)
