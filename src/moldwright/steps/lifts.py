"""What a step lifts, and what cups hold."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from math import fsum

from moldwright.plan.mixes import BACK_FILL, SKIN, MixPlan, PartKind
from moldwright.quantities.quantities import Quantities

LIFT_FROM_KG = 3.0
"""From here on a lift is cautioned and told how; lighter, its weight alone is told. The lowest figure, for any place
and person, of the guideline filter in the British HSE's guidance on manual handling, L23 (from memory)."""
TWO_LIFT_FROM_KG = 15.0
"""From here on two people lift, or an aid: common practice, no source."""


class Lift(StrEnum):
    """What is lifted: the original on its plinth; that with its glove; and with its shell; the glove in its shell;
    that filled; one cast."""

    ORIGINAL = "original"
    GLOVED = "gloved"
    SHELLED = "shelled"
    MOLD = "mold"
    FILLED = "filled"
    CAST = "cast"


def lift_kg(lift: Lift, job: Quantities) -> float:
    """What is lifted [kg]: volumes times densities, likely values.

    Parameters
    ----------
    lift : what.
    job : the quantities.

    A solid original is assumed: a hollow one weighs less. Densities of originals: class default, from memory.
    """
    original, mold = original_g(job), job.rubber.glove_g.likely + job.shell_g.likely
    cast = job.cast.cast.mass_g.likely
    poured = mixed_g((*job.mixes_for(SKIN), *job.mixes_for(BACK_FILL)))
    masses = {
        Lift.ORIGINAL: original,
        Lift.GLOVED: original + job.rubber.glove_g.likely,
        Lift.SHELLED: original + mold,
        Lift.MOLD: mold,
        Lift.FILLED: max(cast, poured) + mold,
        Lift.CAST: cast,
    }
    return masses[lift] / 1000.0


def original_g(job: Quantities) -> float:
    """A solid original with its plinth [g]; the plinth at the same density.

    `m = (V_original + V_plinth) rho`

    Parameters
    ----------
    job : the volumes and the original's material.

    Source: densities are class defaults, from memory.
    """
    volume_ml = job.measures.piece.volume_ml + job.measures.cavity.plinth_ml
    return volume_ml * job.basis.chosen.material.density_g_ml


def mixed_g(mixes: Iterable[MixPlan]) -> float:
    """What goes into these cups [g].

    Parameters
    ----------
    mixes : the cups.
    """
    return fsum(mix.mass_g for mix in mixes)


def powder_g(job: Quantities) -> float:
    """Powder of one cast [g]: what the skin's cups hold of it.

    Parameters
    ----------
    job : the cups.
    """
    return fsum(part.mass_g for mix in job.mixes_for(SKIN) for part in mix.parts if part.kind is PartKind.POWDER)
