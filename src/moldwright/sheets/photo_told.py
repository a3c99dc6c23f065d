"""What is told of photos, in words: why one is dropped, which directions a ring has and what it lacks."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.photos.ask import Ask
from moldwright.photos.photographed import HullWarning
from moldwright.photos.poses import PoseWarning
from moldwright.photos.tally import MissingArc, Ring, Tally
from moldwright.photos.told import PhotoTold
from moldwright.sheets.photo_words import photo_words
from moldwright.text.harmless import harmless
from moldwright.units import show_length, show_share, show_volume

WHOLE_FROM = 0.1
"""From here on a share is told in whole percents: our own."""
SECTOR_DEG = 45.0
"""Width of each of the eight directions that have a name."""


def reason_text(told: PhotoTold) -> str:
    """Why a photo is not used, with the figure that decided; "" for one that is used.

    Parameters
    ----------
    told : what is told of it.

    >>> from moldwright.photos.told import PhotoReason
    >>> reason_text(PhotoTold("a.jpg", False, PhotoReason.FEW_MARKERS, 2, 4))
    'too few markers in sight: 2, at least 4'
    """
    if told.reason is None:
        return ""
    words = photo_words()["reason"][told.reason]
    if "figures" not in words or not told.limit or (not told.figure and "{share}" in words["figures"]):
        return str(words["text"])
    figures = words["figures"].format(
        figure=_plain(told.figure),
        limit=_plain(told.limit),
        share=_share(told.figure),
        share_limit=_share(told.limit),
    )
    return f"{words['text']}: {figures}"


def photo_line(told: PhotoTold) -> str:
    """One photo in a line: used, or dropped and why.

    Parameters
    ----------
    told : what is told of it.

    >>> photo_line(PhotoTold("a.jpg", True))
    'a.jpg: used'
    """
    words = photo_words()["look"]
    name = harmless(told.file)
    return str(words["used" if told.used else "dropped"].format(file=name, why=reason_text(told)))


def warning_line(warning: PoseWarning | HullWarning, figure: float) -> str:
    """What does not stop the work but should be known.

    Parameters
    ----------
    warning : which.
    figure : how much, in its own unit.
    """
    text = photo_words()["warning"][warning]
    return str(text.format(share=show_share(abs(figure), 2), length=show_length(figure), times=f"{figure:.1f}"))


def ask_line(ask: Ask) -> str:
    """A question that no outline answers.

    Parameters
    ----------
    ask : what may hide where.
    """
    x, y, up = ask.at_mm
    words = photo_words()["ask"]
    aside = words["right" if x >= 0 else "left"].format(by=show_length(abs(x)))
    along = words["back" if y >= 0 else "front"].format(by=show_length(abs(y)))
    shown = {"across": show_length(ask.across_mm), "up": show_length(up), "most": show_volume(ask.most_ml)}
    return str(words[ask.kind].format(name=ask.name, aside=aside, along=along, **shown))


def _share(value: float) -> str:
    return show_share(value, 0 if value >= WHOLE_FROM else 1)


def _plain(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def tally_lines(tally: Tally) -> list[str]:
    """What the photos cover and what is missing, a line each.

    Parameters
    ----------
    tally : of all photos that are used.
    """
    words = photo_words()["tally"]
    lines = [*_ring_lines(words["low"], tally.low), *_ring_lines(words["high"], tally.high)]
    lines.append(words["above" if tally.above else "none-above"].format(photos=_photos(tally.above)))
    lines.append(words["more" if tally.more else "whole"].format(photos=_photos(tally.more)))
    return lines


def _ring_lines(name: str, ring: Ring) -> Iterator[str]:
    words = photo_words()["tally"]
    if not ring.photos:
        yield words["no-ring"].format(ring=name)
        return
    yield words["ring"].format(ring=name, photos=_photos(ring.photos), deg=f"{ring.elevation_deg:.0f}°")
    if ring.fault is not None:
        yield words["fault"][ring.fault].format(ring=name)
    for gap in ring.gaps:
        yield _gap(gap)


def _gap(gap: MissingArc) -> str:
    return str(
        photo_words()["tally"]["gap"].format(
            side=side_of(gap.from_deg + _width(gap) / 2),
            start=f"{gap.from_deg % 360:.0f}°",
            end=f"{gap.to_deg % 360:.0f}°",
            photos=_photos(gap.photos),
        )
    )


def _width(gap: MissingArc) -> float:
    """Degrees clockwise from its start to its end; a whole turn where both are one."""
    return (gap.to_deg - gap.from_deg) % 360 or 360.0


def side_of(deg: float) -> str:
    """From which side of the sheet a direction looks.

    Parameters
    ----------
    deg : clockwise from the front as seen from above [deg].

    >>> side_of(178.0), side_of(-40.0)
    ('the back', 'the front right')
    """
    sides = photo_words()["tally"]["sides"]
    return str(sides[round(deg / SECTOR_DEG) % len(sides)])


def _photos(count: int) -> str:
    return "1 photo" if count == 1 else f"{count} photos"
