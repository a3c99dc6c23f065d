"""The words that a sheet may choose from, as types."""

from __future__ import annotations

from enum import StrEnum


class Kind(StrEnum):
    """The kinds of sheets; an id is unique within its kind."""

    RUBBER = "rubber"
    RESIN = "resin"
    POWDER = "powder"
    SHELL = "shell"
    RELEASE = "release"
    SEALER = "sealer"
    WAX = "wax"
    PIGMENT = "pigment"
    THIXOTROPE = "thixotrope"
    CONSUMABLE = "consumable"


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


class Tag(StrEnum):
    """What a material is made of or does, as the rules of compatibility, the hazards and the work ask for it."""

    ALCOHOL = "alcohol"
    ALUMINUM = "aluminum"
    AMINE = "amine"
    BLADE = "blade"
    CLAY = "clay"
    CLEAR = "clear"
    COPPER_ALLOY = "copper-alloy"
    DAMP = "damp"
    DUST = "dust"
    EPOXY = "epoxy"
    FIBER = "fiber"
    FILM = "film"
    FLAKE = "flake"
    FLUX = "flux"
    GLOVES = "gloves"
    GREASE = "grease"
    HEAT_SOFT = "heat-soft"
    HOT = "hot"
    ISOCYANATE = "isocyanate"
    LATEX = "latex"
    LAYERED = "layered"
    LIGHT = "light"
    LIGHT_METAL = "light-metal"
    METAL = "metal"
    MINERAL = "mineral"
    NICKEL = "nickel"
    NONPOROUS = "nonporous"
    PAINT = "paint"
    PEROXIDE = "peroxide"
    PHOTOPOLYMER = "photopolymer"
    PLASTER = "plaster"
    PLASTIC = "plastic"
    PLASTICIZER = "plasticizer"
    PLATINUM = "platinum"
    POROUS = "porous"
    PRINTED = "printed"
    RESIN = "resin"
    RUSTS = "rusts"
    SILICA = "silica"
    SILICONE = "silicone"
    SILICONE_OIL = "silicone-oil"
    SOAP = "soap"
    SOFT = "soft"
    SOLVENT = "solvent"
    SOLVENT_SOFT = "solvent-soft"
    STYRENE = "styrene"
    SULFUR = "sulfur"
    SULFUR_MAYBE = "sulfur-maybe"
    TIN = "tin"
    UNKNOWN = "unknown"
    URETHANE = "urethane"
    VULCANIZED = "vulcanized"
    WATER_BASED = "water-based"
    WAX = "wax"
    WET = "wet"
    WOOD = "wood"


class Presence(StrEnum):
    """Whether a slot of the job is filled."""

    SOME = "some"
    NONE = "none"


class Family(StrEnum):
    """Chemistries that a rule names together."""

    ANY_URETHANE = "any urethane"


Trait = Tag | Chemistry | Presence | Family
"""All that a rule of compatibility may ask of a thing."""
LEFT_OUT = frozenset(("none", "-", "no"))
"""How a maker leaves a material out; no sheet may be called so."""


def trait(word: str) -> Trait:
    """A word of a rule as what it stands for.

    Parameters
    ----------
    word : as it stands in the data; ValueError for one that no sheet can have.

    >>> trait("addition-cure silicone"), trait("metal")
    (<Chemistry.ADDITION: 'addition-cure silicone'>, <Tag.METAL: 'metal'>)
    """
    for words in (Chemistry, Tag, Presence, Family):
        if word in {str(each) for each in words}:
            return words(word)
    raise ValueError(f"{word!r} is no trait of a material")


class Side(StrEnum):
    """One of the two parts, none of them, or the stirred mix."""

    NONE = ""
    A = "A"
    B = "B"
    MIXED = "mixed"


class Fit(StrEnum):
    """What a casting resin may be used for: a skin that is slushed, what is poured behind it, a cast poured solid."""

    SKIN = "skin"
    BACK_FILL = "back-fill"
    SOLID = "solid"


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

    @property
    def by_hand(self) -> bool:
        """Whether it is laid wet on the rubber, against a wall or to a line."""
        return self is not Making.PRINTED


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
