"""Quantities alone in words, the same on the screen and on paper."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache, partial
from importlib import resources
from math import fsum
from typing import Any

from moldwright.plan.cast import CastWay
from moldwright.plan.mixes import MixKind
from moldwright.plan.original import Source
from moldwright.plan.rough import RoughCaution, RoughCups, RoughOriginal, RoughPlan
from moldwright.ranges import Range
from moldwright.sheets.known_words import NAMES
from moldwright.sheets.wording import Wording, show_area
from moldwright.units import show_length, show_range
from moldwright.units.system import UnitSystem

COUNTED = {
    MixKind.COAT: "many",
    MixKind.SKIN: "each",
    MixKind.BACK_FILL: "each",
    MixKind.SHELL: "buckets",
}
"""What is counted of each mix."""
Rows = list[list[str]]


@cache
def rough_table() -> Mapping[str, Any]:
    """The words of these quantities, by their tables."""
    return tomllib.loads(resources.files("moldwright.sheets").joinpath("rough.toml").read_text("utf-8"))


def original_rows(original: RoughOriginal, units: UnitSystem) -> Rows:
    """What is known of the original: name and text of each row.

    Parameters
    ----------
    original : by its volume.
    units : the reader's.
    """
    say = rough_table()["figures"]
    return [
        [say["original"], show_range(original.volume_ml, "volume", units)],
        [say["by"], known_by_words(original.source, *original.also)],
        [say["surface"], area_words(original.area_cm2, units)],
        [say["tall"], _tall(original.height_mm, units)],
    ]


def known_by_words(*sources: Source) -> str:
    """Who told the volume.

    Parameters
    ----------
    sources : the first one first.

    >>> known_by_words(Source.WATER, Source.WEIGHT)
    'water + weight'
    """
    return " + ".join(NAMES[source] for source in sources)


def area_words(area_cm2: Range, units: UnitSystem) -> str:
    """A surface with its bounds.

    Parameters
    ----------
    area_cm2 : with its bounds [cm2].
    units : the reader's.
    """
    low, likely, high = (show_area(value * 100.0, units) for value in (area_cm2.low, area_cm2.likely, area_cm2.high))
    return f"{likely} ({low.split()[0]}–{high.split()[0]})"


def _tall(height_mm: Range, units: UnitSystem) -> str:
    if height_mm.low == height_mm.high:
        return f"{show_length(height_mm.likely, units)}, {rough_table()['figures']['told']}"
    return show_range(height_mm, "length", units)


def glove_rows(plan: RoughPlan) -> Rows:
    """Rubber to mix: each coat, flange, packing, all together.

    Parameters
    ----------
    plan : the quantities.
    """
    say, glove, mix = rough_table()["figures"], plan.glove, partial(rubber_words, plan=plan)
    coats = [
        [say["coat"].format(number=n, name=c.coat.name, thickness=show_length(c.coat.thickness_mm, plan.units)),
         mix(c.mixed_g)]
        for n, c in enumerate(glove.coats, start=1)
    ]  # fmt: skip
    return [
        *coats,
        [say["flange"], mix(glove.flange_g)],
        [say["packing"], mix(glove.packing_g)],
        [say["rubber"], mix(glove.mixed_g)],
    ]


def rubber_words(mixed_g: Range, plan: RoughPlan) -> str:
    """Rubber to mix as the shop measures: by weight, or by volume where it has no scale.

    Parameters
    ----------
    mixed_g : its weight [g].
    plan : whose cups give the density of the mix.
    """
    if plan.marks_ml is None:
        return show_range(mixed_g, "mass", plan.units, plan.scale_g)
    cups = [each.cup for each in plan.cups if each.for_ is MixKind.COAT]
    per_g = fsum(cup.volume_ml for cup in cups) / fsum(cup.mass_g for cup in cups)
    return show_range(mixed_g * per_g, "volume", plan.units)


def cast_rows(plan: RoughPlan) -> Rows:
    """The shell's weight and one cast.

    Parameters
    ----------
    plan : the quantities.
    """
    say, cast, units = rough_table()["figures"], plan.cast, plan.units
    thick = show_length(cast.skin_mm, units)
    skin = say["solid"] if cast.ways[0] is CastWay.SOLID else say["skin"].format(thickness=thick)
    filled = CastWay.FILLED in cast.ways
    return [
        [say["shell"].format(material=plan.shell.material), show_range(plan.shell.dry_g, "mass", units)],
        [say["cavity"], show_range(cast.volume_ml, "volume", units)],
        [skin, show_range(cast.skin_ml, "volume", units)],
        *([[say["backfill"], show_range(cast.backfill_ml, "volume", units)]] if filled else []),
        [say["mass"], show_range(cast.mass_g, "mass", units)],
    ]


def ways_words(plan: RoughPlan) -> str:
    """That it hangs on the form whether a core is left; "" where it does not.

    Parameters
    ----------
    plan : the quantities.
    """
    say, cast = rough_table()["ways"], plan.cast
    if len(cast.ways) == 1:
        return ""
    names = " or ".join(say["names"][way] for way in cast.ways)
    return str(say["say"]).format(ways=names, solid=show_range(cast.solid_g, "mass", plan.units))


def count_words(cups: RoughCups) -> str:
    """How many cups, and for what.

    Parameters
    ----------
    cups : of one thing that is mixed.
    """
    say, count = rough_table()["cups"], cups.count
    told = (
        f"{count.likely:.0f}" if count.low == count.high else f"{count.likely:.0f} ({count.low:.0f}–{count.high:.0f})"
    )
    return str(say[COUNTED[cups.for_]]).format(count=told)


def caution_words(caution: RoughCaution, words: Wording) -> str:
    """Everything that a caution says.

    Parameters
    ----------
    caution : of the quantities.
    words : the reader's wording.
    """
    return " ".join(words.line(line, caution.quantities) for line in caution.lines)


def lack_words(lacks: Iterable[str]) -> list[str]:
    """What no volume tells, a sentence each.

    Parameters
    ----------
    lacks : of the quantities.
    """
    return [rough_table()["lacks"][each] for each in lacks]
