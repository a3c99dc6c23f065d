"""Materials are found as people write them; what may be several is asked about; what is not known is never sound."""

from __future__ import annotations

import random
from itertools import combinations

import pytest

from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.materials import library
from moldwright.materials.kinds import KINDS
from moldwright.materials.originals import original_material, original_materials
from moldwright.materials.spoken import words_of
from moldwright.materials.words import Tag


@pytest.mark.parametrize(
    ("asked", "name"),
    [
        ("oil clay, sulfur-free", "sulfur-free clay"),
        ("clay without sulphur", "sulfur-free clay"),
        ("Clay (sulfur free)", "sulfur-free clay"),
        ("sulfur clay", "sulfur clay"),
        ("clay with sulfur", "sulfur clay"),
        ("Oil Clays", "oil clay"),
        ("silicone, tin", "tin silicone"),
        ("3-D prints", "3d print"),
        ("wood, painted", "painted surface"),
        ("a statue made of bronze", "bronze"),
    ],
)
def test_what_originals_are_made_of(asked: str, name: str) -> None:
    found = original_material(asked)
    assert (found.name, found.known) == (name, True)


@pytest.mark.parametrize(
    ("kind", "asked", "id_"),
    [
        ("shell", "fiber-reinforced gypsum", "fiber-gypsum"),
        ("shell", "Gypsum, fibre reinforced", "fiber-gypsum"),
        ("shell", "plaster bandages", "plaster-bandage"),
        ("rubber", "addition-cure silicone, Shore A 10, slow", "addition-cure-a10-slow"),
        ("rubber", "slow 20A addition-cure silicone", "addition-cure-a20-slow"),
        ("rubber", "platinum silicone A 30 fast", "addition-cure-a30-fast"),
        ("rubber", "tin silicone", "condensation-cure-a25"),
        ("resin", "polyester resin", "polyester"),
        ("resin", "urethane, clear", "urethane-clear"),
        ("powder", "bronze powder", "bronze"),
        ("powder", "aluminium", "aluminum"),
        ("release", "soft soap", "soap-release"),
    ],
)
def test_sheets_by_their_words(kind: str, asked: str, id_: str) -> None:
    assert getattr(library(), kind)(asked).id == id_


@pytest.mark.parametrize(
    ("kind", "asked", "choices"),
    [
        ("rubber", "silicone", ("addition-cure-a10-slow", "condensation-cure-a25")),
        ("resin", "urethane", ("urethane-fast", "urethane-standard", "urethane-clear")),
        ("powder", "glass", ("microballoons",)),
    ],
)
def test_what_may_be_several_is_asked_with_the_choices(kind: str, asked: str, choices: tuple[str, ...]) -> None:
    with pytest.raises(InputRefused) as refused:
        getattr(library(), kind)(asked)
    assert refused.value.code == "material-unclear"
    assert all(choice in refused.value.remedy for choice in choices)


def test_an_original_of_several_classes_is_asked_about() -> None:
    with pytest.raises(InputRefused, match='"plastic"; "foam"; "unknown"'):
        original_material("urethane")


@pytest.mark.parametrize("asked", ["moon rock", "oak and brass", "wood, lacquer on it", "sulfur", "glass wool clay"])
def test_a_word_too_many_is_unknown_and_never_sound(asked: str) -> None:
    found = original_material(asked)
    assert (found.known, found.tags) == (False, (Tag.UNKNOWN,))


def test_no_two_of_a_kind_are_written_with_the_same_words() -> None:
    for kind in KINDS:
        named = [(sheet.id, {words_of(sheet.id), words_of(sheet.name)}) for sheet in library().all(kind)]
        assert [(a, b) for (a, ours), (b, theirs) in combinations(named, 2) if ours & theirs] == []
    originals = [(each.name, {words_of(word) for word in (each.name, *each.also)}) for each in original_materials()]
    assert [(a, b) for (a, ours), (b, theirs) in combinations(originals, 2) if ours & theirs] == []


def test_every_name_is_found_in_any_order_of_its_words_and_any_case() -> None:
    chance = random.Random(7)
    for kind in KINDS:
        for sheet in library().all(kind):
            parts = sheet.name.split(", ")
            chance.shuffle(parts)
            assert library().find(f"{kind} {', '.join(parts).upper()}") == (kind, sheet)
    for material in original_materials():
        for word in (material.name, *material.also):
            assert original_material(f" {word.upper()} ").name == material.name, word


def test_a_commission_takes_a_name_with_commas() -> None:
    text = '[original]\nfile = "a.stl"\nheight = "8 in"\n[mold]\nrubber = "silicone, A10"\n'
    assert commission_from_toml(text).mold.rubber == "silicone, A10"


@pytest.mark.parametrize("kind", ["release", "sealer", "powder", "resin"])
def test_the_hint_says_how_to_leave_out_what_may_be_left_out(kind: str) -> None:
    with pytest.raises(InputRefused, match='= "none"'):
        getattr(library(), kind)("nothing at all")
