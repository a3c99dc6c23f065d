"""The PDFs are read back by pypdf, a reader that has no part in making them."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
from sheets_fixture import pictures, plan

from moldwright.commission.orders import UnitSystem
from moldwright.plan.cautions import Severity
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per, StepPlan
from moldwright.sheets.writing import write_sheets
from moldwright.units import show_mass

MM = 72 / 25.4
NAMES = ("bench-a4", "bench-letter", "shopping-a4", "shopping-letter")


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    folder = tmp_path_factory.mktemp("plan")
    write_sheets(plan(), pictures(), (), folder)
    return {name: folder.joinpath("sheets", f"{name}.pdf").read_bytes() for name in NAMES}


def pages(pdf: bytes) -> list[str]:
    return [re.sub(r"\s+", " ", page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]


@pytest.mark.parametrize("name", NAMES)
def test_every_page_has_the_hash_and_its_number(printed: dict[str, bytes], name: str) -> None:
    texts = pages(printed[name])
    for number, text in enumerate(texts, start=1):
        assert plan().plan_hash in text
        assert f"Sheet {number} of {len(texts)}" in text
        assert "The safety data sheet of each product, local code and licensed practice come first" in text


@pytest.mark.parametrize("name", ["bench-a4", "bench-letter"])
def test_every_running_total_stands_on_its_steps_page(printed: dict[str, bytes], name: str) -> None:
    texts = pages(printed[name])
    for number, step in enumerate(plan().steps, start=1):
        for mix in map(plan().mix, step.mixes):
            page = next(text for text in texts if f"{number}. {step.title.own}" in text)
            spots = [page.find(f"{part.scale_reads_g:.1f} g") for part in mix.parts]
            assert -1 not in spots
            assert "It read" in page
            assert "Lot" in page
            assert f"Cup {mix.cup}" in page


def _order(texts: list[str], steps: list[tuple[int, StepPlan]]) -> None:
    """Steps in their order, each with all that it says before the next begins."""
    whole = " ".join(texts)
    places = [whole.find(f"{number}. {step.title.own}") for number, step in steps]
    assert -1 not in places
    assert places == sorted(places)
    for (_, step), begins, ends in zip(steps, places, [*places[1:], len(whole)], strict=True):
        own = whole[begins:ends]
        for caution in step.cautions:
            assert plan().caution(caution).lines[0].own in own
        for line in (*step.do, *step.before, *step.write):
            assert line.own in own


@pytest.mark.parametrize("name", ["bench-a4", "bench-letter"])
def test_steps_stand_in_order_with_their_cautions_the_casts_on_sheets_of_their_own(
    printed: dict[str, bytes], name: str
) -> None:
    texts, every = pages(printed[name]), list(enumerate(plan().steps, start=1))
    cards = next(n for n, text in enumerate(texts) if "Skin: 1 cup" in text)
    begins = int(found[1]) - 1 if (found := re.search(r"From sheet (\d+): a cast", texts[0])) else 0
    _order(texts[:begins], [(n, step) for n, step in every if step.per is not Per.CAST])
    of_cast = [(n, step) for n, step in every if step.per is Per.CAST]
    _order(texts[cards : cards + 1], [(n, step) for n, step in of_cast if step.mixes])
    _order(texts[begins:cards], [(n, step) for n, step in of_cast if not step.mixes])
    sent = re.findall(r"Now steps? \d+(?: to \d+)?, by the cards: sheet (\d+)\.", " ".join(texts[begins:cards]))
    assert sent == [str(cards + 1)]
    after = next(n for n, step in of_cast if not step.mixes and n > max(n for n, step in of_cast if step.mixes))
    back = re.search(rf"Now step {after}, of each cast: sheet (\d+)\.", texts[cards])
    assert back
    assert f" {after}. " in texts[int(back[1]) - 1]


def _sizes(pdf: bytes) -> list[tuple[str, float]]:
    """Every run of text with its size [pt]."""
    found: list[tuple[str, float]] = []

    def see(text: str, _matrix: list[float], place: list[float], _font: object, size: float) -> None:
        if text.strip():
            found.append((text.strip(), size * abs(place[3])))

    for page in pypdf.PdfReader(io.BytesIO(pdf)).pages:
        page.extract_text(visitor_text=see)
    return found


@pytest.mark.parametrize("name", ["bench-a4", "bench-letter"])
def test_what_is_done_is_set_in_12_points_and_cautions_in_11(printed: dict[str, bytes], name: str) -> None:
    """Read at arm's length, with gloves on: the sizes that were asked for."""
    runs = _sizes(printed[name])
    starts = {
        12.0: [line.own[:18] for step in plan().steps for line in (*step.do, *step.before)],
        11.0: [each.lines[0].own[:18] for each in plan().cautions],
    }
    for least, lines in starts.items():
        for start in lines:
            sizes = [size for text, size in runs if text.startswith(start) or start in text]
            assert sizes, start
            assert min(sizes) >= least - 0.01, (start, sizes)


@pytest.mark.parametrize("name", ["bench-a4", "bench-letter"])
def test_the_log_has_a_line_for_each_cast_and_a_column_for_all_that_is_written_down(
    printed: dict[str, bytes], name: str
) -> None:
    logs = [text for text in pages(printed[name]) if "A line for each cast" in text]
    assert len(logs) == 2  # 30 casts, 24 lines on a sheet
    for log in logs:
        for step in plan().steps:
            assert all(line.own in log for line in step.write if step.per is Per.CAST)
    assert re.search(r"\b24\b", logs[0])
    assert not re.search(r" 25 ", logs[0])
    assert re.search(r"\b30\b", logs[1])
    assert not re.search(r"\b31\b", logs[1])


def test_what_can_ruin_the_job_stands_on_the_first_sheet(tmp_path: Path) -> None:
    its = plan()
    stop = replace(its.cautions[0], severity=Severity.STOP, particular=True)
    text = pages(_write(replace(its, cautions=(stop, *its.cautions[1:])), tmp_path)[0])[0]
    assert "What can ruin this job" in text
    assert stop.lines[0].own in text


def test_fill_spots_and_holes_are_printed(printed: dict[str, bytes]) -> None:
    whole = " ".join(pages(printed["bench-letter"]))
    for spot in plan().glove.spots:
        assert show_mass(spot.net_g, finest_g=0.1) in whole
    assert f"and small ones without a number: {show_mass(0.6, finest_g=0.1)} together after coat" in whole
    assert "A 12.5 mm divider 73, 60, 84" in whole
    assert "B 3.2 mm stopped 41, 30, 21" in whole


def test_shopping_list_has_every_need_in_its_group(printed: dict[str, bytes]) -> None:
    whole = " ".join(pages(printed["shopping-a4"]))
    titles = [whole.find(f"{group} What") for group in ("Rubber", "Shell", "Casting", "Finishing", "Protection")]
    assert -1 not in titles
    assert titles == sorted(titles)
    for need in plan().needs:
        assert need.material in whole


def test_paper_sizes(printed: dict[str, bytes]) -> None:
    """ISO 216: A4 is 210 x 297 mm; Letter is 8.5 x 11 in (ANSI Y14.1, from memory)."""
    for name, size in (("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))):
        for sheet in ("bench", "shopping"):
            box = pypdf.PdfReader(io.BytesIO(printed[f"{sheet}-{name}"])).pages[0].mediabox
            assert (float(box.width) / MM, float(box.height) / MM) == pytest.approx(size, abs=0.1)


def _write(its: Plan, folder: Path) -> list[bytes]:
    write_sheets(its, pictures(), (), folder)
    return [folder.joinpath("sheets", f"{name}.pdf").read_bytes() for name in NAMES]


def test_same_plan_same_bytes_and_us_units(printed: dict[str, bytes], tmp_path: Path) -> None:
    assert _write(plan(), tmp_path) == [printed[name] for name in NAMES]
    us = " ".join(pages(_write(plan(UnitSystem.US), tmp_path)[0]))
    assert "72 °F" in us
    for part in plan().mixes[0].parts:
        assert show_mass(part.scale_reads_g, "us", 0.1) in us


def test_only_the_shipped_font_is_used(printed: dict[str, bytes]) -> None:
    for pdf in printed.values():
        fonts = {
            str(font.get_object()["/BaseFont"])
            for page in pypdf.PdfReader(io.BytesIO(pdf)).pages
            for font in page["/Resources"]["/Font"].values()  # type: ignore[index]
        }
        assert fonts
        assert all("AtkinsonHyperlegible" in name for name in fonts)
