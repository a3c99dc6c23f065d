"""Level cuts that were asked for, against the height of a box; no other source."""

from __future__ import annotations

from types import SimpleNamespace

import geometry_bodies as bodies
import pytest

from moldwright.errors import InputRefused
from moldwright.job.leveling import refuse_cuts_over

MOUNTED = SimpleNamespace(value=SimpleNamespace(body=bodies.mesh(bodies.box(40, 40, 120))))


def test_a_cut_over_the_top_is_refused_with_both_heights() -> None:
    with pytest.raises(InputRefused) as refused:
        refuse_cuts_over(MOUNTED, (40.0, 131.0))
    assert refused.value.sentence().startswith("cut-over-the-top: 131.0 mm (limit: 120.0 mm).")
    refuse_cuts_over(MOUNTED, (40.0, 119.9))


def test_without_any_the_body_is_not_asked_for() -> None:
    refuse_cuts_over(SimpleNamespace(), ())
