"""Kinds of mold and how long a mold lasts, in words, the same on screen and on paper."""

from __future__ import annotations

from decimal import Decimal

from moldwright.plan.life import LifePlan
from moldwright.plan.plan import Plan
from moldwright.plan.strategies import StrategiesPlan, Strategy, StrategyPlan
from moldwright.ranges import Range
from moldwright.sheets.totals_words import hands
from moldwright.units import show_length
from moldwright.words.marked import Words, words
from moldwright.words.speaker import say, say_count, with_mark

NAMES: dict[Strategy, Words] = {
    Strategy.GLOVE: words("Brushed glove under a shell"),
    Strategy.JACKET: words("Poured jacket under a shell"),
    Strategy.BLOCK: words("One-piece block"),
    Strategy.HALVES: words("Two-part block"),
}
OPEN = words("One-piece block, open, no cut")
CUT = words("One-piece block, cut open")


def kind_name(row: StrategyPlan) -> str:
    """What a kind of mold is called.

    Parameters
    ----------
    row : of it.
    """
    if row.strategy is Strategy.BLOCK:
        return say(CUT if row.cut_mm > 0.0 else OPEN)
    return say(NAMES[row.strategy])


def hands_against(minutes: float, best: float) -> str:
    """Hands against others', with a sign.

    Parameters
    ----------
    minutes, best : of this, and of what it is held against [min].
    """
    more = minutes - best
    return _signed(more < 0, hands(abs(more)))


def money_against(money: Decimal, best: Decimal) -> str:
    """Money against other money, with a sign.

    Parameters
    ----------
    money, best : of this, and of what it is held against.
    """
    more = money - best
    return _signed(more < 0, with_mark(str(abs(more))))


def _signed(fewer: bool, text: str) -> str:
    return f"−{text}" if fewer else f"+{text}"


def kinds_reason(kinds: StrategiesPlan) -> str:
    """Why a kind is recommended, in a sentence or two.

    Parameters
    ----------
    kinds : all of them.
    """
    best, planned, least = kinds.of(kinds.recommended), kinds.of(kinds.planned), kinds.cheapest
    if best is not least:
        return say(
            "{name}. {other} would cost about the same, too close to tell by minutes of common practice (hands "
            "{labor}, material {material}).",
            name=kind_name(best),
            other=kind_name(least),
            **_against(least, best),
        )
    told = say("{name}: least hands and material of the kinds that can be made.", name=kind_name(best))
    if best is planned:
        return told
    rest = say(
        "{name}, as planned: hands {labor}, material {material} against it.",
        name=kind_name(planned),
        **_against(planned, best),
    )
    return f"{told} {rest}"


def _against(row: StrategyPlan, best: StrategyPlan) -> dict[str, str]:
    labor, material = hands_against(row.labor_min, best.labor_min), money_against(row.material, best.material)
    return {"labor": labor, "material": material}


def instead_of_slit(plan: Plan) -> str:
    """The line that a slit leaves on every cast, and what each kind of mold would take that can be made without it;
    "" where nothing is slit.

    Parameters
    ----------
    plan : with its slit and its kinds.
    """
    slit, kinds = plan.glove.slit, plan.strategies
    if slit is None:
        return ""
    line = say(
        "It leaves a fine line on every cast, {length} long. Ask the owner before anything is mixed.",
        length=show_length(slit.on_cast_mm, plan.units),
    )
    if kinds is None:
        return line
    planned = kinds.of(kinds.planned)
    others = [_instead(row, planned, plan) for row in kinds.rows if row.possible and row is not planned]
    none = say("Without it: no other kind of mold can be made of this original.")
    return " ".join((line, say("Instead: {kinds}.", kinds="; ".join(others)) if others else none))


def _instead(row: StrategyPlan, planned: StrategyPlan, plan: Plan) -> str:
    """What a kind takes against the glove that is slit, and what line it leaves."""
    if row.strategy is Strategy.JACKET:
        leaves = say("slit as well, for its girths are the same")
    elif row.cut_mm > 0.0 or row.parting_mm > 0.0:
        leaves = say("its own line {length} long", length=show_length(max(row.cut_mm, row.parting_mm), plan.units))
    else:
        leaves = say("no line")
    return say(
        "{name}, hands {labor}, material {material}, {leaves}",
        name=kind_name(row), leaves=leaves, **_against(row, planned),
    )  # fmt: skip


def casts_told(casts: Range) -> str:
    """Casts that a mold gives, and their range.

    Parameters
    ----------
    casts : of it.
    """
    return f"{casts.likely:.0f} ({casts.low:.0f}–{casts.high:.0f})"


def life_told(plan: Plan, life: LifePlan) -> str:
    """How many casts the glove gives, and what the edition takes.

    Parameters
    ----------
    plan : with its count.
    life : of its glove.
    """
    return say(
        "about {casts} casts of one glove; {count} asked for take {gloves}",
        casts=casts_told(life.casts),
        count=plan.count,
        gloves=say_count("{num} glove", "{num} gloves", life.molds, num=life.molds),
    )


def mold_rows(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Which kind of mold is planned and why, and how long it lasts: heading and text of each row.

    Parameters
    ----------
    plan : the plan.
    """
    kind = ((say("kind"), kinds_reason(plan.strategies)),) if plan.strategies is not None else ()
    lasts = ((say("lasts"), life_told(plan, plan.life)),) if plan.life is not None else ()
    return (*kind, *lasts)
