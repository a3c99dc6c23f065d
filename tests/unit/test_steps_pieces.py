"""The steps of a shell in one to four pieces: laid in turn, each up to its own edge, opened the other way round."""

from __future__ import annotations

import pytest
from steps_context import context, measures
from told import Told, done, told

from moldwright.commission.orders import MoldOrder
from moldwright.geometry.seam_kind import Seam
from moldwright.plan.steps import Phase
from moldwright.quantities.quantities import Quantities
from moldwright.steps.draft import steps_of_other_jobs

EDGES_MM = (0.0, 300.0, 250.0, 200.0)
LAID = ("plaster bandage", "fiber-gypsum")


def job(pieces: int, seam: Seam = Seam.WALL, shell: str = "plaster bandage") -> Quantities:
    volumes = measures(
        shell__seam=seam,
        shell__edges_mm=EDGES_MM[:pieces],
        shell__shares=(1.0 / pieces,) * pieces,
        shell__seam_flange_mm=20.0 if seam is Seam.WALL else 0.0,
        shell__lap_mm=40.0 if seam is Seam.LAP else 0.0,
    )
    return context(mold=MoldOrder(shell=shell, seam=seam), volumes=volumes)


def ids(made: Told) -> list[str]:
    """The steps from the glove's trimming to the shell's drying."""
    every = [str(step.id) for step in made.steps]
    return every[every.index("trim-flange") + 1 : every.index("shell-dry")]


@pytest.mark.parametrize("seam", Seam)
@pytest.mark.parametrize("pieces", [1, 2, 3, 4])
def test_the_shell_is_laid_in_turn_the_last_off_first(pieces: int, seam: Seam) -> None:
    """A wall, the laying and the waxing of the edge for each but the last laid, which closes it: common practice, no
    source."""
    walled = seam is Seam.WALL
    expected = ["mark-seam"] * (pieces > 1) + ["cut-strips"]
    for number in range(pieces, 0, -1):
        behind = "" if number == pieces else f"-{number}"
        expected += [f"clay-wall{behind}"] if walled and number > 1 else []
        expected += ["wax-rubber"] if number == pieces else []
        expected += [f"shell-{number}"]
        expected += [f"shell-wax-edge{behind}"] if number > 1 else []
    found = [id_ for id_ in ids(told(job(pieces, seam))) if id_ != "shell-test"]
    assert found == expected
    assert set(found) - {"mark-seam", "cut-strips"} <= steps_of_other_jobs()


@pytest.mark.parametrize("shell", LAID)
@pytest.mark.parametrize("pieces", [1, 2, 3, 4])
def test_every_piece_is_laid_in_its_own_phase_with_its_own_cups(pieces: int, shell: str) -> None:
    made = told(job(pieces, shell=shell))
    phases = {str(step.id): step.phase for step in done(job(pieces, shell=shell)).steps}
    for number in range(1, pieces + 1):
        step = made.step(f"shell-{number}")
        assert phases[step.id] is Phase(f"shell-{number}")
        assert all(mix.startswith(f"shell-{number}.") for mix in step.mixes)
    mixed = [mix for step in made.steps for mix in step.mixes if mix.startswith("shell-")]
    assert sorted(mixed) == sorted(mix.id for mix in job(pieces, shell=shell).shell_mixes)


def test_of_a_shell_in_one_piece_no_seam_is_said() -> None:
    """Nothing is marked, walled, waxed apart, wedged, banded or put together: one thing is lifted and clamped."""
    one = job(1)
    made = told(one)
    texts = [text for step in made.steps for text in (step.title, *step.do, *step.before, *step.needs)]
    texts += [caution.text for caution in made.cautions]
    on_the_cast = ("for rubber and seam", "where it is", "size, detail, seam", "dress the seam", "watch seam")
    for word in ("seam", "clay wall", "halves", "wedge the", "Bands above", "up to 1", "shell 2"):
        assert not [text for text in texts if word in text and not any(it in text for it in on_the_cast)], word
    assert "Lift the shell straight along its arrow" in " ".join(made.step("open-shell").do)
    assert "Lift the shell straight along its arrow" in " ".join(made.step("demold").do)
    assert one.closure.clamps == job(2).closure.clamps - 3
    assert (one.closure.bands, one.closure.seam_clamps) == (0, 0)
    assert one.parting.clay_g.likely == 0.0


def test_the_wall_of_a_piece_is_as_long_as_its_own_edge() -> None:
    """10 min and 25 for each meter of it, common practice, no source; later walls are waxed on their own."""
    made = told(job(4))
    for step, edge_mm in (("clay-wall", 200.0), ("clay-wall-3", 250.0), ("clay-wall-2", 300.0)):
        assert made.step(step).labor_min == pytest.approx(10.0 + 0.025 * edge_mm, abs=0.06)
        assert ("Wax its face" in " ".join(made.step(step).do)) == (step != "clay-wall")
    assert [step.id for step in made.steps if step.id.startswith("clay-wall")] == [
        "clay-wall",
        "clay-wall-3",
        "clay-wall-2",
    ]
