"""The line that tells what an original is known by."""

from dataclasses import replace

import pytest
from job_plan_sample import sample_plan

from moldwright.photos.told import PhotoReason, PhotoTold
from moldwright.plan.original import Source
from moldwright.sheets.known_words import known_by

PHOTOS = (PhotoTold("a.jpg", True), PhotoTold("b.jpg", False, PhotoReason.SOFT), PhotoTold("c.jpg", True))


@pytest.mark.parametrize(
    ("source", "also", "photos", "line"),
    [
        (Source.SCAN, (), (), ""),
        (Source.SCAN, (Source.WATER,), (), "scan + water"),
        (Source.PHOTOS, (), PHOTOS, "2 of 3 photos"),
        (Source.PHOTOS, (Source.WATER, Source.WEIGHT), PHOTOS, "2 of 3 photos + water + weight"),
        (Source.TAPE, (Source.WATER,), (), "tape + water"),
    ],
)
def test_known_by(source: Source, also: tuple[Source, ...], photos: tuple[PhotoTold, ...], line: str) -> None:
    assert known_by(replace(sample_plan().original, source=source, also=also, photos=photos)) == line
