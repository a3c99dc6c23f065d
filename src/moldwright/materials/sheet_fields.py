"""What a sheet of each kind may hold, from the schema's data file."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from moldwright.materials.shipped import shipped

RATIOS = ("ratio_weight", "ratio_volume")
COMMON = ("name", "source", "tags", "hazards", "cautions", "packs", "like")
UNIT_ENDINGS = (
    "_g_ml",
    "_kj_mol",
    "_kn_m",
    "_pa_s",
    "_pa",
    "_g_m2",
    "_g_g",
    "_j_g",
    "_days",
    "_mpa",
    "_pct",
    "_mm",
    "_um",
    "_s",
    "_n",
    "_g",
    "_c",
)


@dataclass(frozen=True, slots=True)
class FigureRule:
    """The unit of a figure and the bounds between which it is physically possible."""

    unit: str
    lowest: float
    highest: float


@dataclass(frozen=True, slots=True)
class KindRule:
    """Keys of one kind of sheet: figures and ratios that must be there, that may, and words."""

    required: tuple[str, ...]
    optional: tuple[str, ...]
    words: tuple[str, ...]

    @property
    def figures(self) -> tuple[str, ...]:
        """Keys of figures and ratios."""
        return self.required + self.optional

    @property
    def keys(self) -> tuple[str, ...]:
        """Every key that a sheet of the kind may hold."""
        of_resins = ("weight_only", "fit") if "powder_part" in self.words else ()
        return COMMON + self.figures + self.words + of_resins


@lru_cache(maxsize=1)
def kind_rules() -> dict[str, KindRule]:
    """The rule of every kind, by the kind's name.

    >>> kind_rules()["pigment"].words
    ('color', 'goes_in')
    """
    return {
        name: KindRule(tuple(row["required"]), tuple(row["optional"]), tuple(row["words"]))
        for name, row in shipped("schema")["kinds"].items()
    }


@lru_cache(maxsize=1)
def figure_rules() -> dict[str, FigureRule]:
    """Unit and possible bounds of every figure, by its key.

    >>> figure_rules()["shore_a"]
    FigureRule(unit='Shore A', lowest=0, highest=95)

    Source: from memory, wide on purpose.
    """
    return {key: FigureRule(*row) for key, row in shipped("schema")["figures"].items()}


@lru_cache(maxsize=1)
def plain_keys() -> dict[str, tuple[str, ...]]:
    """Keys without their unit, as a shop may write them with a unit in the value, and the keys that they may be.

    >>> plain_keys()["pot_life"], plain_keys()["dry"]
    (('pot_life_s',), ('dry_g_m2', 'dry_s'))
    """
    keys: dict[str, tuple[str, ...]] = {}
    for key in figure_rules():
        if _without_unit(key) != key:
            keys[_without_unit(key)] = (*keys.get(_without_unit(key), ()), key)
    return keys


def told(key: str) -> str:
    """A key as people are told it, and may write it: without its unit, in words.

    Parameters
    ----------
    key : a key of a sheet.

    >>> told("pot_life_s"), told("goes_in")
    ('pot life', 'goes in')
    """
    return (_without_unit(key) if key in figure_rules() else key).replace("_", " ")


def as_key(written: str) -> str:
    """What was written for a key in the key's own letters: "Pot life" -> "pot_life".

    Parameters
    ----------
    written : as it stands in the sheet.

    >>> as_key("Pot life"), as_key("shelf-life")
    ('pot_life', 'shelf_life')
    """
    return "_".join(written.casefold().replace("-", " ").replace("_", " ").split())


def _without_unit(key: str) -> str:
    ending = next((e for e in UNIT_ENDINGS if key.endswith(e)), "")
    return key.removesuffix(ending)


def usual(chemistry: str) -> dict[str, list[float]]:
    """The usual bounds of a generic class, by figure; empty where none are known.

    Parameters
    ----------
    chemistry : as a rubber's sheet names it.

    >>> usual("latex")["shore_a"]
    [30, 45]

    Source: from memory.
    """
    found: dict[str, list[float]] = shipped("schema")["usual"].get(chemistry, {})
    return found
