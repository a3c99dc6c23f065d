"""`moldwright shop attach`: a photo or a file, kept with what it belongs to."""

from __future__ import annotations

from pathlib import Path

from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened
from moldwright.log.codes import short_code
from moldwright.log.event import About
from moldwright.making.shop import bench_clock
from moldwright.records.files.keep import attach, keep_file
from moldwright.records.files.kept import place_of
from moldwright.records.find import find
from moldwright.records.told import line_told
from moldwright.text.harmless import harmless


def run_attach(file: Path, to: tuple[About, str], text: str, place: str, by: str, as_json: bool) -> None:
    """Keep it, write down what it belongs to, and tell.

    Parameters
    ----------
    file : the photo, PDF or text.
    to : what it belongs to, as a person writes it.
    text : what it shows.
    place, by : the store, and who does it.
    as_json : print one JSON object.
    """
    about, written = to
    told = line_told(text, "what it shows", may_lack=True)
    with opened(place) as shop:
        subject = find(shop, about, written)
        kept = keep_file(shop, file)
        event = attach(shop, bench_clock(shop, by), about, subject, kept, told)
        at = place_of(shop.files, kept)
    if as_json:
        say_json({"event": event.id, "about": about.value, "subject": subject, "file": kept, "kept_at": str(at)})
        return
    say(f"{harmless(file.name)} is kept with {about.value} {short_code(subject)}.")
