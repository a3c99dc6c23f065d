"""Recipes written down: from a run's cup as it was really weighed, or typed in; kept again it has a new state."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import isfinite

from moldwright.bench.fillings import fillings
from moldwright.bench.frame import frame_of
from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.event import About, Event
from moldwright.log.ids import FileHash, LotId, RecipeId, RunId, SubjectId
from moldwright.log.lot_events import Stuff
from moldwright.log.recipe_events import RecipeDropped, RecipeKept, RecipeKind, RecipePart
from moldwright.log.run_events import CupRef, Weighed
from moldwright.log.standing import standing
from moldwright.plan.mixes import MeasuredBy, MixPart, MixPlan, PartKind, StuffKey
from moldwright.plan.plan import Plan
from moldwright.records.clock import BenchClock
from moldwright.records.find import find
from moldwright.records.recipes.recipe import KeptRecipe, fold_recipe
from moldwright.records.shop import Shop, append_within
from moldwright.records.stock.catalog import need_stuff
from moldwright.records.stock.lot import fold_lot
from moldwright.records.told import line_told
from moldwright.records.within import all_within, hold
from moldwright.text.shown import number, short
from moldwright.ways import Deed
from moldwright.words.speaker import say

MOST_PARTS, MOST_G = 40, 1e6
_NAMES = "moldwright recipes' names"


@dataclass(frozen=True, slots=True)
class CupTold:
    """What of a run's cup the log tells; `missing`: parts that the plan has and nobody weighed (a trace on a stick)."""

    parts: tuple[RecipePart, ...]
    missing: tuple[str, ...]


def cup_parts(shop: Shop, run: RunId, cup: CupRef) -> CupTold:
    """The masses that were weighed into a cup, in the order in which the parts went in.

    Parameters
    ----------
    shop : the store.
    run : which.
    cup : of it.

    Raises InputRefused ("cup-not-weighed").
    """
    events = shop.events_of(run)
    plan, mix = _mix(shop, events, cup)
    stands = standing(events)
    read, _ = fillings({mix.id: _with_all(mix, stands)} if mix is not None else {}, stands)
    filling = read.get((cup.mix, cup.turn), {}).get(cup.filling)
    if plan is None or mix is None or filling is None or not filling.in_g:
        remedy = "Choose a cup that was weighed in it, or type the recipe in"
        told = f"{cup.mix}, cast {cup.turn}"
        raise InputRefused("cup-not-weighed", told, "a cup that was weighed", "", remedy, Deed.KEEP_RECIPE)
    lots = {kind: found[-1] for kind, found in filling.lots.items()}
    parts = tuple(
        RecipePart(_stuff(shop, plan, mix, kind, lots.get(kind)), round(mass_g, 6), lots.get(kind))
        for kind, mass_g in filling.in_g.items()
    )
    return CupTold(parts, tuple(f"{part.kind}, {part.name}" for part in mix.parts if part.kind not in filling.in_g))


def _with_all(mix: MixPlan, events: Iterable[Event]) -> MixPlan:
    """The cup with whatever else was weighed into it: a recipe is what was used, not what was planned."""
    weighed = [event.body for event in events if isinstance(event.body, Weighed) and event.body.cup.mix == mix.id]
    more = {body.part for body in weighed} - {part.kind for part in mix.parts}
    extra = (MixPart(kind, kind.value, 0.0, 0.0, 0.0, MeasuredBy.SCALE, 0.0) for kind in sorted(more))
    return replace(mix, parts=(*mix.parts, *extra))


def _mix(shop: Shop, events: Iterable[Event], cup: CupRef) -> tuple[Plan | None, MixPlan | None]:
    for id_ in reversed(frame_of(events).plans):
        plan = shop.plan(id_)
        mix = next((mix for mix in plan.mixes if mix.id == cup.mix), None)
        if mix is not None:
            return plan, mix
    return None, None


def _stuff(shop: Shop, plan: Plan, mix: MixPlan, kind: PartKind, lot: LotId | None) -> Stuff:
    """What a part was: of its lot, else as the plan takes it."""
    folded = fold_lot(shop.events_of(lot)) if lot is not None else None
    if folded is not None:
        return folded.stuff
    key = next((part.stuff for part in mix.parts if part.kind is kind), StuffKey())
    named = next((need_stuff(need) for need in plan.needs if need.stuff == key), None)
    return named or Stuff(key.kind, key.id or kind.value, "" if key.id else kind.value)


def keep_recipe(shop: Shop, clock: BenchClock, what: RecipeKept) -> KeptRecipe:
    """Keep a recipe; one of that name has a new state, its old ones stay readable.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    what : the recipe.

    Raises InputRefused ("recipe-empty", "amount-out-of-range", "text-unusable").
    """
    name = line_told(what.name, "a name")
    if not 0 < len(what.parts) <= MOST_PARTS:
        remedy = 'Name its parts: --part "urethane-standard-a=50 g", or a run\'s cup: --run, --cup.'
        raise InputRefused(
            "recipe-empty", len(what.parts), say("1 to {most_parts} parts", most_parts=MOST_PARTS), "", remedy
        )
    for part in what.parts:
        if not (isfinite(part.mass_g) and 0.0 < part.mass_g <= MOST_G):
            remedy = "Write the mass of each part, above nothing."
            most = say("> 0, at most {most_g}", most_g=number(MOST_G))
            raise InputRefused("amount-out-of-range", part.mass_g, most, "g", remedy)
    body = RecipeKept(name, what.kind, what.parts, what.swatch, what.run, what.cup)
    with shop.writing() as connection:
        hold(connection, _NAMES)
        known = _folded(all_within(connection, About.RECIPE))
        id_ = next((each.id for each in known if each.name.casefold() == name.casefold()), None)
        id_ = id_ or RecipeId(SubjectId(clock.new_id()))
        append_within(connection, [clock.event(About.RECIPE, id_, body)])
    return recipe(shop, id_)


def from_cup(
    name: str, kind: RecipeKind, told: CupTold, run: RunId, cup: CupRef, swatch: FileHash | None = None
) -> RecipeKept:
    """A recipe as a cup was weighed.

    Parameters
    ----------
    name, kind : what it is.
    told : what was weighed.
    run, cup : where.
    swatch : a photo of it.
    """
    return RecipeKept(name, kind, told.parts, swatch, run, cup)


def drop_recipe(shop: Shop, clock: BenchClock, id_: RecipeId, why: str) -> KeptRecipe:
    """A recipe is used no longer; it stays readable, and is used again once it is kept again.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    id_ : which.
    why : in words, "" where nobody said.
    """
    recipe(shop, id_)
    shop.append([clock.event(About.RECIPE, id_, RecipeDropped(line_told(why, "a reason", may_lack=True)))])
    return recipe(shop, id_)


def recipe(shop: Shop, id_: RecipeId) -> KeptRecipe:
    """One recipe.

    Parameters
    ----------
    shop : the store.
    id_ : which.

    Raises InputRefused ("recipe-struck-out").
    """
    found = fold_recipe(shop.events_of(id_))
    if found is None:
        remedy = "Lines go through all of its states: keep it anew"
        raise InputRefused("recipe-struck-out", short_code(id_), "a recipe that is kept", "", remedy, Deed.KEEP_RECIPE)
    return found


def recipes(shop: Shop) -> tuple[KeptRecipe, ...]:
    """All recipes, by their names.

    Parameters
    ----------
    shop : the store.
    """
    return _folded(shop.events_about(About.RECIPE))


def _folded(events: Iterable[Event]) -> tuple[KeptRecipe, ...]:
    by_recipe: dict[str, list[Event]] = {}
    for event in events:
        by_recipe.setdefault(event.subject, []).append(event)
    folded: Sequence[KeptRecipe | None] = [fold_recipe(events) for events in by_recipe.values()]
    return tuple(
        sorted((each for each in folded if each is not None), key=lambda each: (each.name.casefold(), each.id))
    )


def recipe_meant(shop: Shop, written: str) -> KeptRecipe:
    """The recipe that is meant: by its name, its id or its short code.

    Parameters
    ----------
    shop : the store.
    written : as it was typed.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    wanted = written.strip().casefold()
    named = [each for each in recipes(shop) if each.name.casefold() == wanted]
    if len(named) > 1:
        raise InputRefused("code-of-several", short(written), "one recipe", "", "Write its code.")
    return named[0] if named else recipe(shop, RecipeId(find(shop, About.RECIPE, written)))


def mixes_of(shop: Shop, kept: RecipeKept) -> tuple[MixPlan, ...]:
    """The cup of the plan that a recipe was mixed by; none where it was typed in.

    Parameters
    ----------
    shop : the store.
    kept : the recipe.
    """
    if not kept.run or kept.cup is None:
        return ()
    _, mix = _mix(shop, shop.events_of(RunId(SubjectId(kept.run))), kept.cup)
    return (mix,) if mix is not None else ()
