"""Kept files as a browser shows them under the desk's own policy: a text as text, a PDF in the browser's own reader."""

from __future__ import annotations

from contextlib import closing
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import BrowserType, Page
from tests.browser.chromium import LAUNCH
from tests.browser.conftest import Opening
from tests.browser.desk_process import DeskProcess
from tests.browser.screens import PHONE

from moldwright.log.ids import FileHash
from moldwright.records.files.keep import keep_file
from moldwright.records.shop import open_shop

TEXT = b"Lot 4711\n<b>not bold</b> <img src=x onerror=document.title='ran'>\n"
RED, NEARLY = (255, 0, 0), 8
"""Of 255: a picture in a PDF is a JPEG, and its red is a shade off."""
READER: dict[str, Any] = LAUNCH | {
    "args": [*LAUNCH["args"], "--headless=new"],
    "ignore_default_args": ["--disable-component-extensions-with-background-pages", "--disable-extensions"],
    "headless": False,
}
"""Chromium with its reader of PDFs, which is left out where tests drive it; it still needs no screen."""


def kept(desk: DeskProcess, data: bytes, name: str) -> FileHash:
    with closing(open_shop(str(desk.home / "shop.db"))) as shop:
        return keep_file(shop, data, name)


def test_a_text_is_read_as_text_whatever_it_was_called(open_page: Opening, shared_desk: DeskProcess) -> None:
    file = kept(shared_desk, TEXT, "sheet.html")
    page = open_page(PHONE, shared_desk, f"/files/{file}?name=sheet.html")
    assert page.evaluate("document.contentType") == "text/plain"
    assert page.locator("pre").text_content() == TEXT.decode()
    assert page.locator("b, img").count() == 0


@pytest.mark.slow
def test_a_pdf_opens_in_the_browser_s_own_reader(
    shared_desk: DeskProcess, browser_type: BrowserType, tmp_path: Path
) -> None:
    """A page that is red all over is seen as red."""
    pdf = BytesIO()
    Image.new("RGB", (600, 600), RED).save(pdf, "PDF")
    file = kept(shared_desk, pdf.getvalue(), "sheet.pdf")
    with browser_type.launch_persistent_context(tmp_path / "browser", **READER) as context:
        page = context.new_page()
        page.goto(shared_desk.address)
        page.goto(f"{shared_desk.address}/files/{file}?name=sheet.pdf")
        assert any(red_in(page) for _ in range(60))


def red_in(page: Page) -> bool:
    """Whether a tenth of what is seen is red; a second is waited where it is not."""
    seen = Image.open(BytesIO(page.screenshot())).convert("RGB")
    colors = seen.getcolors(seen.width * seen.height) or ()
    count = sum(n for n, color in colors if max(abs(a - b) for a, b in zip(color, RED, strict=True)) < NEARLY)
    if count < 0.1 * seen.width * seen.height:
        page.wait_for_timeout(1000)
        return False
    return True
