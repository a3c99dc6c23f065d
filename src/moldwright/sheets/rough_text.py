"""quantities.json as it is written: the values, and beside each sentence's key what it says."""

from __future__ import annotations

from moldwright.plan.json_text import plan_tree, text_of
from moldwright.plan.needs import NeedPlan
from moldwright.plan.rough import RoughCaution, RoughPlan
from moldwright.sheets.need_words import need_name
from moldwright.sheets.rough_words import caution_words
from moldwright.sheets.wording import Wording


def rough_text(plan: RoughPlan) -> str:
    """The text of quantities.json. The words are for people who read the file; nothing reads them back.

    Parameters
    ----------
    plan : the quantities.
    """
    words, tree = Wording(plan.units, plan.scale_g), plan_tree(plan)
    for caution, told in zip(plan.cautions, tree["cautions"], strict=True):
        told[RoughCaution.IN_WORDS] = caution_words(caution, words)
    for need, told in zip(plan.needs, tree["needs"], strict=True):
        told[NeedPlan.IN_WORDS] = need_name(need, plan.units)
    return text_of(tree)
