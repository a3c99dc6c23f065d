"""Rubber behind a neck: what is wider than the way into it is found, and refused where it could not be drawn out.

Closed forms: a ball of radius r passes a round neck of radius r and no narrower one; a rubber keeps its volume, so that
it draws out to A / a of its length where its section goes from A to a (incompressible solid).
"""

from __future__ import annotations

import geometry_bodies as bodies
import impossible_bodies as impossible
import numpy as np
import pytest

from moldwright.errors import NoSafePlan
from moldwright.found_at import FoundAt
from moldwright.mold.behind_necks import hollows_of
from moldwright.mold.trapped import HollowsFound, NeckedHollow, RubberGives, rubber_trapped, trapped

SOFT = RubberGives(glove_mm=4.0, peels_mm=13.0, stretches=3.25)
BOTTLE_STEP_MM = 130.0 / 110.0


def the_hollow(solid: object) -> NeckedHollow:
    (found,) = hollows_of(impossible.mesh(solid)).found  # type: ignore[arg-type]
    return found


def test_a_bottles_inside_is_found_with_its_neck() -> None:
    """Radius 28 behind 7, at half a step of the grid on either side; 177 ml of cylinder and 33 ml of cone."""
    found = the_hollow(impossible.bottle(7.0))
    assert found.ball_mm == pytest.approx(56.0, abs=BOTTLE_STEP_MM)
    assert found.neck_mm == pytest.approx(14.0, abs=BOTTLE_STEP_MM)
    assert found.neck_area_mm2 == pytest.approx(np.pi * 7.0**2, rel=0.15)
    assert found.neck[2] >= 103.0 - BOTTLE_STEP_MM
    assert found.at[:2] == pytest.approx((0.0, 0.0), abs=BOTTLE_STEP_MM)
    assert 177.0 < found.volume_ml < 177.0 + 33.0


def test_the_rubber_of_a_bottle_stays_in_it() -> None:
    """Its section is 16 times the neck's."""
    found = hollows_of(impossible.mesh(impossible.bottle(7.0)))
    held = trapped(found, SOFT)
    assert held is not None
    assert held.drawn_out(SOFT.glove_mm) == pytest.approx(16.0, rel=0.15)
    refusal = rubber_trapped(held, SOFT, FoundAt(held.at, held.ball_mm))
    assert (refusal.code, refusal.unit, refusal.exit_code) == ("rubber-trapped", "times its length", 4)
    assert refusal.actual > refusal.limit


def test_a_neck_as_wide_as_the_remedy_says_lets_the_rubber_go() -> None:
    """The remedy's figure is built, and a neck four steps narrower still holds."""
    held = the_hollow(impossible.bottle(7.0))
    need_mm = SOFT.needed_mm(held)
    assert trapped(hollows_of(impossible.mesh(impossible.bottle(need_mm / 2 + 1.0))), SOFT) is None
    assert trapped(hollows_of(impossible.mesh(impossible.bottle(need_mm / 2 - 4.0))), SOFT) is not None


def test_a_closed_form_of_a_long_slot_is_its_thickness_over_the_slots() -> None:
    """However long the slot is, a bead of 20 mm has to become 4 times as thin to pass 5 mm."""
    long = NeckedHollow((0.0, 0.0, 30.0), (0.0, 20.0, 30.0), 20.0, 5.0, 5.0 * 1000.0, 30.0)
    assert RubberGives(2.5, 13.0, 1.0).lets_go(long) is False
    assert long.drawn_out(2.5) == pytest.approx(4.0)


def test_a_bore_behind_a_slot_is_open_at_both_ends_and_holds_nothing() -> None:
    """Along the bore the way out is as wide as the bore."""
    assert hollows_of(impossible.mesh(impossible.grooved_block(4.0, 20.0))).found == ()


@pytest.mark.parametrize("solid", [bodies.cone(30, 20, 60), bodies.torus(30, 8).translate((0, 0, 8)), bodies.ball(30)])
def test_nothing_is_behind_a_neck_where_there_is_none(solid: object) -> None:
    assert hollows_of(impossible.mesh(solid)).found == ()  # type: ignore[arg-type]


def test_the_board_closes_no_hollow() -> None:
    """A stool of four feet: what is under it leaves downward when the board is off."""
    seat = bodies.box(70, 50, 20).translate((0, 0, 30))
    feet = [bodies.cone(6, 6, 31).translate((x, y, 0)) for x in (-26, 26) for y in (-17, 17)]
    assert hollows_of(impossible.mesh(sum(feet, seat))).found == ()


def test_thick_rubber_is_drawn_out_less_than_thin() -> None:
    """A jar's 13 mm of rubber go round the rim; a stiffer rubber's 13 mm, that peels up to 6 mm, do not."""
    jar = NeckedHollow((0.0, 0.0, 40.0), (0.0, 0.0, 80.0), 58.0, 34.0, np.pi * 17.0**2, 150.0)
    assert jar.rubber_mm(4.0) == pytest.approx(16.0)
    assert SOFT.most(jar) == 1.5
    assert RubberGives(4.0, 20.0, 3.25).most(jar) == 3.25
    assert trapped(HollowsFound((jar,)), SOFT) is jar
    assert trapped(HollowsFound((jar,)), RubberGives(4.0, 20.0, 3.25)) is None


def test_a_hollow_of_less_than_a_milliliter_is_told_nowhere() -> None:
    """A bubble of radius 6 (0.9 ml) behind a hole of radius 2."""
    bubble = bodies.ball(6, 48, (0, 0, 30)) + bodies.cone(2, 2, 40).translate((0, 0, 30))
    assert hollows_of(impossible.mesh(bodies.cone(20, 12, 50) - bubble)).found == ()


def test_the_refusal_is_kept_with_its_place() -> None:
    held = NeckedHollow((1.0, 2.0, 40.0), (0.0, 0.0, 80.0), 58.0, 10.0, 78.0, 150.0)
    refusal = rubber_trapped(held, SOFT, FoundAt(held.at, held.ball_mm, "left"))
    assert isinstance(refusal, NoSafePlan)
    assert refusal.as_dict()["place"] == {"at": [1.0, 2.0, 40.0], "height_mm": 40.0, "side": "left", "across_mm": 58.0}
