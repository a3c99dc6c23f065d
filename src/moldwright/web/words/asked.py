"""What the keys of a commission are called on pages, in the order in which one thinks of them."""

from __future__ import annotations

from moldwright.web.words.marked import Words, words

PIECE = (
    ("original.name", words("What is it called")),
    ("original.material", words("What is it made of")),
    ("edition.count", words("How many casts")),
)
FINISH = (("cast.powder", words("Finish: the powder in the skin")),)
SCAN = (
    ("original.height", words("How tall it is, board to top")),
    ("original.unit", words("The scan's numbers are in")),
    ("original.up", words("Which way of the scan is up")),
    ("original.board", words("Cut off below, from its lowest point")),
)
PHOTOS = (("original.bar", words("The sheet's bar of 100 mm measures")),)
WATER = (
    ("original.displaced", words("Water that it drives out")),
    ("original.weight", words("What it weighs")),
    ("original.solid", words("Is it solid all through")),
    ("original.density", words("What it is made of weighs")),
)
MOLD = (
    ("mold.rubber", words("Rubber")),
    ("mold.thickness", words("Rubber, all coats together")),
    ("mold.shell", words("Support shell")),
    ("mold.seam", words("How its pieces meet")),
    ("mold.flange", words("Flange round the base")),
    ("mold.sealer", words("Sealer on the original")),
    ("mold.release", words("Release on the original")),
)
CAST = (
    ("cast.resin", words("Resin of the skin")),
    ("cast.skin", words("Skin")),
    ("cast.backfill", words("Behind the skin")),
    ("cast.solid", words("Cast solid, all of the skin's mix")),
    ("cast.release", words("Release before each cast")),
)
SHOP = (
    ("shop.temperature", words("How warm the shop is")),
    ("shop.measure", words("Parts are measured by")),
    ("shop.scale", words("The scale's smallest step")),
    ("shop.cup", words("A mixing cup, to its brim")),
    ("shop.units", words("Units on the sheets")),
    ("shop.paper", words("Paper")),
)
GROUPS = {
    "piece": PIECE,
    "finish": FINISH,
    "scan": SCAN,
    "photos": PHOTOS,
    "water": WATER,
    "mold": MOLD,
    "cast": CAST,
    "shop": SHOP,
}
NOT_ASKED = (
    ("original.file", words("The scan")),
    ("original.photos", words("The photos")),
    ("original.leave_out", words("Photos that are left out")),
    ("original.tape", words("Tape and calipers")),
    ("original.gaps", words("Gaps and hollows that no outline shows")),
    ("original.bowls", words("Bowls that the photos do not show")),
    ("mold.coats", words("Coats, one by one")),
    ("mold.pieces", words("Pieces of the support shell")),
    ("mold.printed-wall", words("Wall of a printed shell")),
    ("mold.draft", words("Draft of the shell, in degrees")),
    ("mold.slit", words("Where the glove may be slit")),
    ("mold.level-cuts", words("Heights of the level cuts")),
    ("mold.hangs", words("Hang test: what stayed on an upright card")),
    ("mold.drips", words("Hang test: what stayed under a level card")),
    ("mold.mouth-width", words("Narrowest mouth without a plinth")),
    ("mold.mouth-share", words("Smallest mouth without a plinth, of the widest section")),
    ("shop.bucket", words("A bucket for gypsum, to its brim")),
    ("shop.printer_width", words("Width that the printer holds")),
    ("shop.printer_depth", words("Depth that the printer holds")),
    ("shop.printer_height", words("Height that the printer holds")),
    ("shop.marks", words("The step of the cups' marks")),
    ("shop.people", words("Pairs of hands")),
    ("shop.hours", words("Working hours")),
    ("shop.hour", words("What an hour of hands costs")),
    ("shop.waste", words("What is left in pots and on brushes")),
    ("shop.mixing", words("Mixing one cup takes")),
    ("shop.laying", words("Rubber that one hand lays")),
    ("shop.sheets", words("The shop's own sheets")),
    ("shop.steps", words("The shop's own steps")),
)
"""Keys that no field of a page asks for, or not by a plain one."""
CALLED: dict[str, Words] = {key: label for rows in (*GROUPS.values(), NOT_ASKED) for key, label in rows}
"""Every key of a commission, by its name with its table."""
OF_ROWS: dict[str, Words] = {
    "at": words("Height"),
    "girth": words("Around"),
    "breadth": words("Across"),
    "depth": words("Deep"),
    "width": words("How wide"),
    "length": words("How long"),
    "where": words("Where"),
    "floor": words("Its floor"),
    "name": words("What is it"),
    "joins_at": words("It leaves the body at"),
    "ends_at": words("It ends at"),
    "gap": words("Gap to the body"),
    "side": words("On which side"),
    "count": words("How many alike"),
    "shape": words("Cut across, it is"),
    "hollows": words("Hollows that the tape spans"),
    "levels": words("Heights"),
    "limbs": words("What sticks out"),
    "thickness": words("Thickness"),
    "release": words("Release"),
}
"""What stands under a key in rows, by its own name."""
