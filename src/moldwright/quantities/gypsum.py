"""A shell of fiber-reinforced gypsum: what each piece takes, in buckets that are laid before they stiffen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import fsum

from moldwright.commission.orders import ShopOrder
from moldwright.errors import NoSafePlan
from moldwright.materials import Figure, Shell
from moldwright.materials.words import Chemistry, Making
from moldwright.mixing.cup import CupClock, CupLimit, cup_limit
from moldwright.mixing.cups import cups_of
from moldwright.mixing.marked import marked_cups_of
from moldwright.mixing.recipe import Ingredient, Recipe, liquid
from moldwright.mixing.scale_steps import apportion, grams, steps_of
from moldwright.mixing.tolerance import FORGIVING
from moldwright.plan.mixes import MixFor, MixKind, MixPlan, PartKind, TaskKind
from moldwright.quantities.bandage import BOUND_WATER
from moldwright.ranges import Range
from moldwright.ways import Change, figure, word

LAY_G_PER_MIN = 100.0
"""How much gypsum with fiber one person lays in a minute: common practice, no source."""
MIX_S = 240.0
"""To sift a bucket in, let it soak and stir it [s]: common practice, no source."""
WORKABLE_SHARE = 0.5
"""Share of its setting time for which gypsum can be laid: common practice, no source."""
BUCKET_FILL = 0.5
"""Share of a bucket that a mix fills, so that it can be stirred by hand: common practice, no source."""
BUCKET_MARKS_ML = 10.0
"""Nobody fills a bucket finer without a scale [ml]: common practice, no source."""
LOOSE_TOLERANCE = 0.15
"""How far off gypsum measured loose may be: it is sifted till dry islands stay, whatever the cup said; common practice,
no source."""
STEP_G = 1.0
"""Nobody weighs a bucket finer [g]: common practice, no source."""
GYPSUM_G_ML, GYPSUM_LOOSE_G_ML = 2.64, 0.95
"""Hemihydrate: its grain (Saltwiki, bassanite, after Dana 1951) and sifted loose (from memory)."""
FIBER_G_ML, FIBER_LOOSE_G_ML = 2.55, 0.2
"""Glass fiber: itself and chopped, loose; from memory."""
COMMON_SET_S = Range(1200.0, 1800.0, 2700.0)
"""Where the sheet tells no setting time [s]: common practice, no source."""
NO_SHARE = Range.exactly(0.0)


def workable_s(shell: Shell) -> float:
    """How long a bucket can be worked from the meeting of gypsum and water on [s]: a share of the low setting time.

    Parameters
    ----------
    shell : its sheet

    Source: the sheet's `set_s`; the share is common practice, no source.
    """
    return WORKABLE_SHARE * (shell.set_s.range if shell.set_s else COMMON_SET_S).low


def refuse_unless_workable(shell: Shell) -> None:
    """Refuse a gypsum that stiffens before it is mixed; a shell of another kind passes.

    Parameters
    ----------
    shell : its sheet

    Raises NoSafePlan ("shell-sets-too-soon"). Source: common practice, no source.
    """
    if shell.making is Making.GYPSUM and workable_s(shell) <= MIX_S:
        raise NoSafePlan(
            "shell-sets-too-soon",
            round(workable_s(shell)),
            round(MIX_S),
            "s",
            f"{word(shell.name)} can be laid for {figure(round(workable_s(shell)), 's')}, and mixing a bucket takes "
            f"{figure(round(MIX_S), 's')}: take a "
            "gypsum that sets slower (its sheet's set), or plaster bandage",
            Change("mold.shell"),
        )


def gypsum_mixes(shell: Shell, dry_g: float, shares: Sequence[float], shop: ShopOrder) -> tuple[MixPlan, ...]:
    """The buckets of every piece, the last off first as it is laid first; none for a shell of another kind.

    `gypsum = dry (1 + waste) / (1 + b + f)`, b bound water and f fiber per gram of gypsum; a bucket holds that times
    `1 + w + f`, w the mixing water. The buckets of a piece are alike, in whole
    steps of a gram or of a coarser scale, and hold at least its share.

    Parameters
    ----------
    shell : its sheet
    dry_g : the whole shell, dry [g], > 0
    shares : how much of it each piece is, first off first, 0 to 1
    shop : bucket, scale, units, waste

    Source: the sheet; of the mixing water only what is bound stays: stoichiometry.
    """
    if shell.making is not Making.GYPSUM:
        return ()
    recipe = _recipe(shell)
    step_g = max(STEP_G, shop.scale_g)
    whole_g = dry_g * (1.0 + shop.waste) * recipe.whole / (1.0 + BOUND_WATER + _share(shell.fiber_pct, 100.0))
    clock = CupClock(workable_s(shell), MIX_S, TaskKind.LAY, 60.0 / LAY_G_PER_MIN)
    limit = cup_limit(clock, shop.bucket_ml, recipe.density_g_ml, BUCKET_FILL)
    laid = range(len(shares), 0, -1)
    parts = apportion(steps_of(whole_g, step_g), [shares[piece - 1] for piece in laid])
    return tuple(
        cup
        for piece, steps in zip(laid, parts, strict=True)
        for cup in _cups(MixFor(MixKind.SHELL, piece=piece), grams(steps, step_g), recipe, limit, shop)
    )


def _cups(for_: MixFor, total_g: float, recipe: Recipe, limit: CupLimit, shop: ShopOrder) -> tuple[MixPlan, ...]:
    if shop.by_volume:
        loose = replace(recipe, tolerance=LOOSE_TOLERANCE)
        return marked_cups_of(for_, total_g, loose, limit, max(BUCKET_MARKS_ML, shop.marks_ml))
    return cups_of(for_, total_g, recipe, limit, max(STEP_G, shop.scale_g))


def gypsum_part_g(mixes: tuple[MixPlan, ...], kind: PartKind) -> float:
    """What the buckets hold of one part [g].

    Parameters
    ----------
    mixes : all of the job's
    kind : which part

    Source: arithmetic.
    """
    return fsum(part.mass_g for mix in mixes for part in mix.parts if part.kind is kind)


def _recipe(shell: Shell) -> Recipe:
    """Water first, gypsum sifted into it, fiber last; shares per gram of gypsum."""
    fiber = _share(shell.fiber_pct, 100.0)
    last = (Ingredient(PartKind.FIBER, fiber, FIBER_LOOSE_G_ML, FIBER_G_ML, PartKind.FIBER.value),)
    return Recipe(
        (
            liquid(PartKind.WATER, _share(shell.water_g_g, 1.0), 1.0),
            Ingredient(PartKind.GYPSUM, 1.0, GYPSUM_LOOSE_G_ML, GYPSUM_G_ML, PartKind.GYPSUM.value),
            *(last if fiber > 0.0 else ()),
        ),
        FORGIVING[Chemistry.GYPSUM],
    )


def _share(figure: Figure | None, whole: float) -> float:
    return figure.likely / whole if figure else 0.0
