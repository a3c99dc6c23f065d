"""What the page of a piece's mixes shows: its cards, new targets for a cup, what a rest still covers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from moldwright.errors import MoldwrightError
from moldwright.mixing.told_cup import CorrectedMix, corrected_mix
from moldwright.plan.mixes import MixFor, MixPart, MixPlan
from moldwright.plan.plan import Plan
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.rests import covered
from moldwright.records.runs.typed import typed
from moldwright.sheets.bench_words import BenchWords
from moldwright.sheets.corrected_words import CorrectedText, corrected_text
from moldwright.sheets.mix_cards import alike, kinds_of, mix_card
from moldwright.sheets.need_words import need_name, part_name
from moldwright.told.bench.rest_lines import rest_lines
from moldwright.web.refusals import said
from moldwright.words.speaker import in_house_marks

IN, LEFT = "in:", "left:"
"""What stands before a part's kind in the name of a box: what is in the cup, what is left beside it."""


@dataclass(frozen=True, slots=True)
class AskedOfMixes:
    """What came of a question: its lines in words, or new targets in words, or a refusal."""

    lines: tuple[str, ...] = ()
    text: CorrectedText | None = None
    refused: MoldwrightError | None = None

    @property
    def said(self) -> Mapping[str, str]:
        """What was found and what is allowed, as shown."""
        return {} if self.refused is None else said(self.refused)


def cards(plan: Plan) -> list[dict[str, Any]]:
    """A card for everything that is mixed, in the plan's order.

    Parameters
    ----------
    plan : in the reader's units.
    """
    kinds = kinds_of(plan.mixes)
    return [_card(plan, for_, above) for above, for_ in zip((None, *kinds), kinds, strict=False)]


def _card(plan: Plan, for_: MixFor, above: MixFor | None) -> dict[str, Any]:
    steps = [n for n, step in enumerate(plan.steps, 1) if for_ in kinds_of(map(plan.mix, step.mixes))]
    cups = plan.mixes_for(for_)
    first = list({alike(mix): mix for mix in reversed(cups)}.values())[::-1]
    return {
        **mix_card(plan, for_, steps, above),
        "id": for_.stem,
        "cup_ids": [(mix.id, f"{mix.cup}") for mix in cups],
        "parts": [] if cups[0].marked else [(part.kind.value, part_name(part)) for part in first[0].parts],
    }


def masses_typed(mix: MixPlan, plan: Plan, boxes: Mapping[str, str], which: str) -> tuple[str, ...]:
    """What stands in the boxes of a cup's parts, as `corrected_mix` takes it.

    Parameters
    ----------
    mix : the cup.
    plan : in whose units a bare number is.
    boxes : by name.
    which : `IN` or `LEFT`.
    """
    return tuple(_masses(mix, plan, boxes, which))


def _masses(mix: MixPlan, plan: Plan, boxes: Mapping[str, str], which: str) -> Iterator[str]:
    for part in mix.parts:
        text = in_house_marks(boxes.get(f"{which}{part.kind}", "").strip())
        if text:
            yield f"{part.kind}={typed(text, 'mass', plan.units, part_name(part))!r} g"


def new_targets(plan: Plan, cup: str, boxes: Mapping[str, str]) -> CorrectedMix:
    """New targets for a cup by what stands in the boxes.

    Parameters
    ----------
    plan : in the reader's units.
    cup : its id.
    boxes : by name.

    Raises as `corrected_mix`.
    """
    mix = next((each for each in plan.mixes if each.id == cup), None)
    told = [() if mix is None else masses_typed(mix, plan, boxes, which) for which in (IN, LEFT)]
    return corrected_mix(plan, cup, *told)


def asked_targets(plan: Plan, cup: str, boxes: Mapping[str, str]) -> AskedOfMixes:
    """The same in words, or why not.

    Parameters
    ----------
    plan, cup, boxes : as `new_targets`.
    """
    try:
        return AskedOfMixes(text=corrected_text(new_targets(plan, cup, boxes), plan))
    except MoldwrightError as refused:
        return AskedOfMixes(refused=refused)


def asked_rest(run: OpenRun, stuff: str, left: str) -> AskedOfMixes:
    """What the rest of a material still covers, in words, or why it cannot be told.

    Parameters
    ----------
    run : in the reader's units.
    stuff : the material's id.
    left : what there is of it.
    """
    try:
        return AskedOfMixes(tuple(rest_lines(BenchWords(run.plan), covered(run, [f"{stuff}={in_house_marks(left)}"]))))
    except MoldwrightError as refused:
        return AskedOfMixes(refused=refused)


def stuffs_to_come(run: OpenRun) -> list[tuple[str, str]]:
    """Materials that something still takes: id, and what the list calls each.

    Parameters
    ----------
    run : in the reader's units.
    """
    parts = {part.stuff: part for cup in run.state.cups if not cup.settled for part in cup.mix.parts}
    return [(stuff.id, _called(run.plan, part)) for stuff, part in parts.items() if stuff.id]


def _called(plan: Plan, part: MixPart) -> str:
    need = next((each for each in plan.needs if each.stuff == part.stuff), None)
    return part_name(part) if need is None else need_name(need, plan.units)
