"""What is told of a recipe, in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from moldwright.log.codes import short_code
from moldwright.log.lot_events import Stuff
from moldwright.log.recipe_events import RecipePart
from moldwright.materials.hazards import deference
from moldwright.records.recipes.cautions import RecipeCaution
from moldwright.records.recipes.recipe import KeptRecipe, RecipeState
from moldwright.records.recipes.scale import ScaledPart, ScaledRatio, ScaledRecipe
from moldwright.told.any_words import moment
from moldwright.units import show_mass, show_share
from moldwright.units.digits import number

KEPT = "{name} is kept."
STRUCK = "Struck out. It stays readable and counts in nothing."
DROPPED = "{name} is used no longer; it stays readable."
TOO_LITTLE = (
    "too little for this scale: mix {least} at least, take a finer scale, or stir it into a weighed amount of a part "
    "that it goes into, and weigh of that."
)


@dataclass(frozen=True, slots=True)
class RecipePartTold:
    """A part of a recipe in words: its mass as it was weighed, its share, what it is."""

    mass: str
    share: str
    name: str


@dataclass(frozen=True, slots=True)
class RecipeStateTold:
    """A state of a recipe in words; `code`: of the event by which it is struck out."""

    code: str
    on: str
    whole: str
    origin: str
    parts: tuple[RecipePartTold, ...]


@dataclass(frozen=True, slots=True)
class ScaledPartTold:
    """A part for an amount in words: its mass, what the scale reads once it is in, what rounding does, what to heed."""

    mass: str
    reads: str
    name: str
    off: str
    heed: str


def state_told(state: RecipeState, units: str) -> RecipeStateTold:
    """A state of a recipe.

    Parameters
    ----------
    state : it.
    units : "metric" or "us".
    """
    parts = tuple(
        RecipePartTold(show_mass(part.mass_g, units), show_share(part.mass_g / state.mass_g, 2), _named(part))
        for part in state.kept.parts
    )
    return RecipeStateTold(
        short_code(state.event), moment(state.at_ms), show_mass(state.mass_g, units), _where(state), parts
    )


def scaled_parts(made: ScaledRecipe, units: str) -> tuple[ScaledPartTold, ...]:
    """The parts of a recipe for an amount.

    Parameters
    ----------
    made : scaled.
    units : "metric" or "us".
    """
    return tuple(_scaled(part, made.step_g, units) for part in made.parts)


def scaled_title(recipe: KeptRecipe, made: ScaledRecipe, units: str) -> str:
    """What a recipe for an amount is called.

    Parameters
    ----------
    recipe : it.
    made : scaled.
    units : "metric" or "us".
    """
    return f"{recipe.name}, {show_mass(made.mass_g, units, made.step_g)} in all; the empty cup zeroed once:"


def recipe_lines(recipe: KeptRecipe, units: str, cautions: Sequence[RecipeCaution] = ()) -> list[str]:
    """A recipe for people: a heading, its parts, where it comes from, earlier states.

    Parameters
    ----------
    recipe : it.
    units : "metric" or "us".
    cautions : of its materials.
    """
    now = recipe.now
    dropped = f", dropped{f': {recipe.dropped}' if recipe.dropped else ''}" if recipe.dropped is not None else ""
    swatch = ", with a swatch" if now.kept.swatch else ""
    told = state_told(now, units)
    return [
        f"{recipe.name}  ({now.kept.kind.value}, {short_code(recipe.id)}{dropped}{swatch}): {told.whole} as mixed",
        *_parts(told),
        f"  {told.origin}, {told.on}, state {told.code}",
        *(f"  note: {note}" for note in recipe.notes),
        *_earlier(recipe, units),
        *caution_lines(cautions),
    ]


def _parts(state: RecipeStateTold) -> list[str]:
    return [f"  {part.mass:>12}  {part.share:>8}  {part.name}" for part in state.parts]


def _named(part: RecipePart) -> str:
    return f"{stuff_name(part.stuff)}{f', lot {short_code(part.lot)}' if part.lot else ''}"


def stuff_name(stuff: Stuff) -> str:
    """What a material is called.

    Parameters
    ----------
    stuff : it.
    """
    return stuff.name or stuff.id


def _where(state: RecipeState) -> str:
    cup = state.kept.cup
    return f"of {cup.mix}, cast {cup.turn} of run {short_code(state.kept.run)}" if cup is not None else "typed in"


def _earlier(recipe: KeptRecipe, units: str) -> list[str]:
    lines = []
    for told in (state_told(state, units) for state in recipe.states[-2::-1]):
        lines += [f"  before, {told.on}, state {told.code}:", *(f"  {line}" for line in _parts(told))]
    return lines


def missing_words(missing: Sequence[str]) -> str:
    """What is not in a recipe of a cup.

    Parameters
    ----------
    missing : parts that nobody weighed.
    """
    return f"Not in it, as nobody weighed it: {'; '.join(missing)}. With it: type the recipe in, part by part."


def scaled_lines(recipe: KeptRecipe, made: ScaledRecipe, cautions: Sequence[RecipeCaution], units: str) -> list[str]:
    """A recipe for an amount: what is to be heeded, then what the scale must read after each part.

    Parameters
    ----------
    recipe : it.
    made : scaled.
    cautions : of its materials.
    units : "metric" or "us".
    """
    lines = [*caution_lines(cautions), scaled_title(recipe, made, units)]
    for part in scaled_parts(made, units):
        lines.append(
            f"  {part.mass:>12}  scale reads {part.reads:>12}  {part.name}{f'  ({part.off})' * bool(part.off)}"
        )
        lines += [f"      ! {part.heed}"] if part.heed else []
    for ratio in made.ratios:
        lines += [f"  {ratio_words(ratio, units)}" if ratio.held else f"  ! {ratio_words(ratio, units)}"]
        lines += [f"  ! {was_words(ratio)}"] if ratio.was_off else []
    return lines


def _scaled(part: ScaledPart, step_g: float, units: str) -> ScaledPartTold:
    mass, reads = (show_mass(each, units, step_g) for each in (part.mass_g, part.reads_g))
    off = f"rounded {signed(part.off)}" if abs(part.off) >= 0.0005 else ""
    heed = TOO_LITTLE.format(least=show_mass(part.least_g, units)) if part.least_g else ""
    return ScaledPartTold(mass, reads, stuff_name(part.stuff), off, heed)


def signed(share: float) -> str:
    """A share with its sign: "+1.2 %".

    Parameters
    ----------
    share : a fraction of one.

    >>> signed(0.0123), signed(-0.2)
    ('+1.2 %', '−20 %')
    """
    return f"{'+' if share > 0 else ''}{number(100.0 * share, 1 if abs(share) < 0.1 else 0)} %"


def ratio_words(ratio: ScaledRatio, units: str) -> str:
    """How well the ratio of two parts that react is held.

    Parameters
    ----------
    ratio : of a scaled recipe.
    units : "metric" or "us".
    """
    within, off = show_share(ratio.within), show_share(ratio.off, 2)
    sheet = f"the sheet's ratio, 1 : {ratio.sheet:.4g}"
    if ratio.held:
        return f"{sheet}: off by {off} at most on this scale; the cure bears {within}."
    least = show_mass(ratio.least_g, units)
    told = f"{sheet}, may be off by {off} on this scale; the cure bears {within}:"
    return f"{told} mix {least} in all at least, or take a finer scale."


def was_words(ratio: ScaledRatio) -> str:
    """What is told of a recipe that was mixed at another ratio than its sheet bears.

    Parameters
    ----------
    ratio : of a scaled recipe.
    """
    return f"as it was mixed it was 1 : {ratio.recipe:.4g}: the sheet's ratio is taken, not that."


def caution_lines(cautions: Sequence[RecipeCaution]) -> list[str]:
    """Cautions of a recipe's materials, for people.

    Parameters
    ----------
    cautions : of each material.
    """
    if not cautions:
        return []
    lines = []
    for each in cautions:
        lines += [f"  ! {each.name}", *(f"    {text}" for text in each.texts)]
    return [*lines, f"  ! {deference()}"]
