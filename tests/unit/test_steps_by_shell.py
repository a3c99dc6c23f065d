"""What a step says goes by the shell that is made: nobody dries, bands or plasters what is printed in one piece, and a
glove that leaks is mended where a hand gets at it. Common practice, no source."""

from __future__ import annotations

import pytest
from steps_context import context, measures
from test_steps_peel import job as peeled
from told import Told, told

from moldwright.commission.orders import MoldOrder
from moldwright.mold.measures import PrintMeasures
from moldwright.plan.peel import PeelWay


def made(shell: str, pieces: int = 2) -> Told:
    plates = tuple(((number, 1),) for number in range(1, pieces + 1))
    printed = PrintMeasures(plates, 0, 180.0) if shell == "printed" else None
    volumes = measures(
        shell__edges_mm=(0.0, 300.0, 250.0)[:pieces], shell__shares=(1.0 / pieces,) * pieces, shell__printed=printed
    )
    return told(context(mold=MoldOrder(shell=shell), volumes=volumes))


def said(whole: Told, step: str) -> str:
    return " ".join((*whole.step(step).texts, whole.on(step)))


@pytest.mark.parametrize("pieces", [1, 3])
def test_a_printed_shell_is_neither_dried_nor_plastered(pieces: int) -> None:
    whole = made("printed", pieces)
    assert "Shell dry" not in said(whole, "reseat")
    assert "Shell swept" in said(whole, "reseat")
    for step in whole.steps[: [str(each.id) for each in whole.steps].index("peel")]:
        assert "plaster" not in said(whole, str(step.id)).lower(), step.id
    assert "its weight stands still" in said(made("plaster bandage"), "reseat")


def test_a_shell_on_one_plate_is_one_file() -> None:
    assert "File plate-1 of the mold's folder, one print, 1 part in it" in said(made("printed", 1), "print-parts")
    assert "Files plate-1 to plate-3" in said(made("printed", 3), "print-parts")


def test_only_what_has_a_seam_is_stored_in_bands() -> None:
    assert "Bands on" not in said(made("plaster bandage", 1), "store-mold")
    assert "Bands on" in said(made("plaster bandage", 2), "store-mold")


def test_gypsum_has_no_plies() -> None:
    assert "plies" not in said(made("fiber-gypsum"), "shell-2")
    assert "thinner layers" in said(made("fiber-gypsum"), "shell-2")
    assert "fewer plies" in said(made("plaster bandage"), "shell-2")


@pytest.mark.parametrize("way", [PeelWay.ROLL, PeelWay.SLIT])
def test_a_leak_is_mended_on_the_open_shell_and_without_tape(way: PeelWay) -> None:
    """Tape does not stick to most rubber, as the step before says, and no hand gets between a closed shell and it."""
    whole = peeled(way)
    text = f"{said(whole, 'leak-check')} {said(whole, 'wash-glove')}"
    assert "open the shell" in text
    assert "tape" not in text.lower()
    assert ("the slit gapes" in text) is (way is PeelWay.SLIT)
