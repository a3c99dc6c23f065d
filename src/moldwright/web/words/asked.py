"""What the keys of a commission are called on pages, in the order in which one thinks of them."""

from __future__ import annotations

from moldwright.web.words.marked import Words, words

PIECE = (
    ("original.name", words("What is it called")),
    ("original.material", words("What is it made of")),
    ("cast.powder", words("Finish: the powder in the skin")),
    ("edition.count", words("How many casts")),
)
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
    ("mold.seam", words("How its halves meet")),
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
GROUPS = {"piece": PIECE, "scan": SCAN, "photos": PHOTOS, "water": WATER, "mold": MOLD, "cast": CAST, "shop": SHOP}
CALLED: dict[str, Words] = {key: label for rows in GROUPS.values() for key, label in rows}
"""Every key that a page asks for, by its name with its table."""
