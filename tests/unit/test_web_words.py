"""The pages' words in another language: catalogs that hold what the pages say, the language that a browser asks for."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po
from fastapi.testclient import TestClient
from tools.catalogs import NAME, WORDS, brought_up, catalogs, lacking, said_in_pages, written

from moldwright.web.app import create_app
from moldwright.web.settings import Settings
from moldwright.web.words.said import LANGUAGE, languages, say, wanted_of

PLACE = re.compile(r"%\(\w+\)s|%%|\{\w+\}")


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
    for message in kept(language):
        if isinstance(message.id, str) and message.id and message.string:
            assert sorted(PLACE.findall(str(message.string))) == sorted(PLACE.findall(message.id)), message.id


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
    token = LANGUAGE.set("de")
    try:
        assert say("no page says this") == "no page says this"
    finally:
        LANGUAGE.reset(token)


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
