"""What the bench sheet prints, from a plan: texts only, so that the form decides nothing but places."""

from __future__ import annotations

from dataclasses import asdict
from itertools import groupby
from typing import Any

from moldwright.plan.mixes import MeasuredBy, MixPart, MixPlan, PartKind
from moldwright.plan.original import HoleTreat
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per, StepPlan
from moldwright.sheets.figures import figures
from moldwright.sheets.marked_cup import marked_rows, measured
from moldwright.sheets.need_words import part_name
from moldwright.sheets.picture import Picture, Pictures
from moldwright.sheets.seam_page import seam_page
from moldwright.sheets.walls import Place, places, walls
from moldwright.sheets.wording import Wording, show_lift, show_value
from moldwright.sheets.words import labor_text, mass_or_trace, reads_nothing, split_unit
from moldwright.steps.lifts import LIFT_FROM_KG, TWO_LIFT_FROM_KG
from moldwright.steps.sheet import DEFER
from moldwright.units import show_deadline, show_length, show_mass, show_range, show_temperature, show_volume
from moldwright.units.system import UnitSystem

AID = [["On skin:", "wipe, then soap and water."], ["In an eye:", "rinse 15 min, lids open; see a doctor."]]
REMINDER = "This sheet reminds. The safety data sheet of each product, local code and licensed practice come first."
EVERY_CAST = "For every cast, on a fresh copy of these sheets. Cast number:"


def heading(plan: Plan, what: str, paper: str) -> dict[str, Any]:
    """What head and foot of every sheet say."""
    short = plan.plan_hash if len(plan.plan_hash) <= 12 else plan.plan_hash[:8]
    facts = [
        ["Shop at", show_temperature(plan.temperature_c, plan.units)],
        ["Rubber", plan.rubber],
        ["Plan", short],
    ]
    return {
        "paper": paper, "title": plan.name, "what": what, "hash": plan.plan_hash, "facts": facts,
        "aid": AID, "reminder": REMINDER,
    }  # fmt: skip


def bench_data(plan: Plan, pictures: Pictures, paper: str, paper_mm: float) -> tuple[dict[str, Any], dict[str, bytes]]:
    """The form's data and its pictures by file name.

    Parameters
    ----------
    plan : the plan.
    pictures : its drawings.
    paper : the paper's name in the form.
    paper_mm : its height [mm].
    """
    files: dict[str, bytes] = {}
    room = paper_mm - 61.5
    halves = figures(plan)
    shown = room - 49.0 - 4.7 * max(map(len, halves))
    data = heading(plan, "bench sheet", paper) | {
        "walls": {name: [asdict(layer) for layer in layers] for name, layers in walls(plan).items()},
        "pictures": {
            "apart": _picture(pictures.apart, "apart", files),
            "glove": _picture(pictures.glove, "glove", files),
            "cut": _picture(pictures.cut, "cut", files),
            "seam": [_picture(p, f"seam-{k}", files) for k, p in enumerate(pictures.seam)],
            "fill": [_picture(p, f"fill-{k}", files) for k, p in enumerate(pictures.fill)],
        },
        "room": {"apart": 0.53 * shown, "glove": 0.47 * shown, "fill": _fill_room(plan, pictures, room)},
        "seam": seam_page(plan, pictures, (room - 84.0) / 2),
        "say": _sayings(plan.shell_making.by_hand),
        "figures": halves,
        "spots": _spots(plan),
        "small_spots": _small_spots(plan),
        "holes": _holes(plan),
        "assumed": [[a.key, show_value(a.value, a.unit, plan.units), a.source] for a in plan.assumed],
        "phases": _phases(plan),
    }
    return data, files


def _picture(picture: Picture, name: str, files: dict[str, bytes]) -> dict[str, Any]:
    files[f"{name}.png"] = picture.png
    marks = [{"kind": m.kind, "text": m.text, "x": m.x, "y": m.y, "to": m.to} for m in picture.marks]
    return {
        "file": f"{name}.png", "name": picture.name, "alt": f"Drawing: {picture.name.lower()}", "marks": marks,
        "width_mm": picture.width_mm, "height_mm": picture.height_mm, "bottom_mm": picture.bottom_mm,
    }  # fmt: skip


def _sayings(laid: bool) -> dict[str, str]:
    apart = "Pieces are numbered as they come off, straight along their arrows"
    return {
        "apart": apart + ("; laid the other way round." if laid else "."),
        "cut": "Hatched: original. Solid: rubber. Weave: shell.",
        "seam": "Four sides of the gloved piece. Heavy line: the seam; numbers: the shell's pieces, 1 off first.",
        "assumed": "Each line is a key of the commission or a value of a material's sheet: write it there to change.",
        "fill": "Numbered where it goes in; letters: through-holes. Right, back and up are counted from the ring where"
        " the axes start, the middle of the foot. Pack each spot flush after the coat named, then slide a straight"
        " stick along the draws: it must catch nowhere.",
    }


def _fill_room(plan: Plan, pictures: Pictures, room_mm: float) -> float:
    """Height of a picture of the fill [mm]: what the tables leave, in rows of two pictures."""
    tables = 7.2 * (len(plan.glove.spots) + bool(plan.glove.small_spots) + len(plan.original.holes)) + 52.0
    return min(80.0, max(45.0, (room_mm - tables) / max(1, (len(pictures.fill) + 1) // 2)))


def _small_spots(plan: Plan) -> dict[str, str]:
    """The places without a number in one line; empty where there is nothing of note in them."""
    small = plan.glove.small_spots
    grams = mass_or_trace(sum(each.net_g for each in small), plan.units, plan.scale_g)
    if grams == "a trace":
        return {}
    coats = dict.fromkeys(plan.coat(each.after).name for each in small)
    return {"grams": grams, "after": ", ".join(coats)}


def _holes(plan: Plan) -> list[dict[str, str]]:
    return [
        {
            "letter": hole.letter,
            "width": show_length(hole.width_mm, plan.units),
            "treat": {HoleTreat.DIVIDER: "divider", HoleTreat.STOP: "stopped"}[hole.treat],
            "at": _place(hole.at, plan.units),
        }
        for hole in plan.original.holes
    ]


def _place(at: tuple[float, float, float], units: UnitSystem) -> str:
    """Right, back and up from the table's origin."""
    return ", ".join(show_length(round(v), units) for v in at)


def _spots(plan: Plan) -> list[dict[str, str]]:
    return [
        {
            "number": str(number),
            "grams": mass_or_trace(spot.net_g, plan.units, plan.scale_g),
            "depth": show_length(spot.depth_mm, plan.units),
            "after": plan.coat(spot.after).name,
            "at": _place(spot.at, plan.units),
        }
        for number, spot in enumerate(plan.glove.spots, start=1)
    ]


def _phases(plan: Plan) -> list[dict[str, Any]]:
    """Steps that share a wall, in their order; each phase begins on a new sheet."""
    words, step_g = Wording(plan.units, plan.scale_g), plan.scale_g
    rows = list(enumerate(zip(plan.steps, places(plan), strict=True), start=1))
    phases = []
    for _, part in groupby(rows, key=lambda row: row[1][1].wall):
        steps = [(number, step, place) for number, (step, place) in part]
        every = any(step.per is Per.CAST for _, step, _ in steps)
        phases.append(
            {"say": EVERY_CAST if every else "", "steps": [_step(plan, words, n, s, p, step_g) for n, s, p in steps]}
        )
    return phases


def _step(plan: Plan, words: Wording, number: int, step: StepPlan, place: Place, step_g: float) -> dict[str, Any]:
    needs, before, do = (
        tuple(words.line(line, step.quantities) for line in lines) for lines in (step.needs, step.before, step.do)
    )
    lift = "" if step.lift_kg is None else _lift(step.lift_kg, plan.units)
    times = [f"about {labor_text(step.labor_min)}"] if step.labor_min > 0 else []
    per = {Per.MOLD: "", Per.CAST: "each cast", Per.EDITION: "once, at the end"}[step.per]
    return {
        "number": number, "title": words.line(step.title, step.quantities),
        "wall": place.wall, "low": place.layer, "high": place.layer,
        "group": place.group, "time": ", ".join([*times, *([per] if per else [])]),
        "at_hand": _listed(needs), "before": list(before),
        "before_short": len(before) > 1 and all(len(text) <= 46 for text in before),
        "do": list(do), "cautions": _cautions(plan, words, step), "lift": lift,
        "wait": _wait(step),
        "cups": [_cup(plan, plan.mix(id_), number, step_g) for id_ in step.mixes],
    }  # fmt: skip


def _listed(things: tuple[str, ...]) -> str:
    """Things in one sentence: "Soft brush, timer."

    >>> _listed(("Soft brush", "Timer", "A and B"))
    'Soft brush, timer, A and B.'
    """
    rest = [t[0].lower() + t[1:] if t[1:2].islower() else t for t in things[1:]]
    return ", ".join([*things[:1], *rest]) + ("." if things else "")


def _lift(lift_kg: float, units: UnitSystem) -> str:
    """The weight and, where it is cautioned, how."""
    aid = " Two people, or a lifting aid." if lift_kg >= TWO_LIFT_FROM_KG else " Both hands, back straight, way clear."
    return show_lift(lift_kg, units) + "." + (aid if lift_kg >= LIFT_FROM_KG else "")


def _cautions(plan: Plan, words: Wording, step: StepPlan) -> list[dict[str, str]]:
    """Gravest first; the foot of every sheet says what comes before this software's reminder."""
    own = [plan.caution(id_) for id_ in step.cautions]
    told = sorted((each for each in own if each.rule != DEFER), key=lambda each: -each.severity.rank)
    return [{"severity": each.severity, "text": words.caution(each)} for each in told]


def _wait(step: StepPlan) -> str:
    return "" if step.wait_min is None or step.wait_min.high <= 0 else show_range(step.wait_min * 60.0, "duration")


def _cup(plan: Plan, mix: MixPlan, number: int, step_g: float) -> dict[str, Any]:
    what = mix.for_.kind if mix.for_.coat is None else f"coat {plan.coat(mix.for_.coat).name}"
    held = "amount" if len(_pair(mix)) < 2 else "ratio"
    return {
        "label": f"Cup {mix.cup}",
        "title": f"Step {number}: cup {mix.cup} of {len(plan.mixes_for(mix.for_))}, {what}",
        "note": f"{measured(mix)} the {held} within ±{mix.tolerance_pct:.1f} %.",
        "rows": marked_rows(mix, plan.units) if mix.marked else [_row(p, plan.units, step_g) for p in mix.parts],
        "work_by": "" if mix.out_by_s is None else clock_text(mix.out_by_s),
        "remedy": _remedy(mix),
    }


def clock_text(work_by_s: float) -> str:
    """The work-by time as a clock shows it, never later than it is.

    >>> clock_text(271.0), clock_text(2234.0)
    ('4:30 min', '37 min')
    """
    text = show_deadline(work_by_s)
    return f"{text} min" if ":" in text else text


def _row(part: MixPart, units: UnitSystem, step_g: float) -> dict[str, str]:
    reads, unit = split_unit(show_mass(part.scale_reads_g, units, step_g))
    grams = show_mass(part.scale_reads_g, "metric", step_g)
    trace = part.mass_g < step_g / 2
    return {
        "name": part_name(part), "add": "a trace" if trace else _added(part, units, step_g),
        "volume": "" if _loose(part) else _volume(part.volume_ml, units),
        "reads": reads, "unit": unit, "also": grams if units == UnitSystem.US else "",
    }  # fmt: skip


def _added(part: MixPart, units: UnitSystem, step_g: float) -> str:
    """What goes in: by syringe in milliliters, whatever the units, for its marks are milliliters."""
    if part.syringe_ml is None:
        return show_mass(part.mass_g, units, step_g)
    return f"{part.volume_ml:g} ml, syringe of {part.syringe_ml:g} ml"


def _loose(part: MixPart) -> bool:
    """A powder that is weighed: what it takes up loose means nothing in the cup."""
    return part.kind is PartKind.POWDER and part.by is MeasuredBy.SCALE


def _volume(volume_ml: float, units: UnitSystem) -> str:
    """Empty where the digits that are printed would all be 0."""
    text = show_volume(volume_ml, units)
    return "" if reads_nothing(text) else text


def _pair(mix: MixPlan) -> list[MixPart]:
    """A and B in the order in which they are poured; one of them where the other is not there."""
    return [part for part in mix.parts if part.kind in (PartKind.A, PartKind.B)]


def _remedy(mix: MixPlan) -> str:
    """How to put an over-pour right, from the ratio of the two parts."""
    pair = _pair(mix)
    if len(pair) < 2 or mix.ratio is None:
        return ""
    a, b = pair
    return (
        f"For {a.name} too much add {mix.ratio:.3g} times as much {b.name} on top; for {b.name} too much add"
        f" {1 / mix.ratio:.3g} times as much {a.name}. Raise every later total by both. Cup full or its time"
        " nearly up: start again."
    )
