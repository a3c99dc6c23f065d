"""All fifteen things that go wrong are caught before the step that cannot be undone.

The fifteen and their order: the trade's own list ("What goes wrong"); which step catches which: common practice.
"""

from __future__ import annotations

import pytest
from steps_context import context
from told import told

CATCHES = [
    (1, "bubbles", "coat-1", "bubble in the face", "coat-2-mix"),
    (1, "bubbles", "coat-1-look", "pinhole or a bubble", "coat-2-mix"),
    (1, "unfilled tips", "skin", "Air left in tips", "back-fill"),
    (2, "bonded to the original", "release", "No release there", "coat-1-mix"),
    (2, "bonded to the original", "patch-test", "Stuck, or it lifted color", "coat-1-mix"),
    (2, "bonded to the original", "clean", "bonds to the rubber", "coat-1-mix"),
    (2, "coats do not bond to each other", "coat-2-mix", "tacky", "coat-2"),
    (2, "bonded to the shell", "wax-rubber", "bonds to the shell", "shell-2"),
    (2, "shell bonded to itself", "shell-wax-edge", "Plaster grips plaster", "shell-1"),
    (3, "inhibition", "clean", "stop this rubber from curing", "coat-1-mix"),
    (3, "inhibition", "patch-test", "Sticky or soft", "coat-1-mix"),
    (3, "inhibition", "coat-1-mix", "No latex gloves", "coat-1"),
    (3, "ratio", "coat-1-mix", "wrong ratio", "coat-1"),
    (3, "soft cure", "cure-rubber", "Soft, sticky or oily", "shell-2"),
    (4, "ran short", "lay-out", "Rubber for all coats", "coat-1-mix"),
    (4, "ran short", "coat-1-mix", "of rubber stands here", "coat-1"),
    (4, "ran short", "coat-3-look", "Much less on the work", "shell-2"),
    (5, "shell locked on", "fill", "locks the shell on", "shell-2"),
    (5, "shell locked on", "hold-glove", "locks the shell on", "shell-2"),
    (5, "shell locked on", "mark-seam", "shell locks on", "shell-2"),
    (5, "shell locked on", "shell-2", "stick slides off", "shell-1"),
    (5, "shell locked on", "open-shell", "cut the shell, not the piece", "peel"),
    (6, "damp powder", "powder-dry", "Damp powder foams", "skin"),
    (6, "damp glove", "wash-glove", "Water foams urethane", "skin"),
    (6, "damp resin", "skin", "draw water from the air", "back-fill"),
    (7, "tears at a nick", "trim-flange", "where the tear begins", "peel"),
    (7, "tears in the peel", "peel", "Rubber tears", "weigh-glove"),
    (7, "tears in the half-cured glove", "rubber-full-cure", "half-cured glove", "skin"),
    (7, "tears in demolding", "demold", "tears the glove", "flash"),
    (8, "gelled in the cup", "coat-1-mix", "it is gelling", "coat-1"),
    (8, "gelled in the cup", "skin", "work-by time", "back-fill"),
    (9, "original damaged", "receive", "stop and ask the owner", "clean"),
    (9, "original damaged", "clean", "dissolve plastic", "coat-1-mix"),
    (9, "original damaged", "mount", "mark the original", "coat-1-mix"),
    (9, "original damaged", "open-shell", "breaks the original", "peel"),
    (9, "original damaged", "peel", "thin parts snap", "return-original"),
    (10, "leaks under the base", "gaps", "leaks under the base", "coat-1-mix"),
    (10, "leaks at the flange or seam", "leak-check", "until it is tight", "skin"),
    (10, "leaks at the flange or seam", "skin", "mold is tight", "back-fill"),
    (11, "does not reseat", "trim-flange", "seats wrong", "shell-2"),
    (11, "does not reseat", "reseat", "take it out and begin again", "skin"),
    (12, "sagged", "coat-1", "Too thick at once sags", "coat-2-mix"),
    (12, "uneven", "coat-3-look", "Uneven", "shell-2"),
    (12, "too thin", "weigh-glove", "do not cast yet", "skin"),
    (13, "clumped", "powder-dry", "Clumps in the hand", "skin"),
    (13, "settled, starved at the face", "powder-wet", "face starves", "skin"),
    (14, "size drift", "rubber-full-cure", "size also still drifts", "skin"),
    (14, "size drift", "weigh-cast", "before you finish it or pour the next", "approve-first"),
    (14, "solvent swell", "rest", "swollen glove makes casts of another size", "store-mold"),
    (15, "seam out of register", "mark-seam", "the seam is wrong there", "shell-2"),
    (15, "seam out of register", "shell-1", "out of register in every cast", "open-shell"),
    (15, "seam out of register", "close-shell", "out of register", "skin"),
]
TOLD = told(context())


def test_all_fifteen_are_here() -> None:
    assert {number for number, *_ in CATCHES} == set(range(1, 16))


@pytest.mark.parametrize(("number", "what", "id_", "words", "too_late"), CATCHES)
def test_caught_before_it_cannot_be_undone(number: int, what: str, id_: str, words: str, too_late: str) -> None:
    step, ids = TOLD.step(id_), [step.id for step in TOLD.steps]
    assert any(words in text for text in (*step.before, *step.cautions)), (number, what)
    assert ids.index(id_) < ids.index(too_late)
