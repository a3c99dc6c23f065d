"""A recipe for another amount: whole steps of the scale, running totals, and what rounding does.

Parts that react keep the ratio of their sheet, whatever the recipe was mixed at; all others keep their share.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from moldwright.errors import InputRefused
from moldwright.log.lot_events import Stuff
from moldwright.log.recipe_events import RecipePart
from moldwright.materials import Library
from moldwright.materials.kinds import TwoPart
from moldwright.mixing.scale_steps import grams, steps_of
from moldwright.mixing.tolerance import ratio_tolerance_of
from moldwright.mixing.weighing import mass_tolerance, ratio_tolerance, smallest_batch_g, smallest_weighed_g
from moldwright.plan.mixes import REACTING, MixPlan, PartKind, StuffKey

PART_WITHIN = 0.1
"""By how much a part that does not react may be off as it is weighed, of a color that is to come out again: our own."""


@dataclass(frozen=True, slots=True)
class ReactingPair:
    """Two parts that react, in the order of their sheet, with its ratio by weight and by how much it may be off."""

    first: StuffKey
    second: StuffKey
    ratio: tuple[float, float]
    within: float


@dataclass(frozen=True, slots=True)
class ScaledPart:
    """One part: what it should be, what the scale is to show of it and in all, and by what share rounding puts it off.

    `least_g`: the least whole batch of which this scale tells the part well enough; 0 where it does already.
    """

    stuff: Stuff
    exact_g: float
    mass_g: float
    reads_g: float
    off: float
    least_g: float


@dataclass(frozen=True, slots=True)
class ScaledRatio:
    """The ratio of the parts that react: `sheet` says, `recipe` was, `scaled` is, second to first by weight.

    `off`: by what share the scaled one may be off as rounded and read; `within`: by what share it may; `least_g`: the
    least whole batch of which this scale holds it.
    """

    pair: ReactingPair
    sheet: float
    recipe: float
    scaled: float
    off: float
    within: float
    least_g: float

    @property
    def held(self) -> bool:
        """Whether what is weighed cures as its sheet says."""
        return self.off <= self.within + 1e-9

    @property
    def was_off(self) -> bool:
        """Whether the recipe itself was mixed at another ratio than its sheet bears."""
        return abs(self.recipe / self.sheet - 1.0) > self.within


@dataclass(frozen=True, slots=True)
class ScaledRecipe:
    """A recipe for an amount."""

    wanted_g: float
    mass_g: float
    step_g: float
    parts: tuple[ScaledPart, ...]
    ratios: tuple[ScaledRatio, ...]


def pairs_in(parts: Sequence[RecipePart], library: Library, mixes: Sequence[MixPlan] = ()) -> tuple[ReactingPair, ...]:
    """Which parts of a recipe react with each other, and at what ratio.

    Parameters
    ----------
    parts : of the recipe.
    library : the sheets.
    mixes : cups of the plan that it was mixed by, for materials of a shop's own sheets.

    Source: the sheets' ratio by weight; of a cup the plan's, which is its sheet's.
    """
    known = {part.stuff.key for part in parts}
    sheets = (each for kind in ("rubber", "resin") for each in library.all(kind) if isinstance(each, TwoPart))
    found = {_keys(sheet): _pair(sheet) for sheet in sheets if sheet.two_part and {*_keys(sheet)} <= known}
    for mix in mixes:
        stuffs = [part.stuff for part in mix.parts if part.kind in REACTING]
        if mix.ratio is not None and len(stuffs) == 2 and {*stuffs} <= known and StuffKey() not in stuffs:
            within = max(mix.ratio_within_pct, mix.tolerance_pct) / 100.0
            pair = ReactingPair(stuffs[0], stuffs[1], (1.0, mix.ratio), within)
            turned = stuffs[1], stuffs[0]
            if turned not in found:
                found.setdefault((stuffs[0], stuffs[1]), pair)
    return tuple(found.values())


def _keys(sheet: TwoPart) -> tuple[StuffKey, StuffKey]:
    ids = (f"{sheet.id}-{side.lower()}" for side in (PartKind.A, PartKind.B))
    first, second = (StuffKey(str(sheet.kind), id_) for id_ in ids)
    return first, second


def _pair(sheet: TwoPart) -> ReactingPair:
    return ReactingPair(*_keys(sheet), sheet.ratio_weight, ratio_tolerance_of(sheet))


def scaled(parts: Sequence[RecipePart], total_g: float, step_g: float, pairs: Sequence[ReactingPair]) -> ScaledRecipe:
    """A recipe for an amount.

    Parameters
    ----------
    parts : of the recipe, in the order in which they go in.
    total_g : all parts together [g].
    step_g : the scale's step [g], > 0.
    pairs : which parts react.

    Raises InputRefused ("amount-out-of-range", "scale-step"). Source: arithmetic; reading of the scale by JCGM
    100:2008, F.2.2.1 (from memory).
    """
    whole_g = fsum(part.mass_g for part in parts)
    if not (0.0 < total_g < 1e7 and whole_g > 0.0):
        remedy = "Write how much is to be mixed in all: 640 g."
        raise InputRefused("amount-out-of-range", total_g, "> 0", "g", remedy)
    exact = _exact([part.mass_g * total_g / whole_g for part in parts], parts, pairs)
    rows, reads = [], 0
    for part, exact_g in zip(parts, exact, strict=True):
        steps = steps_of(exact_g, step_g)
        reads += steps
        mass_g = grams(steps, step_g)
        rows.append(
            ScaledPart(part.stuff, exact_g, mass_g, grams(reads, step_g), *_doubt(exact_g, mass_g, step_g, total_g))
        )
    ratios = tuple(_ratio(pair, parts, rows, step_g, total_g) for pair in pairs)
    return ScaledRecipe(total_g, grams(reads, step_g), step_g, tuple(rows), ratios)


def _exact(masses: Sequence[float], parts: Sequence[RecipePart], pairs: Sequence[ReactingPair]) -> list[float]:
    """Masses as they should be: what reacts parted by its sheet's ratio, each part in its several pours as it was."""
    found = list(masses)
    for pair in pairs:
        sums = _sums(pair, parts, masses)
        both, whole = fsum(sums.values()), fsum(pair.ratio)
        for key, share in zip((pair.first, pair.second), pair.ratio, strict=True):
            for number, part in enumerate(parts):
                if part.stuff.key == key and sums[key] > 0.0:
                    found[number] = both * share / whole * masses[number] / sums[key]
    return found


def _sums(pair: ReactingPair, parts: Sequence[RecipePart], masses: Sequence[float]) -> Mapping[StuffKey, float]:
    told = list(zip(parts, masses, strict=True))
    return {key: fsum(mass for part, mass in told if part.stuff.key == key) for key in (pair.first, pair.second)}


def _doubt(exact_g: float, mass_g: float, step_g: float, total_g: float) -> tuple[float, float]:
    """What rounding does to a part, and the least batch of which the scale tells it well enough."""
    off = mass_g / exact_g - 1.0 if exact_g > 0.0 else 0.0
    least_g = smallest_weighed_g(step_g, PART_WITHIN)
    weighed = exact_g <= 0.0 or (mass_g > 0.0 and mass_tolerance(step_g, mass_g) <= PART_WITHIN)
    return off, 0.0 if weighed else total_g * least_g / exact_g


def _ratio(
    pair: ReactingPair, parts: Sequence[RecipePart], rows: Sequence[ScaledPart], step_g: float, total_g: float
) -> ScaledRatio:
    sheet = pair.ratio[1] / pair.ratio[0]
    was = _sums(pair, parts, [part.mass_g for part in parts])
    now = _sums(pair, parts, [row.mass_g for row in rows])
    first_g, second_g = now[pair.first], now[pair.second]
    poured = first_g > 0.0 and second_g > 0.0
    read = ratio_tolerance(step_g, first_g, second_g) if poured else 1.0
    ratio = second_g / first_g if poured else 0.0
    both = fsum(row.exact_g for row in rows if row.stuff.key in (pair.first, pair.second))
    least_g = smallest_batch_g(step_g, pair.ratio, pair.within) * total_g / both if both else 0.0
    recipe = was[pair.second] / was[pair.first] if was[pair.first] > 0.0 else 0.0
    return ScaledRatio(pair, sheet, recipe, ratio, abs(ratio / sheet - 1.0) + read, pair.within, least_g)
