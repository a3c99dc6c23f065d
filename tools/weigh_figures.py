"""How much each figure of a sheet matters: the plan of a made-up mold with the figure at both ends of its range.

`reckoned` is the only place that touches the plan's quantities.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import inf
from typing import Any

from made_up_job import VOLUMES, commission, job_of
from told import done

from moldwright.commission.orders import CastOrder, Commission, MoldOrder, ShopOrder
from moldwright.errors import NoSafePlan
from moldwright.materials import Library, library
from moldwright.materials.words import Fit
from moldwright.ranges import Range
from moldwright.text.shown import number

SHOWN_PCT = 0.05
HEADLINES = (
    *("rubber mixed", "cast mixed", "cups", "rubber on by", "cast in by", "piece's mass", "piece's height"),
    *("waiting", "buying"),
)
LINE = "a line of the list"
NO_PLAN = float("inf")


@dataclass(frozen=True)
class Moved:
    """How far one figure moves a plan: the outcome, and the difference between both ends in percent of the plan."""

    kind: str
    sheet: str
    key: str
    figure: Any
    outcome: str
    change_pct: float


def reckoned(order: Commission, lib: Library) -> dict[str, float]:
    """What a maker sees of a plan, by name: grams, cups, seconds, millimeters, minutes, money, every line to buy."""
    plan = job_of(order, lib)
    steps = done(plan, known=lib).steps
    cast, rubber = plan.cast.mixes, plan.rubber.mixes
    seen = {
        "rubber mixed": sum(mix.mass_g for mix in rubber),
        "cast mixed": sum(mix.mass_g for mix in cast),
        "cups": float(len(plan.mixes)),
        "rubber on by": min(mix.out_by_s or inf for mix in rubber),
        "cast in by": min(mix.out_by_s or inf for mix in cast),
        "piece's mass": plan.cast.cast.mass_g.likely,
        "piece's height": VOLUMES.piece.height_mm - plan.cast.cast.shrinkage_mm.likely,
        "waiting": sum(step.wait_min.likely for step in steps if step.wait_min),
        "buying": sum(price(need.id, need.amount.likely, lib) for need in plan.needs),
    }
    return seen | {f"{LINE}: {need.id}": need.amount.likely for need in plan.needs}


def price(need: str, amount: float, lib: Library) -> float:
    """Cost-like: the amount at the unit price of the largest pack of the sheet whose id the need begins with."""
    sheets = [sheet for rows in lib.sheets.values() for sheet in rows.values() if need.startswith(sheet.id)]
    if not sheets:
        return 0.0
    pack = max(sheets, key=lambda sheet: len(sheet.id)).packs[-1]
    return amount * float(pack.price) / pack.amount


def order_for(kind: str, sheet: str) -> Commission:
    """A commission that uses the sheet; one that any sheet of the other kinds is in."""
    patient = ShopOrder(mix_min=1.0)
    if kind in ("rubber", "shell", "release", "sealer"):
        return commission(mold=replace(MoldOrder(), **{kind: sheet}), shop=patient)
    if kind == "resin":
        return commission(cast=_cast(sheet), shop=patient)
    return commission(cast=CastOrder(powder=sheet) if kind == "powder" else None, shop=patient)


def _cast(resin: str) -> CastOrder:
    """A cast for which the resin is fit: a skin and what is behind it, a skin alone, or all of it."""
    fit = library().sheets["resin"][resin].fit  # type: ignore[attr-defined]
    if Fit.SKIN not in fit:
        return CastOrder(resin=resin, powder="marble", solid=True)
    return CastOrder(resin=resin, powder="marble", backfill=resin if Fit.BACK_FILL in fit else "none")


def with_figure(lib: Library, row: Any, value: float) -> Library:
    """The library with one figure of one sheet at one value, without spread."""
    sheet = lib.sheets[row.kind][row.sheet]
    figure = replace(row.figure, range=Range.exactly(value))
    window = ("tack_earliest_s", "tack_latest_s")
    if row.key in window:
        ends = [figure if key == row.key else end for key, end in zip(window, sheet.tack_window_s, strict=True)]  # type: ignore[attr-defined]
        changed = replace(sheet, tack_window_s=tuple(ends))  # type: ignore[call-arg]
    else:
        changed = replace(sheet, **{row.key: figure})
    return replace(lib, sheets={**lib.sheets, row.kind: {**lib.sheets[row.kind], row.sheet: changed}})


def weighed(row: Any) -> Moved:
    """The outcome that one figure moves most, headlines before lines."""
    lib, order = library(), order_for(row.kind, row.sheet)
    plain = reckoned(order, lib)
    ends = [at for value in (row.figure.low, row.figure.high) if (at := _tried(order, with_figure(lib, row, value)))]
    if len(ends) < 2:
        return Moved(row.kind, row.sheet, row.key, row.figure, "no plan at one end", NO_PLAN)
    changes = dict(_changes(plain, *ends))
    head = max(HEADLINES, key=lambda name: changes[name])
    every = max(changes, key=lambda name: changes[name])
    name = head if changes[head] >= SHOWN_PCT else every
    return Moved(row.kind, row.sheet, row.key, row.figure, name, changes[name])


def _tried(order: Commission, lib: Library) -> dict[str, float]:
    try:
        return reckoned(order, lib)
    except NoSafePlan:
        return {}


def _changes(plain: dict[str, float], low: dict[str, float], high: dict[str, float]) -> Iterator[tuple[str, float]]:
    for name, value in plain.items():
        yield name, 100.0 * abs(high.get(name, value) - low.get(name, value)) / abs(value) if value else 0.0


def table(rows: list[Any]) -> str:
    """Every figure that moves something, what moves most first; then the keys that move nothing yet."""
    moved = sorted((weighed(row) for row in rows), key=lambda m: (m.outcome.startswith(LINE), -m.change_pct, m.key))
    lines: dict[tuple[str, ...], list[str]] = {}
    for m in moved:
        if m.change_pct >= SHOWN_PCT:
            lines.setdefault(_cells(m), []).append(m.sheet)
    told = ["| figure | low, likely, high | moves | by |", "|---|---|---|---|"]
    told += [f"| `{key}` of {', '.join(sheets)} | {' | '.join(cells)} |" for (key, *cells), sheets in lines.items()]
    still = Counter(m.key for m in moved if m.change_pct < SHOWN_PCT)
    keys = ", ".join(f"`{key}` ({count})" for key, count in still.most_common())
    return "\n".join([*told, "", f"Nothing that is counted here moves by {SHOWN_PCT} % with (figures): {keys}."])


def _cells(m: Moved) -> tuple[str, ...]:
    f = m.figure
    by = "no plan" if m.change_pct == NO_PLAN else f"{m.change_pct:.1f} %"
    return m.key, ", ".join(map(number, (f.low, f.likely, f.high))) + f" {f.unit}", m.outcome.split(":")[0], by
