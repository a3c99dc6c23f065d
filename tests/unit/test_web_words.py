"""The pages' words in another language: catalogs that hold what the pages say, the language that a browser asks for."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po
from fastapi.testclient import TestClient
from tools.catalogs import NAME, WORDS, brought_up, catalogs, forms, lacking, said_in_pages, written

from moldwright.units import show_duration, show_length, show_mass
from moldwright.web.app import create_app
from moldwright.web.pages.shop.words import language_names
from moldwright.web.settings import Settings
from moldwright.web.words.said import languages, speaker_of, wanted_of
from moldwright.words.speaker import say, say_count, spoken_by

PLACE = re.compile(r"%\(\w+\)[sd]|%%|\{[\w.]+(?::[\w -]+)?\}")
MARKUP = re.compile(r"</?[a-zA-Z][^>]*>|&\w+;")


def kept(language: str) -> Catalog:
    with (WORDS / language / NAME).open("rb") as file:
        return read_po(file, locale=language)


@pytest.fixture(scope="module")
def template() -> Catalog:
    return said_in_pages()


def test_english_is_whole_and_one_more_language_is_there() -> None:
    assert languages()[0] == "en"
    assert len(languages()) >= 2


@pytest.mark.parametrize("language", catalogs())
def test_a_catalog_holds_what_the_pages_say(language: str, template: Catalog) -> None:
    """What is translated may lag behind; what may be translated is all there, and nothing else: `tools/words`."""
    assert {m.id for m in kept(language)} == {m.id for m in brought_up(template, language)}


@pytest.mark.parametrize("language", catalogs())
def test_a_translation_has_the_figures_of_its_sentence(language: str) -> None:
    """The same places in every form, whatever their order; nothing that a browser would take for a tag."""
    for message in filter(lambda each: each.id, kept(language)):
        english = forms(message.id)
        for told in filter(None, forms(message.string)):
            assert set(PLACE.findall(told)) in [set(PLACE.findall(each)) for each in english], english
            assert not MARKUP.search(told), told


def test_a_catalog_written_and_read_keeps_what_is_translated(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tools.catalogs.WORDS", tmp_path)
    catalog = Catalog(locale="de")
    catalog.add("Today", "Heute")
    catalog.add(("%(num)s piece", "%(num)s pieces"), ("%(num)s Stück", "%(num)s Stücke"))
    written(catalog)
    with (tmp_path / "de" / NAME).open("rb") as file:
        again = read_po(file, locale="de")
    assert again["Today"].string == "Heute"
    assert lacking(again) == []


def test_what_is_not_translated_stays_english() -> None:
    with spoken_by(speaker_of("de")):
        assert say("no page says this") == "no page says this"
        assert say("") == ""


def test_figures_have_the_decimal_mark_of_their_reader() -> None:
    """A comma in German: Unicode CLDR, `numbers/symbols/decimal`; DIN 1333, 3.1."""
    with spoken_by(speaker_of("de")):
        assert (show_mass(4.24, finest_g=0.1), show_mass(1395.0), show_length(12.5)) == ("4,2 g", "1,40 kg", "12,5 mm")
        assert show_duration(86400.0 * 3) == say_count("{days} day", "{days} days", 3, days=3)
    assert show_mass(4.24, finest_g=0.1) == "4.2 g"


@pytest.mark.parametrize(
    ("header", "wanted"),
    [
        ("da, en-gb;q=0.8, en;q=0.7", "en"),  # RFC 9110, 12.5.4: the example, of which only English is there
        ("de-CH, en;q=0.5", "de"),
        ("en;q=0.2, de;q=0.9", "de"),
        ("de;q=0, en", "en"),  # q=0: not acceptable
        ("", "en"),
        ("xx;q=nonsense,,;;", "en"),
    ],
)
def test_the_language_that_a_browser_asks_for(header: str, wanted: str) -> None:
    assert wanted_of(header, ("en", "de")) == wanted


def test_a_page_in_another_language(tmp_path: Path) -> None:
    settings = Settings(str(tmp_path / "shop.db"), None, tmp_path / "desk")
    with TestClient(create_app(settings), base_url="http://localhost:8477") as client:
        page = client.get("/", headers={"accept-language": "de"})
    assert '<html lang="de"' in page.text
    assert "Heute" in page.text


def test_a_language_is_chosen_by_its_own_name() -> None:
    """Endonyms of ISO 639-1's en and de; from memory."""
    assert language_names() == (("en", "English"), ("de", "Deutsch"))
