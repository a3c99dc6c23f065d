"""What the bench sheet prints, from a plan: texts only, so that the form decides nothing but places."""

from __future__ import annotations

from dataclasses import asdict
from itertools import groupby
from typing import Any

from moldwright.plan.plan import MixPart, MixPlan, Plan, StepPlan
from moldwright.sheets.figures import figures
from moldwright.sheets.picture import Picture, Pictures
from moldwright.sheets.seam_page import seam_page
from moldwright.sheets.walls import Place, places, walls
from moldwright.sheets.words import mass_or_trace, minutes, scale_step_g, split_unit, wait_text
from moldwright.steps.masses import show_kg
from moldwright.steps.sheet import defer_line
from moldwright.units import show_length, show_mass, show_temperature, show_volume

AID = [["On skin:", "wipe, then soap and water."], ["In an eye:", "rinse 15 min, lids open; see a doctor."]]
REMINDER = "This sheet reminds. The safety data sheet of each product, local code and licensed practice come first."
EVERY_CAST = "For every cast, on a fresh copy of these sheets. Cast number:"


def heading(plan: Plan, what: str, paper: str) -> dict[str, Any]:
    """What head and foot of every sheet say."""
    short = plan.plan_hash if len(plan.plan_hash) <= 12 else plan.plan_hash[:8]
    facts = []
    if plan.temperature_c is not None:
        facts.append(["Shop at", show_temperature(plan.temperature_c, plan.units)])
    if plan.rubber:
        facts.append(["Rubber", plan.rubber])
    facts.append(["Plan", short])
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
        "say": _sayings(any(step.id == "shell-2" for step in plan.steps)),
        "figures": halves,
        "spots": _spots(plan),
        "assumed": [[a.key, a.value, a.source] for a in plan.assumed],
        "phases": _phases(plan),
    }
    return data, files


def _picture(picture: Picture, name: str, files: dict[str, bytes]) -> dict[str, Any]:
    files[f"{name}.png"] = picture.png
    marks = [{"text": m.text, "x": m.x, "y": m.y, "to": m.to} for m in picture.marks]
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
        "angles": "Seen from above, counted from the right side (0°) by way of the back (90°) to the left (180°).",
        "assumed": "Each line is a key of the commission or a value of a material's sheet: write it there to change.",
        "fill": "Numbered where it goes. Pack each spot flush after the coat named, then slide a straight stick along"
        " the draws: it must catch nowhere.",
    }


def _fill_room(plan: Plan, pictures: Pictures, room_mm: float) -> float:
    """Height of a picture of the fill [mm]: what the two tables leave, in rows of two pictures."""
    tables = 7.2 * len(plan.glove.spots) + 48.0
    return min(80.0, max(45.0, (room_mm - tables) / max(1, (len(pictures.fill) + 1) // 2)))


def _spots(plan: Plan) -> list[dict[str, str]]:
    return [
        {
            "number": str(number),
            "grams": mass_or_trace(spot.net_g, plan.units),
            "depth": show_length(spot.depth_mm, plan.units),
            "after": spot.after_coat,
            "at": ", ".join(show_length(round(v), plan.units) for v in spot.at),
        }
        for number, spot in enumerate(plan.glove.spots, start=1)
    ]


def _phases(plan: Plan) -> list[dict[str, Any]]:
    """Steps that share a wall, in their order; each phase begins on a new sheet."""
    step_g = scale_step_g(plan.mixes, plan.units)
    rows = list(enumerate(zip(plan.steps, places(plan), strict=True), start=1))
    phases = []
    for _, part in groupby(rows, key=lambda row: row[1][1].wall):
        steps = [(number, step, place) for number, (step, place) in part]
        every = any(step.per == "cast" for _, step, _ in steps)
        phases.append(
            {"say": EVERY_CAST if every else "", "steps": [_step(plan, n, s, p, step_g) for n, s, p in steps]}
        )
    return phases


def _step(plan: Plan, number: int, step: StepPlan, place: Place, step_g: float) -> dict[str, Any]:
    lift = "" if step.lift_kg is None else _lift(step.lift_kg, plan.units)
    times = [f"about {minutes(step.labor_min)}"] if step.labor_min > 0 else []
    per = {"cast": "each cast", "edition": "once, at the end"}.get(step.per, "")
    return {
        "number": number, "title": step.title, "wall": place.wall, "low": place.layer, "high": place.layer,
        "group": place.group, "time": ", ".join([*times, *([per] if per else [])]),
        "at_hand": _listed(step.needs), "before": list(step.before),
        "before_short": len(step.before) > 1 and all(len(text) <= 46 for text in step.before),
        "do": list(step.do), "cautions": _cautions(plan, step), "lift": lift,
        "wait": _wait(step),
        "cups": [_cup(plan, plan.mixes[index], number, step_g) for index in step.mixes],
    }  # fmt: skip


def _listed(things: tuple[str, ...]) -> str:
    """Things in one sentence: "Soft brush, timer."

    >>> _listed(("Soft brush", "Timer", "A and B"))
    'Soft brush, timer, A and B.'
    """
    rest = [t[0].lower() + t[1:] if t[1:2].islower() else t for t in things[1:]]
    return ", ".join([*things[:1], *rest]) + ("." if things else "")


def _lift(lift_kg: float, units: str) -> str:
    """The weight, and from 2 kg on how: limits are common practice, no source."""
    aid = " Two people, or a lifting aid." if lift_kg > 15 else " Both hands, back straight, way clear."
    return show_kg(lift_kg, units) + "." + (aid if lift_kg >= 2 else "")


def _cautions(plan: Plan, step: StepPlan) -> list[dict[str, str]]:
    """Gravest first; a severity that the plan does not tell counts as "heed"."""
    severity = {c.text: c.severity for c in plan.cautions if c.step in (step.id, "")}
    rank = {"stop": 0, "heed": 1, "note": 2}
    own = [text for text in step.cautions if text != defer_line()]  # the foot of every sheet says that
    texts = sorted(own, key=lambda text: rank.get(severity.get(text, "heed"), 1))
    return [{"severity": severity.get(text, "heed"), "text": text} for text in texts]


def _wait(step: StepPlan) -> str:
    return "" if step.wait_min is None or step.wait_min.high <= 0 else wait_text(step.wait_min)


def _cup(plan: Plan, mix: MixPlan, number: int, step_g: float) -> dict[str, Any]:
    count = sum(1 for other in plan.mixes if other.for_ == mix.for_)
    coat = any(c.name == mix.for_ for c in plan.glove.coats)
    what = f"coat {mix.for_}" if coat else mix.for_
    return {
        "label": f"Cup {mix.cup}",
        "title": f"Step {number}: cup {mix.cup} of {count}, {what}",
        "note": f"Empty cup on the scale, zero it once. This scale holds the ratio within ±{mix.tolerance_pct:.1f} %.",
        "rows": [_row(part, plan.units, step_g) for part in mix.parts],
        "work_by": minutes_and_seconds(mix.work_by_s),
        "remedy": _remedy(mix, _share_of(plan, mix)),
    }


def minutes_and_seconds(duration_s: float) -> str:
    """The work-by time as a clock shows it: "13:00 min".

    >>> minutes_and_seconds(780), minutes_and_seconds(4000)
    ('13:00 min', '1 h 06')
    """
    if duration_s >= 3600:
        return f"{int(duration_s // 3600)} h {int(duration_s % 3600 // 60):02d}"
    return f"{int(duration_s // 60)}:{int(duration_s % 60):02d} min"


def _row(part: MixPart, units: str, step_g: float) -> dict[str, str]:
    reads, unit = split_unit(show_mass(part.scale_reads_g, units, step_g))
    grams = show_mass(part.scale_reads_g, "metric", step_g)
    trace = part.mass_g < step_g / 2
    return {
        "name": part.name, "add": "a trace" if trace else show_mass(part.mass_g, units, step_g),
        "volume": _volume(part.volume_ml, units),
        "reads": reads, "unit": unit, "also": grams if units == "us" else "",
    }  # fmt: skip


def _volume(volume_ml: float, units: str) -> str:
    """Empty where the digits that are printed would all be 0."""
    text = show_volume(volume_ml, units)
    return text if any(digit in text for digit in "123456789") else ""


def _share_of(plan: Plan, mix: MixPlan) -> float | None:
    """B for one of A, or the second part for the first, over all cups of the same mix: nearer than one rounded cup."""
    coats = {coat.name for coat in plan.glove.coats}
    like = [m for m in plan.mixes if m.for_ == mix.for_ or (m.for_ in coats and mix.for_ in coats)]
    first, second = ([p.mass_g for m in like for p in _pair(m)[k : k + 1]] for k in (0, 1))
    return sum(second) / sum(first) if first and second and min(sum(first), sum(second)) > 0 else None


def _pair(mix: MixPlan) -> list[MixPart]:
    main = sorted(mix.parts, key=lambda part: -part.mass_g)
    return (sorted((p for p in mix.parts if _is_side(p.name)), key=mix.parts.index) or main)[:2]


def _remedy(mix: MixPlan, share: float | None) -> str:
    """How to put an over-pour right, from the masses of the two parts."""
    pair = _pair(mix)
    if len(pair) < 2 or share is None:
        return ""
    a, b = pair
    return (
        f"For {a.name} too much add {share:.2f} times as much {b.name} on top; for {b.name} too much add"
        f" {1 / share:.2f} times as much {a.name}. Raise every later total by both. Cup full or its time"
        " nearly up: start again."
    )


def _is_side(name: str) -> bool:
    return name.strip()[:1] in "AB" and (len(name.strip()) == 1 or not name.strip()[1].isalpha())
