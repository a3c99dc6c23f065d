"""plan.json as it is written: the plan's values, and beside each sentence's key what it says."""

from __future__ import annotations

from typing import Any

from moldwright.plan.cautions import Caution
from moldwright.plan.json_text import plan_tree, text_of
from moldwright.plan.lines import Line
from moldwright.plan.needs import NeedPlan
from moldwright.plan.plan import Plan
from moldwright.plan.steps import StepPlan
from moldwright.plan.strategies import KindRemark, StrategiesPlan
from moldwright.sheets.need_words import need_name
from moldwright.sheets.wording import Wording


def plan_text(plan: Plan) -> str:
    """The text of plan.json. The words are for people who read the file; nothing reads them back.

    Parameters
    ----------
    plan : the whole plan.
    """
    words, tree = Wording(plan.units, plan.scale_g), plan_tree(plan)
    for step, told in zip(plan.steps, tree["steps"], strict=True):
        _tell_step(words, step, told)
    for caution, told in zip(plan.cautions, tree["cautions"], strict=True):
        told[Caution.IN_WORDS] = words.caution(caution)
    for need, told in zip(plan.needs, tree["needs"], strict=True):
        told[NeedPlan.IN_WORDS] = need_name(need, plan.units, [step.id for step in plan.steps])
    _tell_kinds(words, plan.strategies, tree)
    return text_of(tree)


def _tell_kinds(words: Wording, kinds: StrategiesPlan | None, tree: dict[str, Any]) -> None:
    if kinds is None:
        return
    for row, told in zip(kinds.rows, tree["strategies"]["rows"], strict=True):
        lines, trees = (*row.barred, *row.risks), (*told["barred"], *told["risks"])
        for each, in_words in zip(lines, trees, strict=True):
            in_words[KindRemark.IN_WORDS] = words.line(each.line, each.quantities)


def _tell_step(words: Wording, step: StepPlan, told: dict[str, Any]) -> None:
    lines = (step.title, *step.needs, *step.do, *step.before, *step.write)
    trees = (told["title"], *told["needs"], *told["do"], *told["before"], *told["write"])
    for line, tree in zip(lines, trees, strict=True):
        tree[Line.IN_WORDS] = words.line(line, step.quantities)
