"""The first sheet: what can ruin this job, what it comes to, in figures, and where everything is told."""

from __future__ import annotations

from typing import Any

from moldwright.plan.plan import Plan
from moldwright.sheets.figures import figure_pairs
from moldwright.sheets.mold_words import mold_rows
from moldwright.sheets.step_texts import tells_in_full
from moldwright.sheets.totals_words import totals_rows
from moldwright.sheets.wording import Wording, table
from moldwright.steps.before_start import Warned, before_you_start


def before_page(plan: Plan) -> dict[str, Any]:
    """Everything that the first sheet prints.

    Parameters
    ----------
    plan : the plan.
    """
    words = Wording(plan.units, plan.scale_g)
    return {
        "warned": [_warned(warned, words) for warned in before_you_start(plan)],
        "totals": [[name.capitalize(), text] for name, text in (*totals_rows(plan), *mold_rows(plan))],
        "figures": figure_pairs(plan),
        "elsewhere": f"{in_templates(plan)} {table()['before']['elsewhere']}",
        "materials": [words.caution(each) for each in plan.cautions if tells_in_full(each)],
    }


def in_templates(plan: Plan) -> str:
    """What the templates hold: a shell in one piece has no seam to draw, and only some gloves are slit.

    Parameters
    ----------
    plan : the plan.
    """
    before = table()["before"]
    drawn = str(before["joined" if plan.shell.joined else "one-piece"])
    return drawn if plan.glove.slit is None else f"{drawn} {before['slit']}"


def _warned(warned: Warned, words: Wording) -> dict[str, str]:
    title = words.line(warned.step.title, warned.step.quantities)
    return {
        "severity": warned.caution.severity,
        "text": words.caution(warned.caution),
        "where": f"Step {warned.number}, {title}.",
    }
