"""Pages from their templates, in the reader's language, units and look."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from fastapi import Request
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.responses import HTMLResponse

from moldwright.plan.json_text import tree_of
from moldwright.ways import Deed, command
from moldwright.web.assets import assets
from moldwright.web.doors.may import may_of
from moldwright.web.page import piece_parts, places
from moldwright.web.reader import DeskReader, reader_of
from moldwright.web.refusals import said as refusal_said
from moldwright.web.trying import trying
from moldwright.web.words.dates import day_words, hour_words, weekday_words
from moldwright.web.words.said import say_of
from moldwright.words.speaker import say, say_count

HERE = Path(__file__).parent


@cache
def environment() -> Environment:
    """The templates: `templates/`, `parts/`, `pages/NAME/`, named from this folder; what is shown is made harmless."""
    made = Environment(
        loader=FileSystemLoader(HERE),
        autoescape=True,
        undefined=StrictUndefined,
        extensions=["jinja2.ext.i18n"],
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.install_gettext_callables(say, say_count, newstyle=True, pgettext=say_of)  # type: ignore[attr-defined]
    made.filters |= {"said": say, "refusal": refusal_said, "tree": tree_of}
    made.filters |= {"day": day_words, "weekday": weekday_words, "hour": hour_words}
    return made


def page(request: Request, name: str, values: dict[str, Any] | None = None, status: int = 200) -> HTMLResponse:
    """A page.

    Parameters
    ----------
    request : to which it answers.
    name : the page's folder, or the whole name of a template.
    values : what its template is given beside what every page has.
    status : of the answer.
    """
    reader = reader_of(request)
    template = name if name.endswith(".html") else f"pages/{name}/page.html"
    text = environment().get_template(template).render(_common(request, reader, name) | (values or {}))
    return HTMLResponse(text, status_code=status, headers={"Cache-Control": "no-store"})


def _common(request: Request, reader: DeskReader, name: str) -> dict[str, Any]:
    may = may_of(request)
    return {
        "request": request,
        "reader": reader,
        "visitor": reader.visitor,
        "may": may,
        "places": [place for place in places() if may("GET", place.path)],
        "piece_parts": piece_parts(),
        "name": name,
        "assets": assets(),
        "path": request.url.path,
        "trying": trying(request),
        "command": command,
        "Deed": Deed,
    }
