"""The list names all that the steps ask to have at hand: a row of it, or one of the small things with its steps.

Which row buys what is said here by hand (common practice, no source).
"""

from __future__ import annotations

import io
import re
from dataclasses import replace
from itertools import chain

import pypdf
import pytest
from sheets_fixture import plan as made_up
from steps_context import context
from told import done

from moldwright.commission.orders import CastOrder, Measure, MoldOrder, ShopOrder
from moldwright.plan.needs import NeedPlan
from moldwright.plan.plan import Plan
from moldwright.quantities.quantities import Quantities
from moldwright.sheets.at_hand import at_hand
from moldwright.sheets.shopping_data import shopping_data
from moldwright.sheets.typesetting import typeset
from moldwright.sheets.wording import Wording
from moldwright.steps.sentences import needs_listed
from moldwright.steps.sheet import Listed

BUYS = (
    (r"\bmatting\b", "gypsum-mat"),
    (r"cup", "cup"), (r"bucket", "bucket"), (r"stick", "stir-stick"), (r"syringe", "syringe"), (r"clay", "clay"),
    (r"talc", "talc"), (r"paste wax", "paste-wax"), (r"dark wax", "dark-wax"), (r"bands", "band"), (r"clamps", "clamp"),
    (r"rolls? of plaster", "plaster-bandage"), (r"scissors", "scissors"),
    (r"knife|blade", "knife"), (r"gloves", "vinyl-gloves"), (r"respirator for fine", "dust-respirator"),
    (r"dust mask", "dust-mask"), (r"steel wool", "steel-wool"), (r"wet-and-dry", "sandpaper"),
    (r"solvent", "isopropanol"), (r"gloves for it", "solvent-gloves"), (r"felt", "felt"), (r"plies", "plaster-bandage"),
    (r"dipping water", "dipping-water"), (r"thixotropic", "silicone-thixotrope"), (r"sawdust", "latex-filler"),
    (r"thin sheet", "divider"), (r"bronze", "bronze"), (r"tint", "tint-black"),
    (r"petroleum|release", "petroleum-jelly"),
    (r"shellac", "shellac"), (r"fiber-reinforced gypsum", "fiber-gypsum"), (r"mixed rubber", "patch-cup"),
    (r"skin's own mix| in \d+ cup", "cup"),
)  # fmt: skip
BROUGHT = re.compile(
    r"shopping list|file mold|map |templates|table of the seam|hidden place|trimmings|dry scrap"
    r"|printed halves|second pair of hands|^water$|photographs|first cast|whoever|somebody|vacuum|a handful",
    re.IGNORECASE,
)
"""What the work, its papers and its people bring."""
JOBS = {
    "bandage": context(),
    "gypsum shell": context(mold=MoldOrder(shell="fiber-gypsum")),
    "sealed": context(MoldOrder(sealer="shellac")),
    "volume": context(
        shop=ShopOrder(measure=Measure.VOLUME, marks_ml=1.0), cast=CastOrder(powder="none", backfill="none")
    ),
}


def plan_of(job: Quantities) -> Plan:
    work = done(job)
    return replace(made_up(), steps=work.steps, cautions=work.cautions, needs=(*job.needs, *work.gear))


def small_things(plan: Plan, words: Wording) -> list[list[str]]:
    return [row for listed in (Listed.USED, Listed.SHOP) for row in at_hand(plan, words, listed)]


def bought(text: str, needs: tuple[NeedPlan, ...]) -> bool:
    ids = {need.id for need in needs}
    return any(re.search(pattern, text, re.IGNORECASE) and id_ in ids for pattern, id_ in BUYS)


@pytest.mark.parametrize("name", JOBS)
def test_what_is_at_hand_is_on_the_list(name: str) -> None:
    plan = plan_of(JOBS[name])
    words = Wording(plan.units)
    beside = {what for what, _ in small_things(plan, words)}
    for step in plan.steps:
        for line in step.needs:
            text = words.line(line, step.quantities)
            if line.say in needs_listed(Listed.ROW):
                assert text not in beside, text
                assert BROUGHT.search(text) or bought(text, plan.needs), (step.id, text)
            else:
                assert text in beside


def test_each_thing_once_with_the_numbers_of_its_steps() -> None:
    plan = plan_of(JOBS["bandage"])
    words = Wording(plan.units)
    rows = small_things(plan, words)
    assert len({what for what, _ in rows}) == len(rows)
    for what, numbers in rows:
        spans = [[int(n) for n in span.split("–")] for span in numbers.split(", ")]
        told = set(chain.from_iterable(range(span[0], span[-1] + 1) for span in spans))
        asking = {
            number
            for number, step in enumerate(plan.steps, start=1)
            if what in [words.line(line, step.quantities) for line in step.needs]
        }
        assert told == asking, what


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_it_is_printed_on_the_list(paper: str) -> None:
    """What readers of the paper missed."""
    plan = plan_of(JOBS["bandage"])
    pages = pypdf.PdfReader(io.BytesIO(typeset("shopping", shopping_data(plan, paper), {}))).pages
    text = " ".join(re.sub(r"\s+", " ", page.extract_text()) for page in pages)
    block = text[text.index("Tools and small things") :]
    for thing in (
        "two wooden wedges", "cradle", "board strips", "drop sheet", "clean dry beads", "tray for leaks",
        "squeeze bulb",
        "cleaner proved", "lint-free cloth", "sieve", "open metal pan", "dry jar", "square, rule", "gauge", "timer",
        "thermometer", "tissue", "wide stick", "soft brush",
    ):  # fmt: skip
        assert thing in block.casefold(), thing


def test_what_is_used_up_is_apart_from_what_is_the_shops() -> None:
    """Common practice, no source."""
    plan = plan_of(JOBS["bandage"])
    used, shop = ({what for what, _ in at_hand(plan, Wording(plan.units), each)} for each in (Listed.USED, Listed.SHOP))
    assert {"Lint-free cloth", "Drop sheet", "Acid-free tissue", "Mild soap"} <= used
    assert {"Two wooden wedges", "Timer", "Lamp", "Sieve", "Level"} <= shop
    assert not [what for what in used | shop if "pair of hands" in what]
