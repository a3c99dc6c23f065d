"""What the solids of a mold are called."""

from __future__ import annotations

from moldwright.plan.plan import Plan
from moldwright.told.surfaces.places import draw_words
from moldwright.told.surfaces.quantity import Solid
from moldwright.units import show_length, show_volume
from moldwright.units.system import UnitSystem
from moldwright.words.speaker import say


def solid_words(id_: str, kind: Solid, plan: Plan, units: UnitSystem) -> tuple[str, str]:
    """A name, and a line about it.

    Parameters
    ----------
    id_ : its own: of coats and pieces with their number, from 1.
    kind : what it is.
    plan : the plan.
    units : of who reads.
    """
    number = int(id_.rpartition("-")[2]) if "-" in id_ else 0
    match kind:
        case Solid.ORIGINAL:
            return say("Original"), say("{height} tall", height=show_length(plan.original.height_mm, units))
        case Solid.MOUNT:
            plinth = plan.mouth.plinth
            high = say("{height} high", height=show_length(plinth.height_mm, units)) if plinth else ""
            return say("Plinth"), high
        case Solid.COAT:
            coat = plan.glove.coats[number - 1]
            return say("Coat {num}, {name}", num=number, name=coat.name), show_length(coat.thickness_mm, units)
        case Solid.RUBBER:
            return say("Packed"), show_volume(plan.glove.fill.volume_ml, units)
        case Solid.SHELL:
            name = say("Shell {num}, off first", num=1) if number == 1 else say("Shell {num}", num=number)
            return name, draw_words(plan.shell.pieces[number - 1].draw)
