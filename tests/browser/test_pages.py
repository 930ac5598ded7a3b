"""Every page in a real browser: its sentence, its filters, its downloads, and that nothing leaves the machine."""

import csv
import zipfile
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from analytics.handover.accountant.folder import hand_over
from analytics.periods import Period
from analytics.salon import open_salon
from dashboard.page import pages
from tests.browser.chromium import address, settle
from tests.browser.screenshots import shoot
from tests.browser.serving import TODAY, load_here, serving

pytestmark = pytest.mark.browser

# A piece of the opening sentence that only the right page has, of the demo's October.
OPENS_WITH = {
    "month": "October 2026 brought €",
    "chairs": "An hour in the chair brought €",
    "minutes": "the typical time of every service",
    "prices": "In the twelve months up to October 2026, every service carries its taken hours",
    "roots": "ready for a root touch-up",
    "ahead": "visits are expected in this week and the 12 after it",
    "returns": "of new clients are back within 8 weeks",
    "bowls": "left in all bowls",
    "stock": "To last 4 weeks, order",
    "accountant": "was charged, €",
    "exports": "rows were read",
    "mixing": "Grams of colour or lightener, without developer",
    "people": "Only you open these pages; no phone is paired",
}
WENT_WRONG = ".stException, [data-testid='stException'], [data-testid='stAlertContentError']"


@pytest.fixture
def page(running: Browser, base: str) -> Iterator[Page]:
    """A phone's window; at its end, nothing asked for lay outside the salon's own port, or was held back there."""
    opened = running.new_page(viewport={"width": 390, "height": 844})
    asked: list[str] = []
    opened.on("request", lambda request: asked.append(request.url))
    opened.on("websocket", lambda socket: asked.append(socket.url))
    said: list[str] = []
    opened.on("console", lambda message: said.append(message.text))
    yield opened
    opened.close()
    here = urlsplit(base).netloc
    outside = [url for url in asked if urlsplit(url).scheme not in ("data", "blob") and urlsplit(url).netloc != here]
    assert asked and not outside
    assert not [text for text in said if "Content Security Policy" in text]


@pytest.mark.parametrize("name", pages())
def test_a_page_opens_with_its_sentence_and_fits_a_phone(page: Page, base: str, name: str):
    page.goto(address(base, name))
    settle(page)
    expect(page.locator("h1.answer")).to_contain_text(OPENS_WITH.get(name, "."))
    assert page.locator(WENT_WRONG).count() == 0
    width = page.evaluate(
        "Math.max(document.documentElement.scrollWidth, document.querySelector('.stMain').scrollWidth)"
    )
    assert width <= 390


def test_the_month_survives_a_page_change_and_a_reload(page: Page, base: str):
    page.goto(base)
    settle(page)
    page.get_by_role("combobox", name="Month").click()
    page.get_by_role("option", name="July 2026").click()
    expect(page.locator("h1.answer")).to_contain_text("July 2026")
    page.locator(".st-key-foot").get_by_text("Bowls").click()
    expect(page.locator("h1.answer")).to_contain_text("In July 2026")
    page.reload()
    settle(page)
    expect(page.locator("h1.answer")).to_contain_text("In July 2026")


def test_the_accountants_archive_is_the_folder_that_the_command_writes(page: Page, base: str, demo_salon: Path):
    page.goto(address(base, "accountant"))
    settle(page)
    with page.expect_download() as waiting:
        page.get_by_role("button", name="All files of October 2026").click()
    assert waiting.value.suggested_filename == "2026-10.zip"
    with zipfile.ZipFile(waiting.value.path()) as archive:
        found = {Path(name).name: archive.read(name) for name in archive.namelist()}
    salon = open_salon(demo_salon, TODAY)
    written = hand_over(salon, Period.month("2026-10"))
    assert found == {path.name: path.read_bytes() for path in written.files}
    rows = list(csv.DictReader(found["tax.csv"].decode().splitlines()))
    tax = salon.figure("tax", Period.month("2026-10"))
    assert sum(Decimal(row["tax"]) for row in rows) == tax["tax"].sum()


def test_the_accountant_picks_a_quarter_and_a_sheet(page: Page, base: str):
    page.goto(address(base, "accountant"))
    settle(page)
    page.get_by_role("radio", name="Quarter").click()
    expect(page.locator("h1.answer")).to_contain_text("October 2026 to December 2026")
    page.get_by_role("combobox", name="Period").click()
    page.get_by_role("option", name="Quarter 3 of 2026").click()
    expect(page.locator("h1.answer")).to_contain_text("July 2026 to September 2026")
    settle(page)
    sheet = page.get_by_role("combobox", name="Sheet")
    sheet.scroll_into_view_if_needed()
    page.wait_for_timeout(500)  # a list closes when what it belongs to scrolls
    sheet.click()
    page.get_by_role("option", name="Payments by method", exact=True).click()
    expect(page.get_by_text("In all: amount")).to_be_visible()


def test_the_month_can_be_had_on_paper(page: Page, base: str):
    page.goto(base)
    settle(page)
    page.get_by_text("All figures of the month").click()
    with page.expect_download() as waiting:
        page.get_by_role("button", name="The month on paper (PDF)").click()
    assert waiting.value.suggested_filename == "month-2026-10.pdf"
    assert Path(waiting.value.path()).read_bytes().startswith(b"%PDF")


def test_a_chair_narrows_every_page_and_says_so(page: Page, base: str):
    page.goto(base)
    settle(page)
    page.get_by_role("combobox", name="Chair").click()
    page.get_by_role("option", name="Chair 2").click()
    expect(page.locator(".note").first).to_contain_text("Only Chair 2")
    page.locator(".st-key-foot").get_by_text("Bowls").click()
    expect(page.locator("h1.answer")).to_contain_text("left in all bowls")
    expect(page.locator(".note").first).to_contain_text("Only Chair 2")


def test_a_page_can_be_kept_as_a_picture(running: Browser, base: str, tmp_path: Path):
    path = shoot(running, base, "roots", tmp_path, look="narrow", scheme="dark")
    assert path.read_bytes().startswith(b"\x89PNG")


HOSTILE = "![x](http://elsewhere.example/x.png)<img src=http://elsewhere.example/y.png>"
HOSTILE_EXPORTS = {
    "services.csv": f"service_id,service,kind,price,tax_rate,hands_on_min\nS1,{HOSTILE},root_touch_up,60,9,45\n",
    "clients.csv": f"client_id,client,phone,may_contact\nC1,{HOSTILE},+31 6 000,yes\n",
    "bookings.csv": "booking_id,client_id,stylist,chair,starts_at,ends_at,status,service_id,price\n"
    f"B1,C1,{HOSTILE},{HOSTILE},2026-09-01 10:00,2026-09-01 11:00,completed,S1,60\n",
}


def test_names_from_exports_are_text(running: Browser, tmp_path: Path):
    """A client, service, stylist and chair named like a picture fetch nothing and are shown as they were typed."""
    (tmp_path / "exports").mkdir()
    (tmp_path / "salon.toml").write_text('[salon]\nname = "<img src=http://elsewhere.example/z.png>"\n', "utf-8")
    for name, text in HOSTILE_EXPORTS.items():
        (tmp_path / "exports" / name).write_text(text, "utf-8")
    load_here(tmp_path)
    with serving(tmp_path) as base:
        page = running.new_page(viewport={"width": 1280, "height": 2400})
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        for name in ("chairs", "accountant", "exports", "roots"):
            page.goto(address(base, name))
            settle(page)
            assert page.locator(WENT_WRONG).count() == 0
        expect(page.locator("ul.clients strong")).to_have_text(HOSTILE)
        page.close()
    assert not [url for url in asked if "elsewhere" in url]
