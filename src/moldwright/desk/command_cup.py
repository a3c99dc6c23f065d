"""`moldwright cup`: new targets for a cup of a plan that did not come out as planned."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from moldwright.desk.say import say, say_json
from moldwright.making.inputs import read_text
from moldwright.mixing.told_cup import CorrectedMix, corrected_mix
from moldwright.plan.json_text import plan_from_json, tree_of
from moldwright.sheets.corrected_words import corrected_words


def run_cup(folder: Path, cup: str, in_cup: Sequence[str], left: Sequence[str], as_json: bool) -> CorrectedMix:
    """Print the new targets of a cup.

    Parameters
    ----------
    folder : the plan's folder.
    cup : the cup's id, as plan.json and the refusal tell them.
    in_cup, left : "A=212 g": what is in the cup of a part, and what there is left of it beside.
    as_json : print one JSON object.
    """
    plan = plan_from_json(read_text(folder / "plan.json", "plan"))
    found = corrected_mix(plan, cup, in_cup, left)
    if as_json:
        say_json(tree_of(found))
    else:
        say(corrected_words(found, plan))
    return found
