"""The bodies that a tape is tried on, as a person parts them: trunk, limbs, and the gaps that are told.

Packaged and own ones of `tests.photo_sets.catalog`, whose plain rule says on which may be tuned: every second one.
Left out are three that nobody measures with a tape: a heap of 26 bones, a knot, and a casing that is hollow inside.
The demo's sculpture is one more for tuning, and an owl, made for this after all was set, one more that is not.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import partial

import trimesh
from tests.photo_sets.bodies import Own
from tests.photo_sets.catalog import entry
from tests.photo_sets.implicit import Shape, ball, joined, mirrored, tube, turned
from tests.tape_measuring import Point, Stands

from moldwright.commission.orders import GapOrder
from moldwright.making.demo.original import otter_mesh


@dataclass(frozen=True, slots=True)
class Measured:
    """A body, how to make it, its limbs and gaps as a person tells them, and whether it may be tuned on."""

    name: str
    make: Callable[[], trimesh.Trimesh]
    tuning: bool
    limbs: tuple[Stands, ...] = ()
    gaps: tuple[GapOrder, ...] = field(default=())

    def body(self) -> trimesh.Trimesh:
        """The body on the board, its box in the middle."""
        mesh = self.make()
        low, high = mesh.bounds
        mesh.apply_translation([-(low[0] + high[0]) / 2, -(low[1] + high[1]) / 2, -low[2]])
        return mesh


def _otter() -> trimesh.Trimesh:
    mesh = otter_mesh()
    return trimesh.Trimesh(mesh.vertices, mesh.faces)


def _owl() -> Shape:
    """An owl with its wings closed on a stump."""
    stump = turned([(24, -1), (22, 8), (19, 22), (21, 26)])
    trunk = [ball((0, 2, 52), (19, 17, 29)), ball((0, -3, 84), (16.5, 14.5, 14))]
    wing = tube([(16, 4, 70), (19, 8, 48), (9, 17, 24)], [7, 8, 3.5])
    tuft = tube([(9, -4, 94), (13, -3, 103)], [3.5, 1.2])
    foot = ball((7, -13, 27), (5, 7, 3.5))
    beak = tube([(0, -16, 84), (0, -19, 78)], [2.5, 1.2])
    tail = tube([(0, 15, 32), (0, 22, 14)], [6, 4])
    return joined([stump, *trunk, mirrored(joined([wing, tuft, foot], 2.0)), beak, tail], 3.0)


OWL = Own("owl", _owl, ((-34, -32, 0), (34, 34, 108)), 220)


def _limb(name: str, reach: float, *path: Point, scale: float = 1.0, gap_mm: float | None = None) -> Stands:
    return Stands(name, tuple((x * scale, y * scale, z * scale) for x, y, z in path), reach * scale, gap_mm)


BULL = (
    _limb("horn 1", 10, (-70, -25, 103), (-92, -52, 107)),
    _limb("horn 2", 10, (-42, -45, 107), (-45, -75, 114)),
    _limb("head", 38, (-45, -22, 95), (-62, -60, 85)),
    _limb("tail", 18, (82, 2, 97), (80, -45, 122)),
    _limb("fore leg", 18, (-55, 7, 34), (-82, 16, 2)),
    _limb("other fore leg", 18, (-40, 40, 40), (-56, 74, 6)),
    _limb("hind leg", 18, (60, 32, 40), (38, 45, 8)),
    _limb("other hind leg", 24, (78, -13, 44), (65, -22, 0)),
)
DINO = (
    _limb("head", 34, (0, -48, 305), (0, -151, 305)),
    _limb("neck", 26, (0, -60, 226), (0, -58, 320)),
    _limb("tail", 48, (0, 94, 165), (0, 149, 103)),
    _limb("arm", 22, (-33, -51, 152), (-70, -101, 122)),
    _limb("other arm", 22, (33, -51, 152), (70, -101, 122)),
    _limb("leg", 50, (-52, 19, 128), (-52, 19, 0)),
    _limb("other leg", 50, (52, 19, 128), (52, 19, 0)),
)
BEAR = (
    _limb("arm", 12, (-17, 0, 47), (-34, 0, 50)),
    _limb("other arm", 12, (17, 0, 47), (34, 0, 50)),
    _limb("leg", 18, (-15, -5, 12), (-35, -7, 10)),
    _limb("other leg", 18, (15, -5, 12), (35, -7, 10)),
    _limb("ear", 9, (-13, 0, 74), (-20, 0, 85)),
    _limb("other ear", 9, (13, 0, 74), (20, 0, 85)),
)
TRICERATOPS = (
    _limb("horn", 9, (146, -12, 122), (188, -14, 136)),
    _limb("other horn", 9, (146, 12, 122), (188, 14, 136)),
    _limb("tail", 60, (-69, 0, 108), (-190, 0, 100)),
    _limb("head", 95, (103, 0, 105), (181, 0, 105)),
    _limb("fore leg", 26, (56, -28, 62), (51, -34, 0)),
    _limb("other fore leg", 26, (56, 28, 62), (51, 34, 0)),
    _limb("hind leg", 32, (-41, -34, 65), (-41, -46, 0)),
    _limb("other hind leg", 32, (-41, 34, 65), (-41, 46, 0)),
)
HORNED = tuple(
    limb
    for s in (-1, 1)
    for limb in (
        _limb("horn", 10, (s * 13, 9, 79), (s * 24, 16, 92), (s * 40, 14, 84), (s * 42, -2, 68), (s * 34, -12, 62),
              scale=2.62),
        _limb("ear", 7, (s * 19, 6.5, 64), (s * 33, 10, 57), scale=2.62),
    )
)  # fmt: skip
MUZZLE = _limb("muzzle", 15, (0, -14, 50), (0, -46, 35), scale=2.62)
AKIMBO = (
    _limb("arm", 5.5, (10, 0, 74), (27, 3, 62), (12, -4, 50), scale=2.3, gap_mm=30.0),
    _limb("other arm", 5.5, (-11, 0, 73), (-16, -3, 58), (-15, -9, 42), scale=2.3),
)
LUGS = tuple(
    _limb("lug", 6, (s * 16, 0, 89.5), (s * 36, 0, 88), (s * 42, 0, 72), (s * 33, 0, 62), scale=1.735, gap_mm=25.0)
    for s in (-1, 1)
)
WINGED = (
    replace(_limb("wing", 30, (-11, 3, 56), (-50, 8, 56), scale=2.165), calipers=True),
    replace(_limb("other wing", 30, (11, 3, 56), (50, 8, 56), scale=2.165), calipers=True),
    _limb("tail", 9, (0, 17, 33), (0, 40, 19), scale=2.165),
)
FISH = (
    _limb("tail", 8, (0, 33, 69), (0, 46, 86), scale=0.79),
    _limb("lower tail", 6, (0, 34, 65), (0, 50, 60), scale=0.79),
)


def _moved(limbs: tuple[Stands, ...], x: float, y: float) -> tuple[Stands, ...]:
    return tuple(replace(limb, path=tuple((a + x, b + y, c) for a, b, c in limb.path)) for limb in limbs)


def bodies() -> tuple[Measured, ...]:
    """All of them; the packaged ones are made only where the package is there."""
    limbs: dict[str, tuple[Stands, ...]] = {
        "bull": BULL, "dino": DINO, "hand": (), "bear": BEAR, "triceratops": TRICERATOPS,
        "mask_cone": (_limb("handle", 52, (0, -12, 105), (0, -67, 105)),), "nut": (),
        "seated": (), "akimbo": _moved(AKIMBO, -11, 0), "horned": _moved((*HORNED, MUZZLE), 0, 4), "spiral": (),
        "draped": (), "bust": (), "lug-vase": LUGS, "rock": (),
        "winged": _moved(WINGED, 0, -15), "fish": _moved(FISH, 0, -3.5),
    }  # fmt: skip
    gaps = {
        "nut": (GapOrder("bore", 38.0, 37.0),),
        "lug-vase": (GapOrder("mouth", 46.0, 50.0),),
    }
    made = [
        Measured(name, partial(_entry_mesh, name), entry(name).tuning, own, gaps.get(name, ()))
        for name, own in limbs.items()
    ]
    return (*made, Measured("demo", _otter, True), Measured("owl", OWL.mesh, False))


def _entry_mesh(name: str) -> trimesh.Trimesh:
    return entry(name).make()
