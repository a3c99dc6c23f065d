"""What the desk's pages say, found in templates and source, and the catalogs that translate it (gettext's PO)."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po
from tools.said_below import PACKAGE, said_below

WORDS = PACKAGE / "web" / "words"
NAME = "desk.po"
SPEAKS = ("moldwright.words.", "moldwright.web.words.")
"""Modules of which one names a file that says something."""
KEYWORDS = {"_": None, "ngettext": (1, 2), "pgettext": ((1, "c"), 2), "say": None, "say_count": (1, 2), "words": None}
OPTIONS = {"**.html": {"trim_blocks": "true", "lstrip_blocks": "true", "newstyle_gettext": "true", "silent": "false"}}


def said_in_pages() -> Catalog:
    """Every sentence that a page shows."""
    found = Catalog(project="Moldwright", charset="utf-8", fuzzy=False)
    for _file, _line, message, comments, context in extract_from_dir(
        PACKAGE, _methods(), OPTIONS, KEYWORDS, comment_tags=("Translators:",), directory_filter=_wanted
    ):
        found.add(message, None, auto_comments=comments, context=context)
    for said in said_below():
        found.add(said)
    return found


def _methods() -> list[tuple[str, str]]:
    files = [file for file in PACKAGE.rglob("*.py") if any(name in file.read_text("utf-8") for name in SPEAKS)]
    return [*((file.relative_to(PACKAGE).as_posix(), "python") for file in files), ("**.html", "jinja2")]


def _wanted(folder: str) -> bool:
    return Path(folder).name not in ("built", "desk", "__pycache__") and not Path(folder).name.startswith(".")


def catalogs() -> tuple[str, ...]:
    """The languages that have one."""
    return tuple(sorted(file.parent.name for file in WORDS.glob(f"*/{NAME}")))


def brought_up(template: Catalog, language: str) -> Catalog:
    """A language's catalog with every sentence of the pages and no other; nothing is guessed from one that is alike.

    Parameters
    ----------
    template : every sentence.
    language : its ISO 639-1 code.
    """
    file = WORDS / language / NAME
    kept = read_po(BytesIO(file.read_bytes()), locale=language) if file.exists() else Catalog(locale=language)
    kept.fuzzy = False
    kept.update(template, no_fuzzy_matching=True)
    kept.obsolete.clear()
    return kept


def lacking(catalog: Catalog) -> list[str]:
    """Sentences that are not translated, in English.

    Parameters
    ----------
    catalog : a language's.
    """
    return [forms(m.id)[0] for m in catalog if m.id and not all(forms(m.string))]


def forms(told: str | Sequence[str] | None) -> tuple[str, ...]:
    """A sentence in all its forms: one and many, where it counts something.

    Parameters
    ----------
    told : as a catalog holds it.
    """
    return (told,) if isinstance(told, str) else tuple(told or ("",))


def written(catalog: Catalog) -> None:
    """The catalog in its file, with no more of a header than reading it needs and no place where a sentence stands: the
    same sentences, the same file, so that catalogs of two branches are easily one.

    Parameters
    ----------
    catalog : a language's.
    """
    language = str(catalog.locale)
    told = (f"Language: {language}", "Content-Type: text/plain; charset=utf-8", f"Plural-Forms: {catalog.plural_forms}")
    header = 'msgid ""\nmsgstr ""\n' + "".join(f'"{line}\\n"\n' for line in told) + "\n"
    body = BytesIO()
    write_po(body, catalog, width=120, sort_output=True, omit_header=True, no_location=True)
    file = WORDS / language / NAME
    file.parent.mkdir(exist_ok=True)
    file.write_bytes(header.encode() + body.getvalue())
