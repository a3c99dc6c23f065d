"""The words that a sheet may choose from, as types."""

from __future__ import annotations

from enum import StrEnum


class Chemistry(StrEnum):
    """What cures, and how."""

    ADDITION = "addition-cure silicone"
    CONDENSATION = "condensation-cure silicone"
    URETHANE_RUBBER = "urethane rubber"
    LATEX = "latex"
    URETHANE = "urethane"
    CLEAR_URETHANE = "clear urethane"
    EPOXY = "epoxy"
    POLYESTER = "polyester"
    GYPSUM = "gypsum"

    @property
    def silicone(self) -> bool:
        """Whether it is a silicone of either cure."""
        return self in (Chemistry.ADDITION, Chemistry.CONDENSATION)

    @property
    def urethane_resin(self) -> bool:
        """Whether it is a casting urethane, clear or not."""
        return self in (Chemistry.URETHANE, Chemistry.CLEAR_URETHANE)

    @property
    def heats_itself(self) -> bool:
        """Whether a large cup of it gels sooner: silicone and latex hardly do; common practice, no source."""
        return not self.silicone and self is not Chemistry.LATEX


class Side(StrEnum):
    """One of the two parts, none of them, or the stirred mix."""

    NONE = ""
    A = "A"
    B = "B"
    MIXED = "mixed"


class Carrier(StrEnum):
    """What a coating is thinned with."""

    NONE = "none"
    WATER = "water"
    ALCOHOL = "alcohol"
    SOLVENT = "solvent"
    MINERAL_SPIRITS = "mineral spirits"

    @property
    def burns(self) -> bool:
        """Whether its vapor lights."""
        return self in (Carrier.ALCOHOL, Carrier.SOLVENT, Carrier.MINERAL_SPIRITS)


class Making(StrEnum):
    """How a support shell is made."""

    BANDAGE = "bandage"
    GYPSUM = "gypsum"
    PRINTED = "printed"


WORDS: dict[str, type[StrEnum]] = {
    "chemistry": Chemistry,
    "isocyanate_part": Side,
    "pigment_part": Side,
    "powder_part": Side,
    "tint_part": Side,
    "carrier": Carrier,
    "making": Making,
}
"""The type of each field that holds one of these words."""
