"""What a page is, and how pages are found: every folder of `pages/` is one, and nothing outside it names it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from fastapi import APIRouter

from moldwright.web import pages
from moldwright.web.words.marked import Words


@dataclass(frozen=True, slots=True)
class DeskPlace:
    """Where a page stands in the bar across the top.

    Parameters
    ----------
    words : what it is called.
    path : where it leads.
    rank : places are shown by this, the least first.
    on_phone : whether it stands in a phone's bar itself, and not under "More".
    """

    words: Words
    path: str
    rank: int
    on_phone: bool = False


@dataclass(frozen=True, slots=True)
class Page:
    """A page: its routes, and its place if it has one. Its folder's name is the name of its script and style.

    Parameters
    ----------
    router : its routes, each with the role that it needs (`web/doors/needs.py`).
    place : in the bar across the top; None for a page that is reached from others.
    part : of a piece's own bar: Piece, Mold, Mixes, ...; its path begins behind the piece's.
    """

    router: APIRouter
    place: DeskPlace | None = None
    part: DeskPlace | None = None


@cache
def all_pages() -> dict[str, Page]:
    """Every page by the name of its folder."""
    return dict(_found())


def _found() -> Iterator[tuple[str, Page]]:
    for module in iter_modules(pages.__path__):
        if module.ispkg:
            route = import_module(f"{pages.__name__}.{module.name}.route")
            yield module.name, route.PAGE


@cache
def places() -> tuple[DeskPlace, ...]:
    """The places across the top, in their order."""
    return tuple(sorted((p.place for p in all_pages().values() if p.place is not None), key=lambda place: place.rank))


@cache
def piece_parts() -> tuple[DeskPlace, ...]:
    """The bar of a piece, in its order."""
    return tuple(sorted((p.part for p in all_pages().values() if p.part is not None), key=lambda part: part.rank))
