"""The command line: its own commands and the groups of `groups.py`. What computes is imported only when it runs."""

from __future__ import annotations

import gc
import sys
from pathlib import Path
from typing import Annotated

import typer

from moldwright import __version__
from moldwright.desk.command_bench import bench
from moldwright.desk.command_desk import desk
from moldwright.desk.command_label import InOrderCommand, label
from moldwright.desk.exits import ending
from moldwright.desk.groups import GROUPS
from moldwright.desk.options import Json, Quiet
from moldwright.desk.say import say, say_json
from moldwright.desk.watched import watched
from moldwright.errors import InputRefused

EXITS = (
    "Exit codes: 0 done · 2 usage · 3 input refused · 4 no safe plan · 5 a fault of ours · 6 records contradict · "
    "130 stopped by Ctrl-C."
)
NEW_OBJECTS = 100_000
"""How many new objects the collector waits for. Imports and kept stages make many that stay: 0.3 s of a plan anew."""
app = typer.Typer(
    name="moldwright",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="From a scan and a short commission to a glove mold, its support shell and a cold cast that can be made.",
    epilog=EXITS,
)
for _name, _group in GROUPS.items():
    app.add_typer(_group, name=_name)
app.command(cls=InOrderCommand, epilog=EXITS)(label)
app.command(epilog=EXITS)(bench)
app.command(epilog=EXITS)(desk)

Cache = Annotated[
    Path | None, typer.Option("--cache", metavar="DIR", help="Keep computed stages here, to be quick next time.")
]
NoCache = Annotated[bool, typer.Option("--no-cache", metavar="", help="Keep nothing and compute everything anew.")]


def _version(wanted: bool) -> None:
    if wanted:
        say(f"moldwright {__version__}")
        raise typer.Exit


@app.callback()
def _all(
    version: Annotated[
        bool,
        typer.Option("--version", metavar="", callback=_version, is_eager=True, help="Print the version and stop."),
    ] = False,
) -> None:
    pass


@app.command(epilog=EXITS)
def demo(
    out: Annotated[
        Path, typer.Option(metavar="DIR", help="Folder for the demo: new, empty or an earlier demo.")
    ] = Path("demo-plan"),
    photos: Annotated[
        bool,
        typer.Option("--photos", metavar="", help="An otter's pup instead, known by its photos."),
    ] = False,
    quiet: Quiet = False,
    cache: Cache = None,
    no_cache: NoCache = False,
) -> None:
    """Plan our own sculpture, an otter on a stone, from scan to bench sheets.

    Writes the scan, or the photos, its commission and the whole plan into one folder, so that you see what a plan
    looks like.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(False, saver()):
        from moldwright.desk.command_demo import run_demo  # noqa: PLC0415
        from moldwright.desk.show_plan import show_demo  # noqa: PLC0415

        show_demo(run_demo(out, quiet, cache, no_cache, photos), out)


@app.command(epilog=EXITS)
def new(
    out: Annotated[Path, typer.Option(metavar="FILE", help="The commission to write.")] = Path("commission.toml"),
    replace: Annotated[
        bool, typer.Option("--replace", metavar="", help="Write over a commission that is already there.")
    ] = False,
) -> None:
    """Write a commission by answering a few questions.

    Enter takes the value in brackets. An answer that cannot be read is asked again. Everything that is not asked stands
    in the file with its default, ready to be changed.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(False, saver()):
        from moldwright.desk.command_new import run_new  # noqa: PLC0415

        run_new(out, replace)


@app.command(epilog=EXITS)
def look(
    file: Annotated[
        Path,
        typer.Argument(
            metavar="SCAN",
            help="The scan: STL, PLY, OBJ, OFF, GLB or 3MF; or a folder of photos; or a commission with a tape, water "
            "or weight.",
        ),
    ],
    height: Annotated[
        str, typer.Option(metavar="LENGTH", help='True height as it stands, such as "160 mm" or "8 in".')
    ] = "",
    unit: Annotated[str, typer.Option(metavar="UNIT", help="Unit of the scan's numbers: mm, cm, m, in or ft.")] = "",
    up: Annotated[
        str, typer.Option(metavar="WAY", help='Which way is up: "+z", "-y", … or "0,0,1". Left out, it is found.')
    ] = "",
    board: Annotated[
        str, typer.Option(metavar="LENGTH", help='Height of the cut above the lowest point, such as "2 mm".')
    ] = "",
    picture: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE.png",
            help="Draw how it will stand, or may stand, into this file; of photos the contact sheet, .png or .pdf.",
        ),
    ] = None,
    bar: Annotated[
        str, typer.Option(metavar="LENGTH", help='Photos: what the sheet\'s bar of 100 mm measures, such as "99.6 mm".')
    ] = "",
    watch: Annotated[
        bool, typer.Option("--watch", metavar="", help="Photos: tell what is missing as they arrive, until Ctrl-C.")
    ] = False,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Look at a scan alone, in seconds: size, body, mouth, undercuts and what would be mended.

    Of a folder of photos on the printed sheet: which are used and why others are not, what is missing, size
    and volume. Of a commission with a tape (COMMISSION.toml): what was understood of it, drawn with --picture; of one
    with water or weight alone: the volume, and what that does not tell.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    if watch and (as_json or picture or bar):
        raise typer.BadParameter("--watch goes without --json, --picture and --bar: it tells directions only")
    with ending(as_json, saver()):
        from moldwright.desk.look_any import run_look_any  # noqa: PLC0415

        options = {"height": height, "unit": unit, "up": up, "board": board}
        run_look_any(file, options, bar, watch, as_json, quiet, picture)


@app.command(epilog=EXITS)
def photos(
    out: Annotated[Path, typer.Argument(metavar="SHEET.pdf", help="The PDF to write: the sheet, then how to use it.")],
    height: Annotated[str, typer.Option(metavar="LENGTH", help='How tall the piece stands, such as "160 mm".')],
    width: Annotated[str, typer.Option(metavar="LENGTH", help="How wide it is, seen from above.")],
    depth: Annotated[
        str, typer.Option(metavar="LENGTH", help="How deep it is, seen from above; left out, as deep as wide.")
    ] = "",
    paper: Annotated[
        str,
        typer.Option(
            metavar="PAPER",
            help="Paper in the printer: a4 or letter, joined where the piece needs more; a copy shop's a3, a2, "
            "tabloid or ansi-c; a5 or half-letter.",
        ),
    ] = "a4",
) -> None:
    """Print the sheet to photograph a piece on, where there is no scan.

    Its size is chosen from the piece's. The last page tells how to photograph; `moldwright look FOLDER` then tells what
    the photos gave.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(False, saver()):
        from moldwright.desk.command_photos import run_photos  # noqa: PLC0415

        run_photos(out, height, width, depth, paper)


@app.command(epilog=EXITS)
def plan(
    commission: Annotated[
        Path | None, typer.Argument(metavar="COMMISSION.toml", help="What to make; `moldwright new` writes one.")
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(
            metavar="DIR", help="Folder for the plan: new, empty, or an earlier plan, which is replaced whole."
        ),
    ] = None,
    schema: Annotated[
        bool, typer.Option("--schema", metavar="", help="Print the JSON Schemas of plan, commission and quantities.")
    ] = False,
    as_json: Json = False,
    quiet: Quiet = False,
    cache: Cache = None,
    no_cache: NoCache = False,
) -> None:
    """Plan a commission: the mold, its shell, every cup, and the sheets to work from.

    Of an original that only water or weight tell: quantities alone, no mold. The folder appears when all of it is done.
    Whatever goes wrong before, no folder is written; where a place of the piece rules a mold out, a picture of it lies
    beside, in DIR-refused.png.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    if schema:
        with ending(as_json, saver()):
            _print_schemas()
        return
    if commission is None or out is None:
        raise typer.BadParameter("give a commission and --out DIR, or --schema")
    with ending(as_json, saver(_shown(commission))):
        from moldwright.desk.command_plan import run_plan  # noqa: PLC0415
        from moldwright.desk.show_plan import show_planned  # noqa: PLC0415

        show_planned(run_plan(commission, out, quiet or as_json, cache, no_cache), out, as_json)


@app.command(epilog=EXITS)
def cup(
    folder: Annotated[Path, typer.Argument(metavar="PLAN", help="The plan's folder.")],
    which: Annotated[str, typer.Argument(metavar="CUP", help="The cup, such as skin.cup-1.")],
    in_cup: Annotated[
        list[str] | None, typer.Option("--in", metavar="PART=MASS", help='What is in it, such as "A=212 g".')
    ] = None,
    left: Annotated[
        list[str] | None, typer.Option("--left", metavar="PART=MASS", help="What there is left of a part, beside that.")
    ] = None,
    as_json: Json = False,
) -> None:
    """Tell new targets for a cup that did not come out as planned.

    One part was poured over, or there is too little left of another: what goes in yet, what the scale then shows,
    and where it becomes two cups. What cannot be saved is refused.
    """
    from moldwright.desk.faults import saver  # noqa: PLC0415

    with ending(as_json, saver()):
        from moldwright.desk.command_cup import run_cup  # noqa: PLC0415

        run_cup(folder, which, in_cup or (), left or (), as_json)


def _print_schemas() -> None:
    from moldwright.commission.json_schema import commission_schema  # noqa: PLC0415
    from moldwright.plan.json_schema import plan_schema, quantities_schema  # noqa: PLC0415

    schemas = {"plan": plan_schema(), "commission": commission_schema(), "quantities": quantities_schema()}
    say_json(schemas, indent=1)


def _shown(commission: Path) -> str:
    from moldwright.making.inputs import read_text  # noqa: PLC0415

    try:
        return read_text(commission, "commission")[:200_000]
    except InputRefused:
        return ""


def main() -> None:
    """Run the command line."""
    gc.set_threshold(NEW_OBJECTS, 20, 20)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    watched(lambda: app(prog_name="moldwright"), "--json" in sys.argv)
