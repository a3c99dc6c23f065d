"""`moldwright label`: labels for what the shop keeps, in the order in which they are named."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer
from typer.core import TyperCommand

from moldwright.desk.exits import ending
from moldwright.desk.options import Json
from moldwright.desk.shop_at import ShopPlace, Units

THINGS = {"lot": 1, "mold": 1, "piece": 1, "cup": 2}
"""The options that name what is to be labeled, with how many words each takes."""
ASKED = "moldwright.label.asked"


class InOrderCommand(TyperCommand):
    """A command that keeps the order in which things of several options were named."""

    def __init__(self, *arguments: Any, **named: Any) -> None:
        super().__init__(*arguments, **named)
        for parameter in self.params:
            parameter.nargs = THINGS.get(parameter.name or "", parameter.nargs)

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Parse, and note what was asked for in its order.

        Parameters
        ----------
        ctx : of the command.
        args : what was typed.
        """
        values, _, order = self.make_parser(ctx).parse_args(args=list(args))
        left = {name: iter(values.get(name) or ()) for name in THINGS}
        asked = [(each.name, next(left[each.name])) for each in order if each.name in THINGS]
        ctx.meta[ASKED] = [(name, (told,) if isinstance(told, str) else tuple(told)) for name, told in asked]
        return super().parse_args(ctx, args)


def label(
    context: typer.Context,
    out: Annotated[Path | None, typer.Argument(metavar="LABELS.pdf", help="The PDF to write.")] = None,
    lot: Annotated[
        list[str] | None, typer.Option("--lot", metavar="LOT", help="A lot, by its code or the number on it.")
    ] = None,
    mold: Annotated[
        list[str] | None, typer.Option("--mold", metavar="MOLD", help="A mold, by its name or its code.")
    ] = None,
    piece: Annotated[
        list[str] | None, typer.Option("--piece", metavar="PIECE", help='A numbered cast: its code, or "otter 7".')
    ] = None,
    cup: Annotated[
        list[str] | None,
        typer.Option("--cup", metavar="RUN CUP", help="A cup of a run, such as skin.cup-1: to go on it with tape."),
    ] = None,
    sheet: Annotated[str, typer.Option(metavar="NAME", help="The sheet of labels in the printer: see --sheets.")] = "",
    single: Annotated[
        str, typer.Option(metavar="SIZE", help='One label a page, such as "62x29" (mm) or "4 in x 2 in".')
    ] = "",
    grid: Annotated[str, typer.Option(metavar="NxN", help="A sheet of your own: labels across x down.")] = "",
    size: Annotated[str, typer.Option(metavar="SIZE", help="Of one of its labels, width x height.")] = "",
    gap: Annotated[str, typer.Option(metavar="SIZE", help="Between two of its labels, across x down.")] = "0x0",
    margin: Annotated[
        str, typer.Option(metavar="SIZE", help="Left of and above its first label; left out, they lie in the middle.")
    ] = "",
    paper: Annotated[str, typer.Option(metavar="PAPER", help="Its paper: a4 or letter.")] = "a4",
    start: Annotated[int, typer.Option(metavar="N", help="The first label that is still on a sheet in use.")] = 1,
    shift_x: Annotated[str, typer.Option(metavar="LENGTH", help='Print it all so far to the right: "0.5 mm".')] = "",
    shift_y: Annotated[str, typer.Option(metavar="LENGTH", help='So far down; "-1 mm" is up.')] = "",
    outlines: Annotated[
        bool, typer.Option("--outlines", metavar="", help="Draw the labels' edges: for a trial on plain paper.")
    ] = False,
    sheets: Annotated[bool, typer.Option("--sheets", metavar="", help="List the known sheets and stop.")] = False,
    shop: ShopPlace = "",
    units: Units = "metric",
    as_json: Json = False,
) -> None:
    """Print labels for lots, molds, casts and cups, each with a code to scan and a short one to type.

    What is named in one go fills one sheet in that order. Print at 100 %, not fitted to the page.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    asked = context.meta[ASKED]
    if not sheets and (out is None or not (asked or outlines)):
        raise typer.BadParameter("give LABELS.pdf and what to label (--lot, --mold, --piece, --cup), or --sheets")
    if (bool(sheet) + bool(single) + bool(grid)) > 1 or bool(grid) != bool(size):
        raise typer.BadParameter("give one of --sheet NAME, --single SIZE, or --grid NxN with --size SIZE")
    with ending(as_json, saver()):
        from moldwright.desk.label_run import list_sheets, run_labels  # noqa: PLC0415
        from moldwright.told.label_print import SheetTold  # noqa: PLC0415

        if sheets:
            list_sheets(units, as_json)
            return
        assert out is not None
        told = SheetTold(sheet, single, grid, size, gap, margin, paper, start, shift_x, shift_y, outlines)
        run_labels(out, asked, told, shop, units, as_json)
