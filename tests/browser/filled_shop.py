"""A shop with one of everything, and an address of every page in it: what a sweep over all pages goes through."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import closing
from dataclasses import replace
from itertools import takewhile
from pathlib import Path

from conftest import Job
from screen_plans import piece_in, plan_in
from tests.browser.shop_scene import in_shop

from moldwright.log.event import About
from moldwright.log.ids import RunId
from moldwright.log.lot_events import LotReceived
from moldwright.log.recipe_events import RecipeKind
from moldwright.log.run_events import Done
from moldwright.materials.library import library
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.plan import Plan
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.recipes.typed import CupNamed, RecipeTyped, keep_typed
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop, open_shop
from moldwright.records.stock.catalog import offers
from moldwright.records.stock.keep import receive
from moldwright.records.told import day_of
from moldwright.web.pages.take_in.draft import Drafts

NO_PAGES = {
    "/files/{file}": "a file",
    "/pieces/{id_}/{which}/{name}": "a file",
    "/work/{id_}/shown": "stands within /work",
    "/take-in/{id_}/looked": "stands within a piece that is taken in",
    "/under-way": "stands within Today and the wall",
}
"""Routes that browsers read and that are no whole page."""
SIZE = 60
"""Numbers of the edition: enough for rows that break."""


def fill(home: Path, job: Job) -> Mapping[str, str]:
    """Fill the records of a desk; tells an address of every page whose path names something, by its route's path.

    Parameters
    ----------
    home : the desk's (`DeskProcess`): its store is `shop.db`, its data folder `desk`.
    job : a small real plan with its solids.
    """
    with closing(open_shop(str(home / "shop.db"))) as shop:
        plan = job.planned.plan
        made = in_shop(shop, plan, SIZE)
        clock = BenchClock("tablet")
        offer, day = offers(library())[0], day_of(now_ms()).isoformat()
        lot = receive(shop, clock, LotReceived(offer.stuff, 2500.0, offer.unit, day, "LOT-01"), day)
        told = RecipeTyped("Brown bronze", RecipeKind.METAL, CupNamed(made.run, plan.mixes[0].id))
        both = [keep_typed(shop, clock, replace(told, name=name)).recipe.id for name in ("Brown", "Green")]
        figure, weighing = piece_in(shop, job), _at_first_cup(shop, clock, plan)
    kept = plan_in(home / "desk", job)
    warmer = replace(job.planned, plan=replace(job.planned.plan, temperature_c=25.0))
    other = plan_in(home / "desk", job._replace(planned=warmer))
    draft = Drafts(home / "desk").begin({"original.displaced": "1.90 l"}, {"way": "volume"})
    return {
        "/bench/{written}": f"/bench/{weighing}",
        "/compare/{before}/{after}": f"/compare/{kept}/{other}",
        "/editions/{id_}": f"/editions/{made.edition}?number=3",
        "/materials/{material}": "/materials/epoxy-slow",
        "/molds/{id_}": f"/molds/{made.mold}",
        "/pieces/{id_}": f"/pieces/{figure}",
        "/pieces/{id_}/casts": f"/pieces/{made.piece}/casts",
        "/pieces/{id_}/casts/{run}/{cast}": f"/pieces/{made.piece}/casts/{made.run}/0",
        "/pieces/{id_}/log": f"/pieces/{made.piece}/log",
        "/pieces/{id_}/mixes": f"/pieces/{made.piece}/mixes",
        "/pieces/{id_}/paper/{run}": f"/pieces/{made.piece}/paper/{made.run}?sheet=1",
        "/pieces/{piece}/mold": f"/pieces/{figure}/mold",
        "/pieces/{piece}/what-if": f"/pieces/{figure}/what-if",
        "/recipes/compare": f"/recipes/compare?a={both[0]}&b={both[1]}",
        "/recipes/{recipe}": f"/recipes/{both[0]}?total=200 g",
        "/shelf/{lot}": f"/shelf/{lot.shelf.lot.id}",
        "/take-in/{id_}": f"/take-in/{draft.id}",
    }


def _at_first_cup(shop: Shop, clock: BenchClock, plan: Plan) -> RunId:
    """A run in which the first cup is to be weighed."""
    run = start_run(shop, clock, plan_to_json(plan), 1)
    for step in takewhile(lambda step: not step.mixes, plan.steps):
        shop.append([clock.event(About.RUN, run.id, Done(step.id))])
    return run.id
