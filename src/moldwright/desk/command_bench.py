"""`moldwright bench`: a run of a plan at the bench."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from moldwright.desk.options import Json, Why
from moldwright.desk.shop_at import By, ShopPlace, at_shop
from moldwright.making.shop import bench_clock


def bench(
    what: Annotated[
        str,
        typer.Argument(metavar="[PLAN|RUN]", help="A plan's folder, or a run by its id or code.", show_default=False),
    ] = "",
    new: Annotated[bool, typer.Option("--new", metavar="", help="Another run, whatever is under way.")] = False,
    casts: Annotated[
        int | None, typer.Option("--casts", metavar="COUNT", help="For how many casts it is; 0: the mold alone.")
    ] = None,
    batch: Annotated[int, typer.Option("--batch", metavar="COUNT", help="How many casts of a day.")] = 1,
    mold: Annotated[
        str, typer.Option("--mold", metavar="MOLD", help="Cast from this mold on the shelf: its name, id or code.")
    ] = "",
    edition: Annotated[
        str, typer.Option("--edition", metavar="EDITION", help="Whose numbers its casts get: its name, id or code.")
    ] = "",
    every: Annotated[bool, typer.Option("--list", metavar="", help="List the runs and stop.")] = False,
    show: Annotated[bool, typer.Option("--show", metavar="", help="Show how the run stands and stop.")] = False,
    line: Annotated[
        list[str] | None,
        typer.Option("--log", metavar="WORDS", help="Do what this line does at the bench, and stop; may be repeated."),
    ] = None,
    strike: Annotated[
        str, typer.Option("--strike", metavar="EVENT", help="Draw a line through an entry: its id or code.")
    ] = "",
    end: Annotated[bool, typer.Option("--end", metavar="", help="The run is over.")] = False,
    why: Why = "",
    replan: Annotated[
        Path | None, typer.Option("--replan", metavar="PLAN", help="Go on by the plan in this folder.")
    ] = None,
    from_paper: Annotated[
        bool, typer.Option("--from-paper", metavar="", help="Type in what stands on the sheets, row by row.")
    ] = False,
    form: Annotated[
        str, typer.Option("--form", metavar="FILE", help="With --from-paper: read it from this form instead.")
    ] = "",
    paper_form: Annotated[
        Path | None, typer.Option("--paper-form", metavar="FILE", help="Write the form to type the sheets into.")
    ] = None,
    left: Annotated[
        list[str] | None,
        typer.Option("--left", metavar="PART=MASS", help='What "B=180 g" still covers, coat by coat; may be repeated.'),
    ] = None,
    events: Annotated[
        str, typer.Option("--events", metavar="FILE|-", help="Take in entries that another bench wrote, a line each.")
    ] = "",
    print_to: Annotated[
        Path | None,
        typer.Option("--print", metavar="DIR", help="Print the sheets again with all that is done on them."),
    ] = None,
    cast: Annotated[int | None, typer.Option("--cast", metavar="NUMBER", help="With --print: of which cast.")] = None,
    shop: ShopPlace = "",
    by: By = "",
    as_json: Json = False,
) -> None:
    """Run a plan at the bench: what is in hand, what to weigh, clocks that run; every line is kept.

    A plan's folder starts a run, or goes on with the one that is under way. Enter does the obvious next thing, which is
    told before; ? tells what else may be typed.
    """
    if form and not from_paper:
        raise typer.BadParameter("--form goes with --from-paper: it is what is read")
    with at_shop(shop, as_json) as store:
        from moldwright.desk.bench_files import TYPED  # noqa: PLC0415
        from moldwright.desk.bench_open import RunAsked  # noqa: PLC0415
        from moldwright.desk.bench_run import BenchJob, run_bench  # noqa: PLC0415

        asked = RunAsked(what, new, casts, batch, mold, edition)
        job = BenchJob(
            every,
            show,
            tuple(line or ()),
            strike,
            end,
            why,
            replan,
            (form or TYPED) if from_paper else "",
            paper_form,
            events,
            print_to,
            cast,
            tuple(left or ()),
        )
        run_bench(store, bench_clock(store, by), asked, job, as_json)
