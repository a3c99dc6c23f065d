"""What the sheets of a run print: the plan's own texts with the log's beside them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from moldwright.bench.acts import Act
from moldwright.log.codes import short_code, urn_of
from moldwright.plan.mixes import MixFor
from moldwright.plan.steps import EACH_CAST, Per
from moldwright.sheets.before_page import before_page, in_templates
from moldwright.sheets.bench_data import walls_data
from moldwright.sheets.heading import heading
from moldwright.sheets.mix_cards import mix_card
from moldwright.sheets.qr import LEAST_MODULE_MM, qr_code, qr_data
from moldwright.sheets.run.cards import run_card
from moldwright.sheets.run.cast_lines import run_log
from moldwright.sheets.run.shown import RunShown
from moldwright.sheets.run.stands import besides, stands
from moldwright.sheets.run.steps import batch_marks, step_marks
from moldwright.sheets.step_texts import Numbered, numbered, step_texts
from moldwright.sheets.wording import Wording, table
from moldwright.sheets.work_pages import WorkPages


def run_data(shown: RunShown, paper: str, cast: int | None = None) -> dict[str, Any]:
    """The form's data.

    Parameters
    ----------
    shown : the run.
    paper : the paper's name in the form.
    cast : of which cast, None: the mold's sheets, a cast's to fill in, and the log of casts.
    """
    steps = _steps(shown, cast)
    own = [its for its in steps if its.step.per is Per.CAST]
    others = [its for its in steps if its.step.per is not Per.CAST]
    pages = WorkPages(shown.plan, partial(_step, shown, cast), partial(_card, shown, cast or 0))
    each = WorkPages(shown.plan, partial(_blank, shown), partial(mix_card, shown.plan)) if cast is None else pages
    what = "bench sheets" if cast is None else f"bench sheets of cast {cast}"
    return heading(shown.plan, f"{what}, run {short_code(shown.run)}", paper) | {
        "again": _again(shown, cast),
        "walls": walls_data(shown.plan),
        "before": before_page(shown.plan) | {"elsewhere": f"{table()['run']['where']} {in_templates(shown.plan)}"},
        "words": table()["run"],
        "cast_number": cast,
        "stands": stands(shown),
        "besides": besides(shown, _told(shown, steps, cast)) if cast is None else [],
        "mold": pages.of_mold(others),
        "cast": each.of_cast(own),
        "log": run_log(shown) if cast is None else None,
    }


def _steps(shown: RunShown, cast: int | None) -> list[Numbered]:
    """The steps that are printed: those that the run has; of one cast all that come with it."""
    every = numbered(shown.plan)
    if cast is None:
        has = {act.act.step for act in shown.state.acts}
        return [its for its in every if its.step.id in has or its.step.per is Per.CAST]
    begins = next((its.number for its in every if its.step.per in EACH_CAST), len(every) + 1)
    return [its for its in every if its.number >= begins]


def _told(shown: RunShown, steps: Sequence[Numbered], cast: int | None) -> frozenset[Act]:
    """The acts whose notes stand on the sheets."""
    acts = (_act(shown, its, cast) for its in steps if its.step.per is not Per.CAST or cast is not None)
    return frozenset(act for act in acts if act is not None)


def _act(shown: RunShown, its: Numbered, cast: int | None) -> Act | None:
    """The act that a step is on these sheets; None where it is several, or a cast's that is not told."""
    match its.step.per:
        case Per.CAST:
            return None if cast is None else Act(its.step.id, cast)
        case Per.BATCH:
            return None if cast is None else _of_batch(shown, its, cast)
        case _:
            return Act(its.step.id)


def _of_batch(shown: RunShown, its: Numbered, cast: int) -> Act | None:
    """What is done once for the batch that a cast is of: with its first one what comes before it is poured, with its
    last one the rest."""
    turns = [act.act.turn for act in shown.state.acts if act.act.step == its.step.id]
    steps = numbered(shown.plan)
    pours = next((each.number for each in steps if each.step.per in EACH_CAST and each.step.mixes), len(steps))
    if its.number < pours:
        found = max((turn for turn in turns if turn <= cast), default=None)
    else:
        found = min((turn for turn in turns if turn >= cast), default=None)
    return None if found is None else Act(its.step.id, found)


def _step(shown: RunShown, cast: int | None, its: Numbered) -> dict[str, Any]:
    act = _act(shown, its, cast)
    marks = batch_marks(shown, its.step) if act is None else step_marks(shown, its.step, act.turn)
    return _blank(shown, its) | {"run": marks, "reused": False}


def _blank(shown: RunShown, its: Numbered) -> dict[str, Any]:
    return step_texts(shown.plan, Wording(shown.plan.units, shown.plan.scale_g), its)


def _card(
    shown: RunShown, cast: int, for_: MixFor, steps: Sequence[int], above: MixFor | None = None
) -> dict[str, Any]:
    return run_card(shown, cast, for_, steps, above)


def _again(shown: RunShown, cast: int | None) -> dict[str, Any]:
    """What the head of every sheet says of the run."""
    words = table()["run"]
    told = words["again" if cast is None else "again-cast"].format(
        cast=cast, at=shown.moment(shown.at_ms), run=short_code(shown.run), plan=shown.plan.plan_hash
    )
    return {"text": told, "say": words["slanted"], "code": qr_data(qr_code(urn_of(shown.run)), LEAST_MODULE_MM)}
