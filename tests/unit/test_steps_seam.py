"""Steps of one kind of seam: what each says hangs on its flags alone, and nothing of the other kind is said."""

from __future__ import annotations

import numpy as np
import pytest
from steps_context import context, measures
from told import done

from moldwright.commission.orders import MoldOrder
from moldwright.geometry.seam_kind import Seam
from moldwright.materials.words import Making
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.cautions import Severity
from moldwright.quantities.quantities import Quantities
from moldwright.steps.flags import Condition, Flag, flags_of, holds
from moldwright.steps.piece_quoted import piece_quoted
from moldwright.steps.shape_cautions import ShapeFindings
from moldwright.steps.sheet import StepSheet, read_data, step_sheets
from moldwright.steps.written import Work

LAP = {"shell__seam": Seam.LAP, "shell__seam_flange_mm": 0.0, "shell__lap_mm": 40.0}
LAPPED = measures(**LAP)
LAID = ["plaster bandage", "fiber-gypsum"]
KINDS = {Seam.WALL: Flag.WALL_SEAM, Seam.LAP: Flag.LAP_SEAM}
OTHER = {Seam.WALL: Seam.LAP, Seam.LAP: Seam.WALL}
FIGURES = {Seam.WALL: {"seam.flange", "clay"}, Seam.LAP: {"lap.width", "lap.left"}}
"""Figures that only one kind of seam has."""
USUAL = frozenset(read_data("cautions")["caution"])
"""Cautions that stand on steps of any kind."""


def job(seam: Seam, shell: str = "plaster bandage") -> Quantities:
    volumes: MoldMeasures = measures() if seam is Seam.WALL else LAPPED
    return context(mold=MoldOrder(shell=shell, seam=seam), volumes=volumes)


def said(work: Work) -> set[str]:
    """The keys of all sentences of a job's steps and of their own cautions."""
    steps = {line.say for step in work.steps for line in (*step.needs, *step.do, *step.before)}
    return steps | {line.say for caution in work.cautions for line in caution.lines if caution.rule not in USUAL}


def asking(flag: Flag) -> set[str]:
    """The keys of all that is said only where a flag is up; of a step under such a condition all."""
    return {key for sheet in step_sheets() for key, when in conditioned(sheet) if Condition(flag) in when}


def conditioned(sheet: StepSheet) -> list[tuple[str, tuple[Condition, ...]]]:
    sentences = [(each.key, each.when) for each in (*sheet.needs, *sheet.do, *sheet.before)]
    cautions = [(each.full.key, each.when) for each in sheet.cautions if each.rule not in USUAL]
    return [(key, (*sheet.when, *when)) for key, when in (*sentences, *cautions)]


@pytest.mark.parametrize("shell", LAID)
@pytest.mark.parametrize("seam", Seam)
def test_a_laid_shell_is_told_of_its_own_kind_of_seam(seam: Seam, shell: str) -> None:
    made, flags = done(job(seam, shell)), flags_of(job(seam, shell))
    assert {flag for flag in KINDS.values() if flag in flags} == {KINDS[seam]}
    own, others = asking(KINDS[seam]), asking(KINDS[OTHER[seam]])
    assert own & said(made)
    assert not others & said(made)
    assert not others & own


@pytest.mark.parametrize("shell", LAID)
@pytest.mark.parametrize("seam", Seam)
def test_no_figure_of_the_other_kind_is_quoted(seam: Seam, shell: str) -> None:
    made = done(job(seam, shell), shape=ShapeFindings(0.0, 0.5 if seam is Seam.LAP else 0.0))
    quoted = {quantity.name for step in made.steps for quantity in step.quantities}
    quoted |= {quantity.name for caution in made.cautions for quantity in caution.quantities}
    assert FIGURES[seam] <= quoted
    assert not FIGURES[OTHER[seam]] & quoted


@pytest.mark.parametrize("seam", Seam)
def test_every_step_that_lays_waxes_and_opens_the_shell_follows_the_seam(seam: Seam) -> None:
    own = asking(KINDS[seam])
    for step in ("shell-*", "shell-wax-edge", "open-shell"):
        assert any(key.startswith(f"{step}.do.") for key in own), step
    assert ("clay-wall" in {step.id for step in done(job(seam)).steps}) == (seam is Seam.WALL)


def test_a_printed_shell_has_flanges_and_is_laid_against_nothing() -> None:
    printed = job(Seam.WALL, "printed")
    assert printed.basis.chosen.shell.making is Making.PRINTED
    flags = flags_of(printed)
    assert not {Flag.WALL_SEAM, Flag.LAP_SEAM} & flags
    assert not (asking(Flag.WALL_SEAM) | asking(Flag.LAP_SEAM)) & said(done(printed))
    assert holds((Condition(Flag.LAP_SEAM, up=False),), flags)


@pytest.mark.parametrize(("share", "told"), [(0.0, False), (0.3, False), (0.4, True), (1.0, True)])
def test_a_lap_that_is_mostly_left_out_is_told_as_this_jobs_own(share: float, told: bool) -> None:
    made = done(job(Seam.LAP), shape=ShapeFindings(0.0, share))
    found = [caution for caution in made.cautions if caution.rule == "short-lap"]
    assert len(found) == int(told)
    for caution in found:
        assert (caution.step, caution.severity, caution.particular) == ("shell-1", Severity.HEED, True)


def test_bandage_wax_and_clay_follow_the_seam() -> None:
    """The made-up shell: 0.11 m2 and a seam of 0.52 m; two flanges of 20 mm in each layer, or a lap of 40 mm in one."""
    wall, lap = job(Seam.WALL), job(Seam.LAP)
    assert wall.bandage is not None
    assert lap.bandage is not None
    layers, waste = wall.bandage.layers, 1 + wall.commission.shop.waste
    strip_mm2 = 250.0 * 150.0 * 2 / 3
    assert wall.bandage.strips == np.ceil(layers * (110_000 + 2 * 520 * 20) * waste / strip_mm2)
    assert lap.bandage.strips == np.ceil((layers * 110_000 + 520 * 40) * waste / strip_mm2)
    assert wall.parting.clay_g.likely > 0.0 == lap.parting.clay_g.high
    clay = [[need.amount.likely for need in each.needs if need.id == "clay"] for each in (wall, lap)]
    assert sum(clay[0]) > sum(clay[1])


def test_each_piece_takes_the_strips_of_its_share() -> None:
    """Of the shell's volume shell 1, with its lap, is 0.6: whole strips within one of 0.6 of all, adding up to all."""
    lap = context(volumes=measures(**LAP, shell__shares=(0.6, 0.4)))
    assert lap.bandage is not None
    last, first = (int(piece_quoted(lap, number)["piece.strips"].value) for number in (1, 2))
    assert first + last == lap.bandage.strips
    assert abs(last - 0.6 * lap.bandage.strips) < 1.0
