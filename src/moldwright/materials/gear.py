"""What people wear against what can hurt them, by the consumables it is bought as."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from moldwright.materials.shipped import shipped


class Gear(StrEnum):
    """Something to wear; which class of it, the supplier's safety data sheet says."""

    GLOVES = "gloves"
    SOLVENT_GLOVES = "solvent gloves"
    CUT_GLOVE = "cut-resistant glove"
    GOGGLES = "goggles"
    EARS = "ear protection"
    DUST_MASK = "dust mask"
    DUST_RESPIRATOR = "respirator for fine dust"
    VAPOR_RESPIRATOR = "respirator for vapors"


def gear_for(tags: Iterable[str]) -> tuple[Gear, ...]:
    """What the shop's words about these tags of a sheet ask to wear.

    Parameters
    ----------
    tags : of which `moldwright.materials.hazards.tag_words` has something to say.

    >>> gear_for(["metal", "tin"])
    (<Gear.GLOVES: 'gloves'>, <Gear.DUST_MASK: 'dust mask'>)

    Source: common practice, no source; the supplier's safety data sheet overrides.
    """
    by_tag = shipped("hazards")["gear"]
    asked = {word for tag in tags for word in by_tag.get(tag, ())}
    return tuple(gear for gear in Gear if gear in asked)
