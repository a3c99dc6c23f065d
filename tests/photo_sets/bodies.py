"""Ten sculptural bodies of our own for trying the reconstruction: made from signed distances, about 100 units tall."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import trimesh
from tests.photo_sets.implicit import (
    Floats,
    Shape,
    ball,
    block,
    carved,
    joined,
    mesh_of,
    mirrored,
    tube,
    turned,
)
from tests.photo_sets.materials import wavering

Box = tuple[tuple[float, float, float], tuple[float, float, float]]


@dataclass(frozen=True, slots=True)
class Own:
    """A body: its name, its shape in a box, and how long its longest side is made [mm]."""

    name: str
    shape: Callable[[], Shape]
    box: Box
    longest_mm: float

    def mesh(self) -> trimesh.Trimesh:
        """The closed body on z = 0 [mm]."""
        return mesh_of(self.shape(), *self.box, self.longest_mm)


def seated_animal() -> Shape:
    trunk = tube([(0, 16, 16), (0, 10, 36), (0, -2, 62)], [20, 19, 13])
    head = [ball((0, -12, 80), (11, 13, 11)), ball((0, -25, 76), (6, 8, 5.5)), ball((0, -32, 77), 2.4)]
    ears = mirrored(tube([(7, -6, 88), (10, -3, 99)], [4.5, 1.5]))
    fore = mirrored(tube([(8, -8, 56), (9, -14, 28), (9, -16, 5)], [7, 5.5, 5]))
    paws = mirrored(ball((9, -20, 4), (5.5, 8, 4.5)))
    haunch = mirrored(ball((15, 10, 16), (10, 17, 16)))
    tail = tube([(0, 32, 6), (18, 38, 6), (32, 24, 6), (34, 6, 8)], [5, 5, 4.5, 3])
    return joined([trunk, *head, ears, fore, paws, haunch, tail, block((2, 6, 2), (64, 84, 5))], 4.0)


def bust() -> Shape:
    head = joined([ball((0, 0, 72), (13.5, 16, 19)), ball((0, -6, 58), (9, 10, 9)), ball((0, 15, 84), 8)], 5.0)
    nose = tube([(0, -14, 74), (0, -19, 66)], [2.2, 3.4])
    brow = mirrored(tube([(2, -14.5, 76), (9, -12, 77)], [2.2, 1.8]))
    lips = tube([(-4, -15, 59), (0, -17, 59.5), (4, -15, 59)], [1.4, 2.2, 1.4])
    ears = mirrored(ball((13.5, 2, 68), (2.5, 5, 7)))
    body = [tube([(0, 2, 58), (0, 4, 34)], [9, 11]), mirrored(tube([(4, 4, 32), (28, 6, 24)], [11, 9]))]
    chest = ball((0, 2, 22), (28, 15, 18))
    sockets = mirrored(ball((5.5, -15.5, 72.5), (3.2, 3, 2.2)))
    whole = joined([head, nose, brow, lips, ears, *body, chest], 3.0)
    return joined([carved(whole, [sockets]), turned([(16, -1), (17, 3), (12, 7), (11, 11), (14, 14)])], 2.0)


def akimbo() -> Shape:
    gown = turned([(21, -1), (19, 10), (15, 28), (11, 46), (8.5, 58), (10, 64), (11, 72), (6, 79), (3, 82)])
    head = [ball((0, -1, 91), (6.5, 7.5, 9)), tube([(0, 0, 78), (0, 0, 86)], [4, 3.6]), ball((0, 6, 93), 5)]
    arm = tube([(10, 0, 74), (27, 3, 62), (12, -4, 50)], [4.2, 3.6, 3.0])
    other = tube([(-10, 0, 74), (-16, -3, 58), (-15, -9, 42)], [4.2, 3.6, 2.8])
    return joined([gown, *head, arm, other, ball((-15, -11, 39), 3.6)], 2.0)


def lug_vase() -> Shape:
    body = turned([(17, -1), (18, 4), (30, 24), (36, 48), (30, 68), (16, 80), (14, 88), (20, 98)])
    lugs = mirrored(tube([(14, 0, 90), (36, 0, 88), (42, 0, 72), (31, 0, 60)], [3.5, 3.5, 3.5, 4]))
    hollow = tube([(0, 0, 102), (0, 0, 78)], [15, 8])
    return carved(joined([body, lugs], 3.0), [hollow], 2.0)


def horned_head() -> Shape:
    skull = joined(
        [ball((0, 6, 62), (18, 22, 19)), tube([(0, -6, 54), (0, -32, 38)], [15, 9]), ball((0, -36, 36), 10)], 6
    )
    horn = tube([(10, 8, 76), (24, 16, 92), (40, 14, 84), (42, -2, 68), (34, -12, 62)], [7.5, 6.5, 5.2, 3.6, 1.2])
    ear = tube([(17, 6, 66), (32, 10, 58)], [5, 2])
    neck = tube([(0, 14, 54), (0, 20, 26), (0, 20, 0)], [18, 20, 24])
    eyes = mirrored(ball((14, -10, 64), (4, 4.5, 4)))
    return joined([carved(skull, [eyes]), neck, mirrored(horn), mirrored(ear)], 3.5)


def winged() -> Shape:
    rock = joined([ball((0, 2, 4), (24, 20, 16)), ball((8, -8, 12), (12, 11, 10))], 6.0)
    bird = [tube([(0, 14, 34), (0, 2, 46), (0, -12, 58)], [6, 11, 7]), ball((0, -16, 66), (6, 7, 6))]
    beak = tube([(0, -20, 66), (0, -28, 62)], [3, 1])
    legs = mirrored(tube([(4, 2, 36), (5, 0, 14)], [3.5, 2.5]))
    tail = tube([(0, 12, 36), (0, 30, 24), (0, 40, 20)], [5, 4.5, 3])
    bones = tube([(6, 0, 54), (26, 6, 74), (46, 12, 70)], [6, 4.5, 2.5])
    quills = [
        tube([(8 + 9 * n, 3 + 2 * n, 56 + 4 * n), (12 + 11 * n, 16 + 3 * n, 34 + 6 * n)], [3.6, 2.4]) for n in range(4)
    ]
    return joined([rock, *bird, beak, legs, tail, mirrored(joined([bones, *quills], 3.5))], 3.5)


def spiral() -> Shape:
    turns = np.linspace(0, 2.25 * 2 * np.pi, 40)
    rise = np.linspace(10, 86, 40)
    wide = np.linspace(19, 11, 40)
    path = [(float(w * np.cos(t)), float(w * np.sin(t)), float(z)) for t, z, w in zip(turns, rise, wide, strict=True)]
    coil = tube(path, list(np.linspace(10, 6, 40)), smooth=False)
    core = tube([(0, 0, 5), (0, 0, 84)], [13, 6])
    return joined([coil, core, turned([(26, -1), (27, 3), (24, 8)]), ball((0, 0, 92), 8)], 4.0)


def rough_rock() -> Shape:
    body = joined(
        [ball((0, 0, 30), (36, 28, 34)), ball((14, 8, 52), (20, 17, 22)), ball((-18, -4, 40), (18, 20, 18))], 6.0
    )
    ledge = ball((22, -22, 34), (15, 12, 10))

    def distance(p: Floats) -> Floats:
        rough = 2.6 * wavering(p / 11, 41) + 1.4 * wavering(p / 5, 42) + 0.7 * np.abs(wavering(p / 2.4, 43))
        return np.asarray((carved(body, [ledge], 3.0)(p) + rough) * 0.8)

    return distance


def draped() -> Shape:
    head = joined([ball((0, -1, 92), (6.5, 7.5, 8.5)), tube([(0, 0, 78), (0, 0, 88)], [4.5, 4])], 2.0)
    cloak = turned([(22, -1), (20, 12), (16, 40), (13, 60), (13, 72), (5, 82)])

    def folds(p: Floats) -> Floats:
        around, low = np.arctan2(p[:, 1], p[:, 0]), np.clip((74 - p[:, 2]) / 74, 0, 1)
        sway = 0.5 * np.sin(p[:, 2] / 17)
        deep = 2.6 * low * np.sin(9 * around + 3 * sway) + 1.3 * low * np.sin(17 * around - 2 * sway + 1)
        return np.asarray((cloak(p) - deep) * 0.75)

    arm = tube([(12, 0, 70), (13, -9, 54), (2, -15, 58)], [4.5, 4.2, 3.2])
    return joined([folds, head, arm], 2.5)


def fish() -> Shape:
    trunk = tube([(0, -34, 52), (0, -18, 52), (0, 6, 56), (0, 30, 66)], [8, 15, 13, 4])
    flat = lambda p: trunk(p * [1.35, 1, 1]) / 1.35  # noqa: E731
    tail = [tube([(0, 30, 66), (0, 44, 84)], [4, 3.2]), tube([(0, 30, 66), (0, 48, 60)], [4, 3.0])]
    fins = [
        tube([(0, -10, 66), (0, 4, 76), (0, 14, 70)], [4, 3.2, 2.8]),
        mirrored(tube([(10, -14, 46), (22, -4, 38)], [3.5, 2.2])),
    ]
    wave = joined([ball((0, 4, 4), (26, 34, 14)), tube([(0, 6, 8), (2, 2, 26), (0, 0, 44)], [14, 9, 8])], 6.0)
    mouth = ball((0, -43, 50), (6, 4, 2.4))
    return carved(joined([flat, *tail, *fins, wave], 3.5), [mouth])


OWN = (
    Own("seated", seated_animal, ((-36, -40, 0), (44, 52, 104)), 140),
    Own("bust", bust, ((-42, -26, 0), (42, 28, 100)), 360),
    Own("akimbo", akimbo, ((-26, -26, 0), (36, 26, 104)), 230),
    Own("lug-vase", lug_vase, ((-50, -40, 0), (50, 40, 102)), 170),
    Own("horned", horned_head, ((-52, -50, 0), (52, 50, 104)), 260),
    Own("winged", winged, ((-56, -34, 0), (56, 46, 84)), 210),
    Own("spiral", spiral, ((-34, -34, 0), (34, 34, 104)), 110),
    Own("rock", rough_rock, ((-46, -40, 0), (46, 40, 84)), 95),
    Own("draped", draped, ((-28, -28, 0), (28, 28, 104)), 400),
    Own("fish", fish, ((-34, -48, 0), (34, 54, 92)), 75),
)
